//! Which string to pluck next, and when the harp may be called in tune.

use std::collections::BTreeMap;

use harp::StringName;

use crate::joint::Joint;

/// A string of the order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Next {
    /// The string.
    pub string: StringName,
    /// How likely it is to be out.
    pub p_out: f64,
    /// How much it is played.
    pub weight: f64,
    /// How many out-of-tune notes, by weight, plucking it is expected to save.
    pub gain: f64,
}

/// When the harp may be called in tune.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InTune {
    /// How sure that none of the strings that are played is out, 0 to 1.
    pub confidence: f64,
    /// After how many more plucks of the order it is as sure as was asked; `None` where that is not reached.
    pub after_plucks: Option<usize>,
}

/// What each string is worth and how far it may be off.
type OfEach<'a> = &'a BTreeMap<StringName, f64>;

/// The strings in the order in which plucking them saves most; strings with no weight are left out. `plucked` are done.
pub fn in_turn(
    joint: &Joint,
    weights: OfEach<'_>,
    tolerances: OfEach<'_>,
    plucked: &[StringName],
) -> Vec<Next> {
    let left = joint
        .names
        .iter()
        .enumerate()
        .filter(|(_, name)| !plucked.contains(name));
    let next = left.filter_map(|(at, name)| {
        let weight = weights.get(name).copied().filter(|weight| *weight > 0.0)?;
        let p_out = joint.out(at, tolerances.get(name).copied().unwrap_or(3.0));
        let gain = weight * p_out;
        Some(Next {
            string: *name,
            p_out,
            weight,
            gain,
        })
    });
    let mut all: Vec<Next> = next.collect();
    all.sort_by(|a, b| b.gain.total_cmp(&a.gain));
    all
}

/// The string to pluck next.
pub fn next(
    joint: &Joint,
    weights: OfEach<'_>,
    tolerances: OfEach<'_>,
    plucked: &[StringName],
) -> Option<Next> {
    in_turn(joint, weights, tolerances, plucked)
        .into_iter()
        .next()
}

/// Whether the harp may be called in tune: how likely none of the strings that are played is out, taken as the chances of
/// each by itself, multiplied. Of normal figures centred on nought that is never too much, however they hang together
/// (Z. Šidák, *J. Am. Stat. Assoc.* 62 (1967) 626–633); ours are neither quite, so how often harps are called in tune
/// wrongly is counted (`tests/lived`).
pub fn in_tune(
    joint: &Joint,
    weights: OfEach<'_>,
    tolerances: OfEach<'_>,
    plucked: &[StringName],
    asked: f64,
) -> InTune {
    let played = |name: &StringName| weights.get(name).is_some_and(|weight| *weight > 0.0);
    let inside = |name: &StringName| -> f64 {
        let tolerance = tolerances.get(name).copied().unwrap_or(3.0);
        (1.0 - joint.p_out(*name, tolerance)).max(1e-12).ln()
    };
    let mut sure: f64 = joint
        .names
        .iter()
        .filter(|name| played(name))
        .map(inside)
        .sum();
    let confidence = sure.exp();
    let mut after_plucks = (confidence >= asked).then_some(0);
    let order = in_turn(joint, weights, tolerances, plucked);
    for (done, next) in order.iter().enumerate() {
        if after_plucks.is_some() {
            break;
        }
        sure -= inside(&next.string);
        if sure.exp() >= asked {
            after_plucks = Some(done + 1);
        }
    }
    InTune {
        confidence,
        after_plucks,
    }
}

#[cfg(test)]
mod tests {
    use nalgebra::{DMatrix, DVector};

    use super::*;

    /// Strings with what is expected of them, cents, each with a scale of one; how much each is played.
    fn check(strings: &[(&str, f64, f64)], asked: f64, order: &[&str], after: Option<usize>) {
        let names: Vec<StringName> = strings.iter().map(|s| s.0.parse().unwrap()).collect();
        let joint = Joint {
            names: names.clone(),
            mean: DVector::from_iterator(strings.len(), strings.iter().map(|s| s.1)),
            covariance: DMatrix::identity(strings.len(), strings.len()),
            plucked: vec![false; strings.len()],
            strayed: (0.0, 0.0),
        };
        let weights = names
            .iter()
            .copied()
            .zip(strings.iter().map(|s| s.2))
            .collect();
        let tolerances = names.iter().map(|name| (*name, 3.0)).collect();
        let told: Vec<String> = in_turn(&joint, &weights, &tolerances, &[])
            .iter()
            .map(|next| next.string.to_string())
            .collect();
        assert_eq!(told, order);
        let first = next(&joint, &weights, &tolerances, &[]);
        assert_eq!(
            first.map(|next| next.string.to_string()).as_deref(),
            order.first().copied()
        );
        let in_tune = in_tune(&joint, &weights, &tolerances, &[], asked);
        assert_eq!(in_tune.after_plucks, after, "{in_tune:?}");
    }

    #[test]
    fn what_is_out_and_played_comes_first_and_what_is_not_played_never() {
        check(
            &[
                ("C4", 0.0, 5.0),
                ("D4", 6.0, 1.0),
                ("E4", 6.0, 9.0),
                ("F4", 20.0, 0.0),
            ],
            0.9,
            &["E4", "D4", "C4"],
            Some(2),
        );
        check(&[("C4", 0.0, 1.0)], 0.9, &["C4"], Some(0));
        check(&[("C4", 0.0, 1.0)], 0.99, &["C4"], Some(1));
        check(&[("C4", 9.0, 0.0)], 0.9, &[], Some(0));
    }
}
