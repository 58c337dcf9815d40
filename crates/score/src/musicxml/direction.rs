//! `<direction>` and `<sound>`: tempo, rehearsal marks, diagrams, words, jumps.

use super::damp_glyph::{damps_all, is_damp_glyph};
use super::element::{Element, child, children, decimal, says_yes, text, whole};
use super::part_reader::PartReader;
use super::passage::PassageWords;
use super::passage_words::PassageKind;
use super::tempo_change::TempoChange;
use super::{barline, metronome, pedal_letters, printed_jump};
use crate::jump::{Jump, JumpKind};
use crate::{Fraction, Mark, MarkKind, Tempo};

/// Longest words that are kept, in characters.
const LONGEST_WORDS: usize = 200;

/// Reads one `<direction>` at its offset.
pub(crate) fn read(reader: &mut PartReader<'_>, direction: Element<'_, '_>) {
    let offset = decimal(direction, "offset").and_then(|offset| offset.over(reader.divisions));
    let shifted = offset.and_then(|offset| reader.at.plus(offset));
    let at = shifted.unwrap_or(reader.at).max(Fraction::ZERO);
    let sounding = match child(direction, "offset") {
        Some(offset) if !says_yes(offset, "sound") => reader.at,
        _ => at,
    };
    let sound = child(direction, "sound");
    let staff = whole(direction, "staff").and_then(|staff| u32::try_from(staff).ok());
    let place = Place { at, staff };
    let mut words = String::new();
    for kind in children(direction, "direction-type").flat_map(|kind| kind.children()) {
        match kind.tag_name().name() {
            "words" => add(&mut words, kind.text().unwrap_or_default()),
            "symbol" if kind.text().is_some_and(is_damp_glyph) => {
                damp_sign(reader, kind.text().unwrap_or_default(), place);
            }
            "symbol" => add(&mut words, accidental(kind.text().unwrap_or_default())),
            "metronome" if !sound.is_some_and(|sound| sound.has_attribute("tempo")) => {
                metronome_mark(reader, kind, sounding);
            }
            "segno" | "coda" => printed_jump::read_sign(reader, kind.tag_name().name()),
            _ => mark(reader, kind, place),
        }
    }
    read_words(reader, words.trim(), place);
    if let Some(sound) = sound {
        read_sound(reader, sound, sounding);
    }
}

/// Reads a `<sound>`: a tempo, and jumps with the playings at which they hold.
pub(crate) fn read_sound(reader: &mut PartReader<'_>, sound: Element<'_, '_>, at: Fraction) {
    if let Some(tempo) = sound.attribute("tempo") {
        match tempo.trim().parse().ok().filter(|&tempo| sensible(tempo)) {
            Some(tempo) => keep_tempo(reader, at, tempo),
            None => reader.doubt_element("a tempo"),
        }
    }
    let passes = sound.attribute("time-only").and_then(barline::passes);
    let passes = passes.unwrap_or_default();
    let named = |name: &str| sound.attribute(name).map(str::to_owned);
    let mut jumps = Vec::new();
    jumps.extend(says_yes(sound, "dacapo").then_some(JumpKind::DaCapo));
    jumps.extend(named("dalsegno").map(JumpKind::DalSegno));
    jumps.extend(named("tocoda").map(JumpKind::ToCoda));
    jumps.extend(named("segno").map(JumpKind::Segno));
    jumps.extend(named("coda").map(JumpKind::Coda));
    jumps.extend(named("fine").map(|_| JumpKind::Fine));
    for kind in jumps {
        let (measure, passes) = (reader.measure, passes.clone());
        reader.gathered.jump(Jump {
            measure,
            kind,
            passes,
        });
    }
    if says_yes(sound, "forward-repeat") {
        reader.gathered.bar(reader.measure).repeat_start = true;
    }
}

#[derive(Clone, Copy)]
struct Place {
    at: Fraction,
    staff: Option<u32>,
}

fn mark(reader: &mut PartReader<'_>, element: Element<'_, '_>, place: Place) {
    let name = element.tag_name().name();
    if !reader.role.chosen && name != "rehearsal" {
        return;
    }
    let kind = match name {
        "rehearsal" => {
            let letter = element.text().map(short).unwrap_or_default();
            (!letter.is_empty()).then_some(MarkKind::Rehearsal(letter))
        }
        "harp-pedals" => {
            let letters = pedal_letters::of_diagram(element);
            if letters.is_none() {
                reader.doubt_element("a pedal diagram");
            }
            letters.map(MarkKind::Diagram)
        }
        "damp" => Some(MarkKind::Damp),
        "damp-all" => Some(MarkKind::DampAll),
        "other-direction" => damp_kind(element.attribute("smufl").unwrap_or_default()),
        _ => None,
    };
    keep(reader, kind, place);
}

fn damp_sign(reader: &mut PartReader<'_>, glyph: &str, place: Place) {
    if reader.role.chosen {
        keep(reader, damp_kind(glyph), place);
    }
}

/// What a glyph says of damping.
fn damp_kind(glyph: &str) -> Option<MarkKind> {
    if damps_all(glyph) {
        return Some(MarkKind::DampAll);
    }
    is_damp_glyph(glyph).then_some(MarkKind::Damp)
}

fn read_words(reader: &mut PartReader<'_>, words: &str, place: Place) {
    if words.is_empty() {
        return;
    }
    printed_jump::read_words(reader, words);
    if !reader.role.chosen {
        return;
    }
    let text = short(words);
    let passage = PassageKind::of(words);
    if let Some(kind) = passage {
        reader.gathered.passage(PassageWords {
            part: reader.role.part,
            measure: reader.measure,
            offset: place.at,
            staff: place.staff,
            kind,
            text: text.clone(),
        });
    }
    let kind = match (pedal_letters::of_words(words), passage) {
        (Some(letters), _) => MarkKind::PedalWords { text, letters },
        (None, Some(PassageKind::DampedHere | PassageKind::DampedFrom)) => MarkKind::Etouffe,
        (None, Some(PassageKind::Ringing)) => MarkKind::LetRing,
        (None, Some(PassageKind::Hand(_)) | None) => MarkKind::Words(text),
    };
    keep(reader, Some(kind), place);
}

fn keep(reader: &mut PartReader<'_>, kind: Option<MarkKind>, place: Place) {
    let Some(kind) = kind else { return };
    let anchor = reader.anchor();
    let measure = reader.measure;
    reader.gathered.mark(Mark {
        kind,
        measure,
        offset: place.at,
        staff: place.staff,
        anchor,
    });
}

fn metronome_mark(reader: &mut PartReader<'_>, element: Element<'_, '_>, offset: Fraction) {
    match metronome::quarters_per_minute(element) {
        Some(tempo) if sensible(tempo) => keep_tempo(reader, offset, tempo),
        Some(_) => reader.doubt_element("a tempo"),
        None if text(element, "per-minute").is_some() => reader.doubt_element("a metronome mark"),
        None => match metronome::factor(element) {
            Some(factor) => reader.gathered.tempo_change(TempoChange {
                measure: reader.measure,
                offset,
                factor,
            }),
            None => reader.doubt_element("a tempo that is told by note values alone"),
        },
    }
}

fn keep_tempo(reader: &mut PartReader<'_>, offset: Fraction, quarters_per_minute: f64) {
    let measure = reader.measure;
    reader.gathered.tempo(Tempo {
        measure,
        offset,
        quarters_per_minute,
    });
}

/// Slower or faster than this nothing is played, in quarters a minute.
pub(crate) fn sensible(tempo: f64) -> bool {
    (1.0..=10_000.0).contains(&tempo)
}

fn add(words: &mut String, more: &str) {
    if words.len() < 4 * LONGEST_WORDS {
        words.push_str(more);
    }
}

fn short(text: &str) -> String {
    text.trim().chars().take(LONGEST_WORDS).collect()
}

/// A SMuFL name of an accidental as its sign; nothing for other symbols.
fn accidental(symbol: &str) -> &'static str {
    match symbol.trim() {
        "accidentalFlat" => "♭",
        "accidentalNatural" => "♮",
        "accidentalSharp" => "♯",
        _ => "",
    }
}
