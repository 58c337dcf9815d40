//! Scores and plans for the page: a score read, planned as it is wished, told, asked about, and cut for the engraver.

mod ask;
pub mod doubt;
pub mod evening;
pub mod kept;
pub mod levers;
pub mod line;
pub mod paper;
pub mod planned;
pub mod played;
pub mod remark;
pub mod why;
pub mod wishes;

use std::collections::BTreeMap;

use harp::Harp;
use pedals::{Demand, LeftOut, Plan, Wishes, within_reach};
use score::{Excerpts, Options, Piece, WhichPart};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use crate::harp_choice::HarpChoice;
use crate::shown_choice::ShownChoice;
use ask::{Asked, Ready};
use doubt::DoubtLine;
use levers::{LeverAnswer, lever_answer};
use line::ScoreLine;
use planned::PlanAnswer;
use played::ReadyLevers;
use wishes::PlanWishes;

/// A score that was read, and its plan.
#[wasm_bindgen]
pub struct Score {
    pub(crate) piece: Piece,
    pub(crate) demand: Demand,
    left_out: Option<LeftOut>,
    rehearsals: BTreeMap<u32, String>,
    excerpts: Option<Excerpts>,
    pub(crate) ready: Option<Ready>,
    pub(crate) ready_levers: Option<ReadyLevers>,
}

#[wasm_bindgen]
impl Score {
    /// Reads a score's bytes: the part that is named, else the harp's; `repeats` as they are played.
    pub fn read(bytes: &[u8], part: Option<String>, repeats: bool) -> Result<Score, JsError> {
        let options = Options {
            part: part.map_or(WhichPart::Harp, WhichPart::Named),
            ..Options::default()
        };
        let piece = score::read(bytes, &options)?;
        let reach = within_reach(&piece, repeats);
        Ok(Score {
            rehearsals: piece.rehearsals(),
            excerpts: Excerpts::of(bytes, &piece).ok(),
            demand: reach.demand,
            left_out: reach.left_out,
            ready: None,
            ready_levers: None,
            piece,
        })
    }

    /// What was read.
    pub fn told(&self) -> Result<Ts<ScoreLine>, JsError> {
        let chosen = |part: usize| self.piece.chosen.contains(&part);
        let parts = self.piece.parts.iter().enumerate();
        let last_us = self.demand.moments.last().map_or(0, |moment| moment.at_us);
        let diagnostics = self.piece.diagnostics.iter();
        let diagnostics = diagnostics.map(|found| DoubtLine::of(&self.piece, found));
        let left_out = self.left_out.iter().map(DoubtLine::left_out);
        let line = ScoreLine {
            title: self.piece.title.clone(),
            composer: self.piece.composer.clone(),
            parts: parts
                .map(|(place, part)| line::PartLine {
                    id: part.id.clone(),
                    name: part.label().to_owned(),
                    is_harp: part.is_harp,
                    chosen: chosen(place),
                })
                .collect(),
            bars: self
                .piece
                .measures
                .iter()
                .map(|measure| line::BarLine {
                    measure: measure.index,
                    bar: measure.number.clone(),
                    mark: self.rehearsals.get(&measure.index).cloned(),
                })
                .collect(),
            seconds: last_us as f64 / 1e6,
            diagnostics: diagnostics.chain(left_out).collect(),
            engraved: self.excerpts.is_some(),
        };
        Ok(line.into_ts()?)
    }

    /// Plans it for a pedal harp.
    pub fn plan(
        &mut self,
        harp: Ts<HarpChoice>,
        wishes: Ts<PlanWishes>,
        shown: Ts<ShownChoice>,
    ) -> Result<Ts<PlanAnswer>, JsError> {
        let (harp, naming) = (harp.to_rust()?.harp()?, shown.to_rust()?.naming());
        let asked = Asked::of(&wishes.to_rust()?, &self.demand)?;
        let plan = self.planned(&harp, &asked.wishes);
        let ready = Ready { harp, asked, plan };
        let answer = planned::answer(self, &ready, naming);
        self.ready = Some(ready);
        self.mark();
        Ok(answer.into_ts()?)
    }

    /// Plans it for a lever harp.
    pub fn plan_levers(
        &mut self,
        harp: Ts<HarpChoice>,
        wishes: Ts<PlanWishes>,
        shown: Ts<ShownChoice>,
    ) -> Result<Ts<LeverAnswer>, JsError> {
        let (choice, naming) = (harp.to_rust()?, shown.to_rust()?.naming());
        self.ready = None;
        let (answer, ready) = lever_answer(self, &choice, &wishes.to_rust()?, naming)?;
        self.ready_levers = Some(ready);
        Ok(answer.into_ts()?)
    }

    /// The fastest tempo for the feet, as a factor; none where they are no limit, or where the work ran out.
    pub fn fastest_tempo_factor(&self) -> Option<f64> {
        let ready = self.ready.as_ref()?;
        let wishes = &ready.asked.wishes;
        let asks = wishes.feet.one_notch_us > 0 && ready.plan.work <= wishes.work_limit;
        let fastest = asks.then(|| pedals::fastest_tempo(&self.demand, &ready.harp, wishes));
        fastest
            .flatten()
            .map(|hundredths| f64::from(hundredths) / 100.0)
    }

    /// Some measures, counted from 0, with the plan pencilled in, as MusicXML for an engraver; nothing where the score
    /// cannot be engraved.
    pub fn music(&self, from: usize, until: usize) -> Option<String> {
        let excerpts = self.excerpts.as_ref()?;
        Some(excerpts.music(from..until))
    }
}

impl Score {
    /// As the command plans it.
    pub(crate) fn planned(&self, harp: &Harp, wishes: &Wishes) -> Plan {
        let mut plan = pedals::plan(&self.demand, harp, wishes);
        pedals::stand_as_in_the_key(&self.piece, &self.demand, wishes, &mut plan);
        plan
    }

    /// The number printed at a written measure.
    pub(crate) fn bar(&self, measure: u32) -> String {
        self.piece.bar(measure)
    }

    /// The rehearsal mark at a written measure.
    pub(crate) fn rehearsal(&self, measure: u32) -> Option<String> {
        self.rehearsals.get(&measure).cloned()
    }

    /// Pencils the plan in; where a bar takes no mark, none stands in the engraving, and all of them in the list.
    fn mark(&mut self) {
        let (Some(excerpts), Some(ready)) = (&mut self.excerpts, &self.ready) else {
            return;
        };
        let pencilled = planned::pencilled(&self.piece, &self.demand, &ready.plan);
        let marks: Vec<score::NewMark> = pencilled.into_iter().map(|one| one.mark).collect();
        let marked = excerpts.mark(&self.piece, &marks);
        if marked.is_err() {
            let _ = excerpts.mark(&self.piece, &[]);
        }
    }
}
