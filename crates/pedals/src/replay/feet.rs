//! The feet's part of a replay: each change begins where the pedal stands, each foot is in one
//! place, and has the time it needs.

use pitch::Letter;

use super::Fault;
use crate::{Change, Demand, Feet, Foot, Plan, Wishes};

pub(super) fn faults(demand: &Demand, wishes: &Wishes, plan: &Plan) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut changes = plan.changes.iter().enumerate().peekable();
    let Some(mut stands) = plan.opening() else {
        return faults;
    };
    for (moment, told) in plan.settings.iter().enumerate() {
        while let Some((index, change)) = changes.next_if(|(_, change)| change.moment == moment) {
            if stands.get(change.letter) != Some(change.from) || change.from == change.to {
                faults.push(Fault::Start { change: index });
            }
            stands = stands.with(change.letter, change.to);
            if !in_time(demand, change) {
                faults.push(Fault::Time { change: index });
            }
            if !may_reach(&wishes.feet, change) {
                faults.push(Fault::Foot { change: index });
            }
        }
        // between movements all pedals are set
        if demand.movements.contains(&moment) {
            stands = *told;
        }
        if stands != *told || !told.is_complete() {
            faults.push(Fault::Setting { moment });
        }
        for &(letter, at) in &wishes.broken.stuck {
            if told.get(letter) != Some(at) {
                faults.push(Fault::Stuck { letter });
            }
        }
    }
    faults.extend(changes.map(|(change, _)| Fault::Time { change }));
    for foot in Foot::BOTH {
        too_soon(demand, &wishes.feet, plan, foot, &mut faults);
    }
    faults
}

fn in_time(demand: &Demand, change: &Change) -> bool {
    let at = |moment: usize| demand.moments[moment].at_us;
    let playing = change.moment > 0 && !demand.movements.contains(&change.moment);
    playing && at(change.moment - 1) <= change.at_us && change.at_us <= at(change.moment)
}

fn may_reach(feet: &Feet, change: &Change) -> bool {
    let left = [Letter::D, Letter::C, Letter::B].contains(&change.letter);
    let own = left == (change.foot == Foot::Left);
    let over = match change.foot {
        Foot::Left => change.letter == Letter::E,
        Foot::Right => change.letter == Letter::B,
    };
    own || (feet.crossing && over)
}

/// Between two movements of a foot lies the time of the later; two neighbouring pedals may make one
/// movement if that is allowed.
fn too_soon(demand: &Demand, feet: &Feet, plan: &Plan, foot: Foot, faults: &mut Vec<Fault>) {
    let own: Vec<(usize, &Change)> = plan
        .changes
        .iter()
        .enumerate()
        .filter(|(_, change)| change.foot == foot)
        .collect();
    let mut before: Option<(usize, u64)> = None;
    let mut rest = &own[..];
    while let Some(&(index, change)) = rest.first() {
        let pair = rest
            .get(1)
            .filter(|(_, other)| change.together && other.together && other.at_us == change.at_us);
        let size = if pair.is_some() { 2 } else { 1 };
        let movement = &rest[..size];
        rest = &rest[size..];
        let neighbours = pair.is_none_or(|(_, other)| are_neighbours(change.letter, other.letter));
        let alone = change.together != pair.is_some();
        let needs = movement.iter().map(|(_, change)| time(feet, change)).max();
        let late = before.is_some_and(|(within, before)| {
            let soon = change.at_us < before || change.at_us - before < needs.unwrap_or(0);
            within == movement_of(demand, change) && soon
        });
        if late || alone || !neighbours || (pair.is_some() && !feet.together) {
            faults.push(Fault::TooSoon { change: index });
        }
        before = Some((movement_of(demand, change), change.at_us));
    }
}

fn time(feet: &Feet, change: &Change) -> u64 {
    let notches = change.from.semitones().abs_diff(change.to.semitones());
    if notches == 2 {
        feet.two_notches_us.max(feet.one_notch_us)
    } else {
        feet.one_notch_us
    }
}

fn are_neighbours(one: Letter, other: Letter) -> bool {
    let place = |letter: Letter| "DCB EFGA".find(letter.as_char()).unwrap_or(0);
    place(one).abs_diff(place(other)) == 1
}

/// In the how-manieth movement a change falls.
fn movement_of(demand: &Demand, change: &Change) -> usize {
    let begun = demand.movements.iter();
    begun.filter(|&&first| first <= change.moment).count()
}
