//! A wrong name breaks strings: what a pluck is called, and when it is called nothing.

use tuning::round::{Order, Plan, State};

use crate::table::{check, name, plan};

#[test]
fn a_string_being_turned_keeps_its_name_beyond_the_middle() {
    // 5E and 4F stand a semitone apart; beyond the middle the tracker and the ear call it 4F
    let round = check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G 0       | in tune
         pluck 4F 1       | 4F: in tune; Now 5E
         pluck 5E -40     | 5E: 40.0 cents low. Up more
         move 5E -20      | 5E: −20.0
         move 5E 10       | 5E: +10.0, down
         move 5E 33       | 5E: 33.0 cents high. Ease it down; Stop
         move 4F -45      | 5E: +55.0; not 4F
         pluck 5E 55      | Stop; 5E: 55.0 cents high; not 4F
         move 5E 20       | 5E: +20.0
         pluck 5E 15      | 5E: 15.0 cents high. Down a little, to just under, then come up
         pluck 5E 0       | 5E: in tune",
    );
    assert_eq!(round.kept(name("4F")).len(), 1, "4F kept what was 5E's");
}

#[test]
fn a_string_turned_beyond_the_middle_is_not_its_neighbour_that_was_never_heard() {
    let round = check(
        plan("pedal47"),
        "begin            |
         pluck 4D 0       | Now 4E
         pluck 4E -30     | 4E: 30.0 cents low
         move 4E 10       | 4E: +10.0
         move 4E 56       | Stop. 4E: 56.0 cents high
         pluck 4E 66      | Stop. 4E: 66.0 cents high; not 3F",
    );
    assert!(round.kept(name("3F")).is_empty());
}

#[test]
fn a_settled_string_that_sounds_just_where_it_was_is_not_the_one_asked_for() {
    let own = Plan {
        order: Order::List(["4F", "4G", "5E"].map(name).to_vec()),
        ..plan("pedal47")
    };
    check(
        own,
        "begin            | Now 4F
         pluck 4F 0       | in tune
         pluck 4G 0       | Now 5E
         pluck 4F 0.5     | 4F: in tune; Now 5E",
    );
}

#[test]
fn where_two_strings_are_possible_both_are_said_and_no_direction() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 3F -25     | 4E or 3F: each is possible, so no direction; not low; not Up; not Down
         pluck 3F -45     | 4E or 3F; not low; not high
         this 3F          | 3F: 45.0 cents low. Up more
         pluck 3F 0       | 3F: in tune
         pluck 4E 1       | 4E: in tune",
    );
}

#[test]
fn plucking_the_other_of_two_tells_which_it_was() {
    let round = check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 3F -25     | 4E or 3F: each is possible; Pluck the other one, then this again
         pluck 4E -20     | 4E: 20.0 cents low
         pluck 3F -24.5   | 3F: 24.5 cents low. Up more
         pluck 3F 0       | 3F: in tune",
    );
    assert_eq!(round.kept(name("3F")).len(), 2);
}

#[test]
fn the_order_is_a_second_ground() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G 0       | Now 4F
         pluck 4F -25     | 4F: 25.0 cents low. Up more; not each is possible",
    );
}

#[test]
fn what_all_strings_have_in_common_is_a_second_ground() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 3A -20     | 3A: 20.0 cents low
         pluck 3F -25     | 4E or 3F: each is possible
         pluck 2D -24     | 2D: 24.0 cents low
         pluck 2G -21     | 2G: 21.0 cents low
         pluck 2F -25     | 2F: 25.0 cents low. Up more",
    );
}

#[test]
fn a_jump_from_one_string_to_its_neighbour_is_not_taken_for_a_turned_pin() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G 0       | Now 4F
         next             | Now 5E
         pluck 5E -30     | 5E: 30.0 cents low
         pluck 4F -15     | 5E or 4F: each is possible, so no direction; not Stop",
    );
}

#[test]
fn a_settled_string_that_sounds_just_where_it_was_is_itself() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G 0       | Now 4F
         pluck 4F 0       | Now 5E
         pluck 5E -20     | 5E: 20.0 cents low
         pluck 4F 0       | 4F: in tune; Now 5E
         pluck 5E -20     | 5E: 20.0 cents low",
    );
}

#[test]
fn the_key_on_another_pin_is_asked_about_at_the_third_pluck_without_change() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4A 1       | 4A: in tune
         pluck 4G -20     | 4G: 20.0 cents low
         pluck 4G -20.5   | 4G: 20.5 cents low; not another pin
         pluck 4G -20.1   | 4G: 3 plucks and no change. Is the key on another pin?
         pluck 4A 34      | Stop: 4A has moved by +33.0 cents, and 4G was to be turned
         pluck 4A 0       | 4A: in tune
         pluck 4G -8      | 4G: 8.0 cents low. Up a hair; not another pin",
    );
}

#[test]
fn after_that_question_a_neighbour_may_be_the_one_that_was_turned() {
    // 3F was to be raised; 4E's pin was turned instead, up to where 3F is not far off
    check(
        plan("pedal47"),
        "begin            |
         pluck 4D 0       | Now 4E
         pluck 4E 0       | 4E: in tune; Now 3F
         pluck 3F -20     | 3F: 20.0 cents low
         pluck 3F -20     |
         pluck 3F -20     | Is the key on another pin?
         pluck 4E 55      | 4E or 3F: each is possible; not low
         pluck 3F -20     | 3F: 20.0 cents low",
    );
}

#[test]
fn a_hair_is_a_change() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 4G -5.6    | Up a hair
         pluck 4G -4.1    | Up a hair
         pluck 4G -3.05   | Up a hair; not another pin",
    );
}

#[test]
fn a_string_in_hand_is_turned_on_after_it_was_in_tune() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 3F 0       | 3F: in tune
         pluck 3F -30     | 3F: 30.0 cents low",
    );
}

#[test]
fn a_string_turned_far_unheard_has_its_name_where_its_neighbour_is_known_to_be_elsewhere() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 3F 0       | 3F: in tune
         pluck 4E -30     | 4E: 30.0 cents low
         pluck 4E 62      | Stop. 4E: 62.0 cents high",
    );
}

#[test]
fn a_pluck_named_later_places_no_other_string() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 3F -25     | 4E or 3F
         again 3F         |
         pluck 3F -25     | 3F: 25.0 cents low
         next             |
         pluck 3F -25     | not 4E:",
    );
}

#[test]
fn a_string_that_nobody_told_to_move_is_not_asked_about() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 4G 1       | in tune
         pluck 4G 1       | in tune; not another pin
         pluck 4G 1       | in tune; not another pin",
    );
}

#[test]
fn one_string_is_plucked_while_another_turns() {
    let round = check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4A 0       | 4A: in tune
         pluck 4G -20     | 4G: 20.0 cents low
         move 4A 3        | nothing
         move 4A 14       | Stop: 4A has moved by +14.0 cents, and 4G was to be turned; The key is on the wrong pin
         move 4A 18       | nothing
         pluck 4G -20     | 4G: 20.0 cents low
         pluck 4A 18      | 4A: 18.0 cents high. Down a little",
    );
    assert_eq!(round.summary().warnings.len(), 1);
}

#[test]
fn a_wire_heard_an_octave_high_is_asked_about_and_not_kept() {
    let round = check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 5C 0       | 5C: in tune
         pluck 5D 0       | 5D: in tune
         pluck 6D -6      | 6D: 6.0 cents low. Up a hair
         octave 6D -6     | That sounded as 5D. If it was 6D, it was heard an octave high; 6D or 5D; not Up; not low
         octave 6D -6     | 6D or 5D; not low; not octave high
         pluck 6D -1      | 6D: in tune",
    );
    assert_eq!(round.kept(name("5D")).len(), 1);
    assert_eq!(round.kept(name("6D")).len(), 2);
}

#[test]
fn the_octave_plucked_to_compare_is_no_alarm_and_heard_twice_it_is_a_question() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 5D 0       | 5D: in tune
         pluck 6D 2 9     | 6D: near, cannot say; compare it by ear with 5D
         pluck 5D 0.4     | 5D: in tune; not octave high
         pluck 6D 2 9     | 6D: near
         pluck 7E -7      | 7E: 7.0 cents low
         pluck 6D -6      | 6D: 6.0 cents low
         octave 6D 1      | 5D: in tune; not octave high
         octave 6D 1      | That sounded as 5D. If it was 6D, it was heard an octave high",
    );
}

#[test]
fn a_gut_string_and_its_octave_are_told_apart() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 3G 0       | 3G: in tune; not octave high",
    );
}

#[test]
fn what_was_turned_while_it_was_read_is_plucked_again() {
    let round = check(
        plan("pedal47"),
        "begin            |
         pluck 4G -20     | Up
         move 4G -12      | 4G: −12.0",
    );
    // live values inside the pluck's own 0.6 s arrive before its reading does
    let mut round = round;
    let at_s = 40.0;
    for (after, off) in [(0.1, -14.0), (0.3, -7.0), (0.5, 0.0)] {
        let hz = pitch::raise(crate::table::target(&round, name("4G")), off);
        let string = name("4G");
        let moving = tuning::round::Moving {
            at_s: at_s + after,
            string,
            hz,
            u95_cents: 1.0,
        };
        round.step(&tuning::round::Event::Moving(moving));
    }
    let said = round.step(&crate::table::pluck(&round, at_s, name("4G"), -1.0, 0.8));
    let said: Vec<String> = said.iter().map(crate::table::words).collect();
    assert_eq!(
        said,
        ["4G: it moved while it rang. Leave the key and pluck it still."]
    );
    assert_eq!(round.state(name("4G")), Some(State::Moving));
}

#[test]
fn a_coarse_word_on_a_string_that_was_not_asked_for_is_to_be_plucked_once_more() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 3B -20 13  | It may be 3B, but that is not sure; not Up
         pluck 3B -20     | 3B: 20.0 cents low. Up a little",
    );
}

#[test]
fn the_octave_of_the_string_in_hand_may_be_that_string_where_the_word_is_coarse() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G 0       | 4G: in tune; Now 4F
         pluck 3G 0 2.5   | 4G or 3G: each is possible; not in tune
         pluck 3G 0       | 3G: in tune",
    );
}

#[test]
fn a_partial_of_the_string_asked_for_may_be_that_string_where_the_word_is_coarse() {
    // the third partial of 4G lies two cents above 3D
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 3D -4 2.5  | 4G or 3D: each is possible; not Up
         pluck 3D -4      | 3D: 4.0 cents low. Up a hair",
    );
}

#[test]
fn a_string_that_moves_against_the_key_was_not_turned_by_it() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4A 1       | 4A: in tune
         pluck 4G -20     | 4G: 20.0 cents low. Up
         move 4A -18      | not Stop
         move 4A 20       | Stop: 4A has moved by +19.0 cents, and 4G was to be turned",
    );
}

#[test]
fn enough_is_said_once_though_the_string_wavers() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G -20     | 4G: 20.0 cents low. Up
         move 4G -10      | 4G: −10.0, still up
         move 4G -2       | 4G: enough
         move 4G -4       | not enough
         move 4G -2       | not enough
         move 4G 8        | 4G: +8.0, down
         move 4G 2        | 4G: enough",
    );
}

#[test]
fn a_named_string_left_for_another_is_let_go() {
    check(
        plan("pedal47"),
        "begin            | Now 4G
         this 4G          | 4G, however far off it is
         pluck 4G -30     | 4G: 30.0 cents low
         pluck 3D 0       | Any string again; 3D: in tune; not Stop
         pluck 4G -29     | 4G: 29.0 cents low",
    );
}
