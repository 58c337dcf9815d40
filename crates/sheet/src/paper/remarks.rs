//! What else must be known, under a heading for each kind.

use harp::Numbers;
use pedals::Remedy;
use pitch::SpelledPitch;

use super::cut::Cut;
use super::diagram::moves;
use super::face::Face;
use super::flow::Block;
use super::ink::Ink;
use super::words::{Words, words};
use super::wrap::wrap;
use crate::{PrintedBar, Remark, RemarkKind, Style};

/// Every remark, a block each.
pub(crate) fn remarks(remarks: &[Remark], style: &Style, cut: &Cut) -> Vec<Block> {
    let words = words(style.tongue);
    let mut blocks = Vec::new();
    for (kind, heading) in words.remarks.iter().enumerate() {
        let of_kind = remarks
            .iter()
            .filter(|remark| place_of(&remark.what) == kind);
        let told = match kind {
            0 => by_bar(of_kind, style),
            _ => of_kind
                .map(|remark| (place(remark, words), said(&remark.what, style)))
                .collect(),
        };
        if told.is_empty() {
            continue;
        }
        blocks.push(title(heading, cut));
        let widths = told
            .iter()
            .map(|(place, _)| Face::Text.width(place, 10.0 * cut.unit));
        let indent = widths.fold(0.0, f64::max);
        let indent = if indent > 0.0 {
            indent + 12.0 * cut.unit
        } else {
            0.0
        };
        let last = told.len() - 1;
        for (at, (place, said)) in told.iter().enumerate() {
            let mut block = line(place, said, indent.min(cut.measure() / 2.0), cut);
            // no heading is left alone, nor a last line
            block.stays = at + 2 == last + 1 && last > 0;
            blocks.push(block);
        }
    }
    blocks
}

/// What is said at some beats of a bar.
struct AtBeats<'a> {
    beats: Vec<&'a str>,
    said: Vec<String>,
}

/// A line for each bar: what is the same at several of its beats is told once.
fn by_bar<'a>(remarks: impl Iterator<Item = &'a Remark>, style: &Style) -> Vec<(String, String)> {
    let words = words(style.tongue);
    let mut bars: Vec<(&Option<PrintedBar>, Vec<AtBeats<'_>>)> = Vec::new();
    for remark in remarks {
        if bars.last().is_none_or(|(bar, _)| **bar != remark.bar) {
            bars.push((&remark.bar, Vec::new()));
        }
        let said = said(&remark.what, style);
        let beat = remark.beat.as_str();
        let Some((_, told)) = bars.last_mut() else {
            continue;
        };
        match told.iter_mut().find(|other| other.said.contains(&said)) {
            Some(same) if same.beats.contains(&beat) => {}
            Some(same) => same.beats.push(beat),
            None => told.push(AtBeats {
                beats: vec![beat],
                said: vec![said],
            }),
        }
    }
    let line = |(bar, told): (&Option<PrintedBar>, Vec<AtBeats<'_>>)| {
        let bar = bar.as_ref();
        let bar = bar.map(|bar| of_bar(bar, words));
        (bar.unwrap_or_default(), joined(told, words))
    };
    bars.into_iter().map(line).collect()
}

/// `beat 1, 2½: …; beat 3: …`; what is said at the same beats stands together.
fn joined(told: Vec<AtBeats<'_>>, words: &Words) -> String {
    let mut parts: Vec<AtBeats<'_>> = Vec::new();
    for at in told {
        match parts.iter_mut().find(|other| other.beats == at.beats) {
            Some(same) => same.said.extend(at.said),
            None => parts.push(at),
        }
    }
    let parts = parts.iter().map(|at| {
        let said = at.said.join(", ");
        match at.beats.join(", ").as_str() {
            "" => said,
            beats => format!("{} {beats}: {said}", words.beat),
        }
    });
    parts.collect::<Vec<_>>().join("; ")
}

fn place_of(what: &RemarkKind) -> usize {
    match what {
        RemarkKind::OtherString { .. } => 0,
        RemarkKind::Lost { .. } | RemarkKind::LostToLevers { .. } => 1,
        RemarkKind::Otherwise { .. } => 2,
        RemarkKind::Exposed(_) | RemarkKind::Caution(_) => 3,
    }
}

/// `bar 12`; a place counted from a rehearsal mark as it is.
fn of_bar(bar: &PrintedBar, words: &Words) -> String {
    if bar.label.starts_with('[') {
        return bar.label.clone();
    }
    format!("{} {}", words.bar, bar.label)
}

fn place(remark: &Remark, words: &Words) -> String {
    let bar = remark.bar.as_ref().map(|bar| of_bar(bar, words));
    let beat = (!remark.beat.is_empty()).then(|| format!("{} {}", words.beat, remark.beat));
    [bar, beat]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(", ")
}

fn said(what: &RemarkKind, style: &Style) -> String {
    let words = words(style.tongue);
    match what {
        RemarkKind::OtherString { written, played } => {
            (words.other_string)(&octaved(*written, style), &octaved(*played, style))
        }
        RemarkKind::Lost {
            pitch,
            reason,
            remedies,
        } => lost(*pitch, (words.why)(*reason), remedies, style),
        RemarkKind::LostToLevers {
            pitch,
            reason,
            remedies,
        } => lost(*pitch, (words.lever_why)(*reason), remedies, style),
        RemarkKind::Otherwise {
            letter,
            marked,
            planned,
            because,
        } => {
            let (marked, planned) = (
                moves(*letter, *marked, style),
                moves(*letter, *planned, style),
            );
            let because = (words.because)(*because);
            format!("{}: {because}", (words.otherwise)(&planned, &marked))
        }
        RemarkKind::Exposed(strings) => {
            let strings = strings.iter().map(|&string| style.naming.string(string));
            (words.exposed)(&strings.collect::<Vec<_>>().join(", "))
        }
        RemarkKind::Caution(words) => words.clone(),
    }
}

/// A note that is lost, why, and what could be done.
fn lost(pitch: SpelledPitch, why: &str, remedies: &[Remedy], style: &Style) -> String {
    let words = words(style.tongue);
    let could = remedies.iter().map(|remedy| match remedy {
        Remedy::Respell(other) => (words.respell)(&octaved(*other, style)),
        Remedy::Octave(other) => (words.play)(&octaved(*other, style)),
        Remedy::LeaveOut => words.leave_out.to_owned(),
    });
    let could: Vec<String> = could.collect();
    let lost = format!("{}: {why}", octaved(pitch, style));
    if could.is_empty() {
        lost
    } else {
        format!("{lost}; {}", could.join(words.or))
    }
}

/// A pitch with its octave, in her own counting.
pub(crate) fn octaved(pitch: SpelledPitch, style: &Style) -> String {
    let name = style.naming.language.name(pitch);
    match style.naming.numbers {
        Numbers::Scientific => format!("{name}{}", pitch.octave),
        Numbers::Harp => format!("{}{name}", pitch::harp_octave(pitch.letter, pitch.octave)),
    }
}

fn title(text: &str, cut: &Cut) -> Block {
    let size = 11.0 * cut.unit;
    let mut ink = Ink::default();
    let lines = wrap(text, Face::Italic, size, cut.measure());
    for (at, line) in lines.iter().enumerate() {
        ink.text(
            (cut.left, size * (0.9 + 1.3 * at as f64)),
            size,
            Face::Italic,
            line,
        );
    }
    Block {
        ink,
        height: size * 1.3 * lines.len() as f64,
        above: 20.0 * cut.unit,
        stays: true,
    }
}

fn line(place: &str, said: &str, indent: f64, cut: &Cut) -> Block {
    let size = 10.0 * cut.unit;
    let mut ink = Ink::default();
    let mut y = size * 0.9;
    let places = wrap(place, Face::Text, size, indent.max(1.0));
    for (at, words) in places.iter().enumerate() {
        ink.text(
            (cut.left, y + size * 1.3 * at as f64),
            size,
            Face::Text,
            words,
        );
    }
    let lines = wrap(said, Face::Text, size, cut.measure() - indent);
    for words in &lines {
        ink.text((cut.left + indent, y), size, Face::Text, words);
        y += size * 1.3;
    }
    Block {
        ink,
        height: size * 1.3 * lines.len().max(places.len()) as f64,
        above: 1.5 * cut.unit,
        stays: false,
    }
}
