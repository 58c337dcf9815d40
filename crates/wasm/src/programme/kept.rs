//! A plan as the diary keeps it.

use diary::{At, Entry, PlanKept, PlanPlace, Writer};
use pedals::{PaperPart, written_marks};
use pitch::Letter;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use super::Score;
use super::ask::{Ready, broken, letter};
use super::paper::PaperAsk;
use super::wishes::Prices;
use crate::harp_choice::{ChoiceError, HarpChoice};

/// Where a plan comes from, and where its record goes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PlanRecord {
    /// The file's name.
    pub source: String,
    /// Its SHA-256, 64 hexadecimal digits.
    pub sha256: String,
    /// This device.
    pub device: String,
    /// The first place that it has not written.
    pub next: u64,
    /// Now, RFC 3339, UTC.
    pub at: String,
}

#[wasm_bindgen]
impl Score {
    /// The plan that stands as a line of the diary; nothing where there is none, or where the harp has levers.
    pub fn record(
        &self,
        of: Ts<PlanRecord>,
        harp: Ts<HarpChoice>,
    ) -> Result<Option<String>, JsError> {
        let (of, harp) = (of.to_rust()?, harp.to_rust()?);
        let Some(ready) = &self.ready else {
            return Ok(None);
        };
        let at: At = of.at.parse()?;
        let entry = Entry::Plan(self.kept(ready, &of, &harp)?);
        let line = Writer::new(&of.device, of.next)?.line(&at, &entry)?;
        Ok(Some(line))
    }
}

/// A part on paper as a line of the diary, as it was typed.
#[wasm_bindgen]
pub fn paper_record(
    of: Ts<PlanRecord>,
    ask: Ts<PaperAsk>,
    harp: Ts<HarpChoice>,
) -> Result<String, JsError> {
    let (of, ask, harp) = (of.to_rust()?, ask.to_rust()?, harp.to_rust()?);
    let at: At = of.at.parse()?;
    let entry = Entry::Plan(on_paper(&of, ask, &harp)?);
    Ok(Writer::new(&of.device, of.next)?.line(&at, &entry)?)
}

fn on_paper(of: &PlanRecord, ask: PaperAsk, harp: &HarpChoice) -> Result<PlanKept, ChoiceError> {
    let part = PaperPart::read(&ask.text).part;
    let broken = broken(&ask.stuck, &ask.missing, &ask.dead)?;
    let first = part.movements.first();
    let by_key = first.iter().flat_map(|movement| &movement.by_key);
    Ok(PlanKept {
        source: of.source.clone(),
        sha256: of.sha256.clone(),
        title: of.source.clone(),
        part: String::new(),
        harp: harp.name(),
        foot_us: 0,
        written_spelling: false,
        prices: Vec::new(),
        stuck: broken.stuck,
        missing: broken.missing,
        dead: broken.dead_discs,
        pins: Vec::new(),
        opening: part.opening(0),
        discless: by_key.map(|&(string, pitch)| (string, pitch, 1)).collect(),
        changes: Vec::new(),
        total: 0,
        optimal: false,
        paper: Some(ask.text),
    })
}

impl Score {
    fn kept(
        &self,
        ready: &Ready,
        of: &PlanRecord,
        harp: &HarpChoice,
    ) -> Result<PlanKept, ChoiceError> {
        let (wishes, said, plan) = (&ready.asked.wishes, &ready.asked.said, &ready.plan);
        let parts = self.piece.chosen.iter();
        let parts = parts.filter_map(|&part| self.piece.parts.get(part));
        let parts: Vec<&str> = parts.map(score::Part::label).collect();
        let mut pins = Vec::new();
        for pin in &said.pins {
            pins.push(place(
                pin.measure,
                &pin.beat,
                letter(&pin.pedal)?,
                pin.to.into(),
            ));
        }
        let marks = written_marks(&self.demand, plan);
        let changes = marks.iter().map(|mark| PlanPlace {
            only: if mark.only_then {
                mark.passes.clone()
            } else {
                Vec::new()
            },
            ..place(mark.measure, &mark.beat.to_string(), mark.letter, mark.to)
        });
        let tuned = pedals::tuned_and_played(&self.demand, plan).into_iter();
        let tuned = tuned.filter_map(|tuned| {
            let from = self.demand.moments.get(tuned.from_moment)?.measure;
            Some((tuned.string, tuned.pitch(), from))
        });
        Ok(PlanKept {
            source: of.source.clone(),
            sha256: of.sha256.clone(),
            title: self.piece.title.clone(),
            part: parts.join(", "),
            harp: harp.name(),
            foot_us: wishes.feet.one_notch_us,
            written_spelling: said.written_spelling,
            prices: words(wishes.weights.into()),
            stuck: wishes.broken.stuck.clone(),
            missing: wishes.broken.missing.clone(),
            dead: wishes.broken.dead_discs.clone(),
            pins,
            opening: plan.opening().unwrap_or_default(),
            discless: tuned.collect(),
            changes: changes.collect(),
            total: plan.cost.total(),
            optimal: plan.optimal,
            paper: None,
        })
    }
}

fn place(measure: u32, beat: &str, pedal: Letter, to: pitch::Alteration) -> PlanPlace {
    PlanPlace {
        measure,
        beat: beat.to_owned(),
        pedal,
        to,
        only: Vec::new(),
    }
}

/// Prices by the words that the command's file of prices has for them.
fn words(prices: Prices) -> Vec<(String, u64)> {
    let words = [
        ("lost", prices.lost),
        ("glissando", prices.glissando),
        ("respelled", prices.respelled.into()),
        ("moved", prices.moved.into()),
        ("two_notches", prices.two_notches.into()),
        ("off_beat", prices.off_beat.into()),
        ("ringing", prices.ringing.into()),
        ("crossing", prices.crossing.into()),
        ("together", prices.together.into()),
        ("mark", prices.mark.into()),
        ("retuned", prices.retuned.into()),
        ("passes_differ", prices.passes_differ.into()),
    ];
    words.map(|(word, price)| (word.to_owned(), price)).to_vec()
}
