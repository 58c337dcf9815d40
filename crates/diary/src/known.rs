//! What is known of each string now: all records replayed, corrections applied.

mod drawer;
mod history;
mod replayed;
mod round_told;
mod string_told;

use std::collections::BTreeMap;

use harp::{Material, StringName};

pub use drawer::SparesKnown;
pub use history::{Move, Point};
pub(crate) use replayed::by_day;

use crate::{Air, Does, Moment, Part, PracticeKept, RecordId, Regulation, StringChecked};

/// What the diary knows now.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Known {
    /// Each harp, by name.
    pub harps: Vec<HarpKnown>,
    /// The air as it was read, in order.
    pub air: Vec<(Moment, Air)>,
    /// What lies in the drawer, the oldest of a kind first.
    pub spares: Vec<SparesKnown>,
    /// What was practised, in order.
    pub practice: Vec<(Moment, PracticeKept)>,
    /// Records that are passed on and not understood, of a newer version of this program: what is known may lack them.
    pub not_understood: Vec<RecordId>,
    /// Records that were corrected or withdrawn.
    pub corrected: Vec<RecordId>,
}

/// What is known of one harp.
#[derive(Clone, Debug, PartialEq)]
pub struct HarpKnown {
    /// Its name.
    pub harp: String,
    /// Its file as it was known last.
    pub toml: Option<String>,
    /// Every string of its file and every string of which anything was written.
    pub strings: BTreeMap<StringName, StringKnown>,
    /// Pedals at fault.
    pub pedals: Vec<FaultKnown>,
    /// Every check of its mechanism, in order.
    pub checks: Vec<(Moment, Regulation)>,
    /// The technician's visits, in order.
    pub visits: Vec<VisitKnown>,
    /// The reference pitch that was tuned to or taken last, A4 in Hz.
    pub a4_hz: Option<(Moment, f64)>,
    /// How many rounds were begun.
    pub rounds: usize,
}

/// What is known of one string.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StringKnown {
    /// Whether it is there.
    pub stands: Stands,
    /// Its last reading.
    pub last: Option<Point>,
    /// When it was last called in tune, by a reading or by her ear.
    pub in_tune: Option<Moment>,
    /// The highest pitch at which this string, since it was put on, is known to have stood, Hz, disc or lever taken off.
    pub highest_hz: Option<f64>,
    /// When it was put on, and what it is; `None` where that was never written.
    pub fitted: Option<FittedKnown>,
    /// How many strings were put on in this place, as far as was written.
    pub fittings: u32,
    /// When it broke, or those before it in this place.
    pub breaks: Vec<Moment>,
    /// Its readings and those of the strings before it, in order: as found and as left in rounds, and single ones.
    pub history: Vec<Point>,
    /// What the last check of its discs or lever found.
    pub regulation: Option<CheckedKnown>,
    /// Its discs or its lever at fault.
    pub faults: Vec<FaultKnown>,
}

/// Whether a string is there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stands {
    /// It is, as far as is known.
    #[default]
    On,
    /// It broke, and none is in its place.
    Broken,
    /// It was taken off.
    Off,
}

/// A string as it was put on.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedKnown {
    /// When.
    pub when: Moment,
    /// Whether it had been played on before.
    pub used: bool,
    /// What it is made of.
    pub material: Option<Material>,
    /// Its diameter, millimetres.
    pub gauge_mm: Option<f64>,
    /// Who put it on; may be empty.
    pub by: String,
}

/// A technician's visit.
#[derive(Clone, Debug, PartialEq)]
pub struct VisitKnown {
    /// When; written on a later day, from the beginning of its own.
    pub when: Moment,
    /// Who came; may be empty.
    pub who: String,
    /// What was done.
    pub done: String,
    /// What else she wrote beside it.
    pub note: String,
}

/// What a regulation check found.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckedKnown {
    /// When.
    pub when: Moment,
    /// At which reference pitch, A4 in Hz.
    pub a4_hz: f64,
    /// What.
    pub checked: StringChecked,
}

/// A part at fault.
#[derive(Clone, Debug, PartialEq)]
pub struct FaultKnown {
    /// Which.
    pub part: Part,
    /// What it does.
    pub does: Does,
    /// Since when, as far as was written.
    pub since: Moment,
    /// What she wrote beside it last.
    pub note: String,
}

impl StringKnown {
    /// How far the string moved by itself, from each time that it was left to the next that it was found.
    pub fn moves(&self) -> Vec<Move> {
        history::moves(&self.history)
    }

    /// At most so many points of the history, at least four: the first, the last, and of each stretch of equal length
    /// between the lowest and the highest.
    pub fn thinned(&self, most: usize) -> Vec<Point> {
        history::thinned(&self.history, most)
    }

    /// Seconds since it was put on; `None` where that is not known, or where it was used before.
    pub fn age_s(&self, now: Moment) -> Option<f64> {
        let fitted = self.fitted.as_ref().filter(|fitted| !fitted.used)?;
        Some(now.since_s(fitted.when))
    }
}

impl HarpKnown {
    /// Whole days since a string was put on, new or used; `None` where that was never written, or where it is gone.
    pub fn days_on(&self, string: StringName, now: Moment) -> Option<u32> {
        let known = self.strings.get(&string)?;
        let fitted = known
            .fitted
            .as_ref()
            .filter(|_| known.stands == Stands::On)?;
        // a clock that was wrong may have put it into the future
        Some((now.since_s(fitted.when) / 86_400.0).max(0.0) as u32)
    }
}

impl Known {
    /// A harp by its name.
    pub fn harp(&self, name: &str) -> Option<&HarpKnown> {
        self.harps.iter().find(|harp| harp.harp == name)
    }

    /// The spares that may be put on a harp: its own, and those that are kept for any.
    pub fn spares_of(&self, harp: &str) -> impl Iterator<Item = &SparesKnown> {
        let spares = self.spares.iter();
        spares.filter(move |lot| lot.harp.as_deref().is_none_or(|own| own == harp))
    }
}
