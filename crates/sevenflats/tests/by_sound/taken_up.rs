//! A round that breaks off, and is taken up from its events with the rest of the sound: it ends as if it had not broken off.
//! The players are invented (`pluck::player`).

use crate::played::{Played, first, in_the_middle, play, standing};
use harp::StringName;
use pluck::player::{Script, new_string, whole_harp};
use pluck::{Event as Pluck, Room, What};
use tuning::round::{Act, Event, Round, State, Summed, Then};
use tuning::{Happened, Heard, Sitting};

/// How a round is taken up.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Again {
    /// From its events, in a new sitting.
    Resumed,
    /// The same, paused until it goes on.
    Paused,
    /// In the same sitting, with a microphone of another rate.
    OtherRate,
}

/// The script played with `acts`, cut at a second and taken up with the sound from there on: everything that happened, and
/// the round as it ends.
fn cut(played: &Played, acts: &[(f64, Act)], cut_s: f64, again: Again) -> (Vec<Event>, Round) {
    let script = &played.script.round;
    let sound: Vec<f32> = script.perform().unwrap().flatten().collect();
    let (before, after) = sound.split_at((cut_s * f64::from(script.rate_hz)) as usize);
    let (earlier, later): (Vec<_>, Vec<_>) = acts.iter().partition(|(at_s, _)| *at_s <= cut_s);
    let mut sitting = Sitting::new(script.rate_hz, played.plan.clone(), 0.6).unwrap();
    let mut events = vec![sitting.act(Act::Begin).event];
    hear(&mut sitting, before, &earlier, 0.0, &mut events);
    let (mut sitting, after) = match again {
        Again::OtherRate => {
            let last = sitting.change_rate(96_000).unwrap();
            events.extend(last.into_iter().map(|h| h.event));
            (sitting, doubled(after))
        }
        _ => {
            let plan = played.plan.clone();
            let (new, past) = Sitting::resume(script.rate_hz, plan, 0.6, &events).unwrap();
            assert_eq!(new.round(), sitting.round());
            let again: Vec<Event> = past.into_iter().map(|h| h.event).collect();
            assert_eq!(again, events);
            (new, after.to_vec())
        }
    };
    if again == Again::Paused {
        events.extend([Act::Pause, Act::Resume].map(|act| sitting.act(act).event));
    }
    let later: Vec<_> = later
        .iter()
        .map(|(at_s, act)| (at_s - cut_s, *act))
        .collect();
    let from_s = sitting.now_s();
    hear(&mut sitting, &after, &later, from_s, &mut events);
    events.extend(sitting.finish().into_iter().map(|h| h.event));
    (events, sitting.round().clone())
}

fn hear(
    sitting: &mut Sitting,
    sound: &[f32],
    acts: &[(f64, Act)],
    from_s: f64,
    events: &mut Vec<Event>,
) {
    let mut acts = acts.iter().peekable();
    for block in sound.chunks(1_024) {
        while let Some((_, act)) = acts.next_if(|(at_s, _)| at_s + from_s <= sitting.now_s()) {
            events.push(sitting.act(*act).event);
        }
        events.extend(sitting.push(block).into_iter().map(|h: Happened| h.event));
    }
}

/// The same sound at twice the rate, straight lines between the samples.
fn doubled(sound: &[f32]) -> Vec<f32> {
    let next = sound.iter().skip(1).chain(sound.last());
    sound
        .iter()
        .zip(next)
        .flat_map(|(a, b)| [*a, 0.5 * (a + b)])
        .collect()
}

/// Times never go back by more than a pluck is listened to; what was done and read before the cut stays as it was, and all
/// strings end in the state in which they would have ended.
fn check(played: &Played, acts: &[(f64, Act)], cut_s: f64, again: Again, why: &str) {
    let (events, round) = cut(played, acts, cut_s, again);
    let known = |e: &Event| match e {
        Event::Heard(Heard::Reading(r)) => r.at_s + r.listened_s,
        other => other.at_s(),
    };
    let mut latest = 0.0f64;
    for event in &events {
        assert!(known(event) > latest - 1.0, "{latest} s, then {event:?}");
        latest = latest.max(known(event));
    }
    let replayed = events
        .iter()
        .fold(Round::new(played.plan.clone()), |mut round, event| {
            round.step(event);
            round
        });
    assert_eq!(replayed, round, "run again it is the same round");
    let mut wrong = Vec::new();
    let (whole, taken_up) = (played.round.summary(), round.summary());
    for (was, is) in whole.strings.iter().zip(&taken_up.strings) {
        wrong.extend(differs(was, is, cut_s));
    }
    let minutes = taken_up.minutes - whole.minutes;
    println!(
        "{why}: cut at {cut_s:.2} s, {again:?}: {} events, {minutes:+.3} min; {}",
        events.len(),
        wrong.join("; ")
    );
    assert!(wrong.is_empty(), "{why}, {again:?}: {}", wrong.join("\n"));
    assert!(minutes.abs() < 0.06, "{minutes}");
}

fn differs(was: &Summed, is: &Summed, cut_s: f64) -> Option<String> {
    let near = |a: Option<tuning::round::Kept>, b: Option<tuning::round::Kept>| match (a, b) {
        (Some(a), Some(b)) if a.at_s + 0.6 < cut_s => a == b,
        (Some(a), Some(b)) => {
            (a.off_cents - b.off_cents).abs() <= 0.5 + a.u95_cents.hypot(b.u95_cents)
        }
        (a, b) => a.is_none() && b.is_none(),
    };
    // whether a string that is to be turned was seen to move is the follower's word, which may come or not
    let state = |s: &Summed| match s.state {
        State::Moving => State::BeforeKnown,
        other => other,
    };
    let same = state(was) == state(is) && was.fitted == is.fitted;
    (!same || !near(was.before, is.before) || !near(was.after, is.after))
        .then_some(format!("{was:?}, then {is:?}"))
}

fn a_round() -> (Script, tuning::round::Plan) {
    let plan = in_the_middle("pedal47", 440.0);
    let script = whole_harp(&standing(&plan), &first(&plan, 9), 1).unwrap();
    (script, plan)
}

/// The middle of the `nth` turn of a pin.
fn turn_s(script: &Script, nth: usize) -> f64 {
    let turns = script.round.events.iter().filter_map(|e| match e.what {
        What::Turn { seconds, .. } => Some(e.at_s + 0.5 * seconds),
        _ => None,
    });
    turns.collect::<Vec<f64>>()[nth]
}

const HOW: [Again; 3] = [Again::Resumed, Again::Paused, Again::OtherRate];

#[test]
fn a_round_cut_while_a_pin_is_turned_ends_as_it_would_have() {
    let (script, plan) = a_round();
    let played = play(script, &plan, Room::QUIET, &[]);
    for again in HOW {
        for nth in [1, 6] {
            check(
                &played,
                &[],
                turn_s(&played.script, nth),
                again,
                "a pin turns",
            );
        }
    }
}

#[test]
fn a_round_cut_before_a_last_word_ends_as_it_would_have() {
    let (mut script, plan) = a_round();
    // she plucks it once more as she comes to it, and the cut lies in the first of the two
    let visit = script.visits[4].clone();
    let first_s = visit.from_s - 0.9;
    script
        .round
        .events
        .push(Pluck::pluck(first_s, &visit.string));
    let played = play(script, &plan, Room::QUIET, &[]);
    for again in HOW {
        check(&played, &[], first_s + 0.3, again, "before the last word");
    }
}

#[test]
fn a_round_cut_in_a_pause_ends_as_it_would_have() {
    let (script, plan) = a_round();
    let (pause_s, go_s) = (script.visits[3].from_s - 0.3, script.visits[6].from_s - 0.3);
    let acts = [(pause_s, Act::Pause), (go_s, Act::Resume)];
    let cut_s = script.visits[4].from_s + 0.2;
    let played = play(script, &plan, Room::QUIET, &acts);
    for again in [Again::Resumed, Again::OtherRate] {
        check(&played, &acts, cut_s, again, "in a pause");
    }
}

#[test]
fn a_new_string_keeps_its_name_and_a_broken_one_stays_away() {
    let plan = in_the_middle("pedal47", 440.0);
    let (d4, b4): (StringName, StringName) = ("D4".parse().unwrap(), "B4".parse().unwrap());
    let order: Vec<String> = first(&plan, 8).into_iter().filter(|s| s != "B4").collect();
    let script = new_string(&standing(&plan), &order, "D4", 7).unwrap();
    let acts = [
        (0.0, Act::Broke(b4, Then::PlayWithout)),
        (0.0, Act::Broke(d4, Then::FittedNow)),
    ];
    let played = play(script, &plan, Room::QUIET, &acts);
    assert_eq!(played.round.state(b4), Some(State::Broken));
    // it is brought up from five semitones below: at its third turn it is far from its pitch
    for again in HOW {
        check(
            &played,
            &acts,
            turn_s(&played.script, 2),
            again,
            "a new string",
        );
    }
}
