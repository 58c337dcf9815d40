//! How long and how thick each string is drawn: as given, and where nothing was given, typical.

use std::sync::LazyLock;

use harp::synthetic::SYNTHETIC_STRINGS;
use harp::{Field, StringName};
use pitch::Letter;

use crate::Drawn;

/// The lengths to draw, in mm, and how many of them are typical.
pub(crate) struct Lengths {
    pub(crate) mm: Vec<f64>,
    pub(crate) typical: usize,
}

/// The length of each string: the player's where she gave one; else the typical one, stretched as
/// her nearest strings on both sides are against theirs, so that no step shows where they meet.
pub(crate) fn lengths(strings: &[Drawn]) -> Lengths {
    let steps = if strings.iter().any(|string| string.name.sharp) {
        semitone_steps
    } else {
        letter_steps
    };
    let typical: Vec<f64> = strings.iter().map(|s| typical_mm(steps(s.name))).collect();
    let given: Vec<(usize, f64)> = strings
        .iter()
        .enumerate()
        .filter_map(|(place, string)| Some((place, believed(Field::LengthMm, string.length_mm)?)))
        .collect();
    let ratios: Vec<(f64, f64)> = given
        .iter()
        .map(|&(place, mm)| (place as f64, mm / typical[place]))
        .collect();
    let mut mm: Vec<f64> = typical
        .iter()
        .enumerate()
        .map(|(place, mm)| mm * between(&ratios, place as f64))
        .collect();
    for &(place, given) in &given {
        mm[place] = given;
    }
    Lengths {
        typical: strings.len() - given.len(),
        mm,
    }
}

/// How thick a string is drawn for, in mm: as given, or a rule of the drawing (no source) that
/// makes long strings thicker and wires alike.
pub(crate) fn gauge_mm(string: &Drawn, length_mm: f64) -> f64 {
    let typical = if string.wire {
        2.2
    } else {
        (0.6 * (length_mm / 70.0).sqrt()).min(2.6)
    };
    believed(Field::GaugeMm, string.gauge_mm).unwrap_or(typical)
}

/// A length that looks like a harp's: the C strings and the top G of the synthetic harp, and a
/// smooth curve of the logarithm between them, letter by letter. The synthetic lengths themselves
/// follow semitones, and a neck drawn through their tops would show a step at every E and B.
fn typical_mm(at: f64) -> f64 {
    let anchors = &*ANCHORS;
    let last = anchors.len() - 1;
    let segment = anchors[1..last].iter().take_while(|a| a.0 <= at).count();
    let (from, to) = (anchors[segment], anchors[segment + 1]);
    let slope = |place: usize| {
        let (low, high) = (
            anchors[place.saturating_sub(1)],
            anchors[(place + 1).min(last)],
        );
        (high.1 - low.1) / (high.0 - low.0)
    };
    let log = if at < anchors[0].0 {
        anchors[0].1 + slope(0) * (at - anchors[0].0)
    } else if at > anchors[last].0 {
        anchors[last].1 + slope(last) * (at - anchors[last].0)
    } else {
        let span = to.0 - from.0;
        let t = (at - from.0) / span;
        hermite(
            t,
            from.1,
            to.1,
            slope(segment) * span,
            slope(segment + 1) * span,
        )
    };
    log.exp()
}

/// Cubic between two values with given slopes, t from 0 to 1 (Hermite's form).
fn hermite(t: f64, from: f64, to: f64, slope_from: f64, slope_to: f64) -> f64 {
    let (t2, t3) = (t * t, t * t * t);
    from * (2.0 * t3 - 3.0 * t2 + 1.0)
        + slope_from * (t3 - 2.0 * t2 + t)
        + to * (3.0 * t2 - 2.0 * t3)
        + slope_to * (t3 - t2)
}

/// Letters above C0.
fn letter_steps(name: StringName) -> f64 {
    7.0 * f64::from(name.octave) + name.letter.index() as f64
}

/// The same in semitones, seven twelfths each: even steps where every semitone has a string.
fn semitone_steps(name: StringName) -> f64 {
    f64::from(name.key() - 12) * 7.0 / 12.0
}

/// Letters above C0 and the logarithm of the length.
static ANCHORS: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
    let top = SYNTHETIC_STRINGS.len() - 1;
    SYNTHETIC_STRINGS
        .iter()
        .enumerate()
        .filter(|(place, string)| string.name.letter == Letter::C || *place == top)
        .map(|(_, string)| (letter_steps(string.name), string.natural_length_mm.ln()))
        .collect()
});

/// A figure that the harp's own rules believe; a drawing of any other would be no harp.
fn believed(field: Field, mm: Option<f64>) -> Option<f64> {
    mm.filter(|mm| field.believed().contains(mm))
}

/// Linear between the points, level beyond them, 1 where there are none.
fn between(points: &[(f64, f64)], at: f64) -> f64 {
    let after = points.iter().find(|point| point.0 >= at);
    let before = points.iter().rev().find(|point| point.0 <= at);
    match (before, after) {
        (Some(low), Some(high)) if high.0 > low.0 => {
            low.1 + (high.1 - low.1) * (at - low.0) / (high.0 - low.0)
        }
        (Some(point), _) | (None, Some(point)) => point.1,
        (None, None) => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Picture;
    use harp::{BUILT_IN, Harp};

    #[test]
    fn every_built_in_harp_grows_shorter_string_by_string() {
        for built_in in &BUILT_IN {
            let picture = Picture::of(&Harp::named(built_in.name).unwrap());
            let lengths = lengths(&picture.strings);
            assert_eq!(lengths.typical, picture.strings.len());
            for pair in lengths.mm.windows(2) {
                assert!(pair[1] < pair[0] && pair[1] > 0.0, "{}", built_in.name);
            }
        }
    }

    #[test]
    fn typical_lengths_meet_the_synthetic_ones_at_every_c_and_stay_near_between() {
        for string in &SYNTHETIC_STRINGS {
            let ratio = typical_mm(letter_steps(string.name)) / string.natural_length_mm;
            let bound = if string.name.letter == Letter::C {
                1e-9
            } else {
                0.08
            };
            assert!((ratio - 1.0).abs() < bound, "{}: {ratio}", string.name);
        }
    }

    #[test]
    fn given_lengths_are_drawn_and_the_others_fall_in_with_them() {
        let mut picture = Picture::of(&Harp::named("lever34").unwrap());
        let typical = lengths(&picture.strings).mm;
        for place in [0, 10, 33] {
            picture.strings[place].length_mm = Some(typical[place] * 0.9);
        }
        picture.strings[4].length_mm = Some(f64::NAN);
        let found = lengths(&picture.strings);
        assert_eq!(found.typical, 31);
        for (found, typical) in found.mm.iter().zip(&typical) {
            assert!((found / typical - 0.9).abs() < 1e-9);
        }
    }
}
