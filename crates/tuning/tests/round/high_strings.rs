//! Strings above their targets: pedals, levers, questions, and when to stop.

use harp::{Harp, Setup};
use pitch::{ReferencePitch, raise};
use tuning::round::Plan;

use crate::table::{check, name, plan};

#[test]
fn a_pedal_down_is_asked_about_before_any_down() {
    // the A pedal stands at natural: every A is a semitone high
    let round = check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G 0       | in tune; Now 4F
         next             | Now 5E
         pluck 5D 0       | in tune
         pluck 5C 0       | in tune
         pluck 5B 0       | in tune; Now 5A
         pluck 5A 101     | 5A: 101.0 cents high. Is it where you said; not Down; not own
         pluck 5A 101     | Is it where you said; not own
         next             | Now 5G
         pluck 5G 0       | in tune
         pluck 5F 0       | in tune
         pluck 6E 0       | in tune
         pluck 6D 0       | in tune
         pluck 6C 0       | in tune
         pluck 6B 0       | in tune; Now 6A
         pluck 6A 98      | Is the A pedal up? 6A and 5A sound a semitone high; not own
         pluck 6A -2      | 6A: in tune
         pluck 5A 2       | 5A: in tune",
    );
    // what was read in the wrong position is kept, and is no before
    let kept = round.kept(name("5A"));
    assert_eq!(kept.len(), 3);
    let summary = round.summary();
    let a = summary
        .strings
        .iter()
        .find(|s| s.string == name("5A"))
        .unwrap();
    assert!((a.before.unwrap().off_cents - 2.0).abs() < 1e-9);
    assert_eq!(a.plucks, 3);
}

#[test]
fn a_pedal_is_not_blamed_where_another_string_of_its_letter_is_right() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 4A 1       | 4A: in tune
         pluck 3A 102     | 3A or 3B; not pedal up
         this 3A          | not pedal up
         let-go           |
         pluck 2A 60      | It may be 2A, but that is not sure; not high; not Down
         pluck 2A 60      | 2A: 60.0 cents high. Is it where you said; not pedal up
         pluck 2A 60      | 2A: 60.0 cents high. Ease it down by half of that at most",
    );
}

#[test]
fn a_pedal_that_slips_in_the_middle_of_a_round_is_asked_about() {
    let round = check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4A -3.5    | Up a hair
         pluck 4A 0       | in tune
         pluck 3B 0       | in tune
         pluck 3G 0       | in tune; Now 3A
         pluck 3A 97      | 3A: 97.0 cents high. Is it where you said; not own
         pluck 3A 97      | 3A: 97.0 cents high. Is it where you said; not own
         pluck 4B 0       | in tune
         pluck 2B 0       | in tune
         pluck 2G 0       | in tune; Now 2A
         pluck 2A 98      | Is the A pedal up? 3A and 2A sound a semitone high
         pluck 3A -4      | 3A: 4.0 cents low. Up a hair",
    );
    let summary = round.summary();
    let before = |s: &str| {
        let all = &summary.strings;
        all.iter()
            .find(|x| x.string == name(s))
            .unwrap()
            .before
            .unwrap()
            .off_cents
    };
    assert!((before("3A") + 4.0).abs() < 1e-9);
    assert!((before("4A") + 3.5).abs() < 1e-9);
}

#[test]
fn a_string_that_only_sounds_as_the_one_in_hand_is_asked_about_at_the_third_pluck() {
    // the E pedal at natural makes every E sound as F, a semitone above it
    check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G 0       |
         pluck 4F 0       | Now 5E
         pluck 5E 100     | 4F: in tune; not pedal
         pluck 5E 100     | 4F: in tune; not pedal
         pluck 5E 100     | Is the E pedal up? 5E sounds a semitone high
         pluck 5E 0       | 5E: in tune",
    );
}

#[test]
fn a_lever_that_makes_a_string_sound_as_one_not_yet_heard_gives_no_name() {
    // 4D with its lever on sounds as 4E does, and 4E has not been heard
    let round = check(
        plan("lever34"),
        "begin            |
         pluck 4C 0       | Now 4D
         pluck 4D 100     | 4D or 4E: each is possible; not in tune
         pluck 4D 100     | 4D: a semitone high. Is its lever off?; not in tune
         pluck 4D 1       | 4D: in tune; Now 4E
         pluck 4E 0       | 4E: in tune",
    );
    assert_eq!(round.kept(name("4E")).len(), 1);
}

#[test]
fn a_string_a_whole_tone_high_is_not_taken_for_the_next_one() {
    // the D pedal at sharp puts 4D where 4E should be, and 4E has not been heard
    let round = check(
        plan("pedal47"),
        "begin            |
         pluck 4C 0       | Now 4D
         pluck 4D 200     | 4D or 4E: each is possible; not in tune
         pluck 4D 199     | Is the D pedal up? 4D sounds a tone high; not in tune
         pluck 4D 0       | 4D: in tune
         pluck 4E 0       | 4E: in tune",
    );
    assert_eq!(round.kept(name("4E")).len(), 1);
}

#[test]
fn a_pedal_that_makes_a_low_harps_string_sound_as_its_neighbour_gives_no_direction() {
    // all are 20 low; the E pedal at natural puts 4E where a low 3F would be
    check(
        plan("pedal47"),
        "begin            |
         pluck 4A -18     | Up a little
         pluck 4B -19     | Up a little
         pluck 4D -21     | Up more; 4D
         pluck 4D 0       | Now 4E
         pluck 4E 80      | 4E or 3F: each is possible; not low
         pluck 4E 80      | Is the E pedal up? 4E sounds a semitone high; not low",
    );
}

#[test]
fn a_lever_left_on_is_asked_about_before_any_down() {
    // open in E flat; the lever of 3A is on
    check(
        plan("lever34"),
        "begin            | Now 4G
         pluck 4G 0       | in tune
         pluck 3G 0       | 3G: in tune; Now 3A
         pluck 3A 99      | 3A: a semitone high. Is its lever off?; not Down; not own
         pluck 3A 99      | Is its lever off?; not own
         pluck 3A -1      | 3A: in tune; not Stop
         pluck 3A 99      | 3A or 3B: each is possible; not own; not Up; not low
         pluck 3G 0       | 3G: in tune
         again 3A         | Now 3A
         pluck 3A 99      | 3A: a semitone high. Is its lever off?; not own",
    );
}

#[test]
fn a_lever_put_on_after_its_string_was_tuned_is_asked_about() {
    check(
        plan("lever34"),
        "begin            |
         pluck 3G 0       | Now 3A
         pluck 3A -18     | Up a little
         pluck 3A 0       | in tune
         pluck 3G 0       | in tune
         again 3A         | Now 3A
         pluck 3A 100     | 3A: a semitone high. Is its lever off?; not own; not Stop",
    );
}

#[test]
fn when_she_says_that_it_is_off_a_high_string_is_eased_down() {
    check(
        plan("lever34"),
        "begin            |
         pluck 3G 0       | Now 3A
         pluck 3A 99      | Is its lever off?
         as-said A        | nothing
         pluck 3A 99      | 3A: 99.0 cents high. Ease it down by half of that at most",
    );
}

#[test]
fn a_string_merely_found_high_is_a_question_and_no_alarm() {
    let round = check(
        plan("pedal47"),
        "begin            |
         pluck 4G 38      | 4G: 38.0 cents high. Is it where you said; not Stop; not Down
         pluck 4G 38      | 4G: 38.0 cents high. Down more, to just under, then come up
         pluck 4G -4      | 4G: 4.0 cents low. Up a hair
         pluck 4G 0       | in tune",
    );
    assert!(
        round
            .summary()
            .warnings
            .iter()
            .all(|w| !w.warning.is_stop())
    );
}

#[test]
fn a_string_passed_is_eased_down_and_comes_up_again() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 4G -20     | Up a little
         move 4G -5       | still up
         move 4G 12       | 4G: +12.0, down; not Stop
         pluck 4G 12      | 4G: 12.0 cents high. Down a little, to just under, then come up
         pluck 4G -4      | Up a hair
         pluck 4G 0.3     | 4G: in tune",
    );
}

#[test]
fn rising_past_thirty_cents_stops_the_hand_once() {
    check(
        plan("pedal47"),
        "begin            |
         pluck 4G -20     | Up a little
         move 4G 10       | not Stop
         move 4G 31       | Stop. 4G: 31.0 cents high. Ease it down
         move 4G 34       | not Stop
         move 4G 12       | down; not Stop
         pluck 4G 10      | Down a little
         pluck 4G 45      | Stop. 4G: 45.0 cents high",
    );
}

#[test]
fn rising_above_the_highest_pitch_known_stops_the_hand() {
    let mut known = plan("pedal47");
    let g = known
        .strings
        .iter_mut()
        .find(|s| s.standing.string == name("4G"))
        .unwrap();
    g.highest_hz = Some(raise(g.standing.target_hz, 14.0));
    check(
        known,
        "begin            |
         pluck 4G -20     | Up a little
         move 4G 12       | not Stop
         move 4G 16       | Stop. 4G: 16.0 cents high, above all that is known of it",
    );
}

#[test]
fn a_string_whose_lever_is_meant_to_be_on_is_not_asked_about_it() {
    let harp = Harp::named("lever34").unwrap();
    let setup = Setup {
        levers: vec![name("3F")],
        ..Setup::open(ReferencePitch::A440)
    };
    let plan = Plan::of(&harp, &setup).unwrap();
    check(
        plan,
        "begin            | second best
         this 3F          |
         pluck 3F 99      | 3F: 99.0 cents high; not lever off",
    );
}
