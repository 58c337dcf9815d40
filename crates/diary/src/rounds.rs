//! The rounds that the diary knows, without replaying them.

use std::collections::BTreeMap;

use tuning::round::State;

use crate::truths::Truths;
use crate::{At, Diary, Entry, KeptRound, Record, RecordId, RoundBegun, RoundError, RoundOver};

/// One round of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundListed {
    /// The record that began it.
    pub id: RecordId,
    /// When it was begun.
    pub begun_at: At,
    /// The name of its harp.
    pub harp: String,
    /// Whether it was a touch-up.
    pub touch_up: bool,
    /// Whether it was finished, where it is over; `None` while it is not.
    pub finished: Option<bool>,
    /// What it came to when it was last over.
    pub counts: Option<Counts>,
}

/// What a round came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counts {
    /// Its strings.
    pub strings: usize,
    /// Those that were heard.
    pub heard: usize,
    /// Those that were left in tune, by a reading or by her ear.
    pub in_tune: usize,
    /// Those to be heard again.
    pub again: usize,
    /// Minutes, pauses left out.
    pub minutes: f64,
}

/// What is found of a round on the way through the records.
struct Found<'a> {
    record: &'a Record,
    begun: RoundBegun,
    over: Option<RoundOver>,
    /// whether the end is the last that was written of it
    is_over: bool,
}

impl Diary {
    /// Every round, in the order in which they were begun.
    pub fn rounds(&self) -> Vec<RoundListed> {
        self.found().into_iter().map(Found::listed).collect()
    }

    /// The round that is to be taken up: the last that was begun and is not over. One that was left behind, its harp having
    /// begun another since, is none: its strings have moved.
    pub fn unfinished(&self) -> Result<Option<KeptRound>, RoundError> {
        let found = self.found();
        let is_last = |(at, one): &(usize, &Found<'_>)| {
            let mut later = found.iter().skip(at + 1);
            !one.is_over && !later.any(|other| other.begun.harp == one.begun.harp)
        };
        let last = found.iter().enumerate().rfind(is_last);
        last.map(|(_, one)| self.round(one.record.id())).transpose()
    }

    fn found(&self) -> Vec<Found<'_>> {
        let mut rounds: BTreeMap<RecordId, usize> = BTreeMap::new();
        let mut found: Vec<Found<'_>> = Vec::new();
        let records = self.in_order();
        let truths = Truths::of(records.iter().copied());
        for record in records.iter().filter(|r| r.kind() == "round") {
            if let Some(Entry::Round(begun)) = truths.entry(record) {
                rounds.insert(record.id().clone(), found.len());
                found.push(Found {
                    record,
                    begun,
                    over: None,
                    is_over: false,
                });
            }
        }
        // what is written of a round may have an earlier time than its beginning, if another device wrote it
        for record in records.iter().filter(|r| r.kind() != "round") {
            let round = record.round().and_then(|id| rounds.get(id));
            let Some(one) = round.and_then(|at| found.get_mut(*at)) else {
                continue;
            };
            one.is_over = record.kind() == "round_over";
            if let (true, Some(Entry::RoundOver(over))) = (one.is_over, truths.entry(record)) {
                one.over = Some(over);
            }
        }
        found
    }
}

impl Found<'_> {
    fn listed(self) -> RoundListed {
        let over = self.over.as_ref();
        RoundListed {
            id: self.record.id().clone(),
            begun_at: self.record.at().clone(),
            harp: self.begun.harp,
            touch_up: self.begun.touch_up.is_some(),
            finished: over.filter(|_| self.is_over).map(|over| over.finished),
            counts: over.map(Counts::of),
        }
    }
}

impl Counts {
    fn of(over: &RoundOver) -> Counts {
        let in_tune = |state: &State| matches!(state, State::InTune | State::InTuneByEar);
        Counts {
            strings: over.strings.len(),
            heard: over.strings.iter().filter(|s| s.plucks > 0).count(),
            in_tune: over.strings.iter().filter(|s| in_tune(&s.state)).count(),
            again: over.again.len(),
            minutes: over.minutes,
        }
    }
}
