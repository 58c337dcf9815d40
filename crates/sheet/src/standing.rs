//! Where a string stands, in words.

use crate::Mark;

/// Where a string stands: `14 low ± 1`, `3.4 high ± 0.6`, `0`; nothing where it was not heard.
pub(crate) fn standing(mark: &Mark) -> Option<String> {
    let value = mark.cents()?;
    let size = cents(value);
    let mut words = match size.as_str() {
        "0" => "0".to_owned(),
        _ if value < 0.0 => format!("{size} low"),
        _ => format!("{size} high"),
    };
    if let Some(u95) = mark.u95_cents() {
        words += &format!(" ± {}", cents(u95));
    }
    Some(words)
}

/// How far off, to a tenth below ten cents and whole from there: `14`, `3.4`, `0.4`.
fn cents(value: f64) -> String {
    let size = value.abs();
    if size < 9.95 {
        let text = format!("{size:.1}");
        text.strip_suffix(".0").unwrap_or(&text).to_owned()
    } else {
        format!("{size:.0}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_string_stands_low_or_high_by_so_many_cents() {
        let off = |cents, u95_cents| standing(&Mark::Off { cents, u95_cents }).unwrap();
        assert_eq!(off(-14.2, 1.0), "14 low ± 1");
        assert_eq!(off(3.42, 0.55), "3.4 high ± 0.6");
        assert_eq!(off(-9.96, 12.0), "10 low ± 12");
        assert_eq!(off(0.01, 0.4), "0 ± 0.4");
        assert_eq!(standing(&Mark::Skipped), None);
        assert_eq!(
            standing(&Mark::New {
                cents: Some(-480.0)
            })
            .unwrap(),
            "480 low"
        );
    }
}
