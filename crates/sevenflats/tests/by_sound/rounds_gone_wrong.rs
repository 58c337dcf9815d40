//! Rounds in which something goes wrong: a pedal, an octave, a pin, a hand. Tables as in `rounds.rs`; the players are
//! invented, their truth is exact.

use crate::played::a_beginner;
use crate::said::{NO_ALARM, check, first_said, row};
use pitch::Letter;
use pluck::Room;
use pluck::player::{Aside, Mishaps};

/// Each test's players.
const SEEDS: [u64; 2] = [1, 2];

#[test]
fn a_pedal_that_is_down_is_asked_about_before_any_down() {
    SEEDS.into_iter().for_each(pedal_down_in);
}

fn pedal_down_in(seed: u64) {
    println!("seed {seed}");
    let down = Mishaps {
        pedal_down: Some(Letter::G),
        ..Mishaps::default()
    };
    let played = a_beginner(16, down, Room::QUIET, seed);
    let end = played.script.round.seconds;
    let asked = first_said(&played, "question: pedal G");
    let others = ["A", "B", "C", "D", "E", "F"];
    let others =
        others.map(|l| format!("question: pedal {l} / question: high {l}* / question: key {l}*"));
    let others: Vec<&str> = others.iter().map(String::as_str).collect();
    check(
        &played,
        &[
            row(
                (0.0, end),
                "plays with the G pedal down",
                &["question: pedal G"],
                &others,
            ),
            row(
                (0.0, asked),
                "until it is asked",
                &["question: high G* / which *"],
                &["down G*"],
            ),
        ],
    );
}

#[test]
fn a_wrong_octave_plucked_once_sends_nobody_anywhere() {
    SEEDS.into_iter().for_each(wrong_octave_in);
}

fn wrong_octave_in(seed: u64) {
    println!("seed {seed}");
    let wrong = Mishaps {
        wrong_octave: true,
        ..Mishaps::default()
    };
    let played = a_beginner(12, wrong, Room::QUIET, seed);
    let Aside::WrongOctave {
        at_s,
        meant,
        plucked,
    } = played.aside()
    else {
        panic!("another mishap");
    };
    let visit = played.visit(meant);
    let (up, down, tuned) = (
        format!("up {meant}"),
        format!("down {meant}"),
        format!("in tune {meant}"),
    );
    let own =
        format!("up {plucked} / down {plucked} / in tune {plucked} / near {plucked} / which *");
    let meant_s = played
        .truth
        .iter()
        .find(|p| p.string == *meant)
        .unwrap()
        .at_s;
    check(
        &played,
        &[
            row(
                (*at_s, meant_s),
                "plucks the octave instead",
                &[&own],
                &[&up, &down, &tuned],
            ),
            row(
                (meant_s, visit.until_s),
                "plucks what she meant",
                &[&format!("{up} / {down} / {tuned}")],
                &NO_ALARM,
            ),
        ],
    );
}

#[test]
fn a_key_on_another_pin_is_noticed() {
    SEEDS.into_iter().for_each(other_pin_in);
}

fn other_pin_in(seed: u64) {
    println!("seed {seed}");
    let pin = Mishaps {
        other_pin: true,
        ..Mishaps::default()
    };
    let played = a_beginner(12, pin, Room::QUIET, seed);
    let Aside::OtherPin {
        from_s,
        until_s,
        plucked,
        turned,
    } = played.aside()
    else {
        panic!("another mishap");
    };
    let end = played.script.round.seconds;
    let noticed = format!("stop: {turned} moves, not {plucked} / question: key {plucked}");
    check(
        &played,
        &[
            row((0.0, *from_s), "tunes as she should", &[], &NO_ALARM),
            row(
                (*from_s, until_s + 0.5),
                "plucks one and turns another",
                &[&noticed],
                &[],
            ),
            row(
                (until_s + 0.5, end),
                "puts both right",
                &[],
                &["question: pedal *", "question: A4 *"],
            ),
        ],
    );
}

#[test]
fn a_string_that_passed_its_target_is_eased_down() {
    SEEDS.into_iter().for_each(passed_in);
}

fn passed_in(seed: u64) {
    println!("seed {seed}");
    let passed = Mishaps {
        passed: true,
        ..Mishaps::default()
    };
    let played = a_beginner(12, passed, Room::QUIET, seed);
    let Aside::Passed { at_s, string, .. } = played.aside() else {
        panic!("another mishap");
    };
    let visit = played.visit(string);
    let (up, down, tuned) = (
        format!("up {string}"),
        format!("down {string}"),
        format!("in tune {string}"),
    );
    let mut must = vec![down.as_str()];
    if played.surely_left_in_tune(visit) {
        must.push(&tuned);
    }
    check(
        &played,
        &[
            row(
                (visit.from_s, *at_s),
                "finds it low and turns it too far",
                &[&up],
                &[&down],
            ),
            row((*at_s, visit.until_s), "eases it down", &must, &NO_ALARM),
        ],
    );
}
