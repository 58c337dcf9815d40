//! Where a string stands, in words.

use pitch::Tongue;

use crate::Mark;
use crate::wording::wording;

/// How much room there is for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Room {
    /// A sentence.
    Enough,
    /// A line beside the harp.
    Little,
}

/// Where a string stands: `14 low ± 1`, `3.4 high ± 0.6`, `0`; nothing where it was not heard.
pub(crate) fn standing(mark: &Mark, tongue: Tongue, room: Room) -> Option<String> {
    let value = mark.cents()?;
    let size = cents(value, tongue);
    let word = match room {
        Room::Enough => wording(tongue).low_or_high(value < 0.0),
        Room::Little => wording(tongue).low_or_high_in_list(value < 0.0),
    };
    let mut words = match size.as_str() {
        "0" => size,
        _ => format!("{size} {word}"),
    };
    if let Some(u95) = mark.u95_cents() {
        words += &format!(" ± {}", cents(u95, tongue));
    }
    Some(words)
}

/// How far off, to a tenth below ten cents and whole from there: `14`, `3.4`, `0.4`.
fn cents(value: f64, tongue: Tongue) -> String {
    let size = value.abs();
    let tenths = format!("{size:.1}");
    match tenths.strip_suffix(".0") {
        None if size < 9.95 => tongue.number(size, 1),
        Some(whole) if size < 9.95 => whole.to_owned(),
        _ => tongue.number(size, 0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_string_stands_low_or_high_by_so_many_cents() {
        let said = |mark| standing(&mark, Tongue::English, Room::Enough);
        let off = |cents, u95_cents| said(Mark::Off { cents, u95_cents }).unwrap();
        assert_eq!(off(-14.2, 1.0), "14 low ± 1");
        assert_eq!(off(3.42, 0.55), "3.4 high ± 0.6");
        assert_eq!(off(-9.96, 12.0), "10 low ± 12");
        assert_eq!(off(0.01, 0.4), "0 ± 0.4");
        assert_eq!(said(Mark::Skipped), None);
        let new = Mark::New {
            cents: Some(-480.0),
        };
        assert_eq!(said(new).unwrap(), "480 low");
    }

    #[test]
    fn every_language_says_it_in_a_sentence_and_shorter_in_a_list() {
        let mark = Mark::Off {
            cents: -3.42,
            u95_cents: 1.0,
        };
        let check = |room, expected: [&str; 3]| {
            let found = Tongue::ALL.map(|tongue| standing(&mark, tongue, room).unwrap());
            assert_eq!(found, expected);
        };
        check(
            Room::Enough,
            ["3.4 low ± 1", "3,4 zu tief ± 1", "3,4 trop bas ± 1"],
        );
        check(Room::Little, ["3.4 low ± 1", "3,4 tief ± 1", "3,4 bas ± 1"]);
    }
}
