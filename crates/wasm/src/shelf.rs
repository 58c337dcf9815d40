//! The diary as the page looks into it: the rounds that it knows, and a file taken in.

use std::collections::BTreeSet;

use diary::{Diary, Record, RecordId};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

/// A round of the list.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ListedRound {
    /// The device and the place of the record that began it.
    pub id: String,
    /// When it was begun, RFC 3339, UTC.
    pub begun_at: String,
    /// The harp's name.
    pub harp: String,
    /// Whether only a few strings were asked for.
    pub touch_up: bool,
    /// Whether it was finished; none while it is not over.
    pub finished: Option<bool>,
    /// Strings in tune, of all, in so many minutes, where it is over.
    pub in_tune: Option<usize>,
    /// All strings.
    pub strings: Option<usize>,
    /// Minutes, pauses left out.
    pub minutes: Option<f64>,
    /// Whether it is the one that can be taken up.
    pub can_be_taken_up: bool,
}

/// What became of a file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ImportedView {
    /// Lines of records that are new: to be kept.
    pub lines: Vec<String>,
    /// Records that were here already.
    pub known: usize,
    /// Lines that contradict a record that is here: to be kept apart.
    pub apart: Vec<String>,
    /// Lines that are no records.
    pub troubles: Vec<BadLine>,
}

/// A line that is no record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct BadLine {
    /// From 1.
    pub line: usize,
    /// What is wrong with it.
    pub why: String,
}

/// The rounds that a diary knows, the latest first.
pub(crate) fn listed_rounds(diary: &Diary) -> Vec<ListedRound> {
    let unfinished = diary.unfinished().ok().flatten().map(|kept| kept.id);
    let listed = diary.rounds().into_iter().rev().map(|round| ListedRound {
        id: shown(&round.id),
        begun_at: round.begun_at.as_str().to_owned(),
        harp: round.harp,
        touch_up: round.touch_up,
        finished: round.finished,
        in_tune: round.counts.map(|c| c.in_tune),
        strings: round.counts.map(|c| c.strings),
        minutes: round.counts.map(|c| c.minutes),
        can_be_taken_up: unfinished.as_ref() == Some(&round.id),
    });
    listed.collect()
}

/// A file held against the lines that are here: what is new in it, and what could not be read.
#[wasm_bindgen]
pub fn importing(lines: &str, file: &str) -> Result<Ts<ImportedView>, JsError> {
    let mut diary = Diary::default();
    diary.import(lines.as_bytes());
    let here: BTreeSet<String> = all_lines(&diary).map(str::to_owned).collect();
    let imported = diary.import(file.as_bytes());
    let line = |id: &RecordId| diary.record(id).map(Record::line).map(str::to_owned);
    let lines: Vec<String> = imported.merged.taken.iter().filter_map(line).collect();
    // of two in one place the one that came may be the one that stays: it is kept all the same
    let taken: BTreeSet<&str> = lines.iter().map(String::as_str).collect();
    let is_new = |line: &&str| !here.contains(*line) && !taken.contains(line);
    let apart = all_lines(&diary)
        .filter(is_new)
        .map(str::to_owned)
        .collect();
    let troubles = imported.troubles.iter().map(|t| BadLine {
        line: t.line,
        why: t.error.to_string(),
    });
    let view = ImportedView {
        apart,
        known: imported.merged.known,
        troubles: troubles.collect(),
        lines,
    };
    Ok(view.into_ts()?)
}

fn all_lines(diary: &Diary) -> impl Iterator<Item = &str> {
    diary.records().chain(diary.apart()).map(Record::line)
}

fn shown(id: &RecordId) -> String {
    format!("{} {}", id.device.as_str(), id.seq)
}
