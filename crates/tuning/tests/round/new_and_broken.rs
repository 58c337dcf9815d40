//! Strings that break, new strings that climb, strings without discs.

use tuning::round::{Aside, State};

use crate::table::{check, name, plan};

#[test]
fn a_new_string_climbs_from_a_fourth_below_and_is_asked_for_until_it_holds() {
    let round = check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G 0       | Now 4F
         broke 3A new     | 3A is new; Eyes; technician; Now 3A
         pluck 3A -480    | 3A (new): 480.0 cents low. Up by half of that at most, 240 cents
         move 3A -300     | 3A: −300.0, still up
         pluck 3A -250    | Up by half of that at most, 125 cents
         pluck 3A -120    | 3A (new): 120.0 cents low
         pluck 3A -60     | by half of that at most, 30 cents
         pluck 3A -19     | 3A (new): 19.0 cents low. Up a little
         pluck 3A 1       | 3A (new): there for now; asked for again; not in tune; Now
         pluck 3A 1       | there for now; not holds
         pluck 3A 1       | there for now; not holds
         pluck 3A 1       | there for now; not holds
         pluck 3G 0       | 3G: in tune
         pluck 3F 0       |
         pluck 2G 0       | in tune
         pluck 2A 0       | in tune; not Now 3A
         pluck 2B 0       | in tune; Now 3A: it is new. Has it held?
         pluck 3A -150    | 3A (new): 150.0 cents low. Up by half of that
         pluck 3A 0       | there for now
         wait 130         |
         pluck 3A -1      | there for now; not holds
         wait 130         |
         pluck 3A -2      | 3A (new): it holds",
    );
    assert_eq!(round.state(name("3A")), Some(State::InTune));
    let summary = round.summary();
    let a = summary
        .strings
        .iter()
        .find(|s| s.string == name("3A"))
        .unwrap();
    assert!(a.fitted);
    assert!(
        (a.before.unwrap().off_cents + 480.0).abs() < 1e-9,
        "{:?}",
        a.before
    );
}

#[test]
fn a_string_that_broke_is_played_without_and_its_before_is_not_lost() {
    let round = check(
        plan("pedal47"),
        "begin            | Now 4G
         pluck 4G -12     | Up a little
         broke 4G without | 4G broke; Eyes away; wire; wrist; technician; goes on without it; Now 4F
         pluck 4F 0       | 4F: in tune
         this 4G          | 4G is new
         pluck 4G -490    | 4G (new): 490.0 cents low",
    );
    let summary = round.summary();
    let g = summary
        .strings
        .iter()
        .find(|s| s.string == name("4G"))
        .unwrap();
    assert!((g.before.unwrap().off_cents + 12.0).abs() < 1e-9);
    assert!((g.after.unwrap().off_cents + 490.0).abs() < 1e-9);
    let asides: Vec<_> = round.kept(name("4G")).iter().map(|k| k.aside).collect();
    assert_eq!(asides, [Some(Aside::OldString), None]);
}

#[test]
fn a_broken_string_is_no_candidate_for_a_name() {
    check(
        plan("pedal47"),
        "begin            |
         broke 4E without | goes on without it
         pluck 3F -25     | 3F: 25.0 cents low. Up more",
    );
}

#[test]
fn what_a_new_string_climbs_does_not_call_up_the_others_again() {
    let mut few = plan("pedal47");
    few.strings
        .retain(|s| (name("5D")..=name("4G")).contains(&s.standing.string));
    check(
        few,
        "begin            | 4 strings; Now 4G
         pluck 4G 0       | in tune
         pluck 4F 0       | in tune
         pluck 5E 0       | in tune; Now 5D
         broke 5D new     |
         pluck 5D -400    | Up by half
         pluck 5D -190    | Up by half
         pluck 5D 0       | there for now; not again: others",
    );
}

#[test]
fn a_new_string_is_not_pulled_past_its_pitch() {
    check(
        plan("pedal47"),
        "begin            |
         broke 4G new     |
         pluck 4G -60     | by half of that
         move 4G 34       | Stop. 4G: 34.0 cents high. Ease it down",
    );
}

#[test]
fn strings_without_discs_ask_for_tonights_pitch_and_offer_themselves_again() {
    check(
        plan("pedal47"),
        "begin            | Without discs: 7D, 7C and 0G. What is to sound there tonight?
         pluck 0G 0       | 0G: in tune
         set 0G Gn7       | 0G is to sound G♮7; Now 0G
         pluck 0G 0       | 0G: in tune
         pluck 4G -12     | Up a little
         set 0G Gb7       | 0G is to sound G♭7; Now 0G
         set 0G Gn7       | 0G is to sound G♮7
         between-pieces   | Without discs: 7C at C♭1, 7D at D♭1, 0G at G♮7
         set 0G Gb7       | 0G is to sound G♭7; Now 0G
         pluck 0G 100     | not pedal; not Stop
         pluck 0G 40      | 0G: 40.0 cents high. Down more
         pluck 0G 0       | 0G: in tune
         set 0G Gq7       |"
            .lines()
            .filter(|l| !l.contains("Gq7"))
            .collect::<Vec<_>>()
            .join("\n")
            .as_str(),
    );
}

#[test]
fn a_string_without_discs_moved_on_purpose_raises_no_alarm() {
    let round = check(
        plan("pedal47"),
        "begin            |
         pluck 7D 0       | 7D: in tune
         pluck 4G -19     | Up a little
         on-purpose 7D    | 7D: moved by you
         move 7D 40       | not Stop
         pluck 7D 40      | 7D: 40.0 cents high. Down more; not Stop; not another; not Is it where you said
         pluck 4G -17     | Up a little
         move 7D 20       | not Stop",
    );
    assert!(
        round.summary().warnings.is_empty(),
        "{:?}",
        round.summary().warnings
    );
}

#[test]
fn a_string_with_discs_is_not_set_by_key() {
    check(
        plan("pedal47"),
        "begin            |
         set 4G Gn3       | cannot be that
         pluck 7C 0       | 7C: in tune
         set 7C An0       | 7C is to sound A♮0; Now 7C
         pluck 7C 200     | 7C: 200.0 cents high. Ease it down by half of that at most, 100 cents; not Is it where you said
         pluck 7C 1       | 7C: in tune
         set 7C Gn0       | cannot be that",
    );
}
