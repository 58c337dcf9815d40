//! Whole rounds as tables: what a made-up player does, what must be said and what must not. The players are invented
//! (`pluck::player`), their truth is exact.

use crate::played::{a_beginner, first, in_the_middle, plan, play, standing};
use crate::said::{NO_VERDICT, check, every_visit, row, visited};
use harp::StringName;
use pluck::Room;
use pluck::player::{Aside, Mishaps, Visit, professional, whole_harp};
use tuning::round::{Act, Event, Kept, Round, State};

#[test]
fn a_harp_20_cents_low_is_brought_up_string_by_string() {
    let plan = plan("pedal47", 440.0);
    let script = whole_harp(&standing(&plan), &first(&plan, 47), 1).unwrap();
    let played = play(script, &plan, Room::QUIET, &[]);
    check(&played, &every_visit(&played));
    let heard = played.round.summary().strings;
    assert!(
        heard
            .iter()
            .all(|s| s.before.is_some() && s.after.is_some())
    );
}

#[test]
fn a_professional_takes_five_seconds_a_string_while_strings_ring_on() {
    let plan = plan("pedal47", 440.0);
    let script = professional(&standing(&plan), &first(&plan, 24), 1).unwrap();
    let played = play(script, &plan, Room::REAL20, &[]);
    check(&played, &every_visit(&played));
}

#[test]
fn an_interruption_with_speech_leaves_the_round_as_it_was() {
    let talk = Mishaps {
        interrupted: true,
        ..Mishaps::default()
    };
    let played = a_beginner(12, talk, Room::REAL20, 1);
    let Aside::Interruption { at_s, seconds } = played.aside() else {
        panic!("another mishap");
    };
    let (from_s, until_s) = (*at_s, at_s + seconds);
    let (before, after): (Vec<&Visit>, Vec<&Visit>) = played
        .script
        .visits
        .iter()
        .partition(|v| v.until_s <= from_s);
    let mut never = NO_VERDICT.to_vec();
    never.extend(["near *", "moving *", "question: *", "stop: *"]);
    let mut rows = vec![row((from_s, until_s), "people talk", &[], &never)];
    rows.extend(after.iter().map(|visit| visited(&played, visit)));
    check(&played, &rows);
    for visit in before {
        let kept = played.round.kept(visit.string.parse().unwrap());
        assert!(!kept.is_empty(), "{} was heard and is lost", visit.string);
    }
    for string in played.round.order() {
        let talk = |k: &&Kept| k.at_s >= from_s && k.at_s < until_s;
        let kept = played.round.kept(*string).iter().find(talk);
        assert_eq!(kept, None, "{string} was read from speech");
    }
}

#[test]
fn what_is_played_in_a_pause_is_not_the_rounds() {
    let plan = in_the_middle("pedal47", 440.0);
    let script = whole_harp(&standing(&plan), &first(&plan, 10), 2).unwrap();
    let (pause_s, resume_s) = (script.visits[3].from_s - 0.3, script.visits[6].from_s - 0.3);
    let paused: Vec<StringName> = script.visits[3..6]
        .iter()
        .map(|v| v.string.parse().unwrap())
        .collect();
    let acts = [(pause_s, Act::Pause), (resume_s, Act::Resume)];
    let played = play(script, &plan, Room::QUIET, &acts);
    let visits = &played.script.visits;
    let mut rows = vec![
        row(
            (pause_s, pause_s + 0.2),
            "asks for a pause",
            &["paused"],
            &NO_VERDICT,
        ),
        row(
            (pause_s + 0.2, resume_s),
            "plays on for herself",
            &[],
            &["*"],
        ),
        row(
            (resume_s, resume_s + 0.2),
            "goes on",
            &["resumed", "next *"],
            &NO_VERDICT,
        ),
    ];
    rows.extend(
        visits[..3]
            .iter()
            .chain(&visits[6..])
            .map(|v| visited(&played, v)),
    );
    check(&played, &rows);
    for string in paused {
        assert_eq!(played.round.state(string), Some(State::NotYetHeard));
    }
    let own_s = played.script.round.seconds - (resume_s - pause_s);
    let minutes = played.round.summary().minutes;
    assert!(
        (minutes - own_s / 60.0).abs() < 5.0 / 60.0,
        "{minutes} min, {own_s} s"
    );
}

#[test]
fn an_interrupted_round_is_taken_up_by_running_its_events_again() {
    let everything = Mishaps {
        pedal_down: None,
        wrong_octave: true,
        other_pin: true,
        passed: true,
        interrupted: true,
    };
    let played = a_beginner(12, everything, Room::REAL20, 2);
    let events: Vec<&Event> = played.all.iter().map(|at| &at.happened.event).collect();
    assert!(events.len() > 100, "{} events", events.len());
    for cut in [events.len() / 4, events.len() / 2, events.len() - 1] {
        let mut again = Round::new(played.plan.clone());
        for event in &events[..cut] {
            again.step(event);
        }
        for at in &played.all[cut..] {
            assert_eq!(again.step(&at.happened.event), at.happened.says);
        }
        assert_eq!(again, played.round);
    }
}
