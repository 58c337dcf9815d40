//! A chord: which of its heads are plucked depends on all of them.

use crate::spelling::of_letter;
use crate::{Doubt, Harmonic, HarmonicPitch, Harmonics, Note, Tie};

/// Finds what is plucked in a chord. A harmonic written with its base, its touched place and its
/// sound as a chord is one string. Without the base, the string of a harmonic is an octave under
/// what sounds; with neither, the written note is the string or the sound, as `unmarked` says.
pub(crate) fn plucked(
    chord: Vec<Note>,
    unmarked: Harmonics,
    doubt: &mut impl FnMut(Doubt),
) -> Vec<Note> {
    let has = |kind| chord.iter().any(|member| pitch_of(member) == Some(kind));
    let base = has(HarmonicPitch::Base);
    let sound = has(HarmonicPitch::Sounding);
    let sounding = chord
        .iter()
        .find(|member| pitch_of(member) == Some(HarmonicPitch::Sounding))
        .map(|note| note.sounding);
    let kept = chord.into_iter().filter_map(|mut note| {
        match pitch_of(&note) {
            None => {}
            Some(HarmonicPitch::Base) => {
                note.sounding = sounding
                    .or_else(|| octave(&note, 1))
                    .unwrap_or(note.sounding);
            }
            Some(HarmonicPitch::Touching) if base || sound => return None,
            Some(HarmonicPitch::Sounding) if base => return None,
            Some(HarmonicPitch::Touching) => {
                let pitch = note.string.pretty();
                doubt(Doubt::HarmonicTouching { pitch });
                note.sounding = octave(&note, 1).unwrap_or(note.sounding);
            }
            Some(HarmonicPitch::Unsaid) if unmarked == Harmonics::String => {
                note.sounding = octave(&note, 1).unwrap_or(note.sounding);
            }
            Some(HarmonicPitch::Sounding | HarmonicPitch::Unsaid) => {
                note.string = octave(&note, -1).unwrap_or(note.string);
            }
        }
        Some(note)
    });
    kept.collect()
}

fn pitch_of(note: &Note) -> Option<HarmonicPitch> {
    note.harmonic.map(|Harmonic { pitch, .. }| pitch)
}

fn octave(note: &Note, octaves: i32) -> Option<pitch::SpelledPitch> {
    of_letter(note.sounding.letter, note.sounding.midi() + 12 * octaves)
}

/// The ends of ties: `<tie>` says what sounds; where it is missing, `<tied>` what is drawn.
pub(crate) fn tie_of<'a>(kinds: impl Iterator<Item = &'a str>) -> Tie {
    kinds.fold(Tie::default(), |mut tie, kind| {
        match kind {
            "start" => tie.start = true,
            "stop" => tie.stop = true,
            "continue" => {
                tie = Tie {
                    start: true,
                    stop: true,
                }
            }
            _ => {}
        }
        tie
    })
}
