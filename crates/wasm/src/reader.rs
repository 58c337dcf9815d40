//! The whole diary, read once and looked into as often as is wished: its rounds, its leaves in pieces, what is missing.

use std::collections::BTreeMap;

use diary::{At, ClockSeen, Diary, Leaf, Leaves, Record, RecordId};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use crate::leaves::LeafView;
use crate::shelf::{ListedRound, listed_rounds};
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// A piece of the list, the latest first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct LeavesView {
    /// These.
    pub leaves: Vec<LeafView>,
    /// How many there are of the kind that was asked for.
    pub of: usize,
    /// Each kind that the diary holds, and how often.
    pub kinds: Vec<(String, usize)>,
}

/// Whether everything is there.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DiaryCheckView {
    /// How many records, those that are kept apart left out.
    pub records: usize,
    /// Each device with the number of its records.
    pub devices: Vec<(String, usize)>,
    /// Places that were written and are not here: the device, the first, the last.
    pub gaps: Vec<(String, u64, u64)>,
    /// Places that two records claim.
    pub twins: Vec<String>,
    /// Records of a newer version.
    pub not_understood: usize,
    /// Lines that are no records.
    pub damaged: usize,
    /// Clocks that were wrong: the record, `put_back` or `ahead`, by how many seconds.
    pub clocks: Vec<(String, String, f64)>,
    /// Whether nothing is missing.
    pub whole: bool,
}

/// Most that is named of each kind of finding.
const NAMED: usize = 40;

/// A diary that is read.
#[wasm_bindgen]
#[derive(Default)]
pub struct Reader {
    pub(crate) diary: Diary,
    pub(crate) leaves: Leaves,
    damaged: usize,
}

#[wasm_bindgen]
impl Reader {
    /// Of no line yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Reader {
        Reader::default()
    }

    /// Takes in lines; what is read in pieces is read wholly before anything is asked.
    pub fn push(&mut self, lines: &str) {
        let mut records = Vec::new();
        for line in lines.lines().filter(|line| !line.trim().is_empty()) {
            match Record::parse_again(line) {
                Ok(record) => records.push(record),
                Err(_) => self.damaged += 1,
            }
        }
        self.diary.merge(records);
    }

    /// Puts in order what was taken in.
    pub fn sort(&mut self) {
        self.leaves = self.diary.leaves();
    }

    /// The rounds, the latest first.
    pub fn rounds(&self) -> Result<Vec<Ts<ListedRound>>, JsError> {
        let rounds = listed_rounds(&self.diary).into_iter();
        rounds.map(|round| Ok(round.into_ts()?)).collect()
    }

    /// So many leaves of a kind, or of all, after so many later ones.
    pub fn leaves(
        &self,
        kind: Option<String>,
        after: usize,
        count: usize,
        shown: Ts<ShownChoice>,
    ) -> Result<Ts<LeavesView>, JsError> {
        let shown = shown.to_rust()?;
        Ok(self.view(kind.as_deref(), after, count, &shown).into_ts()?)
    }

    /// Whether anything is missing. `now`: by this device's clock, RFC 3339, UTC.
    pub fn check(&self, now: &str) -> Result<Ts<DiaryCheckView>, JsError> {
        let now: At = now.parse()?;
        Ok(self.checked(&now).into_ts()?)
    }
}

impl Reader {
    fn view(
        &self,
        kind: Option<&str>,
        after: usize,
        count: usize,
        shown: &ShownChoice,
    ) -> LeavesView {
        let voice = Voice::of(shown);
        let mut kinds: BTreeMap<&str, usize> = BTreeMap::new();
        for kind in self
            .leaves
            .leaves()
            .iter()
            .filter_map(|leaf| self.kind(leaf))
        {
            *kinds.entry(kind).or_default() += 1;
        }
        let of = kind.map_or(self.leaves.leaves().len(), |kind| {
            kinds.get(kind).copied().unwrap_or_default()
        });
        let wanted = |leaf: &&Leaf| kind.is_none_or(|kind| self.kind(leaf) == Some(kind));
        let latest = self.leaves.leaves().iter().rev().filter(wanted);
        let leaves = latest.skip(after).take(count);
        LeavesView {
            leaves: leaves
                .filter_map(|leaf| LeafView::of(&self.diary, &self.leaves, leaf, voice))
                .collect(),
            of,
            kinds: (kinds.into_iter())
                .map(|(kind, count)| (kind.to_owned(), count))
                .collect(),
        }
    }

    fn kind(&self, leaf: &Leaf) -> Option<&str> {
        self.diary.record(&leaf.id).map(Record::kind)
    }

    fn checked(&self, now: &At) -> DiaryCheckView {
        let checked = self.diary.check(now);
        let named = |ids: &[RecordId]| ids.iter().take(NAMED).map(RecordId::to_string).collect();
        let gaps = checked.gaps.iter().take(NAMED);
        let clock = |clock: &ClockSeen| match clock {
            ClockSeen::PutBack { record, by_s } => {
                (record.to_string(), "put_back".to_owned(), *by_s)
            }
            ClockSeen::Ahead { record, by_s } => (record.to_string(), "ahead".to_owned(), *by_s),
        };
        DiaryCheckView {
            records: self.diary.records().count(),
            devices: (checked.devices.iter())
                .map(|(device, count)| (device.to_string(), *count))
                .collect(),
            gaps: gaps
                .map(|gap| (gap.device.to_string(), gap.from, gap.to))
                .collect(),
            twins: named(&checked.twins),
            not_understood: checked.not_understood.len(),
            damaged: self.damaged,
            clocks: checked.clocks.iter().take(NAMED).map(clock).collect(),
            whole: checked.is_whole() && self.damaged == 0,
        }
    }
}
