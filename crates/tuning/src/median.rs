//! The middle of some numbers.

/// The middle one of some numbers; the mean of the two in the middle.
pub(crate) fn median(numbers: &[f64]) -> Option<f64> {
    let sorted = ascending(numbers);
    let half = sorted.len() / 2;
    let upper = *sorted.get(half)?;
    if sorted.len() % 2 == 1 {
        return Some(upper);
    }
    Some(0.5 * (sorted.get(half.checked_sub(1)?)? + upper))
}

/// The numbers in ascending order.
pub(crate) fn ascending(numbers: &[f64]) -> Vec<f64> {
    let mut sorted: Vec<f64> = Vec::with_capacity(numbers.len());
    for number in numbers {
        let place = sorted.partition_point(|other| other.total_cmp(number).is_le());
        sorted.insert(place, *number);
    }
    sorted
}
