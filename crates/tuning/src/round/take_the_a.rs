//! Take the A: from a note that somebody holds to the reference pitch, if it is steady enough.

use harp::{Standing, StringName};
use pitch::{ReferencePitch, SpelledPitch, cents, raise};

use crate::median::ascending;

/// One estimate of a held note's pitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// Sounding pitch, Hz.
    pub hz: f64,
    /// Half of its 95 % interval, cents.
    pub u95_cents: f64,
}

/// The A that was heard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TakenA {
    /// A4 in Hz as it was heard.
    pub heard_hz: f64,
    /// Half of its 95 % interval, cents.
    pub u95_cents: f64,
    /// The same, rounded to half a hertz: what is proposed.
    pub a4_hz: f64,
}

/// Why no A was taken.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum TakeError {
    /// Too few estimates to judge whether it is steady.
    #[error("the note was too short: {estimates} estimates, at least {LEAST} needed")]
    TooShort {
        /// How many could be used.
        estimates: usize,
    },
    /// It moved, or could not be measured nearly enough for half a hertz.
    #[error("the note was unsteady: ±{u95_cents:.1} cents")]
    Unsteady {
        /// Half of the 95 % interval, cents.
        u95_cents: f64,
    },
    /// No A that anybody tunes to.
    #[error("that would be an A of {a4_hz:.1} Hz: only 380 to 480 is taken")]
    OutOfRange {
        /// A4 in Hz.
        a4_hz: f64,
    },
}

/// Fewest estimates; six blocks of two.
const LEAST: usize = 12;
/// Blocks whose means are compared: half a second each, several swings of a vibrato.
const BLOCKS: usize = 6;
/// 97.5 % point of Student's t for five degrees of freedom (any table of it).
const STUDENT: f64 = 2.571;
/// Widest interval, cents: half a hertz is 2 cents at A4, and it should decide between neighbours a hertz apart.
const WIDEST: f64 = 4.0;
/// Cents from the middle, from which an estimate belongs to another sound.
const STRAY: f64 = 60.0;
/// Largest share of strays.
const STRAYS: f64 = 0.2;
/// Cents above the harp's usual pitch, from which a technician is to be asked first.
pub const ASK_ABOVE_CENTS: f64 = 30.0;

/// The A4 that a held note stands for; its octave does not matter, as every octave of an instrument says the same A.
///
/// `estimates` are of one note, evenly over three seconds or more, in order. A slow swing as of vibrato averages
/// out; a pitch that wanders, and one measured too coarsely, are refused.
///
/// ```
/// use tuning::round::{Estimate, take_the_a};
/// let held = [Estimate { hz: 442.1, u95_cents: 1.0 }; 30];
/// let taken = take_the_a("A4".parse()?, &held)?;
/// assert_eq!(taken.a4_hz, 442.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn take_the_a(note: SpelledPitch, estimates: &[Estimate]) -> Result<TakenA, TakeError> {
    let usable = |e: &&Estimate| e.hz.is_finite() && e.hz > 0.0 && e.u95_cents.is_finite();
    let all: Vec<Estimate> = estimates.iter().filter(usable).copied().collect();
    let too_short = |estimates| Err(TakeError::TooShort { estimates });
    if all.len() < LEAST {
        return too_short(all.len());
    }
    let sorted = ascending(&all.iter().map(|e| e.hz).collect::<Vec<f64>>());
    let middle = sorted[sorted.len() / 2];
    let kept: Vec<Estimate> = (all.iter().copied())
        .filter(|e| cents(middle, e.hz).abs() <= STRAY)
        .collect();
    if kept.len() < LEAST {
        return too_short(kept.len());
    }
    let (mean, u95_cents) = mean_of_blocks(middle, &kept);
    let strays = 1.0 - kept.len() as f64 / all.len() as f64;
    if u95_cents > WIDEST || strays > STRAYS {
        let widened = if strays > STRAYS { STRAY } else { u95_cents };
        return Err(TakeError::Unsteady { u95_cents: widened });
    }
    let heard_hz = as_a4(raise(middle, mean), note);
    let a4_hz = (2.0 * heard_hz).round() / 2.0;
    if ReferencePitch::new(a4_hz).is_err() || ReferencePitch::new(heard_hz).is_err() {
        return Err(TakeError::OutOfRange { a4_hz: heard_hz });
    }
    Ok(TakenA {
        heard_hz,
        u95_cents,
        a4_hz,
    })
}

/// The strings that sound an A, natural, in the position that stands. With all pedals up a harp has none.
pub fn strings_that_sound_a(standing: &[Standing]) -> Vec<StringName> {
    let sounds_a = |s: &&Standing| s.pitch.midi().rem_euclid(12) == 9;
    standing.iter().filter(sounds_a).map(|s| s.string).collect()
}

/// What a new reference pitch asks of a harp that usually stands at another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Raise {
    /// Cents above the usual pitch; negative below.
    pub above_cents: f64,
    /// How much more the strings pull, per cent; negative for less. Tension goes with the square of the pitch.
    pub load_percent: f64,
}

impl Raise {
    /// From the usual A4 to a new one, both in Hz and positive.
    ///
    /// ```
    /// let raise = tuning::round::Raise::between(440.0, 442.0);
    /// assert!((raise.load_percent - 0.911).abs() < 0.001);
    /// assert!(!raise.asks_a_technician());
    /// ```
    pub fn between(usual_a4_hz: f64, a4_hz: f64) -> Raise {
        Raise {
            above_cents: cents(usual_a4_hz, a4_hz),
            load_percent: 100.0 * ((a4_hz / usual_a4_hz).powi(2) - 1.0),
        }
    }

    /// Whether it may not be proposed before a technician was asked.
    pub fn asks_a_technician(self) -> bool {
        self.above_cents > ASK_ABOVE_CENTS
    }
}

/// Mean in cents from `middle`, and half its 95 % interval: the scatter of the blocks' means, and what each
/// estimate may be wrong by in common.
fn mean_of_blocks(middle: f64, kept: &[Estimate]) -> (f64, f64) {
    let size = kept.len() / BLOCKS;
    let mean = |part: &[Estimate]| {
        part.iter().map(|e| cents(middle, e.hz)).sum::<f64>() / part.len() as f64
    };
    let means: Vec<f64> = (0..BLOCKS)
        .map(|k| {
            let end = if k + 1 == BLOCKS {
                kept.len()
            } else {
                (k + 1) * size
            };
            mean(&kept[k * size..end])
        })
        .collect();
    let all = mean(kept);
    let square: f64 = means.iter().map(|m| (m - all).powi(2)).sum();
    let error = (square / ((BLOCKS - 1) * BLOCKS) as f64).sqrt();
    let own = kept.iter().map(|e| e.u95_cents.abs()).sum::<f64>() / kept.len() as f64;
    (all, (STUDENT * error).hypot(own))
}

/// The A4 of a note's pitch, brought into the octave from 320 to 640 Hz.
fn as_a4(hz: f64, note: SpelledPitch) -> f64 {
    let a = raise(hz, -100.0 * f64::from(note.midi() - 69));
    let octaves = (a / 320.0).log2().floor();
    a / octaves.exp2()
}
