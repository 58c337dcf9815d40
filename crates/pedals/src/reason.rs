//! Why a note cannot be had, and what could be done.

use std::cell::OnceCell;

use pitch::SpelledPitch;

use crate::account::{played, sounding};
use crate::asked::allowed_ways;
use crate::code::{Code, SETTINGS};
use crate::plan::{Reason, Remedy};
use crate::ready::Ready;
use crate::ways::{By, Way};

/// Why a note is lost that these ways were open to; whether its moment wants more than any setting
/// holds is found once.
pub(crate) fn reason(
    ready: &Ready<'_>,
    index: usize,
    written: SpelledPitch,
    ways: &[Way],
    at_once: &OnceCell<bool>,
) -> Reason {
    if ways.is_empty() {
        return if playable_if_whole(ready, written) {
            Reason::Broken
        } else {
            Reason::OutsideTheHarp
        };
    }
    if ways.iter().all(|way| matches!(way.by, By::Key { .. })) {
        return Reason::TunedByKey;
    }
    let lost = || lost_at(ready, index);
    if *at_once.get_or_init(|| {
        let lost = lost();
        (0..SETTINGS as Code).all(|code| lost(code) > 0)
    }) {
        return Reason::AtOnce;
    }
    // a price that no seven pedals moved there and back would outweigh
    let weights = &ready.wishes.weights;
    let dearest = [
        weights.moved,
        weights.two_notches,
        weights.off_beat,
        weights.ringing,
        weights.respelled,
        weights.mark,
    ];
    let dearest: u64 = dearest.into_iter().map(u64::from).sum();
    let outweighs = weights.lost > 20 * dearest && ready.wishes.pins.is_empty();
    if !outweighs && lost()(ready.timeless()[index]) > 0 {
        Reason::TooDear
    } else {
        Reason::TooFast
    }
}

/// What could be done about a note that is lost in a setting, the nearest first.
pub(crate) fn remedies(
    ready: &Ready<'_>,
    code: Code,
    index: usize,
    written: SpelledPitch,
) -> Vec<Remedy> {
    let mut remedies = Vec::new();
    let all = ready.strings.ways(written);
    let moment = &ready.demand.moments[index];
    // a pedal that another note of the moment needs elsewhere is no way out
    let is_free = |way: &&Way| match way.by {
        By::Pedal { place } => moment.attacks.iter().all(|other| {
            let same = other.pitch.letter == way.string.letter;
            !same || i32::from(other.pitch.alter) + 1 == i32::from(place)
        }),
        By::Key { .. } => false,
    };
    if let Some(way) = all.iter().find(|way| way.respelled && is_free(way)) {
        remedies.push(Remedy::Respell(played(way.string, written)));
    }
    for octaves in [-1, 1, -2, 2, -3, 3] {
        let Some(octave) = written.octave.checked_add(octaves) else {
            continue;
        };
        let other = SpelledPitch { octave, ..written };
        if let Some(way) = sounding(ready, code, index, other, &ready.strings.ways(other)) {
            remedies.push(Remedy::Octave(played(way.string, other)));
            break;
        }
    }
    remedies.push(Remedy::LeaveOut);
    remedies
}

fn playable_if_whole(ready: &Ready<'_>, written: SpelledPitch) -> bool {
    let broken = &ready.wishes.broken;
    let stands = |way: &Way| ready.strings.stands(way.string);
    // a stuck pedal leaves its strings standing; a missing string or a dead disc does not count
    let by_any_pedal = ready.strings.ways(written).iter().any(stands);
    let names = |string: harp::StringName| (string.key() - written.midi()).abs() <= 1;
    by_any_pedal
        || broken.missing.iter().any(|&string| names(string))
        || broken
            .dead_discs
            .iter()
            .any(|&(string, at)| string.key() + i32::from(at.semitones()) == written.midi())
}

/// How many heads of a moment a setting loses.
fn lost_at<'a>(ready: &'a Ready<'_>, index: usize) -> impl Fn(Code) -> usize + 'a {
    let moment = &ready.demand.moments[index];
    let heads: Vec<(SpelledPitch, Vec<Way>)> = moment
        .attacks
        .iter()
        .map(|attack| {
            let ways = allowed_ways(moment, attack.pitch, &ready.strings, ready.wishes);
            (attack.pitch, ways)
        })
        .collect();
    move |code| {
        let silent = |(written, ways): &&(SpelledPitch, Vec<Way>)| {
            sounding(ready, code, index, *written, ways).is_none()
        };
        heads.iter().filter(silent).count()
    }
}
