//! What something broken costs tonight, piece by piece.

use pitch::Alteration;

use super::Known;
use crate::{Broken, Demand, LeverPlan, PaperBar, Stretch, played_measures, surviving_measures};

/// What is lost of a piece.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lost {
    /// Note heads that do not sound, repeats counted; `None` where the notes are not known.
    pub notes: Option<u32>,
    /// Bars as they are played, written measure and pass.
    pub measures: u32,
    /// Those that do not survive whole: written measure and pass.
    pub broken_measures: Vec<(u32, u32)>,
    /// Of a part on paper: what is broken, and from where to where it is wanted otherwise.
    pub stretches: Vec<(BrokenPart, Stretch)>,
}

/// Which of the broken things touches a part on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BrokenPart {
    /// A stuck pedal, and where it is stuck.
    Pedal(pitch::Letter, Alteration),
    /// A disc that fails, its string and its alteration.
    Disc(harp::StringName, Alteration),
    /// A string that is missing and that she calls exposed, or tunes by key.
    String(harp::StringName),
}

/// What is lost of a piece that was planned with what is broken; of one on paper, where it is touched.
pub fn lost_tonight(known: Known<'_>, broken: &Broken) -> Lost {
    match known {
        Known::Pedals(demand, plan) => {
            let survive = surviving_measures(demand, plan);
            of_plan(demand, plan.cannot.len(), &survive)
        }
        Known::Levers(demand, plan) => of_plan(demand, plan.cannot.len(), &whole(demand, plan)),
        Known::Paper(part) => Lost {
            stretches: on_paper(part, broken),
            ..Lost::default()
        },
        Known::Outline(_) | Known::Nothing => Lost::default(),
    }
}

fn of_plan(demand: &Demand, notes: usize, survive: &[(u32, u32)]) -> Lost {
    let played = played_measures(demand);
    Lost {
        notes: u32::try_from(notes).ok(),
        measures: u32::try_from(played.len()).unwrap_or(u32::MAX),
        broken_measures: played
            .into_iter()
            .filter(|bar| !survive.contains(bar))
            .collect(),
        stretches: Vec::new(),
    }
}

/// Measures of a lever plan in which every note sounds.
fn whole(demand: &Demand, plan: &LeverPlan) -> Vec<(u32, u32)> {
    let place = |moment: usize| {
        let there = &demand.moments[moment];
        (there.measure, there.pass)
    };
    let lost: Vec<(u32, u32)> = plan.cannot.iter().map(|head| place(head.moment)).collect();
    let mut all: Vec<(u32, u32)> = (0..demand.moments.len()).map(place).collect();
    all.dedup();
    all.retain(|bar| !lost.contains(bar));
    all
}

fn on_paper(part: &crate::PaperPart, broken: &Broken) -> Vec<(BrokenPart, Stretch)> {
    let mut touched = Vec::new();
    for &(letter, stuck) in &broken.stuck {
        let stretches = part.stretches(letter, |to| to != stuck).into_iter();
        touched.extend(stretches.map(|stretch| (BrokenPart::Pedal(letter, stuck), stretch)));
    }
    for &(string, dead) in &broken.dead_discs {
        let stretches = part.stretches(string.letter, |to| to == dead).into_iter();
        touched.extend(stretches.map(|stretch| (BrokenPart::Disc(string, dead), stretch)));
    }
    for &string in &broken.missing {
        for (at, movement) in part.movements.iter().enumerate() {
            let keyed = movement.by_key.iter().any(|&(keyed, _)| keyed == string);
            if keyed || movement.exposed.contains(&string) {
                let next = (at + 1 < part.movements.len()).then_some((at + 1, None::<PaperBar>));
                let stretch = Stretch {
                    movement: at,
                    from: None,
                    until: next,
                };
                touched.push((BrokenPart::String(string), stretch));
            }
        }
    }
    touched
}
