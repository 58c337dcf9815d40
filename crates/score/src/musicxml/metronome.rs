//! `<metronome>`: so many note values in a minute.

use super::element::Element;

/// Quarters in a minute; `None` for marks without a number (a change of note values) or without a
/// note value. Of a range or 'c. 80' the first number counts.
pub(crate) fn quarters_per_minute(metronome: Element<'_, '_>) -> Option<f64> {
    let mut unit = None;
    for child in metronome.children().filter(|child| child.is_element()) {
        let said = child.text().map(str::trim).unwrap_or_default();
        match child.tag_name().name() {
            "beat-unit" => unit = Some((quarters(said)?, 1.0)),
            // each dot adds half of what was added before
            "beat-unit-dot" => unit = unit.map(|(value, last)| (value, last / 2.0)),
            "per-minute" => {
                let (value, last) = unit?;
                return first_number(said).map(|count| count * value * (2.0 - last));
            }
            _ => {}
        }
    }
    None
}

/// How many times as fast quarters are from a mark on that sets two note values equal (`♩. = ♩`):
/// what was the first is the second from here on, as is common practice, no source. `None` for any
/// other mark.
pub(crate) fn factor(metronome: Element<'_, '_>) -> Option<f64> {
    let mut values: Vec<(f64, f64)> = Vec::new();
    for child in metronome.children().filter(|child| child.is_element()) {
        let said = child.text().map(str::trim).unwrap_or_default();
        match child.tag_name().name() {
            "beat-unit" => values.push((quarters(said)?, 1.0)),
            "beat-unit-dot" => values.last_mut()?.1 /= 2.0,
            _ => return None,
        }
    }
    match values[..] {
        [(before, last), (after, other)] => Some(after * (2.0 - other) / (before * (2.0 - last))),
        _ => None,
    }
}

fn quarters(unit: &str) -> Option<f64> {
    let quarters = match unit {
        "maxima" => 32.0,
        "long" => 16.0,
        "breve" => 8.0,
        "whole" => 4.0,
        "half" => 2.0,
        "quarter" => 1.0,
        "eighth" => 0.5,
        "16th" => 0.25,
        "32nd" => 0.125,
        "64th" => 0.0625,
        _ => return None,
    };
    Some(quarters)
}

fn first_number(text: &str) -> Option<f64> {
    let from = text.find(|c: char| c.is_ascii_digit())?;
    let rest = &text[from..];
    let end = rest.find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',');
    let number = rest[..end.unwrap_or(rest.len())].trim_end_matches(['.', ',']);
    number.replace(',', ".").parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::musicxml::element::parse;

    #[test]
    fn a_metronome_mark_is_read_in_quarters() {
        let check = |inside: &str, expected: Option<f64>| {
            let text = format!("<metronome>{inside}</metronome>");
            let found = parse(&text, |mark, _| quarters_per_minute(mark)).unwrap();
            assert_eq!(found, expected, "{inside}");
        };
        let unit = |unit: &str, dots: usize, per: &str| {
            let dots = "<beat-unit-dot/>".repeat(dots);
            format!("<beat-unit>{unit}</beat-unit>{dots}<per-minute>{per}</per-minute>")
        };
        check(&unit("quarter", 0, "72"), Some(72.0));
        check(&unit("half", 0, "c. 60"), Some(120.0));
        check(&unit("quarter", 1, "66,5"), Some(99.75));
        check(&unit("eighth", 2, "80-100"), Some(70.0));
        check(&unit("quarter", 0, "fast"), None);
        check(&unit("quaver", 0, "80"), None);
        check(
            "<beat-unit>quarter</beat-unit><beat-unit>eighth</beat-unit>",
            None,
        );
    }

    #[test]
    fn two_note_values_give_how_much_faster_it_goes() {
        let check = |inside: &str, expected: Option<f64>| {
            let text = format!("<metronome>{inside}</metronome>");
            let found = parse(&text, |mark, _| factor(mark)).unwrap();
            assert_eq!(found, expected, "{inside}");
        };
        let unit = |unit: &str, dots: usize| {
            format!(
                "<beat-unit>{unit}</beat-unit>{}",
                "<beat-unit-dot/>".repeat(dots)
            )
        };
        check(&[unit("quarter", 0), unit("half", 0)].concat(), Some(2.0));
        check(&[unit("quarter", 1), unit("half", 1)].concat(), Some(2.0));
        check(&[unit("half", 0), unit("quarter", 1)].concat(), Some(0.75));
        check(
            &[unit("quarter", 2), unit("quarter", 0)].concat(),
            Some(1.0 / 1.75),
        );
        check(&unit("quarter", 0), None);
        check(&[unit("quarter", 0), unit("quaver", 0)].concat(), None);
        check("<beat-unit-dot/>", None);
        check(
            "<metronome-note><metronome-type>eighth</metronome-type></metronome-note>",
            None,
        );
    }
}
