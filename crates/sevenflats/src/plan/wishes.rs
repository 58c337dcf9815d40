//! From what was said on the command line to what the planner wants.

use harp::{Harp, HarpKind, StringName};
use pedals::{
    Broken, Demand, Feet, LeverWeights, LeverWishes, Pin, Spelling, Weights, Wishes, pins_at,
};

use super::arguments::{AllowWord, BrokenArguments, OctavesWord, PlanArguments, SpellingWord};
use crate::trouble::Trouble;

/// Refuses what this harp does not have, before any score is read.
pub(crate) fn check(arguments: &PlanArguments, harp: &Harp) -> Result<(), Trouble> {
    let named = arguments.broken.missing.iter();
    let named = named.chain(arguments.broken.dead.iter().map(|(string, _)| string));
    for &string in named {
        if harp.string(string).is_none() {
            return Err(no_such_string(harp, string));
        }
    }
    let refuse = |words: &'static str| Err(Trouble::NotForThisHarp(words));
    match harp.kind() {
        HarpKind::Free => refuse("--harp: this instrument has neither pedals nor levers to plan"),
        HarpKind::Pedal if !arguments.open.is_empty() => {
            refuse("--open is for lever harps: a pedal harp stands open in C flat")
        }
        HarpKind::Lever if of_pedals_only(arguments) => {
            refuse("--stuck, --dead, --pin, --opening, --allow and --retune are for pedal harps")
        }
        _ => Ok(()),
    }
}

fn of_pedals_only(arguments: &PlanArguments) -> bool {
    !arguments.broken.stuck.is_empty()
        || !arguments.broken.dead.is_empty()
        || !arguments.pin.is_empty()
        || !arguments.allow.is_empty()
        || arguments.opening.is_some()
        || arguments.retune.is_some()
}

pub(crate) fn no_such_string(harp: &Harp, string: StringName) -> Trouble {
    let names = || harp.strings().iter().map(|string| string.name);
    Trouble::Missing {
        string,
        lowest: names().next().unwrap_or(string),
        highest: names().next_back().unwrap_or(string),
    }
}

/// What is wished of a pedal harp.
pub(crate) fn for_pedals(
    arguments: &PlanArguments,
    demand: &Demand,
    weights: Weights,
) -> Result<Wishes, Trouble> {
    let mut wishes = if arguments.fewest {
        Wishes::fewest(demand)
    } else {
        Wishes {
            weights,
            ..Wishes::comfortable()
        }
    };
    wishes.feet = Feet {
        crossing: arguments.allow.contains(&AllowWord::Cross),
        together: arguments.allow.contains(&AllowWord::Two),
        ..Feet::with_least_time((arguments.tau * 1e6).round() as u64)
    };
    wishes.spelling = match arguments.spelling {
        SpellingWord::Free => Spelling::Free,
        SpellingWord::Written => Spelling::Written,
    };
    wishes.any_octave = arguments.octaves == OctavesWord::Ignore;
    wishes.opening = arguments.opening.unwrap_or_default();
    wishes.retune_rest_us = arguments.retune.map(|seconds| (seconds * 1e6) as u64);
    wishes.broken = broken(&arguments.broken);
    wishes.pins = pins(arguments, demand)?;
    Ok(wishes)
}

/// What is broken, as the planner takes it.
pub(crate) fn broken(arguments: &BrokenArguments) -> Broken {
    Broken {
        stuck: arguments.stuck.clone(),
        dead_discs: arguments.dead.clone(),
        missing: arguments.missing.clone(),
    }
}

/// A pin holds at every playing of its place, from the first note at or after it.
fn pins(arguments: &PlanArguments, demand: &Demand) -> Result<Vec<Pin>, Trouble> {
    let mut pins = Vec::new();
    for word in &arguments.pin {
        let there = pins_at(demand, word.measure, word.beat, word.pedal, word.to);
        if there.is_empty() {
            return Err(Trouble::NoSuchPlace {
                measure: word.measure,
                beat: word.beat.to_string(),
            });
        }
        pins.extend(there);
    }
    Ok(pins)
}

/// What is wished of a lever harp, and the harp without the strings that are missing.
pub(crate) fn for_levers(
    arguments: &PlanArguments,
    harp: &Harp,
    weights: LeverWeights,
) -> Result<(Harp, LeverWishes), Trouble> {
    let usual = LeverWishes::default();
    let wishes = LeverWishes {
        open: match arguments.open.as_slice() {
            [] => usual.open,
            allowed => allowed.to_vec(),
        },
        weights: if arguments.fewest {
            fewest(weights)
        } else {
            weights
        },
        hands: arguments.tau > 0.0,
        ..usual
    };
    for &open in &wishes.open {
        harp.clone().with_open(open)?;
    }
    let without = harp.without(&arguments.broken.missing)?;
    Ok((without, wishes))
}

/// Fewest notes lost, then fewest flips, then fewest respellings.
fn fewest(weights: LeverWeights) -> LeverWeights {
    LeverWeights {
        lost: weights.lost.max(1 << 20),
        respelled: 1,
        flip: 1 << 10,
        right_hand: 0,
        before: 0,
    }
}
