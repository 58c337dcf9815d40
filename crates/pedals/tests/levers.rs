//! Plans for lever harps. Fixtures of our own; two counts by arithmetic (a lever harp in E flat
//! needs its E, A and B levers for C major: 14 of 34 strings).
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/passage.rs"]
mod passage;

use harp::{Harp, OpenTuning, StringName};
use pedals::{
    Attack, Demand, Hand, LeverPlan, LeverReason, LeverWishes, Moment, Remedy, plan_levers,
};
use pitch::{Alteration, MajorKey, SpelledPitch};
use proptest::prelude::*;

fn piece(moments: &[(u64, &[&str])]) -> Demand {
    Demand {
        moments: passage::of(moments),
        ..Demand::default()
    }
}

fn planned(demand: &Demand, wishes: &LeverWishes) -> LeverPlan {
    plan_levers(demand, &Harp::named("lever34").unwrap(), wishes).unwrap()
}

/// Every string of the harp once, in a key.
fn scale(key: MajorKey) -> Demand {
    let harp = Harp::named("lever34").unwrap();
    let names = harp.strings().iter().map(|string| string.name);
    let pitch =
        |name: StringName| SpelledPitch::new(name.letter, key.alteration(name.letter), name.octave);
    let moments = names.enumerate().map(|(index, name)| Moment {
        at_us: 500_000 * index as u64,
        attacks: vec![Attack::of(pitch(name))],
        ..Moment::empty()
    });
    Demand {
        moments: moments.collect(),
        ..Demand::default()
    }
}

fn only(open: OpenTuning) -> LeverWishes {
    LeverWishes {
        open: vec![open],
        ..LeverWishes::default()
    }
}

#[test]
fn c_major_on_34_strings_in_e_flat_takes_14_levers() {
    let plan = planned(&scale(MajorKey::new(0).unwrap()), &only(OpenTuning::Eb));
    assert_eq!(plan.levers.len(), 14);
    assert!(plan.flips.is_empty() && plan.cannot.is_empty() && plan.optimal);
}

#[test]
fn each_open_tuning_plays_its_eight_keys_as_written_and_no_other() {
    for open in [OpenTuning::Eb, OpenTuning::C, OpenTuning::F, OpenTuning::Ab] {
        let keys = open.lever_keys();
        for key in MajorKey::all() {
            let plan = planned(&scale(key), &only(open));
            let whole = plan.cannot.is_empty() && plan.respelled.is_empty();
            assert_eq!(whole, keys.contains(&key), "{key} in {open}");
            assert!(!whole || plan.flips.is_empty());
        }
    }
}

#[test]
fn the_best_open_tuning_is_taken() {
    let plan = planned(&scale(MajorKey::new(-4).unwrap()), &LeverWishes::default());
    assert_eq!(plan.open, OpenTuning::Ab);
    assert!(plan.levers.is_empty());
    let plan = planned(&scale(MajorKey::new(5).unwrap()), &LeverWishes::default());
    assert_eq!(plan.open, OpenTuning::C);
}

/// F4 in the left hand throughout, or in the right, while F goes to F sharp and back.
fn flipping(hand: Hand) -> Demand {
    let mut demand = piece(&[
        (0, &["F4", "C3"]),
        (400_000, &["C3"]),
        (800_000, &["F#4", "C3"]),
        (1_200_000, &["C3"]),
        (1_600_000, &["F4", "C3"]),
    ]);
    for moment in &mut demand.moments {
        for attack in &mut moment.attacks {
            let low = attack.pitch.octave == 3;
            attack.hand = Some(if low { hand } else { Hand::Right });
        }
    }
    demand
}

#[test]
fn a_flip_takes_the_hand_that_is_free() {
    // the left hand plays all the time: only the right can, between its own notes
    let plan = planned(&flipping(Hand::Left), &only(OpenTuning::C));
    assert!(plan.cannot.is_empty(), "{plan:?}");
    let hands: Vec<_> = plan.flips.iter().map(|flip| (flip.hand, flip.on)).collect();
    assert_eq!(hands, [(Hand::Right, true), (Hand::Right, false)]);
    // there is no other way: no plan costs less
    assert!(plan.optimal, "{}", plan.gap);
    // the right plays all of it: the left is free
    let plan = planned(&flipping(Hand::Right), &only(OpenTuning::C));
    assert_eq!(plan.flips.len(), 2);
    assert!(plan.flips.iter().all(|flip| flip.hand == Hand::Left));
    assert!(plan.optimal);
}

#[test]
fn where_no_hand_is_free_the_note_is_told() {
    let wishes = LeverWishes {
        right_hand: false,
        ..only(OpenTuning::C)
    };
    let plan = planned(&flipping(Hand::Left), &wishes);
    assert_eq!(plan.cannot.len(), 1);
    assert_eq!(plan.cannot[0].reason, LeverReason::LeverElsewhere);
    assert!(plan.flips.is_empty());
    // no other string sounds F sharp in this tuning; the next F's lever can be put on before the piece
    let remedies = &plan.cannot[0].remedies;
    assert_eq!(remedies.last(), Some(&Remedy::LeaveOut));
    assert!(matches!(remedies[0], Remedy::Octave(_)), "{remedies:?}");
}

// In E flat the A flat string is open, and G♯ is a raised G: two strings for one sound.
#[test]
fn a_lost_note_is_told_with_another_string_and_another_octave() {
    let wishes = LeverWishes {
        right_hand: false,
        ..only(OpenTuning::Eb)
    };
    // the left hand plays all the time: G cannot be raised for the G sharp
    let mut demand = flipping(Hand::Left);
    for (moment, note) in [(0, "G4"), (2, "G#4"), (4, "G4")] {
        demand.moments[moment].attacks[0].pitch = note.parse().unwrap();
    }
    let plan = planned(&demand, &wishes);
    assert_eq!(plan.cannot.len(), 1);
    let expected = [
        Remedy::Respell("Ab4".parse().unwrap()),
        Remedy::Octave("G#3".parse().unwrap()),
        Remedy::LeaveOut,
    ];
    assert_eq!(plan.cannot[0].remedies, expected);
    // two octaves lower there is a string
    let outside = planned(&piece(&[(0, &["C8"])]), &wishes);
    assert_eq!(
        outside.cannot[0].remedies,
        [Remedy::Octave("C6".parse().unwrap()), Remedy::LeaveOut]
    );
}

#[test]
fn two_flips_cannot_share_a_hand_at_once() {
    // both F and G are wanted a semitone higher 0.6 s later; a flip takes 0.5 s
    let mut demand = piece(&[(0, &["F4", "G4"]), (600_000, &["F#4", "G#4"])]);
    for moment in &mut demand.moments {
        moment
            .attacks
            .iter_mut()
            .for_each(|attack| attack.hand = Some(Hand::Right));
    }
    let left_only = LeverWishes {
        right_hand: false,
        ..only(OpenTuning::C)
    };
    let plan = planned(&demand, &left_only);
    assert_eq!((plan.flips.len(), plan.cannot.len()), (1, 1));
    assert_eq!(plan.cannot[0].reason, LeverReason::HandsBusy);
    assert!(!plan.optimal && plan.gap > 0);
    let both = planned(&demand, &only(OpenTuning::C));
    assert_eq!((both.flips.len(), both.cannot.len()), (2, 0));
}

#[test]
fn d_flat_in_e_flat_is_c_sharp() {
    let plan = planned(&piece(&[(0, &["Db4"])]), &only(OpenTuning::Eb));
    assert_eq!(plan.respelled.len(), 1);
    assert_eq!(
        plan.respelled[0].played,
        SpelledPitch::new(pitch::Letter::C, Alteration::Sharp, 4)
    );
}

/// Plays a plan: every note sounds unless it is told not to, every flip turns a lever, in its time,
/// by a hand that plays nothing meanwhile.
fn holds(demand: &Demand, plan: &LeverPlan, wishes: &LeverWishes) -> bool {
    let mut on = plan.levers.clone();
    let mut flips = plan.flips.clone();
    flips.sort_by_key(|flip| flip.moment);
    let mut flips = flips.iter().peekable();
    for (index, moment) in demand.moments.iter().enumerate() {
        while let Some(flip) = flips.next_if(|flip| flip.moment == index) {
            let begins = flip.at_us.checked_sub(wishes.flip_us);
            let before = index
                .checked_sub(1)
                .map(|index| demand.moments[index].at_us);
            let clear = |at: u64| begins.is_some_and(|begins| at <= begins) || at >= flip.at_us;
            let plays = |attack: &Attack| attack.hand.unwrap_or(Hand::Right) == flip.hand;
            let busy = demand
                .moments
                .iter()
                .any(|m| !clear(m.at_us) && m.attacks.iter().any(plays));
            let late = flip.at_us > moment.at_us || before.is_some_and(|at| flip.at_us <= at);
            if busy || late || flip.on == on.contains(&flip.string) {
                return false;
            }
            if flip.on {
                on.push(flip.string);
            } else {
                on.retain(|string| *string != flip.string);
            }
        }
        for (attack, note) in moment.attacks.iter().enumerate() {
            let here = |m: usize, a: usize| (m, a) == (index, attack);
            let told = plan.cannot.iter().any(|c| here(c.moment, c.attack));
            let respelled = plan.respelled.iter().find(|r| here(r.moment, r.attack));
            let played = respelled.map_or(note.pitch, |respelled| respelled.played);
            let string = StringName::new(played.letter, played.octave);
            let stands =
                plan.open.alteration(played.letter).semitones() + i8::from(on.contains(&string));
            let there = Harp::named("lever34").unwrap().string(string).is_some();
            let sounds = there && stands == played.alter && played.midi() == note.pitch.midi();
            if sounds == told {
                return false;
            }
        }
    }
    flips.next().is_none()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(passage::cases(200)))]

    #[test]
    fn every_plan_holds(demand in prop_oneof![passage::passages(15, 900_000), passage::passages(30, 300_000)]) {
        let wishes = LeverWishes::default();
        let plan = planned(&demand, &wishes);
        prop_assert!(holds(&demand, &plan, &wishes), "{:?}", plan);
    }
}
