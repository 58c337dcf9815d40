//! Some minutes before the doors open: what is left out of tune, by weight, in three orders.

use std::collections::BTreeMap;

use forecast::{in_tune, learn, next};
use harp::StringName;

use crate::draws::Draws;
use crate::harp_lived::{Lived, TOLERANCE};

/// Seconds for a string: ten minutes for a harp of 47 (`trade`: two sources say ten minutes).
const SECONDS: f64 = 12.8;

#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Order {
    /// From the middle down, then up.
    Usual,
    /// The same, strings that are not played left out.
    UsualPlayed,
    /// What the last round found farthest off, first.
    WorstFirst,
    /// As the forecast has it.
    Forecast,
}

/// How much each string is played: an invented piece about a place of the harp.
pub(crate) fn piece(names: &[StringName], draws: &mut Draws) -> BTreeMap<StringName, f64> {
    let about = draws.between(12.0, 34.0);
    let plays = |at: usize, draws: &mut Draws| {
        let far = (at as f64 - about) / 9.0;
        let often = 8.0 * (-0.5 * far * far).exp() * draws.unit().powi(2);
        if often < 0.4 { 0.0 } else { often }
    };
    let all = names.iter().enumerate();
    all.map(|(at, name)| (*name, plays(at, draws))).collect()
}

/// What is left out of tune, by weight, after so many minutes; and, for the forecast's order, whether the harp was called in
/// tune and whether it was.
pub(crate) fn left_out(
    lived: &mut Lived,
    weights: &BTreeMap<StringName, f64>,
    minutes: f64,
    order: Order,
    confidence: f64,
) -> (f64, Option<bool>) {
    let plucks = (minutes * 60.0 / SECONDS) as usize;
    let learned = learn(&lived.harp, &lived.known, &lived.air);
    let targets = lived.targets();
    let mut joint = learned.ahead(&lived.ask(&targets)).joint;
    let tolerances: BTreeMap<StringName, f64> =
        lived.names.iter().map(|n| (*n, TOLERANCE)).collect();
    let fixed = fixed_order(lived, weights, order);
    let mut plucked: Vec<StringName> = Vec::new();
    let mut called = None;
    for turn in 0..=plucks {
        let now = in_tune(&joint, weights, &tolerances, &plucked, confidence);
        if order == Order::Forecast && called.is_none() && now.confidence >= confidence {
            called = Some(is_in_tune(lived, weights));
        }
        let name = match order {
            Order::Forecast => next(&joint, weights, &tolerances, &plucked).map(|next| next.string),
            _ => fixed.get(turn).copied(),
        };
        let (Some(name), true) = (name, turn < plucks) else {
            break;
        };
        let at = lived.names.iter().position(|n| *n == name).unwrap();
        let (off, u95) = lived.strings[at].read(&mut lived.draws);
        joint.heard(name, off, u95);
        if off.abs() > TOLERANCE {
            lived.strings[at].tuned(&mut lived.draws);
            let (off, u95) = lived.strings[at].read(&mut lived.draws);
            joint.tuned(name, off, u95);
        }
        plucked.push(name);
    }
    let each = lived.names.iter().zip(&lived.strings);
    let left = each
        .filter(|(_, string)| string.off.abs() > TOLERANCE)
        .map(|(name, _)| weights[name])
        .sum();
    (left, called)
}

fn is_in_tune(lived: &Lived, weights: &BTreeMap<StringName, f64>) -> bool {
    let mut each = lived.names.iter().zip(&lived.strings);
    each.all(|(name, string)| weights[name] == 0.0 || string.off.abs() <= TOLERANCE)
}

fn fixed_order(
    lived: &Lived,
    weights: &BTreeMap<StringName, f64>,
    order: Order,
) -> Vec<StringName> {
    let names = &lived.names;
    let middle = 26;
    let usual = (0..=middle).rev().chain(middle + 1..names.len());
    let usual = usual.map(|at| names[at]);
    match order {
        Order::Usual => usual.collect(),
        Order::UsualPlayed => usual.filter(|name| weights[name] > 0.0).collect(),
        Order::WorstFirst => {
            let found = |name: &StringName| {
                let history = &lived.known.strings[name].history;
                let found = history.iter().rev().find(|point| point.found);
                found.map_or(0.0, |point| point.off_cents.abs())
            };
            let mut all = names.clone();
            all.sort_by(|a, b| found(b).total_cmp(&found(a)));
            all
        }
        Order::Forecast => Vec::new(),
    }
}
