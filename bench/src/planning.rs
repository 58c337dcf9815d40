//! How long a plan takes: from the bytes of a score to its pedals, and again after she has chosen one.

use std::hint::black_box;

use harp::Harp;
use pedals::{Demand, Pin, Plan, Planner, Wishes, plan};
use pitch::{Alteration, Letter};
use score::{Options, read};

use crate::cpu_clock::CpuClock;
use crate::made_score::made_score;
use crate::speed::{Load, RUNS, load};
use crate::trouble::Trouble;

/// The scores: name, written bars, whether with repeats, and milliseconds that reading and planning may take.
const SCORES: [(&str, usize, bool, f64); 2] = [
    ("300 bars", 300, false, 150.0),
    ("1000 bars with repeats", 1000, true, 500.0),
];

/// One score as it was planned, feet at 0.4 s.
#[derive(Clone, Debug, PartialEq)]
pub struct Planning {
    /// Which score.
    pub name: &'static str,
    /// By which prices: 'comfortable' or 'fewest'.
    pub preset: &'static str,
    /// Milliseconds that reading and planning may take.
    pub limit_ms: f64,
    /// Seconds on the processor of reading and planning together.
    pub all_s: Load,
    /// Of these, planning.
    pub plan_s: Load,
    /// Seconds on the processor of planning again after one chosen pedal; one choice a run, each elsewhere.
    pub again_s: Load,
    /// Pedals moved.
    pub moves: usize,
    /// Whether the plan is proven the cheapest.
    pub optimal: bool,
    /// By how much it could cost less at most.
    pub gap: u64,
    /// Whether each plan made again is proven the cheapest.
    pub again_optimal: bool,
}

/// Times reading and planning on every score, by both presets.
///
/// # Errors
/// A score that is not read.
pub fn measure() -> Result<Vec<Planning>, Trouble> {
    let mut plannings = Vec::new();
    for (name, bars, repeats, limit_ms) in SCORES {
        for preset in ["comfortable", "fewest"] {
            let text = made_score(bars, repeats);
            plannings.push(timed(name, preset, limit_ms, &text)?);
        }
    }
    Ok(plannings)
}

fn timed(
    name: &'static str,
    preset: &'static str,
    limit_ms: f64,
    text: &str,
) -> Result<Planning, Trouble> {
    let harp = Harp::named("pedal47")?;
    let (mut all, mut planning, mut again) = (Vec::new(), Vec::new(), Vec::new());
    let mut known = None;
    for _ in 0..RUNS {
        let clock = CpuClock::start();
        let piece = read(text.as_bytes(), &Options::default())?;
        let demand = Demand::of_score(&piece, &piece.order);
        let wishes = wishes(preset, &demand);
        let read_s = clock.seconds();
        let plan = black_box(plan(&demand, &harp, &wishes));
        let all_s = clock.seconds();
        all.push(all_s);
        planning.push(all_s - read_s);
        known = Some((demand, wishes, plan));
    }
    let mut again_optimal = true;
    if let Some((demand, wishes, first)) = &known {
        let mut planner = Planner::new(demand.clone(), harp, wishes.clone());
        for run in 0..RUNS {
            let moment = (run + 1) * demand.moments.len() / (RUNS + 1);
            let pin = chosen(first, moment);
            let clock = CpuClock::start();
            let plan = black_box(planner.choose(pin.as_slice()));
            again.push(clock.seconds());
            again_optimal &= plan.optimal;
        }
    }
    let plan = known.map(|(_, _, plan)| plan);
    Ok(Planning {
        name,
        preset,
        limit_ms,
        all_s: load(&all),
        plan_s: load(&planning),
        again_s: load(&again),
        moves: plan.as_ref().map_or(0, |plan| plan.changes.len()),
        optimal: plan.as_ref().is_some_and(|plan| plan.optimal),
        gap: plan.map_or(0, |plan| plan.gap),
        again_optimal,
    })
}

fn wishes(preset: &str, demand: &Demand) -> Wishes {
    match preset {
        "fewest" => Wishes::fewest(demand),
        _ => Wishes::comfortable(),
    }
}

/// A pedal at another place than the plan has it: F, up if it is not up there, else in the middle.
fn chosen(plan: &Plan, moment: usize) -> Option<Pin> {
    let stands = plan.settings.get(moment)?.get(Letter::F)?;
    let alteration = match stands {
        Alteration::Flat => Alteration::Natural,
        Alteration::Natural | Alteration::Sharp => Alteration::Flat,
    };
    Some(Pin {
        moment,
        letter: Letter::F,
        alteration,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_piece_is_timed_and_planned_exactly() {
        let planning = timed("40 bars", "comfortable", 150.0, &made_score(40, false)).unwrap();
        assert!(planning.optimal && planning.again_optimal && planning.moves > 0);
        assert!(planning.plan_s.median > 0.0 && planning.plan_s.median < planning.all_s.median);
        assert!(planning.again_s.median < 5.0);
    }

    #[test]
    fn what_she_chooses_is_another_place() {
        let harp = Harp::named("pedal47").unwrap();
        let piece = read(made_score(8, false).as_bytes(), &Options::default()).unwrap();
        let demand = Demand::of_score(&piece, &piece.order);
        let plan = plan(&demand, &harp, &Wishes::comfortable());
        let pin = chosen(&plan, 3).unwrap();
        assert_ne!(plan.settings[3].get(pin.letter), Some(pin.alteration));
        assert_eq!(chosen(&plan, demand.moments.len()), None);
    }
}
