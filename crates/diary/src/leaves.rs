//! The diary as one reads in it: every record but those of rounds, in order, each with what it says once corrections are
//! known. Only what is looked at is read through.

use std::collections::BTreeMap;

use crate::known::by_day;
use crate::truths::Truths;
use crate::{Diary, Entry, Moment, Record, RecordId};

/// Kinds that are told together, as rounds.
const OF_ROUNDS: [&str; 3] = ["round", "round_events", "round_over"];

/// All leaves of a diary. They stand for the records that it had when they were made.
#[derive(Default)]
pub struct Leaves {
    leaves: Vec<Leaf>,
    truths: Truths,
}

/// One record, and when it counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// By the common clock; of what was done on an earlier day than it was written, the beginning of that day.
    pub when: Moment,
    /// Which record.
    pub id: RecordId,
    /// Whether only the day is known.
    pub day_only: bool,
}

/// What a record says now.
#[derive(Clone, Debug, PartialEq)]
pub enum Says {
    /// This.
    Entry(Box<Entry>),
    /// This; it was written otherwise, and corrected.
    Corrected(Box<Entry>),
    /// Nothing: it was withdrawn, or corrected by what is not known here.
    Withdrawn,
    /// What is not known here: a newer version of this program wrote it.
    Unknown,
}

impl Diary {
    /// Every leaf, from the first to the last.
    pub fn leaves(&self) -> Leaves {
        let timed = self.timed();
        let truths = Truths::of(timed.iter().map(|(_, record)| *record));
        let others = timed.into_iter();
        let others =
            others.filter(|(_, record)| !OF_ROUNDS.contains(&record.kind()) || record.is_unknown());
        let others: Vec<(Moment, &Record)> = others.collect();
        let written: BTreeMap<&RecordId, Moment> = others
            .iter()
            .map(|(when, record)| (record.id(), *when))
            .collect();
        let leaf = |(when, record): (Moment, &Record)| Leaf {
            when,
            id: record.id().clone(),
            day_only: written.get(record.id()) != Some(&when),
        };
        let leaves = by_day(others.clone(), &truths).into_iter().map(leaf);
        Leaves {
            leaves: leaves.collect(),
            truths,
        }
    }
}

impl Leaves {
    /// From the first to the last.
    pub fn leaves(&self) -> &[Leaf] {
        &self.leaves
    }

    /// What a record says.
    pub fn says(&self, record: &Record) -> Says {
        if record.is_unknown() {
            return Says::Unknown;
        }
        match (self.truths.entry(record), self.truths.has(record.id())) {
            (None, _) => Says::Withdrawn,
            (Some(entry), true) => Says::Corrected(Box::new(entry)),
            (Some(entry), false) => Says::Entry(Box::new(entry)),
        }
    }
}
