//! Short passages, planned and tried out in every way: slow, obvious search judges the planner. It
//! shares no code with it, looks at no bound, and lets every foot do everything at every moment.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/judge.rs"]
mod judge;
#[path = "made/passage.rs"]
mod passage;

use harp::Harp;
use judge::{Places, notes, price_of_move, sounds};
use passage::{passages, weights, wishes};
use pedals::{Demand, Foot, Moment, Wishes, plan};
use pitch::{Alteration, Letter, SpelledPitch};
use proptest::prelude::*;

/// Where everything stands: pedals, and the moments at which each foot moved last (0: never).
type State = (Places, [usize; 2]);

fn cheapest(demand: &Demand, wishes: &Wishes) -> u64 {
    let letters = letters(demand, wishes);
    let mut states: Vec<(State, u64)> = openings(&letters, wishes)
        .into_iter()
        .map(|places| ((places, [0, 0]), notes(demand, wishes, 0, &places)))
        .collect();
    for moment in 1..demand.moments.len() {
        for foot in Foot::BOTH {
            let mut after = std::collections::BTreeMap::new();
            for &(state, cost) in &states {
                for (next, price) in movements(demand, wishes, &letters, moment, foot, state) {
                    let least = after.entry(next).or_insert(u64::MAX);
                    *least = (*least).min(cost + price);
                }
            }
            states = after.into_iter().collect();
        }
        for (state, cost) in &mut states {
            *cost += notes(demand, wishes, moment, &state.0);
        }
    }
    states.iter().map(|&(_, cost)| cost).min().unwrap()
}

/// The letters that anything asks for; no other pedal is worth moving.
fn letters(demand: &Demand, wishes: &Wishes) -> Vec<Letter> {
    let asked = |letter: &Letter| {
        let in_moment = |moment: &Moment| {
            let note = |pitch: SpelledPitch| {
                Alteration::ALL
                    .iter()
                    .any(|a| sounds(*letter, a.semitones(), pitch))
            };
            moment.attacks.iter().any(|attack| note(attack.pitch))
                || moment.glissando.get(*letter).is_some()
                || moment.marks.get(*letter).is_some()
        };
        demand.moments.iter().any(in_moment)
            || wishes.opening.get(*letter).is_some()
            || wishes.pins.iter().any(|pin| pin.letter == *letter)
    };
    Letter::ALL.into_iter().filter(asked).collect()
}

fn openings(letters: &[Letter], wishes: &Wishes) -> Vec<Places> {
    let mut first = [0; 7];
    for &(letter, at) in &wishes.broken.stuck {
        first[letter.index()] = at.semitones();
    }
    let mut all = vec![first];
    for letter in letters.iter().filter(|letter| !is_stuck(wishes, **letter)) {
        let with = |places: &Places, at: i8| {
            let mut places = *places;
            places[letter.index()] = at;
            places
        };
        all = all
            .iter()
            .flat_map(|places| [-1, 0, 1].map(|at| with(places, at)))
            .collect();
    }
    all
}

fn is_stuck(wishes: &Wishes, letter: Letter) -> bool {
    wishes
        .broken
        .stuck
        .iter()
        .any(|&(stuck, _)| stuck == letter)
}

/// All that a foot may do for a moment, nothing too.
fn movements(
    demand: &Demand,
    wishes: &Wishes,
    letters: &[Letter],
    moment: usize,
    foot: Foot,
    (places, home): State,
) -> Vec<(State, u64)> {
    let feet = &wishes.feet;
    let own: &[Letter] = match foot {
        Foot::Left => &[Letter::D, Letter::C, Letter::B],
        Foot::Right => &[Letter::E, Letter::F, Letter::G, Letter::A],
    };
    let over = [Letter::E, Letter::B][foot as usize];
    let mut groups: Vec<Vec<Letter>> = own.iter().map(|&letter| vec![letter]).collect();
    if feet.crossing {
        groups.push(vec![over]);
    }
    if feet.together {
        groups.extend(own.windows(2).map(<[Letter]>::to_vec));
    }
    let mut found = vec![((places, home), 0)];
    let mut from = 0;
    // feet that need no time may go on
    while from < found.len() && (from == 0 || feet.one_notch_us == 0) {
        let ((places, home), so_far) = found[from];
        from += 1;
        for group in &groups {
            let movable = |l: &Letter| letters.contains(l) && !is_stuck(wishes, *l);
            if !group.iter().all(movable) {
                continue;
            }
            for (next, longest, price) in to_everywhere(demand, wishes, moment, foot, group, places)
            {
                let since =
                    demand.moments[moment].at_us - demand.moments[home[foot as usize]].at_us;
                let needs = if longest == 2 {
                    feet.two_notches_us
                } else {
                    feet.one_notch_us
                };
                if home[foot as usize] > 0 && since < needs {
                    continue;
                }
                let mut now = home;
                now[foot as usize] = moment;
                let next = (next, now);
                let known = found
                    .iter()
                    .any(|&(state, cost)| state == next && cost <= so_far + price);
                if !known {
                    found.push((next, so_far + price));
                }
            }
        }
    }
    found
}

fn to_everywhere(
    demand: &Demand,
    wishes: &Wishes,
    moment: usize,
    foot: Foot,
    group: &[Letter],
    places: Places,
) -> Vec<(Places, i8, u64)> {
    let together = if group.len() > 1 {
        u64::from(wishes.weights.together)
    } else {
        0
    };
    let mut all = vec![(places, 0, together)];
    for letter in group {
        let mut next = Vec::new();
        for (places, longest, price) in all {
            for to in [-1, 0, 1] {
                let notches = (to - places[letter.index()]).abs();
                if notches > 0 {
                    let mut there = places;
                    there[letter.index()] = to;
                    let more = price_of_move(demand, wishes, moment, *letter, foot, notches);
                    next.push((there, longest.max(notches), price + more));
                }
            }
        }
        all = next;
    }
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(passage::cases(25)))]

    // no two moments further apart than 0.2 s: the planner then adds no places between them
    #[test]
    fn no_way_of_playing_is_cheaper_than_the_plan(
        demand in passages(4, 200_000),
        change in wishes(),
        weights in proptest::option::of(weights()),
    ) {
        let mut wishes = Wishes { any_octave: true, ..change.on(&demand) };
        wishes.weights = weights.unwrap_or(wishes.weights);
        // so that a case takes a second, not a minute
        let most = if wishes.feet.one_notch_us == 0 { 4 } else { 6 };
        prop_assume!(letters(&demand, &wishes).len() <= most);
        let plan = plan(&demand, &Harp::named("pedal47").unwrap(), &wishes);
        prop_assert!(plan.optimal);
        let cheapest = cheapest(&demand, &wishes);
        prop_assert_eq!(plan.cost.total(), cheapest);
    }
}
