//! Another A: asked about where all strings say the same, and not where a harp moved as a whole.

use harp::{Harp, Setup};
use pitch::ReferencePitch;
use tuning::round::Plan;

use crate::table::{check, plan};

fn plan_at(a4_hz: f64) -> Plan {
    let harp = Harp::named("lever34").unwrap();
    Plan::of(&harp, &Setup::open(ReferencePitch::new(a4_hz).unwrap())).unwrap()
}

// 1200·log2(440/447) = −27.33 cents: arithmetic
#[test]
fn a_tool_at_447_before_a_harp_at_440_asks_whether_a_is_right() {
    check(
        plan_at(447.0),
        "begin            | Now 4G
         pluck 4G -27.5   | 27.5 cents low; not Is the A right
         pluck 4F -26.8   |
         pluck 5E -28.0   |
         pluck 5D -27.0   | not Is the A right
         pluck 5C -27.4   | All 5 so far are off by −27.4 cents, as on a harp tuned to 440. Is the A right?
         pluck 4A -27.2   | not Is the A right",
    );
}

#[test]
fn a_harp_at_442_before_a_tool_at_440_asks_whether_a_is_right() {
    check(
        plan_at(440.0),
        "begin            |
         pluck 4G 8.2     | Down a little
         pluck 4F 7.1     |
         pluck 5E 8.0     |
         pluck 5D 7.9     |
         pluck 5C 7.5     | as on a harp tuned to 442. Is the A right?",
    );
}

#[test]
fn a_harp_that_is_brought_from_442_to_440_on_purpose_is_not_asked_about() {
    let mut plan = plan_at(440.0);
    plan.usual_a4_hz = Some(442.0);
    check(
        plan,
        "begin            | not technician
         pluck 4G 8.2     | Down a little
         pluck 4G 0       | in tune
         pluck 4F 7.1     |
         pluck 4F 0       | in tune
         pluck 5E 8.0     |
         pluck 5D 7.9     |
         pluck 5C 7.5     | not Is the A right",
    );
}

#[test]
fn a_harp_that_moved_as_a_whole_is_no_alarm() {
    check(
        plan_at(440.0),
        "begin            |
         pluck 4G -24     |
         pluck 4F -14     |
         pluck 5E -22     |
         pluck 5D -17     |
         pluck 5C -27     | not Is the A right
         pluck 4A -19     | not Is the A right
         pluck 4B -13     | not Is the A right
         pluck 4C -20     | not Is the A right
         pluck 4D -25     | not Is the A right",
    );
}

#[test]
fn a_harp_in_tune_is_no_alarm() {
    check(
        plan_at(440.0),
        "begin            |
         pluck 4G 2.5     | in tune
         pluck 4F 2.2     | in tune
         pluck 5E 2.4     | in tune
         pluck 5D 2.6     | in tune
         pluck 5C 2.5     | in tune; not Is the A right",
    );
}

#[test]
fn a_target_far_above_the_usual_pitch_asks_for_a_technician_first() {
    let mut usual = plan("pedal47");
    usual.usual_a4_hz = Some(430.0);
    check(
        usual,
        "begin            | +39.8 cents above this harp's usual pitch, 4.7 % more pull; ask your technician first
         use 442          | ask your technician first; not A is 442
         use 442 asked    | A is 442.0
         use 430          | A is 430.0; not technician
         use 300          | only 380 to 480",
    );
}

#[test]
fn strings_in_tune_for_the_old_a_are_asked_for_again() {
    check(
        plan_at(440.0),
        "begin            | Now 4G
         pluck 4G 0       | in tune
         use 442          | A is 442.0
         pluck 4G -7.9    | 4G: 7.9 cents low. Up a hair",
    );
}
