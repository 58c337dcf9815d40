//! The name of what a string without discs plays.

use pitch::SpelledPitch;

/// The name of a sound on its string; a string tuned further down than two semitones has as many
/// signs as it has semitones.
pub fn on_its_string(played: SpelledPitch) -> String {
    if played.alter.abs() <= 2 {
        return played.to_string();
    }
    let sign = if played.alter < 0 { "b" } else { "#" };
    let signs = sign.repeat(usize::from(played.alter.unsigned_abs()));
    format!("{}{signs}{}", played.letter, played.octave)
}
