//! A student's file, opened beside the diary and never in it: read line by line, reckoned with, forgotten.

mod told;

use std::collections::{BTreeMap, BTreeSet};

use diary::{Device, Diary, LineSum};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

pub use told::{
    EarWeekTold, GuessesTold, HarpTold, MiddleTold, QuestionsTold, ShareTold, StudentView,
    WeekTold, WorstTold,
};

use crate::shelf::BadLine;
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// Most bad lines that are named.
const NAMED: usize = 40;
/// Most harps that are told of, those with the most weeks.
const HARPS: usize = 12;

/// A file as far as it was read. What happened within rounds is looked at and let go.
#[wasm_bindgen]
#[derive(Default)]
pub struct StudentFile {
    diary: Diary,
    lines: usize,
    events: usize,
    apart: usize,
    bad: usize,
    troubles: Vec<BadLine>,
    newer: BTreeMap<String, usize>,
    devices: BTreeSet<Device>,
    sum: LineSum,
}

#[wasm_bindgen]
impl StudentFile {
    /// Nothing is read yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> StudentFile {
        StudentFile::default()
    }

    /// Takes in whole lines, in UTF-8, in the order of the file.
    pub fn take(&mut self, lines: &[u8]) {
        let (records, troubles) = diary::records_of(lines);
        self.bad += troubles.len();
        let room = NAMED.saturating_sub(self.troubles.len());
        let named = troubles.into_iter().take(room).map(|trouble| BadLine {
            line: self.lines + trouble.line,
            why: trouble.error.to_string(),
        });
        self.troubles.extend(named);
        self.lines += lines.iter().filter(|byte| **byte == b'\n').count();
        for record in records {
            self.sum = self.sum.and(LineSum::of(record.line()));
            self.devices.insert(record.id().device.clone());
            if record.is_unknown() {
                *self.newer.entry(record.kind().to_owned()).or_default() += 1;
            } else if record.kind() == "round_events" {
                self.events += 1;
            } else {
                self.apart += self.diary.merge([record]).conflicts.len();
            }
        }
    }

    /// Records that were read.
    pub fn records(&self) -> usize {
        self.diary.records().count() + self.events + self.newer.values().sum::<usize>()
    }

    /// Lines that are no records.
    pub fn bad(&self) -> usize {
        self.bad
    }

    /// The same for two files exactly if they hold the same records, whatever the files are called.
    pub fn mark(&self) -> String {
        format!("{}-{}", self.records(), self.sum)
    }

    /// What it says, by weeks of a clock so many minutes ahead of UTC.
    pub fn view(&self, ahead_min: i32, shown: Ts<ShownChoice>) -> Result<Ts<StudentView>, JsError> {
        let shown = shown.to_rust()?;
        Ok(self.told(ahead_min, &shown).into_ts()?)
    }
}

impl StudentFile {
    fn told(&self, ahead_min: i32, shown: &ShownChoice) -> StudentView {
        let voice = Voice::of(shown);
        let progress = keep::progress(&self.diary, ahead_min);
        let mut harps = progress.harps;
        harps.retain(|harp| !harp.weeks.is_empty() || harp.toml.is_some());
        let more_harps = harps.len().saturating_sub(HARPS);
        if more_harps > 0 {
            harps.sort_by_key(|harp| std::cmp::Reverse(harp.weeks.len()));
            harps.truncate(HARPS);
        }
        let moment = |moment: diary::Moment| moment.to_string();
        StudentView {
            records: self.records(),
            devices: self.devices.len(),
            not_understood: self.newer.values().sum(),
            newer_kinds: self.newer.keys().take(NAMED).cloned().collect(),
            apart: self.apart,
            bad: self.bad,
            troubles: self.troubles.clone(),
            from_to: progress.from_to.map(|(a, b)| (moment(a), moment(b))),
            harps: harps
                .into_iter()
                .map(|harp| HarpTold::of(harp, voice))
                .collect(),
            more_harps,
            ear: progress.ear.iter().rev().map(EarWeekTold::of).collect(),
            questions: (progress.questions.iter()).map(QuestionsTold::of).collect(),
            counted: progress.counted.map(MiddleTold::of),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PRACTICE: &str = r#"{"device":"a","seq":2,"at":"2026-11-26T18:40:00Z","kind":"practice","v":1,"body":{"harp":null,"took_s":60,"by_ear":[],"sizes":[],"asked":[{"about":"pin","right":true}],"counted":[]}}"#;
    const NEWER: &str =
        r#"{"device":"b","seq":1,"at":"2026-11-26T18:40:00Z","kind":"practice","v":9,"body":{}}"#;

    fn told(pieces: &[&[u8]]) -> StudentView {
        let mut file = StudentFile::new();
        pieces.iter().for_each(|piece| file.take(piece));
        file.told(0, &ShownChoice::default())
    }

    #[test]
    fn what_can_be_read_is_told_and_the_rest_is_named() {
        let first = format!("\u{feff}{PRACTICE}\nnot a record\n");
        let second = format!("\n{NEWER}\r\n{}", &PRACTICE[..40]);
        let view = told(&[first.as_bytes(), second.as_bytes()]);
        assert_eq!((view.records, view.devices), (2, 2));
        assert_eq!(
            (view.not_understood, view.newer_kinds),
            (1, vec!["practice".to_owned()])
        );
        let lines: Vec<usize> = view.troubles.iter().map(|bad| bad.line).collect();
        assert_eq!((lines, view.bad), (vec![2, 5], 2));
        assert!(
            view.troubles[1].why.contains("cut off"),
            "{:?}",
            view.troubles
        );
        assert_eq!(view.harps.len(), 1);
        assert_eq!(view.harps[0].weeks[0].practised_min, 1.0);
        assert_eq!(view.questions[0].right.count, 1);
    }

    #[test]
    fn two_files_of_the_same_records_are_told_by_their_mark() {
        let mark = |text: &str| {
            let mut file = StudentFile::new();
            file.take(text.as_bytes());
            file.mark()
        };
        let both = format!("{PRACTICE}\n{NEWER}\n");
        let turned = format!("{NEWER}\n\n{PRACTICE}");
        assert_eq!(mark(&both), mark(&turned));
        assert_ne!(mark(&both), mark(PRACTICE));
        assert_ne!(mark(PRACTICE), mark(&PRACTICE.replace("60", "61")));
        assert_eq!(mark(""), mark("nothing of ours"), "no record in either");
    }

    // bytes changed, taken out and doubled at any place: whatever comes, something is told
    #[test]
    fn no_bytes_stop_it() {
        let whole = format!("{PRACTICE}\n{NEWER}\n").into_bytes();
        let mut state = 5u64;
        let mut below = move |end: usize| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) as usize % end
        };
        for _ in 0..3000 {
            let mut bytes = whole.clone();
            for _ in 0..=below(4) {
                let at = below(bytes.len());
                match below(3) {
                    0 => bytes[at] = below(256) as u8,
                    1 => bytes.truncate(at.max(1)),
                    _ => bytes.extend_from_within(at..),
                }
            }
            let cut = below(bytes.len());
            let view = told(&[&bytes[..cut], &bytes[cut..]]);
            assert!(view.troubles.len() <= view.bad.min(NAMED));
            assert!(view.harps.len() <= HARPS);
        }
    }
}
