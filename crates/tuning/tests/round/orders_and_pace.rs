//! What is asked for next, how long it takes, and rounds that are interrupted.

use tuning::round::{Order, Plan, State};

use crate::table::{check, name, plan};

#[test]
fn the_round_follows_whichever_string_is_plucked() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 3C 0       | 3C: in tune; Now 3D
         pluck 3D 0       | Now 3E
         pluck 4G 0       | Now 4F",
    );
}

#[test]
fn a_string_that_was_left_is_asked_for_at_the_end() {
    let few = Plan {
        touch_up: Some(["4G", "4F", "5D"].map(name).to_vec()),
        ..plan("pedal47")
    };
    check(
        few,
        "begin            | 3 strings; A few strings only: second best; Now 4G
         pluck 4G -12     | Up a little
         next             | Now 4F
         pluck 4F 0       | Now 5D
         pluck 3G 0       | 3G: in tune
         pluck 5D 1       | Now 4G
         pluck 4G 0       | All heard",
    );
}

#[test]
fn a_round_can_begin_anywhere_and_go_in_any_order() {
    let by_letters = Plan {
        order: Order::Letters,
        ..plan("pedal47")
    };
    check(by_letters, "begin | Now 7C\n pluck 7C 0 | Now 6C");
    let from_bass = Plan {
        order: Order::FromBass,
        ..plan("lever34")
    };
    check(from_bass, "begin | Now 6C\n pluck 6C 0 | Now 6D");
    let own = Plan {
        order: Order::List(vec![name("3A"), name("2C")]),
        ..plan("lever34")
    };
    check(own, "begin | Now 3A\n pluck 3A 0 | Now 2C");
}

#[test]
fn an_order_that_is_given_holds_from_then_on() {
    check(
        plan("pedal47"),
        "order 2A 5D 3C   | nothing
         begin            | 3 strings; Now 2A
         pluck 2A 0       | 2A: in tune; Now 5D; 2 left
         order 3C 5D 1A   | Now 3C; 3 left
         order 3C 1A      | nothing
         pluck 1A -12     | Up
         order 5D         | nothing
         pluck 1A 0       | Now 5D
         pause            |
         order 6E         | nothing
         resume           | Now 6E
         pluck 6E 0       | All heard; not again",
    );
}

#[test]
fn minutes_are_said_at_her_own_pace() {
    // three strings at 8 s, one at 308 s, in a round of 34: the median is 8 s, 30 strings take 4 minutes
    check(
        plan("lever34"),
        "begin            | 34 left; not min
         pluck 4G 0       | 33 left
         pluck 4F 0       | 32 left
         pluck 5E 0       | 31 left, about 4 min
         wait 300         |
         pluck 5D 0       | 30 left, about 4 min",
    );
}

#[test]
fn plucking_a_string_that_is_done_takes_no_strings_time() {
    check(
        plan("lever34"),
        "begin            |
         wait 40          |
         pluck 4G 0       |
         wait 40          |
         pluck 4F 0       |
         wait 40          |
         pluck 5E 0       | 31 left, about 25 min
         pluck 5E 0       |
         pluck 5E 0       |
         pluck 5E 0       |
         pluck 5E 0       |
         pluck 5D 0       | 30 left, about 24 min",
    );
}

#[test]
fn a_round_is_interrupted_and_taken_up_where_it_was() {
    let round = check(
        plan("lever34"),
        "begin            | Now 4G
         pluck 4G 0       | Now 4F
         pluck 4F 1       | Now 5E
         pluck 5E -15     | Up a little
         pause            | Not listening
         pluck 4G 50      | nothing
         move 5E 40       | nothing
         wait 3000        |
         resume           | Listening; Now 5E; 32 left
         pluck 5E 0       | 5E: in tune; 31 left, about 4 min",
    );
    assert_eq!(round.kept(name("4G")).len(), 1);
    // begun at 8 s, paused at 40, resumed at the end of the pause, one pluck after 8 s, read for 0.6
    let minutes = round.summary().minutes;
    assert!((minutes - (32.0 + 8.6) / 60.0).abs() < 0.01, "{minutes}");
}

#[test]
fn nothing_is_kept_before_the_round_begins_or_after_it_is_over() {
    let round = check(
        plan("lever34"),
        "pluck 4G -10     | nothing
         begin            | Now 4G
         begin            | nothing
         finish           | over
         pluck 4G 0       | nothing
         resume           | Now 4G",
    );
    assert!(round.kept(name("4G")).is_empty());
}

#[test]
fn a_mistaken_in_tune_is_undone() {
    let round = check(
        plan("lever34"),
        "begin            | Now 4G
         pluck 4G 2       | in tune; Now 4F
         undo 4G          | 4G: not in tune after all; Now 4G
         pluck 4G -3.5    | 4G: 3.5 cents low. Up a hair",
    );
    assert_eq!(round.kept(name("4G")).len(), 2);
}

#[test]
fn what_cannot_be_said_is_near_and_offered_by_ear() {
    let round = check(
        plan("pedal47"),
        "begin            |
         skip 7C          | 7C: left out
         pluck 7D 1 9     | 7D: near, cannot say nearer than ±9.0 cents. Pluck it again, or compare it by ear with 6D; not Up; not Now
         pluck 7D 1 9     | near, cannot say; Now
         by-ear 7D        | 7D: in tune by your ear
         noise            | too noisy",
    );
    assert_eq!(round.state(name("7D")), Some(State::InTuneByEar));
    assert_eq!(round.state(name("7C")), Some(State::Skipped));
}

#[test]
fn a_tolerance_of_her_own_is_kept_to() {
    let mut strict = plan("lever34");
    strict.tolerance = tuning::round::Tolerance::everywhere(1.0);
    check(
        strict,
        "begin            |
         pluck 4G 1.2     | 4G: 1.2 cents high. Down a hair
         pluck 4G 0.9     | in tune",
    );
}

#[test]
fn strings_that_stand_in_pedals_are_second_best() {
    let harp = harp::Harp::named("pedal47").unwrap();
    let setup = harp::Setup {
        position: harp::Position::Natural,
        ..harp::Setup::open(pitch::ReferencePitch::A440)
    };
    let mut plan = Plan::of(&harp, &setup).unwrap();
    check(
        plan.clone(),
        "begin | Pedals are not all up, or levers are on: second best",
    );
    plan.touch_up = Some(vec![name("4G")]);
    check(
        plan,
        "begin | A few strings, in the pedals or levers that stand: second best; not no discs",
    );
}
