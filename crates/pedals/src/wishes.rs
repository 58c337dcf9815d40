//! How she wants it planned, and what is broken.

use harp::{Setting, StringName};
use pitch::{Alteration, Letter};

use crate::{Demand, Feet, Spelling, Weights};

/// What is broken on the harp.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Broken {
    /// Pedals that are stuck, and where.
    pub stuck: Vec<(Letter, Alteration)>,
    /// Strings whose disc fails: they cannot sound at that alteration.
    pub dead_discs: Vec<(StringName, Alteration)>,
    /// Strings that are missing.
    pub missing: Vec<StringName>,
}

/// A place for a pedal that she has chosen: it holds for the notes of that moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pin {
    /// The moment, by its place in the demand.
    pub moment: usize,
    /// The pedal.
    pub letter: Letter,
    /// Where it stands.
    pub alteration: Alteration,
}

/// Everything that a plan depends on beside the notes and the harp.
#[derive(Clone, Debug, PartialEq)]
pub struct Wishes {
    /// Prices.
    pub weights: Weights,
    /// What the feet can do.
    pub feet: Feet,
    /// Whether notes may be respelled.
    pub spelling: Spelling,
    /// Where the pedals stand at the beginning, as far as that is given.
    pub opening: Setting,
    /// Whether every register is taken to exist, all strings with discs.
    pub any_octave: bool,
    /// Rests of so many microseconds allow strings without discs to be retuned; never, if `None`.
    pub retune_rest_us: Option<u64>,
    /// What is broken.
    pub broken: Broken,
    /// What she has chosen; kept before all else.
    pub pins: Vec<Pin>,
    /// Whether every pass of a repeat should have the same marks.
    pub same_marks: bool,
    /// How many steps the search may take before it stops and says how far off it may be.
    pub work_limit: u64,
}

impl Wishes {
    /// Steps that take some seconds.
    pub const WORK: u64 = 50_000_000;

    /// Preset 'comfortable', feet at 0.4 s.
    pub fn comfortable() -> Self {
        Self::with(Weights::comfortable())
    }

    /// Preset 'fewest' for this piece, feet at 0.4 s.
    pub fn fewest(demand: &Demand) -> Self {
        Self::with(Weights::fewest(demand))
    }

    fn with(weights: Weights) -> Self {
        Self {
            weights,
            feet: Feet::default(),
            spelling: Spelling::Free,
            opening: Setting::default(),
            any_octave: false,
            retune_rest_us: None,
            broken: Broken::default(),
            pins: Vec::new(),
            same_marks: true,
            work_limit: Self::WORK,
        }
    }
}
