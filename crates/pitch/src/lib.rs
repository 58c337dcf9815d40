//! Pitch: hertz, cents, spelled pitches, the reference pitch, equal temperament, note names, and how languages write
//! numbers.
//!
//! This room never knows a harp: no string, pedal, lever or disc has a name here (the harp's own
//! way of counting octaves is only arithmetic on letters). It reads no sound and keeps no past.
//!
//! Hertz are `f64` and positive; cents are `f64`, positive when the second pitch is higher.

mod alteration;
mod beats;
mod cents;
mod harp_octave;
mod hearing;
mod key;
mod language;
mod letter;
mod reference;
mod shown;
mod signed;
mod spelled;
mod tongue;
mod warmth;

pub use alteration::Alteration;
pub use beats::{Beats, beats_between};
pub use cents::{cents, hz_of_cents, raise};
pub use harp_octave::{harp_octave, scientific_octave};
pub use hearing::{JND_TABLE, erb_hz, glide_audible_cents, jnd_cents, jnd_hz};
pub use key::MajorKey;
pub use language::Language;
pub use letter::Letter;
pub use reference::{ReferenceError, ReferencePitch};
pub use shown::{Shown, shown_as};
pub use signed::signed;
pub use spelled::{SpelledPitch, SpellingError};
pub use tongue::Tongue;
pub use warmth::{speed_of_sound_m_s, wind_cents_per_degree, wind_hz};
