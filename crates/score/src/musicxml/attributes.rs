//! `<attributes>`: divisions, key, time, staves, transposition.

use pitch::{Alteration, Letter};

use super::element::{Element, children, decimal, text, whole};
use super::part_reader::PartReader;
use super::transposition::Transposition;
use crate::{Fraction, KeySignature, Letters, TimeSignature};

/// Reads one `<attributes>` element.
pub(crate) fn read(reader: &mut PartReader<'_>, attributes: Element<'_, '_>) {
    if let Some(divisions) = decimal(attributes, "divisions") {
        if divisions > Fraction::ZERO {
            reader.divisions = divisions;
        } else {
            reader.doubt_element("divisions that are not positive");
        }
    }
    for key in children(attributes, "key") {
        match key_signature(key) {
            Some(signature) => set_key(reader, staff(key), signature),
            None => reader.doubt_element("a key signature"),
        }
    }
    for time in children(attributes, "time") {
        let signature = time_signature(time);
        let bar = reader.gathered.bar(reader.measure);
        bar.time = bar.time.or(signature);
    }
    for transpose in children(attributes, "transpose") {
        match Transposition::read(transpose) {
            Some(transposition) => {
                let staff = staff(transpose);
                if staff == 0 {
                    reader.transpositions.clear();
                }
                reader.transpositions.insert(staff, transposition);
            }
            None => reader.doubt_element("a transposition"),
        }
    }
}

/// The staff that a `number` names; 0 for all.
fn staff(element: Element<'_, '_>) -> u32 {
    let number = element.attribute("number");
    number.and_then(|number| number.parse().ok()).unwrap_or(0)
}

fn set_key(reader: &mut PartReader<'_>, staff: u32, signature: KeySignature) {
    if staff == 0 {
        reader.keys.clear();
    }
    // staves beyond any score's are not worth keeping
    if staff <= 16 {
        reader.keys.insert(staff, signature);
    }
    if reader.role.leads && staff <= 1 && reader.at == Fraction::ZERO {
        reader.gathered.bar(reader.measure).key = Some(signature);
    }
}

fn key_signature(key: Element<'_, '_>) -> Option<KeySignature> {
    if let Some(fifths) = whole(key, "fifths") {
        // beyond seven a signature has double accidentals, which no pedal has
        return KeySignature::of_fifths(i8::try_from(fifths.clamp(-7, 7)).ok()?);
    }
    let mut letters = Letters::default();
    let mut step = None;
    for child in key.children().filter(|child| child.is_element()) {
        let said = child.text().map(str::trim).unwrap_or_default();
        match child.tag_name().name() {
            "key-step" => step = said.chars().next().and_then(Letter::from_char),
            "key-alter" => {
                let alter = Fraction::decimal(said)?;
                let semitones = alter.numerator() / alter.denominator();
                let alteration = Alteration::from_semitones(semitones.clamp(-1, 1))?;
                letters.set(step?, alteration);
            }
            _ => {}
        }
    }
    step.map(|_| KeySignature::of_letters(letters))
}

/// All pairs of beats and their unit added up; `None` for senza misura or what cannot be read.
fn time_signature(time: Element<'_, '_>) -> Option<TimeSignature> {
    let mut sum = Fraction::ZERO;
    let mut units = 1;
    let mut beats = None;
    for child in time.children().filter(|child| child.is_element()) {
        let said = child.text().map(str::trim).unwrap_or_default();
        match child.tag_name().name() {
            "beats" => beats = added(said),
            "beat-type" => {
                let unit: u32 = said.parse().ok().filter(|unit| (1..=1024).contains(unit))?;
                sum = sum.plus(Fraction::new(beats?, i64::from(unit))?)?;
                units = units.max(unit);
            }
            _ => {}
        }
    }
    let beats = sum.times(Fraction::whole(i64::from(units)))?;
    let whole = beats.denominator() == 1 && text(time, "senza-misura").is_none();
    let beats = u32::try_from(beats.numerator()).ok()?;
    (whole && beats > 0).then_some(TimeSignature { beats, unit: units })
}

fn added(beats: &str) -> Option<i64> {
    beats.split('+').try_fold(0_i64, |sum, beat| {
        let beat: u16 = beat.trim().parse().ok()?;
        sum.checked_add(i64::from(beat))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::musicxml::element::parse;

    #[test]
    fn beats_that_are_added_make_one_signature() {
        let check = |inside: &str, expected: Option<(u32, u32)>| {
            let text = format!("<time>{inside}</time>");
            let found = parse(&text, |time, _| time_signature(time)).unwrap();
            assert_eq!(
                found.map(|time| (time.beats, time.unit)),
                expected,
                "{inside}"
            );
        };
        check("<beats>3+2</beats><beat-type>8</beat-type>", Some((5, 8)));
        check(
            "<beats>2</beats><beat-type>4</beat-type><beats>3</beats><beat-type>8</beat-type>",
            Some((7, 8)),
        );
        check("<senza-misura/>", None);
        check("<beats>x</beats><beat-type>8</beat-type>", None);
        check("<beats>4</beats><beat-type>0</beat-type>", None);
    }

    #[test]
    fn a_key_may_be_written_letter_by_letter() {
        let text = "<key><key-step>F</key-step><key-alter>1</key-alter><key-step>B</key-step><key-alter>-1</key-alter></key>";
        let key = parse(text, |key, _| key_signature(key)).unwrap().unwrap();
        assert_eq!(key.letters().to_string(), "C♮ D♮ E♮ F♯ G♮ A♮ B♭");
        assert_eq!(key.fifths(), None);
    }
}
