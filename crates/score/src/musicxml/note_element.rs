//! `<note>`: one note head, or a rest.

use super::alternating;
use super::chord::{plucked, tie_of};
use super::damp_glyph::is_damp_glyph;
use super::element::{Element, child, children, text, whole};
use super::gathered::SweepEnd;
use super::part_reader::PartReader;
use super::passage_words::PassageKind;
use super::written_pitch::written_pitch;
use crate::{Arpeggio, Fraction, Harmonic, HarmonicPitch, Mark, MarkKind, Note, Tie};

/// Reads one `<note>`. Rests, cues and notes without pitch only take their time.
pub(crate) fn read(reader: &mut PartReader<'_>, element: Element<'_, '_>) {
    let grace = child(element, "grace").is_some();
    let chord = child(element, "chord").is_some();
    let duration = if grace {
        Some(Fraction::ZERO)
    } else {
        reader.duration(element)
    };
    let Some(duration) = duration else {
        reader.doubt_element("a note without a duration");
        return;
    };
    let voice = voice(element);
    if !chord {
        finish_chord(reader);
        if !grace {
            finish_graces(reader, voice);
            reader.onset = reader.at;
            reader.advance(duration);
        }
    }
    let silent = ["rest", "cue", "unpitched"];
    if !reader.role.chosen || silent.iter().any(|name| child(element, name).is_some()) {
        return;
    }
    if reader.gathered.is_full() {
        reader.gathered.left_out += 1;
        return;
    }
    let Some(pitch) = child(element, "pitch") else {
        reader.doubt_element("a note without a pitch");
        return;
    };
    match written_pitch(pitch) {
        Some((written, doubt)) => {
            if let Some(doubt) = doubt {
                reader.doubt(doubt);
            }
            pend(reader, element, written, duration, grace);
        }
        None => reader.doubt_element("a pitch"),
    }
}

/// Ends the chord and the grace notes of all voices: at a step back or forward, and at the bar's end.
pub(crate) fn finish_voices(reader: &mut PartReader<'_>) {
    finish_chord(reader);
    let voices: Vec<u32> = reader.graces.keys().copied().collect();
    for voice in voices {
        finish_graces(reader, voice);
    }
}

fn voice(element: Element<'_, '_>) -> u32 {
    let voice = whole(element, "voice").and_then(|voice| u32::try_from(voice).ok());
    voice.unwrap_or(1)
}

fn pend(
    reader: &mut PartReader<'_>,
    element: Element<'_, '_>,
    written: pitch::SpelledPitch,
    duration: Fraction,
    grace: bool,
) {
    let staff = whole(element, "staff").and_then(|staff| u32::try_from(staff).ok());
    let staff = staff.unwrap_or(1).max(1);
    let Some(sounding) = reader.transposition(staff).sounding(written) else {
        reader.doubt_element("a note that sounds beyond all octaves");
        return;
    };
    let marks = Notations::read(element);
    let note = Note {
        written,
        sounding,
        string: sounding,
        spelled: true,
        measure: reader.measure,
        offset: if grace { reader.at } else { reader.onset },
        duration,
        staff,
        hand: reader.hand(staff),
        voice: voice(element),
        tie: marks.tie,
        grace: grace.then_some(1),
        harmonic: marks.harmonic,
        arpeggio: marks.arpeggio,
        etouffe: marks.etouffe,
        anchor: reader.anchor(),
    };
    reader.tremolo = reader.tremolo.or(marks.tremolo);
    marks.keep(reader, &note);
    reader.chord.push(note);
}

fn finish_chord(reader: &mut PartReader<'_>) {
    let chord = std::mem::take(&mut reader.chord);
    let tremolo = reader.tremolo.take();
    let Some(first) = chord.first() else { return };
    if first.grace.is_some() {
        let voice = first.voice;
        reader.graces.entry(voice).or_default().push(chord);
        return;
    }
    if let Some(starts) = tremolo {
        alternating::read(reader, &chord, starts);
    }
    keep(reader, chord);
}

/// Counts the grace notes of a voice back from their main note.
fn finish_graces(reader: &mut PartReader<'_>, voice: u32) {
    let chords = reader.graces.remove(&voice).unwrap_or_default();
    let mut before = u32::try_from(chords.len()).unwrap_or(u32::MAX);
    for mut chord in chords {
        for member in &mut chord {
            member.grace = Some(before);
            member.offset = reader.at;
        }
        before = before.saturating_sub(1);
        keep(reader, chord);
    }
}

fn keep(reader: &mut PartReader<'_>, chord: Vec<Note>) {
    let mut doubts = Vec::new();
    let notes = plucked(chord, reader.role.harmonics, &mut |doubt| {
        doubts.push(doubt)
    });
    for note in notes {
        reader.gathered.note(note);
    }
    for doubt in doubts {
        reader.doubt(doubt);
    }
}

/// What a note's notations say that matters here.
#[derive(Default)]
struct Notations {
    tie: Tie,
    harmonic: Option<Harmonic>,
    arpeggio: Option<Arpeggio>,
    etouffe: bool,
    let_ring: bool,
    /// Whether a tremolo of two notes starts, or else stops.
    tremolo: Option<bool>,
    /// Glissandi and slides: whether one starts, its number, whether it is a slide.
    sweeps: Vec<(bool, (u32, bool))>,
}

impl Notations {
    fn read(note: Element<'_, '_>) -> Self {
        let mut found = Self::default();
        let ties = || children(note, "tie").filter_map(|tie| tie.attribute("type"));
        let all = children(note, "notations").flat_map(|notations| notations.children());
        let mut tied = Vec::new();
        for notation in all.filter(|notation| notation.is_element()) {
            let kind = notation.attribute("type").unwrap_or_default();
            match notation.tag_name().name() {
                "tied" => tied.push(kind),
                "arpeggiate" => {
                    found.arpeggio = Some(match notation.attribute("direction") {
                        Some("up") => Arpeggio::Up,
                        Some("down") => Arpeggio::Down,
                        _ => Arpeggio::Plain,
                    });
                }
                "non-arpeggiate" => found.arpeggio = Some(Arpeggio::Together),
                "technical" => found.technical(notation),
                "ornaments" => {
                    let kind = child(notation, "tremolo").and_then(|t| t.attribute("type"));
                    found.tremolo = match kind {
                        Some("start") => Some(true),
                        Some("stop") => Some(false),
                        _ => found.tremolo,
                    };
                }
                "other-notation" | "articulations" => found.etouffe |= is_damp_sign(notation),
                name @ ("glissando" | "slide") if matches!(kind, "start" | "stop") => {
                    let number = notation.attribute("number");
                    let number = number.and_then(|number| number.parse().ok()).unwrap_or(1);
                    found
                        .sweeps
                        .push((kind == "start", (number, name == "slide")));
                }
                _ => {}
            }
        }
        let sounded = ties().any(|kind| matches!(kind, "start" | "stop"));
        found.tie = if sounded {
            tie_of(ties())
        } else {
            tie_of(tied.iter().copied())
        };
        found.let_ring = ties().chain(tied).any(|kind| kind == "let-ring");
        found
    }

    fn technical(&mut self, technical: Element<'_, '_>) {
        if let Some(harmonic) = child(technical, "harmonic") {
            let said = |name| child(harmonic, name).is_some();
            self.harmonic = Some(Harmonic {
                pitch: if said("base-pitch") {
                    HarmonicPitch::Base
                } else if said("touching-pitch") {
                    HarmonicPitch::Touching
                } else if said("sounding-pitch") {
                    HarmonicPitch::Sounding
                } else {
                    HarmonicPitch::Unsaid
                },
                artificial: match (said("artificial"), said("natural")) {
                    (true, _) => Some(true),
                    (false, true) => Some(false),
                    (false, false) => None,
                },
            });
        }
        let other = text(technical, "other-technical").unwrap_or_default();
        let damped = [PassageKind::DampedHere, PassageKind::DampedFrom];
        self.etouffe |= PassageKind::of(other).is_some_and(|kind| damped.contains(&kind));
        self.etouffe |= is_damp_sign(technical);
    }

    /// Keeps what is not the note's own.
    fn keep(&self, reader: &mut PartReader<'_>, note: &Note) {
        for &(start, number) in &self.sweeps {
            let key = reader.key(note.staff);
            reader.gathered.sweep(SweepEnd {
                start,
                number,
                anchor: note.anchor,
                key,
            });
        }
        if self.let_ring {
            reader.gathered.mark(Mark {
                kind: MarkKind::LetRing,
                measure: note.measure,
                offset: note.offset,
                staff: Some(note.staff),
                anchor: note.anchor,
            });
        }
    }
}

/// Whether an element, or one within it, names one of SMuFL's glyphs for damping.
fn is_damp_sign(notation: Element<'_, '_>) -> bool {
    let mut all = notation.descendants();
    all.any(|element| element.attribute("smufl").is_some_and(is_damp_glyph))
}
