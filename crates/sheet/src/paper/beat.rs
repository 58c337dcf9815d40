//! A beat as it is counted.

use pedals::Quarters;

/// A beat in quarters, its bar's first being 1, as it is counted in units of 1/`unit`: `2½`, `3 5/6`.
///
/// ```
/// use pedals::Quarters;
/// assert_eq!(sheet::counted_beat(Quarters::new(5, 2), 4), "2½");
/// assert_eq!(sheet::counted_beat(Quarters::new(5, 2), 8), "4");
/// ```
pub fn counted_beat(beat: Quarters, unit: u32) -> String {
    let (num, den) = (
        beat.numerator() - beat.denominator(),
        4 * beat.denominator(),
    );
    let count = num.saturating_mul(i64::from(unit)).saturating_add(den);
    let count = Quarters::new(count, den);
    let den = count.denominator();
    let (whole, rest) = (
        count.numerator().div_euclid(den),
        count.numerator().rem_euclid(den),
    );
    match (rest, den) {
        (0, _) => whole.to_string(),
        (1, 2) => format!("{whole}½"),
        (1, 3) => format!("{whole}⅓"),
        (2, 3) => format!("{whole}⅔"),
        (1, 4) => format!("{whole}¼"),
        (3, 4) => format!("{whole}¾"),
        (rest, den) => format!("{whole} {rest}/{den}"),
    }
}
