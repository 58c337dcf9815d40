//! What the page Strings asks: what is known of each string, what it needs, and the records that are written there.

mod ahead;
mod ask;
mod moved;
mod plot;
mod record;
mod shown_harp;
mod steps;

use std::collections::BTreeSet;

use diary::{Diary, Ends, HarpKnown, Known, Record, RecordId};
use harp::Harp;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

pub use ahead::{AheadAsk, AheadView, StringAheadShown};
pub use ask::{HerInterval, HerIntervals, StringsAsk, UseChoice};
pub use moved::{MovedAsk, MovedView, StringMoved};
pub use plot::{AirShown, MonthShown, PlotView, PointShown};
pub use record::{SparesWritten, StringPlace, StringWritten, string_line};
pub use shown_harp::{HarpView, IntervalShown, OrderShown, SpareShown, StringView, VisitShown};
pub use steps::StepView;

use ask::Asked;

/// The diary as far as it says what is known, read once and asked often.
#[wasm_bindgen]
#[derive(Default)]
pub struct KeptStrings {
    ends: Ends,
    diary: Diary,
    pub(crate) known: Known,
    not_read: usize,
}

#[wasm_bindgen]
impl KeptStrings {
    /// Nothing is read yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> KeptStrings {
        KeptStrings::default()
    }

    /// Takes in some lines, in the order of an export; the events of rounds that are over are let go.
    pub fn take(&mut self, lines: &str) {
        let mut not_read = 0;
        self.ends.push(records(lines, &mut not_read));
        self.not_read += not_read;
    }

    /// All lines were taken in. Whether that is enough: else each is to be given once more, to `add`.
    pub fn all_taken(&mut self) -> bool {
        match std::mem::take(&mut self.ends).finish() {
            Ok(diary) => {
                self.diary = diary;
                self.known = self.diary.known();
                true
            }
            Err(_) => {
                self.not_read = 0;
                false
            }
        }
    }

    /// Takes in lines, every one of them; then `know` is to be asked for.
    pub fn add(&mut self, lines: &str) {
        let mut not_read = 0;
        self.diary.merge(records(lines, &mut not_read));
        self.not_read += not_read;
    }

    /// Takes in lines that were written behind those that were taken. False where that is not enough, because a round that
    /// was over goes on and its events were let go: then all are to be read again, into another of these.
    pub fn add_behind(&mut self, lines: &str) -> bool {
        let mut not_read = 0;
        let new: Vec<Record> = records(lines, &mut not_read).collect();
        let events = new.iter().filter(|record| record.kind() == "round_events");
        let rounds: BTreeSet<&RecordId> = events.filter_map(Record::round).collect();
        let ends = |own: &Record| {
            own.kind() == "round_over" && own.round().is_some_and(|r| rounds.contains(r))
        };
        if !rounds.is_empty() && self.diary.records().any(ends) {
            return false;
        }
        self.not_read += not_read;
        self.diary.merge(new);
        true
    }

    /// Goes through all records again.
    pub fn know(&mut self) {
        self.known = self.diary.known();
    }

    /// The harps that the diary knows, by name.
    pub fn harps(&self) -> Vec<String> {
        let harps = self.known.harps.iter();
        harps.map(|harp| harp.harp.clone()).collect()
    }

    /// Lines that could not be read.
    pub fn not_read(&self) -> usize {
        self.not_read
    }

    /// The harp's strings and what each needs.
    pub fn harp(&self, ask: Ts<StringsAsk>) -> Result<Ts<HarpView>, JsError> {
        let view = HarpView::of(&self.asked(&ask.to_rust()?)?);
        Ok(view.into_ts()?)
    }

    /// One string's past, for a plot and a table.
    pub fn plot(&self, string: &str, ask: Ts<StringsAsk>) -> Result<Ts<PlotView>, JsError> {
        let view = PlotView::of(&self.asked(&ask.to_rust()?)?, string.parse()?);
        Ok(view.into_ts()?)
    }

    /// Where the harp's strings will stand, with a picture.
    pub fn ahead(
        &self,
        ahead: Ts<AheadAsk>,
        ask: Ts<StringsAsk>,
    ) -> Result<Ts<AheadView>, JsError> {
        let asked = self.asked(&ask.to_rust()?)?;
        Ok(AheadView::of(&asked, &ahead.to_rust()?)?.into_ts()?)
    }

    /// What moving the whole harp to another pitch asks for.
    pub fn moved(
        &self,
        moved: Ts<MovedAsk>,
        ask: Ts<StringsAsk>,
    ) -> Result<Ts<MovedView>, JsError> {
        let asked = self.asked(&ask.to_rust()?)?;
        Ok(MovedView::of(&asked, &moved.to_rust()?)?.into_ts()?)
    }

    /// How far the harp's strings moved by themselves, month by month.
    pub fn months(&self, ask: Ts<StringsAsk>) -> Result<Vec<Ts<MonthShown>>, JsError> {
        let asked = self.asked(&ask.to_rust()?)?;
        let months = keep::months(&asked.harp, &asked.own).into_iter();
        months.map(|m| Ok(MonthShown::from(m).into_ts()?)).collect()
    }

    /// The steps by which a string is put on.
    pub fn steps(&self, string: &str, ask: Ts<StringsAsk>) -> Result<Vec<Ts<StepView>>, JsError> {
        let asked = self.asked(&ask.to_rust()?)?;
        let string = asked.harp.string(string.parse()?);
        let steps = string
            .map(|s| steps::of(s, &asked.voice))
            .unwrap_or_default();
        steps.into_iter().map(|s| Ok(s.into_ts()?)).collect()
    }

    /// Whether the diary has no file of this harp yet: it is written before anything else of it.
    pub fn is_new(&self, harp: &str) -> bool {
        self.known.harp(harp).is_none_or(|own| own.toml.is_none())
    }

    fn asked(&self, ask: &StringsAsk) -> Result<Asked<'_>, JsError> {
        Ok(Asked::of(ask, &self.known)?)
    }
}

fn records<'a>(lines: &'a str, not_read: &'a mut usize) -> impl Iterator<Item = Record> + 'a {
    let lines = lines.lines().filter(|line| !line.trim().is_empty());
    lines.filter_map(move |line| {
        let record = Record::parse_again(line);
        *not_read += usize::from(record.is_err());
        record.ok()
    })
}

/// A harp of which nothing was written.
pub(crate) fn nothing_known(name: &str, harp: &Harp) -> HarpKnown {
    HarpKnown {
        harp: name.to_owned(),
        toml: None,
        strings: harp
            .strings()
            .iter()
            .map(|s| (s.name, Default::default()))
            .collect(),
        pedals: Vec::new(),
        checks: Vec::new(),
        visits: Vec::new(),
        a4_hz: None,
        rounds: 0,
    }
}
