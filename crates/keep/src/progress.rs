//! What one set of records says of a player's tuning and practice, week by week: her own diary, or what a student gave of
//! his. It says how things went and how sure that is; it holds nobody against anybody else.

mod ear;
mod harps;
mod middle;
mod share;
mod weeks;
mod worst;

use diary::{Day, Diary, Moment};

pub use ear::{EarWeek, Questions};
pub use harps::{HarpProgress, HarpWeek};
pub use middle::Middle;
pub use share::Share;
pub use worst::WorstString;

/// What the records say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Progress {
    /// Each harp, by name; what was practised without one stands first.
    pub harps: Vec<HarpProgress>,
    /// What was told of made strings, week by week.
    pub ear: Vec<EarWeek>,
    /// Questions, by what they were about.
    pub questions: Vec<Questions>,
    /// By how many a second beats were counted wrong, either way; `None` where none were counted.
    pub counted: Option<Middle>,
    /// The moments of the first and the last that is told here.
    pub from_to: Option<(Moment, Moment)>,
}

/// What became of guesses, high or low, held against a measurement.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Guesses {
    /// It was so.
    pub right: usize,
    /// It was the other way.
    pub wrong: usize,
    /// The string lay too near to be called either.
    pub too_near: usize,
}

impl Guesses {
    /// The share of those that were right among those that can be judged; `None` where there are none.
    pub fn share(&self) -> Option<Share> {
        Share::of(self.right, self.right + self.wrong)
    }

    fn and(self, other: Guesses) -> Guesses {
        Guesses {
            right: self.right + other.right,
            wrong: self.wrong + other.wrong,
            too_near: self.too_near + other.too_near,
        }
    }
}

/// Of rounds and practice in a set of records, by weeks that begin on Monday by a clock so many minutes ahead of UTC.
///
/// Where summer time begins or ends between, an hour about midnight may count to the week beside it.
///
/// ```
/// use diary::{Diary, Entry, PracticeKept};
/// let mut diary = Diary::default();
/// let practised = PracticeKept { took_s: 600.0, ..PracticeKept::default() };
/// // a Thursday
/// diary.append("phone", "2026-11-26T18:40:00Z".parse()?, &Entry::Practice(practised))?;
/// let progress = keep::progress(&diary, 60);
/// let week = &progress.harps[0].weeks[0];
/// assert_eq!((week.monday.to_string().as_str(), week.practised_min), ("2026-11-23", 10.0));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn progress(diary: &Diary, ahead_min: i32) -> Progress {
    let told = diary.told(&["harp", "round", "round_over", "practice"]);
    let week = |when: Moment| weeks::monday(when, ahead_min);
    let harps = harps::of(&told, &week);
    let (ear, questions, counted) = ear::of(&told, &week);
    Progress {
        from_to: harps::from_to(&told),
        harps,
        ear,
        questions,
        counted,
    }
}

/// Monday of the week of a moment.
type Week<'a> = &'a dyn Fn(Moment) -> Day;
