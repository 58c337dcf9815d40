//! What two feet can do, and how fast.

use pitch::Letter;

/// A foot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Foot {
    /// Left: D C B.
    Left,
    /// Right: E F G A.
    Right,
}

/// How two feet work.
///
/// A move is done at one instant, the one at which the pedal is home. Between two such instants of
/// one foot lies at least the time of the later move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Feet {
    /// Least time of a move over one notch, in microseconds (default 400,000: common practice, no
    /// source).
    pub one_notch_us: u64,
    /// Least time of a move over two notches, between one and two times the other.
    pub two_notches_us: u64,
    /// Whether the right foot may take B and the left E.
    pub crossing: bool,
    /// Whether one foot may take two neighbouring pedals at once.
    pub together: bool,
}

/// One movement of a foot: the pedals it takes, one or two, by [`Letter::index`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Reach {
    pub(crate) first: usize,
    pub(crate) second: Option<usize>,
    pub(crate) crossed: bool,
}

impl Foot {
    /// Left and right.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// The foot of a pedal: left D C B, right E F G A.
    pub fn of(letter: Letter) -> Self {
        match letter {
            Letter::D | Letter::C | Letter::B => Self::Left,
            _ => Self::Right,
        }
    }

    /// Its own pedals, from left to right.
    pub fn pedals(self) -> &'static [Letter] {
        match self {
            Self::Left => &[Letter::D, Letter::C, Letter::B],
            Self::Right => &[Letter::E, Letter::F, Letter::G, Letter::A],
        }
    }

    /// The word used in files: `left`, `right`.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    /// The pedal of the other foot that it may cross to.
    pub fn crosses_to(self) -> Letter {
        match self {
            Self::Left => Letter::E,
            Self::Right => Letter::B,
        }
    }
}

impl Default for Feet {
    fn default() -> Self {
        Self::with_least_time(400_000)
    }
}

impl Feet {
    /// Feet that need so many microseconds for a notch and half as much again for two, neither
    /// crossing nor taking two pedals.
    pub fn with_least_time(one_notch_us: u64) -> Self {
        Self {
            one_notch_us,
            two_notches_us: one_notch_us + one_notch_us / 2,
            crossing: false,
            together: false,
        }
    }

    /// Least time of a move over so many notches, in microseconds.
    pub fn least_us(&self, notches: u8) -> u64 {
        if notches > 1 {
            self.two_notches_us.max(self.one_notch_us)
        } else {
            self.one_notch_us
        }
    }

    /// All that a foot can reach.
    pub(crate) fn reaches(&self, foot: Foot) -> Vec<Reach> {
        let single = |letter: &Letter| Reach {
            first: letter.index(),
            second: None,
            crossed: false,
        };
        let mut reaches: Vec<Reach> = foot.pedals().iter().map(single).collect();
        if self.crossing {
            reaches.push(Reach {
                first: foot.crosses_to().index(),
                second: None,
                crossed: true,
            });
        }
        if self.together {
            reaches.extend(foot.pedals().windows(2).map(|pair| Reach {
                first: pair[0].index(),
                second: Some(pair[1].index()),
                crossed: false,
            }));
        }
        reaches
    }
}
