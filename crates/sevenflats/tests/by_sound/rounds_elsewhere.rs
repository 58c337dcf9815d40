//! Rounds in which strings begin elsewhere: another reference pitch, a lever left on, a new string. Tables as in
//! `rounds.rs`; the players are invented, their truth is exact.

use crate::played::{Played, first, in_the_middle, play, standing};
use crate::said::{NO_ALARM, Row, check, row};
use harp::StringName;
use pitch::{Alteration, ReferencePitch};
use pluck::player::{Aside, Visit, lever_harp, moved_to, new_string};
use pluck::{Event, Room};
use tuning::round::{self, Act, State, Then};

/// Seconds after which hearing a new string again says whether it held, and a little.
const LATER_S: f64 = 125.0;

#[test]
fn a_lever_left_on_is_asked_about_before_any_down() {
    let plan = in_the_middle("lever34", 440.0);
    let e4: StringName = "E4".parse().unwrap();
    let open = standing(&plan)
        .into_iter()
        .find(|s| s.string == e4)
        .unwrap();
    // E flat major has three flats, B, E and A
    assert_eq!(open.alteration, Alteration::Flat);
    let script = lever_harp(&standing(&plan), &first(&plan, 10), "E4", 1).unwrap();
    let played = play(script, &plan, Room::QUIET, &[]);
    let [Aside::LeverOff { at_s, .. }] = &played.script.asides[..] else {
        panic!("{:?}", played.script.asides);
    };
    let (end, visit) = (played.script.round.seconds, played.visit("E4"));
    let usual = ["up E4 / down E4 / in tune E4"];
    check(
        &played,
        &[
            row(
                (0.0, visit.from_s),
                "tunes other strings",
                &["up *", "in tune *"],
                &NO_ALARM,
            ),
            row(
                (visit.from_s, *at_s),
                "plucks E4, its lever on",
                &["question: lever E4"],
                &["down *", "up *"],
            ),
            row(
                (*at_s, visit.until_s),
                "has put the lever off",
                &usual,
                &NO_ALARM,
            ),
            row((visit.until_s, end), "tunes other strings", &[], &NO_ALARM),
        ],
    );
    let (found, later) = played.round.kept(e4).split_first().unwrap();
    assert_eq!(found.aside, Some(round::Aside::Position));
    assert!(found.off_cents > 50.0, "{found:?}");
    assert!(
        later
            .iter()
            .all(|k| k.aside.is_none() && k.off_cents < 50.0),
        "{later:?}"
    );
}

/// A harp in tune at one A4, heard by a round that tunes to another; `usual` is what the round knows of the harp.
fn from_to(from_hz: f64, to_hz: f64, usual: Option<f64>) -> Played {
    let mut plan = in_the_middle("pedal47", to_hz);
    plan.usual_a4_hz = usual;
    // the script's harp stands at 440 Hz wherever it goes, so that it goes by the same ratio
    let ratio = ReferencePitch::new(440.0 * to_hz / from_hz).unwrap();
    let script = moved_to(&standing(&plan), &first(&plan, 12), ratio, 1).unwrap();
    let started = script.round.strings.iter().map(|s| s.off_cents);
    let expected = 1200.0 * (from_hz / to_hz).log2();
    let mean = started.sum::<f64>() / script.round.strings.len() as f64;
    assert!(
        (mean - expected).abs() < 0.6,
        "{mean} cents, {expected} expected"
    );
    play(script, &plan, Room::QUIET, &[])
}

fn check_reference(played: &Played, must: &[&str], never: &[&str]) {
    let end = played.script.round.seconds;
    let way = if played.off(&played.truth[0]) < 0.0 {
        "up *"
    } else {
        "down *"
    };
    let mut said = vec![way];
    said.extend(must);
    let no_alarm = [
        "question: pedal *",
        "question: high *",
        "question: key *",
        "stop: *",
    ];
    let never: Vec<&str> = no_alarm.into_iter().chain(never.iter().copied()).collect();
    check(
        played,
        &[row(
            (0.0, end),
            "brings the harp to another A",
            &said,
            &never,
        )],
    );
}

#[test]
fn a_harp_moved_from_its_usual_pitch_is_no_alarm() {
    for (from, to) in [(440.0, 442.0), (442.0, 440.0)] {
        check_reference(&from_to(from, to, Some(from)), &[], &["question: A4 *"]);
    }
}

#[test]
fn a_reference_that_slipped_is_asked_about() {
    for (harp, tool, asked) in [
        (440.0, 442.0, "question: A4 440"),
        (442.0, 440.0, "question: A4 442"),
        (440.0, 447.0, "question: A4 440"),
    ] {
        check_reference(&from_to(harp, tool, None), &[asked], &[]);
    }
}

#[test]
fn a_harp_at_440_reads_27_cents_low_on_a_tool_at_447() {
    let played = from_to(440.0, 447.0, None);
    // the definition of the cent (Ellis, 1885): 1200 to the octave
    let low = 1200.0 * (440.0_f64 / 447.0).log2();
    assert!((low + 27.3).abs() < 0.05);
    let mut read = 0;
    for found in played
        .round
        .summary()
        .strings
        .iter()
        .filter_map(|s| s.before)
    {
        let plucked = played.plucked_at(found.at_s).unwrap();
        // beside the reference a string is off by what its pins were, and by its stiffness
        let own = played.off(plucked) - low;
        let off = found.off_cents - own;
        assert!(
            (off - low).abs() < 1.0 + found.u95_cents,
            "{off:+.1} cents: {found:?}"
        );
        read += 1;
    }
    assert!(read >= 10, "{read} of 12 strings were read");
}

#[test]
fn a_new_string_is_followed_until_it_holds() {
    let plan = in_the_middle("pedal47", 440.0);
    let d4: StringName = "D4".parse().unwrap();
    let mut script = new_string(&standing(&plan), &first(&plan, 16), "D4", 7).unwrap();
    let end = script.round.seconds;
    for later in [1.0, 2.0] {
        let pluck = Event::pluck(end + later * LATER_S, "D4");
        script.round.events.push(pluck);
    }
    script.round.seconds = end + 2.0 * LATER_S + 3.0;
    let fitted = Act::Broke(d4, Then::FittedNow);
    let played = play(script, &plan, Room::QUIET, &[(0.0, fitted)]);
    let mut rows = brought_up(&played);
    let still = ["up D4", "down D4", "moving D4"];
    for (later, said) in [(1.0, "for now D4"), (2.0, "holds D4")] {
        let at_s = end + later * LATER_S;
        let does = "hears it two minutes later";
        rows.push(row((at_s - 1.0, at_s + 3.0), does, &[said], &still));
    }
    check(&played, &rows);
    let summary = played.round.summary();
    let new = summary.strings.iter().find(|s| s.string == d4).unwrap();
    assert!(new.fitted && new.state == State::InTune, "{new:?}");
    assert!(new.before.unwrap().off_cents < -400.0, "{new:?}");
    assert!(new.after.unwrap().off_cents.abs() < 3.0, "{new:?}");
}

/// Three visits to a new D4, and what is done between them.
fn brought_up(played: &Played) -> Vec<Row> {
    let visits = played.script.visits.iter();
    let own: Vec<&Visit> = visits.filter(|v| v.string == "D4").collect();
    let [up, second, third] = own[..] else {
        panic!("{} visits", own.len());
    };
    let span = |v: &Visit| (v.from_s, v.until_s);
    let climbing = ["up D4", "moving D4", "up D4", "moving D4", "for now D4"];
    let only_d4 = ["not D4", "holds D4", "question: *", "stop: *"];
    let low = ["up D4", "for now D4"];
    let mut rows = vec![row(span(up), "brings it up", &climbing, &only_d4)];
    for (before, after) in [(up, second), (second, third)] {
        let others = (before.until_s, after.from_s);
        let asked = ["next D4 New"];
        rows.push(row(others, "tunes others; it sinks", &asked, &NO_ALARM));
        rows.push(row(span(after), "finds it low", &low, &NO_ALARM));
    }
    rows
}

#[test]
fn a_new_string_left_before_it_was_called_there_gives_its_name_to_no_other() {
    let plan = in_the_middle("pedal47", 440.0);
    let d4: StringName = "D4".parse().unwrap();
    // its first visit ends 2.3 cents high: inside the tolerance, but so near its edge that a reading may say either
    let script = new_string(&standing(&plan), &first(&plan, 16), "D4", 1).unwrap();
    let fitted = Act::Broke(d4, Then::FittedNow);
    let played = play(script, &plan, Room::QUIET, &[(0.0, fitted)]);
    let mut own = played.script.visits.iter().filter(|v| v.string == "D4");
    let (up, second) = (own.next().unwrap(), own.next().unwrap());
    let others = "goes on to other strings";
    let never = [
        "up D4",
        "down D4",
        "in tune D4",
        "holds D4",
        "question: *",
        "stop: *",
    ];
    let between = (up.until_s, second.from_s);
    check(
        &played,
        &[row(between, others, &["in tune *", "in tune *"], &never)],
    );
}
