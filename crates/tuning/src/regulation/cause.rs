//! Whose the fault is: the pedal's, one disc's, or the string's own.

use std::collections::BTreeMap;

use harp::{Harp, Mechanism};
use pitch::Letter;

use super::judged::{Bounds, Weight};
use super::{Regulated, Step, StepSize};
use crate::median::median;

/// A pedal is named only where so many strings of its letter were read,
const LEAST: usize = 3;
/// and so great a part of them is out the same way.
const MOST: f64 = 2.0 / 3.0;
/// A step so short is none at all.
const NO_STEP_CENTS: f64 = -65.0;

/// Whose the fault of a step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Most strings of the letter are out the same way: the pedal, its rod or its felt.
    Pedal,
    /// This disc alone.
    Disc,
    /// This lever.
    Lever,
    /// The string moves of itself by as much: nothing is said of the mechanism.
    Own,
    /// There is no step on most strings of the letter: was the pedal moved?
    PedalNotMoved,
    /// There is no step on this string alone: its disc or lever does not reach it, or was not moved.
    NoStep,
}

impl Cause {
    /// The words used on screens and in JSON.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Pedal => "pedal",
            Self::Disc => "disc",
            Self::Lever => "lever",
            Self::Own => "string itself",
            Self::PedalNotMoved => "pedal not moved?",
            Self::NoStep => "no step",
        }
    }
}

/// What was found at a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// How much it weighs.
    pub weight: Weight,
    /// Whose it is; `None` where there is no fault, or none that can be told.
    pub cause: Option<Cause>,
}

/// A letter's step over all its strings.
struct Together {
    middle_cents: f64,
    up: bool,
    no_step: bool,
}

/// Writes down, for every string that is judged, what was found at its steps.
pub(super) fn find(harp: &Harp, all: &mut [Regulated], bounds: &Bounds) {
    let mut letters: BTreeMap<(Letter, Step), Option<Together>> = BTreeMap::new();
    for letter in Letter::ALL {
        for step in Step::ALL {
            letters.insert((letter, step), together(harp, all, letter, step, bounds));
        }
    }
    for one in all.iter_mut().filter(|one| !one.new) {
        let mechanism = harp.string(one.string).map(|string| string.mechanism);
        for step in Step::ALL {
            let Some(size) = one.step(step) else {
                continue;
            };
            let with = letters.get(&(one.string.letter, step));
            let with = with.and_then(Option::as_ref);
            let found = found(one, size, with, mechanism, bounds);
            one.found.insert(step, found);
        }
    }
}

fn found(
    one: &Regulated,
    size: &StepSize,
    with: Option<&Together>,
    mechanism: Option<Mechanism>,
    bounds: &Bounds,
) -> Found {
    let weight = bounds.weigh(size);
    let alone = if mechanism == Some(Mechanism::Lever) {
        Cause::Lever
    } else {
        Cause::Disc
    };
    let is_out = matches!(weight, Weight::Report | Weight::Urgent);
    let same = with.filter(|with| with.up == (size.error_cents > 0.0));
    let beside = same.map(|with| size.error_cents - with.middle_cents);
    let is_beside = beside.is_some_and(|left| left.abs() - size.u95_cents > bounds.report_cents);
    let cause = if size.error_cents < NO_STEP_CENTS {
        let not_moved = with.is_some_and(|with| with.no_step);
        Some(if not_moved {
            Cause::PedalNotMoved
        } else {
            Cause::NoStep
        })
    } else if is_out && same.is_some() && !is_beside {
        Some(Cause::Pedal)
    } else if is_out {
        Some(alone)
    } else {
        let moves = one.own_cents.is_some_and(|own| own > bounds.report_cents);
        (weight == Weight::CannotSay && moves).then_some(Cause::Own)
    };
    Found { weight, cause }
}

/// How the strings of a letter are out together, if they are: levers each stand alone.
fn together(
    harp: &Harp,
    all: &[Regulated],
    letter: Letter,
    step: Step,
    bounds: &Bounds,
) -> Option<Together> {
    let has_discs = |one: &&Regulated| {
        harp.string(one.string)
            .is_some_and(|string| string.mechanism == Mechanism::Discs)
    };
    let steps: Vec<&StepSize> = all
        .iter()
        .filter(|one| one.string.letter == letter && !one.new)
        .filter(has_discs)
        .filter_map(|one| one.step(step))
        .collect();
    if steps.len() < LEAST {
        return None;
    }
    let errors: Vec<f64> = steps.iter().map(|step| step.error_cents).collect();
    let middle_cents = median(&errors)?;
    let up = middle_cents > 0.0;
    let is_out = |step: &&&StepSize| {
        let error = step.error_cents;
        (error > 0.0) == up && error.abs() > bounds.good_cents && error.abs() > step.u95_cents
    };
    let out = steps.iter().filter(is_out).count();
    (out as f64 >= MOST * steps.len() as f64).then_some(Together {
        middle_cents,
        up,
        no_step: middle_cents < NO_STEP_CENTS,
    })
}

impl Regulated {
    /// A step of the string, if it was read.
    pub fn step(&self, step: Step) -> Option<&StepSize> {
        match step {
            Step::Natural => self.natural.as_ref(),
            Step::Sharp => self.sharp.as_ref(),
        }
    }

    /// What weighs most in what was found, with its step; `None` where the string is not judged.
    pub fn worst(&self) -> Option<(Step, Found)> {
        let judged = self.found.iter().map(|(&step, &found)| (step, found));
        judged.max_by_key(|(step, found)| (found.weight, std::cmp::Reverse(*step)))
    }
}
