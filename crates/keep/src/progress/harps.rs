//! Rounds and practice, harp by harp.

use std::collections::BTreeMap;

use diary::{Day, Entry, Moment, PracticeKept, RecordId, RoundBegun, RoundOver, Side, Told};
use tuning::practice::{Guess, Said};

use super::worst::FoundStrings;
use super::{Guesses, Middle, Week, WorstString};

/// One harp, or what was practised without one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HarpProgress {
    /// Its name; `None` for what was practised without a harp.
    pub harp: Option<String>,
    /// Its file as it was known last.
    pub toml: Option<String>,
    /// The weeks in which there was something, in order.
    pub weeks: Vec<HarpWeek>,
    /// Strings that were found out of tune, the worst first.
    pub worst: Vec<WorstString>,
    /// Guesses of all weeks.
    pub guesses: Guesses,
}

/// A week with one harp.
#[derive(Clone, Debug, PartialEq)]
pub struct HarpWeek {
    /// Its Monday.
    pub monday: Day,
    /// How many rounds were begun.
    pub rounds: usize,
    /// How many of them have no end: their minutes are not known.
    pub open_rounds: usize,
    /// Minutes of rounds, pauses left out.
    pub rounds_min: f64,
    /// Strings that whole rounds left in tune, by a reading or by her ear, and all strings of these rounds; `None` where no
    /// whole round ended.
    pub in_tune: Option<(usize, usize)>,
    /// Minutes of practice.
    pub practised_min: f64,
    /// Guesses before a string was turned.
    pub guesses: Guesses,
    /// How far off strings lay that she had tuned by ear, either way, cents; `None` where none was measured.
    pub near_cents: Option<Middle>,
}

#[derive(Default)]
struct WeekSum {
    rounds: usize,
    open_rounds: usize,
    rounds_min: f64,
    in_tune: Option<(usize, usize)>,
    practised_min: f64,
    guesses: Guesses,
    off_cents: Vec<f64>,
}

#[derive(Default)]
struct HarpSum {
    toml: Option<String>,
    weeks: BTreeMap<Day, WeekSum>,
    found: FoundStrings,
}

/// Every harp of what is told.
pub(super) fn of(told: &[Told], week: Week<'_>) -> Vec<HarpProgress> {
    let mut harps: BTreeMap<Option<String>, HarpSum> = BTreeMap::new();
    // of several ends of one round the last holds
    let mut ends: BTreeMap<&RecordId, &RoundOver> = BTreeMap::new();
    for one in told {
        if let Entry::RoundOver(over) = &one.entry {
            ends.insert(&over.round, over);
        }
    }
    for one in told {
        match &one.entry {
            Entry::Harp(kept) => {
                let harp = harps.entry(Some(kept.harp.clone())).or_default();
                harp.toml = Some(kept.toml.clone());
            }
            Entry::Round(begun) => {
                let harp = harps.entry(Some(begun.harp.clone())).or_default();
                harp.round(week(one.when), begun, ends.get(&one.id).copied());
            }
            Entry::Practice(practice) => {
                let harp = harps.entry(practice.harp.clone()).or_default();
                harp.practice(week(one.when), practice);
            }
            _ => {}
        }
    }
    let harps = harps.into_iter();
    harps.map(|(name, sum)| sum.progress(name)).collect()
}

/// The first and the last moment of a round or of practice.
pub(super) fn from_to(told: &[Told]) -> Option<(Moment, Moment)> {
    let counts = |one: &&Told| matches!(one.entry, Entry::Round(_) | Entry::Practice(_));
    let when = || told.iter().filter(counts).map(|one| one.when);
    Some((when().min()?, when().max()?))
}

impl HarpSum {
    fn round(&mut self, monday: Day, begun: &RoundBegun, over: Option<&RoundOver>) {
        // a round's harp is the harp of that day, unless a record of it says otherwise
        self.toml.get_or_insert_with(|| begun.toml.clone());
        let week = self.weeks.entry(monday).or_default();
        week.rounds += 1;
        let Some(over) = over else {
            week.open_rounds += 1;
            return;
        };
        week.rounds_min += whole(over.minutes);
        if begun.touch_up.is_none() {
            let in_tune = over.strings.iter().filter(|s| s.state.is_in_tune()).count();
            let (so_far, of) = week.in_tune.unwrap_or_default();
            week.in_tune = Some((so_far + in_tune, of + over.strings.len()));
        }
        for string in over.strings.iter().filter(|string| !string.fitted) {
            let own = string.before.as_ref().filter(|kept| kept.aside.is_none());
            if let Some(kept) = own {
                let found = (kept.off_cents, kept.u95_cents);
                self.found.add(string.string, found, begun.tolerance);
            }
        }
    }

    fn practice(&mut self, monday: Day, practice: &PracticeKept) {
        let week = self.weeks.entry(monday).or_default();
        week.practised_min += whole(practice.took_s) / 60.0;
        for one in &practice.by_ear {
            if let (Some(guess), Some(before)) = (one.guess, one.before) {
                let guess = match guess {
                    Side::High => Guess::High,
                    Side::Low => Guess::Low,
                };
                match guess.became(before.off_cents, before.u95_cents) {
                    Said::Right => week.guesses.right += 1,
                    Said::Wrong => week.guesses.wrong += 1,
                    Said::TooNear => week.guesses.too_near += 1,
                }
            }
            week.off_cents
                .extend(one.after.map(|after| after.off_cents.abs()));
        }
    }

    fn progress(self, harp: Option<String>) -> HarpProgress {
        let weeks: Vec<HarpWeek> = self
            .weeks
            .into_iter()
            .map(|(monday, sum)| HarpWeek {
                monday,
                rounds: sum.rounds,
                open_rounds: sum.open_rounds,
                rounds_min: sum.rounds_min,
                in_tune: sum.in_tune,
                practised_min: sum.practised_min,
                guesses: sum.guesses,
                near_cents: Middle::of(sum.off_cents),
            })
            .collect();
        let all = weeks.iter().map(|week| week.guesses);
        HarpProgress {
            harp,
            toml: self.toml,
            worst: self.found.worst(),
            guesses: all.fold(Guesses::default(), Guesses::and),
            weeks,
        }
    }
}

/// A length of time that somebody else wrote: nought where it is no number, or below nought.
fn whole(length: f64) -> f64 {
    if length.is_finite() {
        length.max(0.0)
    } else {
        0.0
    }
}
