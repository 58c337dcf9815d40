//! What a piece asks of the harp, in playing order: a plain value that any reader of notation can
//! make.

use std::cmp::Ordering;
use std::fmt;

use harp::Setting;
use pitch::SpelledPitch;

/// A time in quarter notes, exactly.
///
/// ```
/// assert_eq!(pedals::Quarters::new(10, 4).to_string(), "5/2");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Quarters {
    num: i64,
    den: i64,
}

/// How heavily a moment lies in its measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Strength {
    /// The first beat.
    Bar,
    /// Another beat.
    Beat,
    /// Between the beats.
    Off,
}

/// A hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hand {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// One note head that is plucked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Attack {
    /// As written where the string is played: a harmonic's string, not its sound.
    pub pitch: SpelledPitch,
    /// Microseconds after which it is damped; [`u64::MAX`] where it is left to die, 0 for an
    /// étouffé.
    pub rings_us: u64,
    /// The hand that plucks it, if known.
    pub hand: Option<Hand>,
}

/// One moment: notes that begin together, or a place without notes at which a foot may act.
///
/// A reader that wants pedals to move on the beats of a long note puts a moment there.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Quarters since the beginning, in playing order.
    pub at: Quarters,
    /// Microseconds since the beginning, never less than the moment's before.
    pub at_us: u64,
    /// The written measure, from 1.
    pub measure: u32,
    /// The how-manieth playing of that measure, from 1.
    pub pass: u32,
    /// Quarters within the measure; its first beat is 1.
    pub beat: Quarters,
    /// How heavily it lies.
    pub strength: Strength,
    /// Whether nothing is played from here to the next moment.
    pub rest: bool,
    /// Whether all that rings is damped here, before the notes of the moment.
    pub damped: bool,
    /// What is plucked.
    pub attacks: Vec<Attack>,
    /// The setting that a glissando wants; letters it does not name are free.
    pub glissando: Setting,
    /// The lowest and the highest string that a glissando sweeps from here to the next moment: all
    /// between them are struck.
    pub swept: Option<(SpelledPitch, SpelledPitch)>,
    /// What a tremolo strikes here again or soon, beside what is plucked: its strings are to stand,
    /// under whichever name.
    pub tremolo: Vec<SpelledPitch>,
    /// Pedal marks that the part carries here; they hold already for the moment's notes.
    pub marks: Setting,
}

/// A piece as the harp meets it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Demand {
    /// The moments in playing order.
    pub moments: Vec<Moment>,
    /// The first moment of each movement after the first: pedals and strings without discs may be
    /// set anew there, and nothing rings into it. Ascending; nothing written before it is played again after it.
    pub movements: Vec<usize>,
}

impl Quarters {
    /// Numerator over denominator, lowest terms; a denominator of 0 counts as 1.
    pub fn new(num: i64, den: i64) -> Self {
        let den = if den == 0 { 1 } else { den };
        let common = gcd(num.unsigned_abs(), den.unsigned_abs()).max(1) as i64 * den.signum();
        Self {
            num: num / common,
            den: den / common,
        }
    }

    /// Above the line.
    pub fn numerator(self) -> i64 {
        self.num
    }

    /// Below the line, at least 1.
    pub fn denominator(self) -> i64 {
        self.den
    }
}

impl Moment {
    /// A moment at the first beat of measure 1 without anything.
    pub fn empty() -> Self {
        Self {
            at: Quarters::new(0, 1),
            at_us: 0,
            measure: 1,
            pass: 1,
            beat: Quarters::new(1, 1),
            strength: Strength::Bar,
            rest: false,
            damped: false,
            attacks: Vec::new(),
            glissando: Setting::default(),
            swept: None,
            tremolo: Vec::new(),
            marks: Setting::default(),
        }
    }
}

impl Attack {
    /// A note left to die, the hand not known.
    pub fn of(pitch: SpelledPitch) -> Self {
        Self {
            pitch,
            rings_us: u64::MAX,
            hand: None,
        }
    }
}

#[cfg(test)]
impl Demand {
    /// For tests: chords at these seconds, blanks between their notes.
    pub(crate) fn of_chords(chords: &[(f64, &str)]) -> Self {
        let moments = chords.iter().map(|&(second, notes)| Moment {
            at_us: (second * 1e6) as u64,
            attacks: notes
                .split_whitespace()
                .map(|note| Attack::of(note.parse().unwrap()))
                .collect(),
            ..Moment::empty()
        });
        Self {
            moments: moments.collect(),
            ..Self::default()
        }
    }
}

impl Demand {
    /// Note heads in all.
    pub fn heads(&self) -> usize {
        self.moments.iter().map(|moment| moment.attacks.len()).sum()
    }
}

impl fmt::Display for Quarters {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.den {
            1 => write!(f, "{}", self.num),
            den => write!(f, "{}/{den}", self.num),
        }
    }
}

impl Ord for Quarters {
    fn cmp(&self, other: &Self) -> Ordering {
        let cross = |a: i64, b: i64| i128::from(a) * i128::from(b);
        cross(self.num, other.den).cmp(&cross(other.num, self.den))
    }
}

impl PartialOrd for Quarters {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { gcd(b, a % b) }
}
