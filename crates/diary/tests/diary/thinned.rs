//! A round with fewer live pitches is the same round.

use diary::{Thinning, thinned};
use proptest::prelude::*;
use tuning::round::{Event, Plan, Round};

use crate::a_player::play;
use crate::any_events::any_event;

fn run(plan: &Plan, events: &[Event]) -> Round {
    let mut round = Round::new(plan.clone());
    for event in events {
        round.step(event);
    }
    round
}

fn live(events: &[Event]) -> usize {
    events
        .iter()
        .filter(|e| matches!(e, Event::Moving(_)))
        .count()
}

/// Thins rounds and replays them; gives how many live pitches there were and how many are left.
#[track_caller]
fn check(kind: &str, wild: f64, rounds: u64) -> (usize, usize) {
    let (mut before, mut after) = (0, 0);
    for seed in 0..rounds {
        let played = play(kind, seed, wild, 150);
        let plan = crate::a_player::plan(kind);
        let few = thinned(&plan, &played.events);
        let again = run(&plan, &few);
        assert_eq!(again.summary(), played.round.summary(), "seed {seed}");
        assert_eq!(again.next(), played.round.next(), "seed {seed}");
        for string in played.round.order() {
            assert_eq!(again.state(*string), played.round.state(*string));
            assert_eq!(again.kept(*string), played.round.kept(*string));
            assert_eq!(
                again.expected_hz(*string),
                played.round.expected_hz(*string)
            );
        }
        assert!(again == played.round, "seed {seed}: all that it remembers");
        let rest: Vec<&Event> = (played.events.iter())
            .filter(|e| !matches!(e, Event::Moving(_)))
            .collect();
        assert!(
            few.iter()
                .filter(|e| !matches!(e, Event::Moving(_)))
                .eq(rest)
        );
        before += live(&played.events);
        after += live(&few);
    }
    println!("{kind} {wild}: {after} of {before} live pitches");
    (before, after)
}

#[test]
fn a_usual_round_keeps_a_quarter_of_its_live_pitches_and_is_the_same() {
    for kind in ["pedal47", "lever34"] {
        let (before, after) = check(kind, 0.0, 20);
        assert!(before > 20_000, "{before}");
        assert!(4 * after <= before, "{kind}: {after} of {before}");
    }
}

#[test]
fn a_wild_round_is_the_same_too() {
    for (wild, share) in [(0.1, 0.5), (0.6, 0.9)] {
        let (before, after) = check("pedal47", wild, 30);
        assert!(before > 20_000, "{before}");
        assert!(
            after as f64 <= share * before as f64,
            "{wild}: {after} of {before}"
        );
    }
}

#[test]
fn what_is_stored_bit_by_bit_is_the_same_round_at_every_pluck() {
    let played = play("pedal47", 7, 0.1, 40);
    let plan = crate::a_player::plan("pedal47");
    let mut thinning = Thinning::new(Round::new(plan.clone()));
    let (mut stored, mut round, mut closed) = (Vec::new(), Round::new(plan.clone()), 0);
    for (at, event) in played.events.iter().enumerate() {
        round.step(event);
        thinning.push(event);
        stored.extend(thinning.settled());
        // the page is closed, and opened again
        if at % 97 == 0 {
            stored.extend(thinning.rest());
            let again = run(&plan, &stored);
            assert!(again == round, "event {at}");
            thinning = Thinning::new(again);
            closed += 1;
        }
    }
    stored.extend(thinning.rest());
    assert!(closed > 10 && run(&plan, &stored) == round);
    assert!(thinning.rest().is_empty(), "each event once");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    // rounds with numbers that are none in them equal nothing, and are compared as they are shown
    #[test]
    fn with_any_events_in_between_it_is_the_same_too(
        seed in any::<u64>(),
        others in prop::collection::vec((any_event(), any::<prop::sample::Index>()), 0..12),
    ) {
        let mut events = play("lever22", seed, 0.8, 25).events;
        for (event, at) in others {
            events.insert(at.index(events.len()), event);
        }
        let plan = crate::a_player::plan("lever22");
        let again = run(&plan, &thinned(&plan, &events));
        let shown = |round: &Round| format!("{round:?}");
        prop_assert!(shown(&again) == shown(&run(&plan, &events)));
    }
}
