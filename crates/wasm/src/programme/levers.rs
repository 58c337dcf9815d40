//! The plan of a lever harp: the fields of the command's `plan --json`, and beside them what people read.

use harp::{Naming, OpenTuning};
use pedals::{Hand, LeverPlan, LeverWishes, at_passes, counted, discless};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use super::Score;
use super::line::{Bill, ItemLine, PlaceLine};
use super::planned::{CannotLine, RespelledLine, pitch_name, remedies};
use super::played::ReadyLevers;
use super::wishes::PlanWishes;
use crate::harp_choice::{ChoiceError, HarpChoice};

/// The answer for a lever harp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct LeverAnswer {
    /// The open tuning.
    pub open: String,
    /// Levers that are on before the piece.
    pub opening_levers: Vec<String>,
    /// The same as people say them.
    pub opening_names: Vec<String>,
    /// Every flip.
    pub changes: Vec<FlipLine>,
    /// Notes on another string than written.
    pub respelled: Vec<RespelledLine>,
    /// Notes that do not sound.
    pub cannot: Vec<CannotLine>,
    /// The bill.
    pub cost: Bill,
    /// Flips in all.
    pub moves: usize,
    /// Whether no plan costs less.
    pub optimal: bool,
    /// By how much one could.
    pub gap: u64,
}

/// A lever flipped.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct FlipLine {
    /// Where.
    pub place: PlaceLine,
    /// When the hand is done at its first playing, seconds.
    pub at_s: f64,
    /// `left` or `right`.
    pub hand: String,
    /// The string.
    pub string: String,
    /// `on` or `off`.
    pub to: String,
    /// The string as people say it.
    pub name: String,
}

pub(crate) fn lever_answer(
    score: &Score,
    choice: &HarpChoice,
    wishes: &PlanWishes,
    naming: Naming,
) -> Result<(LeverAnswer, ReadyLevers), ChoiceError> {
    let harp = choice.harp()?;
    let missing: Result<Vec<harp::StringName>, _> =
        wishes.missing.iter().map(|s| s.parse()).collect();
    let harp = harp.without(&missing?)?;
    let usual = LeverWishes::default();
    let open = choice.open.as_deref().and_then(OpenTuning::from_name);
    let asked = LeverWishes {
        open: open.map_or(usual.open, |open| vec![open]),
        hands: wishes.tau_s > 0.0,
        ..usual
    };
    let plan = pedals::plan_levers(&score.demand, &harp, &asked);
    let plan = plan.ok_or_else(|| ChoiceError::Open(choice.open.clone().unwrap_or_default()))?;
    let answer = Teller { score, naming }.answer(&plan);
    Ok((answer, ReadyLevers { harp, plan }))
}

struct Teller<'a> {
    score: &'a Score,
    naming: Naming,
}

impl Teller<'_> {
    fn answer(&self, plan: &LeverPlan) -> LeverAnswer {
        let strings = plan.levers.iter();
        let items = plan.cost.items();
        LeverAnswer {
            open: plan.open.as_str().to_owned(),
            opening_levers: strings.clone().map(ToString::to_string).collect(),
            opening_names: strings.map(|&s| self.naming.string(s)).collect(),
            changes: self.flips(plan),
            respelled: self.respelled(plan),
            cannot: self.cannot(plan),
            cost: Bill {
                items: items
                    .map(|(word, item)| (word.to_owned(), ItemLine::from(item)))
                    .to_vec(),
                total: plan.cost.total(),
            },
            moves: plan.flips.len(),
            optimal: plan.optimal,
            gap: plan.gap,
        }
    }

    fn at(&self, moment: usize, passes: &[u32]) -> PlaceLine {
        let there = &self.score.demand.moments[moment];
        PlaceLine {
            measure: there.measure,
            bar: self.score.bar(there.measure),
            beat: there.beat.to_string(),
            counted: counted(&self.score.piece, there.measure, there.beat),
            passes: passes.to_vec(),
        }
    }

    fn flips(&self, plan: &LeverPlan) -> Vec<FlipLine> {
        let flips = plan.flips.iter().enumerate();
        let flips =
            flips.map(|(index, flip)| (flip.moment, (index, flip.hand, flip.string, flip.on)));
        let told = at_passes::at_passes_by(&self.score.demand, flips, |one, other| {
            (one.1, one.2, one.3) == (other.1, other.2, other.3)
        });
        let lines = told.iter().map(|at| {
            let (index, hand, string, on) = at.what;
            FlipLine {
                place: self.at(at.moment, &at.passes),
                at_s: plan.flips[index].at_us as f64 / 1e6,
                hand: match hand {
                    Hand::Left => "left",
                    Hand::Right => "right",
                }
                .to_owned(),
                string: string.to_string(),
                to: if on { "on" } else { "off" }.to_owned(),
                name: self.naming.string(string),
            }
        });
        lines.collect()
    }

    fn respelled(&self, plan: &LeverPlan) -> Vec<RespelledLine> {
        let heads = plan.respelled.iter();
        let heads = heads.map(|head| (head.moment, (head.attack, head.written, head.played)));
        let told = at_passes::at_passes(&self.score.demand, heads);
        let lines = told.iter().map(|at| {
            let (_, written, played) = at.what;
            RespelledLine {
                place: self.at(at.moment, &at.passes),
                written: written.to_string(),
                played: discless::on_its_string(played),
                written_name: pitch_name(self.naming, written),
                played_name: pitch_name(self.naming, played),
            }
        });
        lines.collect()
    }

    fn cannot(&self, plan: &LeverPlan) -> Vec<CannotLine> {
        let told = at_passes::lever_cannot(&self.score.demand, &plan.cannot);
        let lines = told.iter().map(|at| CannotLine {
            place: self.at(at.moment, &at.passes),
            pitch: at.what.pitch.to_string(),
            reason: at.what.reason.as_str().to_owned(),
            remedies: remedies(self.naming, &at.what.remedies),
            name: pitch_name(self.naming, at.what.pitch),
        });
        lines.collect()
    }
}
