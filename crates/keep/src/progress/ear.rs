//! What was told of made strings, what was asked, and beats that were counted: of no harp.

use std::collections::BTreeMap;

use diary::{AskedAbout, Day, Entry, PracticeKept, SizeAnswered, Told};
use tuning::practice::{Estimate, Threshold};

use super::{Middle, Share, Week};

/// Made strings that were told high or low in a week.
#[derive(Clone, Debug, PartialEq)]
pub struct EarWeek {
    /// Its Monday.
    pub monday: Day,
    /// How many answers there were.
    pub answers: usize,
    /// From which size on high was told from low, by the answers of this week alone.
    pub threshold: Estimate,
}

/// Questions about one thing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Questions {
    /// What they were about.
    pub about: AskedAbout,
    /// How many were answered rightly, of how many.
    pub right: Share,
}

/// Most answers of a week that are reckoned with, its last: more than anybody gives, and few enough to be reckoned at once.
const MOST_ANSWERS: usize = 5_000;

/// Thresholds by week, questions by what they were about, beats that were counted.
pub(super) fn of(told: &[Told], week: Week<'_>) -> (Vec<EarWeek>, Vec<Questions>, Option<Middle>) {
    let practised = || {
        told.iter().filter_map(|one| match &one.entry {
            Entry::Practice(practice) => Some((one.when, practice)),
            _ => None,
        })
    };
    let mut weeks: BTreeMap<Day, Vec<SizeAnswered>> = BTreeMap::new();
    for (when, practice) in practised() {
        let sizes = practice.sizes.iter().copied();
        let sizes: Vec<_> = sizes
            .filter(|s| s.size_cents.is_finite() && s.size_cents > 0.0)
            .collect();
        if !sizes.is_empty() {
            weeks.entry(week(when)).or_default().extend(sizes);
        }
    }
    let weeks = weeks.into_iter().map(|(monday, sizes)| EarWeek {
        monday,
        answers: sizes.len(),
        threshold: threshold(&sizes),
    });
    let off = |practice: &PracticeKept| -> Vec<f64> {
        let counted = practice.counted.iter();
        counted.map(|c| (c.said_per_s - c.per_s).abs()).collect()
    };
    let counted = Middle::of(practised().flat_map(|(_, practice)| off(practice)));
    let asked = practised().flat_map(|(_, practice)| practice.asked.iter());
    let mut questions: BTreeMap<AskedAbout, (usize, usize)> = BTreeMap::new();
    for one in asked {
        let (right, of) = questions.entry(one.about).or_default();
        *right += usize::from(one.right);
        *of += 1;
    }
    let questions = questions.into_iter().filter_map(|(about, (right, of))| {
        let right = Share::of(right, of)?;
        Some(Questions { about, right })
    });
    (weeks.collect(), questions.collect(), counted)
}

fn threshold(sizes: &[SizeAnswered]) -> Estimate {
    let mut ear = Threshold::default();
    let last = sizes.len().saturating_sub(MOST_ANSWERS);
    for one in sizes.iter().skip(last) {
        ear.answer(one.size_cents, one.right);
    }
    ear.estimate()
}
