//! What is known of each string, from made-up rounds and records.

use diary::{
    Correction, Device, Diary, Does, EarDrill, Entry, Fault, Found, HarpKnown, HeardKept, Known,
    Now, Part, Point, PracticeKept, RecordId, RoundBegun, RoundOver, Stands, StringBroken,
    StringFitted, StringKnown, StringOver, StringRemoved, TunedByEar,
};
use harp::{Harp, Material, Position, Setup};
use pitch::{Alteration, Letter, ReferencePitch};
use tuning::round::{Aside, Kept, Plan, State};

use crate::samples::{append, at, begun, events, harp_entry, id, name};

fn kept(second: u32, off_cents: f64) -> Kept {
    Kept {
        at_s: f64::from(second),
        target_hz: 200.0,
        heard_hz: 200.0 * (off_cents / 1200.0).exp2(),
        off_cents,
        u95_cents: 0.5,
        b: None,
        t60_s: None,
        level_dbfs: None,
        aside: None,
    }
}

fn over(string: &str, before: Option<Kept>, after: Option<Kept>, state: State) -> StringOver {
    StringOver {
        string: name(string),
        before,
        after,
        plucks: 2,
        state,
        fitted: false,
    }
}

/// A round of the harp `big` that begins in one minute and ends in the next.
fn round(diary: &mut Diary, minute: u64, strings: Vec<StringOver>) -> RecordId {
    let round = append(diary, "phone", minute, &Entry::Round(begun("big")));
    let over = RoundOver {
        round: round.clone(),
        finished: true,
        minutes: 1.0,
        left: 0,
        again: Vec::new(),
        strings,
    };
    append(diary, "phone", minute + 1, &Entry::RoundOver(over));
    round
}

fn big(known: &Known) -> &HarpKnown {
    known.harp("big").unwrap()
}

/// The string G3 of the harp `big`.
fn g3(diary: &Diary) -> StringKnown {
    big(&diary.known()).strings[&name("G3")].clone()
}

fn fitted(on: Option<&str>, used: bool) -> Entry {
    Entry::StringFitted(StringFitted {
        harp: "big".to_owned(),
        string: name("G3"),
        on: on.map(|day| day.parse().unwrap()),
        material: Some(Material::Gut),
        gauge_mm: Some(1.14),
        used,
        by: "a friend".to_owned(),
    })
}

fn broken(on: Option<&str>) -> Entry {
    Entry::StringBroken(StringBroken {
        harp: "big".to_owned(),
        string: name("G3"),
        on: on.map(|day| day.parse().unwrap()),
        place: String::new(),
    })
}

fn found_and_left(points: &[Point]) -> Vec<(i64, bool, bool)> {
    let points = points.iter();
    points
        .map(|p| (p.off_cents.round() as i64, p.found, p.left))
        .collect()
}

#[test]
fn a_round_tells_how_each_string_was_found_and_left() {
    let mut diary = Diary::default();
    let left = |second| Some(kept(second, 0.5));
    round(
        &mut diary,
        1,
        vec![over("G3", Some(kept(5, -12.0)), left(20), State::InTune)],
    );
    round(
        &mut diary,
        3,
        vec![over("G3", Some(kept(5, -4.2)), left(20), State::InTune)],
    );
    round(
        &mut diary,
        5,
        vec![over("G3", left(7), left(7), State::InTune)],
    );
    let string = g3(&diary);
    assert_eq!(
        found_and_left(&string.history),
        [
            (-12, true, false),
            (1, false, true),
            (-4, true, false),
            (1, false, true),
            (1, true, true)
        ]
    );
    let last = string.last.unwrap();
    assert_eq!(
        (last.off_cents, last.when.to_string().as_str()),
        (0.5, "2026-11-26T18:05:07Z")
    );
    assert_eq!(string.in_tune, Some(last.when));
    let moves: Vec<i64> = string
        .moves()
        .iter()
        .map(|m| m.cents.round() as i64)
        .collect();
    assert_eq!(moves, [-5, 0]);
    // 200 Hz and half a cent: 200 × 2^(0.5/1200)
    assert!((string.highest_hz.unwrap() - 200.057_770).abs() < 1e-6);
    let known = diary.known();
    assert_eq!((big(&known).rounds, big(&known).strings.len()), (3, 47));
    assert_eq!(big(&known).strings[&name("C1")], StringKnown::default());
}

#[test]
fn a_string_tuned_by_ear_did_not_move_by_itself() {
    let mut diary = Diary::default();
    let left = |second| Some(kept(second, 0.5));
    let in_tune = |off| vec![over("G3", Some(kept(5, off)), left(20), State::InTune)];
    round(&mut diary, 1, in_tune(-12.0));
    let heard = |off: f64| {
        Some(HeardKept {
            heard_hz: 200.0 * (off / 1200.0).exp2(),
            u95_cents: 0.5,
        })
    };
    let by_ear = |found, left| {
        Entry::Practice(PracticeKept {
            harp: Some("big".to_owned()),
            by_ear: vec![TunedByEar {
                drill: EarDrill::Octave,
                string: name("G3"),
                against: Some(name("G4")),
                guess: None,
                before: None,
                after: None,
                target_hz: 200.0,
                found,
                left,
                took_s: 30.0,
            }],
            ..PracticeKept::default()
        })
    };
    append(&mut diary, "phone", 5, &by_ear(heard(-3.2), heard(8.0)));
    round(&mut diary, 7, in_tune(6.0));
    // how it was left by ear could not be read
    append(&mut diary, "phone", 9, &by_ear(heard(-0.2), None));
    round(&mut diary, 11, in_tune(-30.0));
    let string = g3(&diary);
    let moves: Vec<i64> = string
        .moves()
        .iter()
        .map(|m| m.cents.round() as i64)
        .collect();
    // from 0.5 to −3.2 by itself, from 8 to 6, from 0.5 to −0.2; the 30 cents are nobody's
    assert_eq!(moves, [-4, -2, -1]);
    let known = diary.known();
    assert_eq!((known.practice.len(), big(&known).rounds), (2, 3));
}

#[test]
fn a_reading_of_another_position_is_none_of_the_string() {
    let mut diary = Diary::default();
    let aside = Kept {
        aside: Some(Aside::Position),
        ..kept(3, 100.0)
    };
    round(
        &mut diary,
        1,
        vec![over("G3", Some(aside), Some(aside), State::BeforeKnown)],
    );
    assert_eq!(g3(&diary), StringKnown::default());
}

#[test]
fn a_disc_is_taken_off_the_highest_pitch() {
    let harp = Harp::named("pedal47").unwrap();
    let setup = Setup {
        position: Position::Natural,
        ..Setup::open(ReferencePitch::A440)
    };
    let plan = Plan::of(&harp, &setup).unwrap();
    let begun = RoundBegun::of("big", &harp, &setup, &plan, 0.6);
    let mut diary = Diary::default();
    let round = append(&mut diary, "phone", 1, &Entry::Round(begun));
    let strings = ["G3", "C1"].map(|s| over(s, None, Some(kept(9, 0.0)), State::InTune));
    let over = RoundOver {
        round,
        finished: true,
        minutes: 1.0,
        left: 0,
        again: Vec::new(),
        strings: strings.to_vec(),
    };
    append(&mut diary, "phone", 2, &Entry::RoundOver(over));
    // a semitone below 200 Hz: 200 ÷ 2^(1/12)
    assert!((g3(&diary).highest_hz.unwrap() - 188.774_863).abs() < 1e-6);
    assert_eq!(g3(&diary).last.unwrap().raised, 1);
    // C1 has no discs: it was tuned there
    let known = diary.known();
    assert_eq!(big(&known).strings[&name("C1")].highest_hz, Some(200.0));
}

#[test]
fn a_string_that_broke_in_a_round_leaves_nothing_to_the_new_one() {
    let mut diary = Diary::default();
    round(
        &mut diary,
        1,
        vec![over(
            "G3",
            Some(kept(5, 8.0)),
            Some(kept(6, 9.0)),
            State::InTune,
        )],
    );
    let old = Kept {
        aside: Some(Aside::OldString),
        ..kept(4, 7.0)
    };
    let new = StringOver {
        fitted: true,
        ..over("G3", Some(old), Some(kept(40, -30.0)), State::New)
    };
    round(&mut diary, 3, vec![new]);
    let string = g3(&diary);
    assert_eq!(
        (string.fittings, string.breaks.len(), string.in_tune),
        (1, 1, None)
    );
    assert_eq!(
        string.fitted.as_ref().unwrap().when.to_string(),
        "2026-11-26T18:03:04Z"
    );
    assert_eq!(
        string.history.iter().map(|p| p.string).collect::<Vec<_>>(),
        [0, 0, 0, 1]
    );
    assert!(string.highest_hz.unwrap() < 200.0, "of the new one only");
    assert_eq!(
        string.moves().len(),
        1,
        "from the old one's left to its found"
    );
    // written after the round, of the same string: it says the rest
    append(&mut diary, "phone", 30, &fitted(None, false));
    let string = g3(&diary);
    assert_eq!((string.fittings, string.breaks.len()), (1, 1));
    let known = string.fitted.unwrap();
    assert_eq!(
        (known.material, known.gauge_mm),
        (Some(Material::Gut), Some(1.14))
    );
    assert_eq!(known.when.to_string(), "2026-11-26T18:03:04Z");
}

#[test]
fn what_was_done_on_an_earlier_day_counts_from_that_day() {
    let mut diary = Diary::default();
    round(
        &mut diary,
        1,
        vec![over("G3", None, Some(kept(9, 2.0)), State::InTune)],
    );
    append(&mut diary, "phone", 8, &fitted(Some("2026-03-01"), false));
    append(&mut diary, "phone", 9, &broken(Some("2026-02-27")));
    let string = g3(&diary);
    assert_eq!(
        (string.stands, string.fittings, string.breaks.len()),
        (Stands::On, 1, 1)
    );
    assert!(string.last.is_some() && string.in_tune.is_some());
    let now = diary::Moment::of(&at("2026-03-11T00:00:00Z"));
    assert_eq!(string.age_s(now), Some(10.0 * 86_400.0));
    append(&mut diary, "phone", 10, &fitted(None, true));
    let string = g3(&diary);
    assert_eq!(
        (string.age_s(now), string.last, string.fittings),
        (None, None, 2)
    );
}

#[test]
fn a_string_breaks_or_is_taken_off_and_another_comes() {
    let mut diary = Diary::default();
    append(&mut diary, "phone", 1, &broken(None));
    assert_eq!(g3(&diary).stands, Stands::Broken);
    let removed = StringRemoved {
        harp: "big".to_owned(),
        string: name("G3"),
        on: None,
    };
    append(
        &mut diary,
        "phone",
        2,
        &Entry::StringRemoved(removed.clone()),
    );
    assert_eq!(g3(&diary).stands, Stands::Broken, "what is broken stays so");
    append(&mut diary, "phone", 3, &fitted(None, false));
    assert_eq!(g3(&diary).stands, Stands::On);
    append(&mut diary, "phone", 4, &Entry::StringRemoved(removed));
    assert_eq!(
        (g3(&diary).stands, g3(&diary).breaks.len()),
        (Stands::Off, 1)
    );
}

#[test]
fn a_fault_lasts_until_it_is_mended() {
    let fault = |does| {
        let part = Part::Disc {
            string: name("G3"),
            position: Alteration::Sharp,
        };
        let (harp, on, note) = ("big".to_owned(), None, String::new());
        Entry::Fault(Fault {
            harp,
            part,
            does,
            on,
            note,
        })
    };
    let mut diary = Diary::default();
    append(&mut diary, "phone", 1, &fault(Some(Does::Buzzes)));
    append(&mut diary, "phone", 2, &fault(Some(Does::Fails)));
    let faults = g3(&diary).faults;
    assert_eq!((faults.len(), faults[0].does), (1, Does::Fails));
    assert_eq!(faults[0].since.to_string(), "2026-11-26T18:01:00Z");
    append(&mut diary, "phone", 3, &fault(None));
    assert_eq!(g3(&diary).faults, []);
}

#[test]
fn the_last_check_of_the_mechanism_is_known() {
    let mut diary = Diary::default();
    let lines = include_str!("kinds_first_version.jsonl");
    diary.import(lines.as_bytes());
    let known = diary.known();
    let check = big(&known).strings[&name("A4")]
        .regulation
        .as_ref()
        .unwrap();
    assert_eq!((check.a4_hz, check.checked.found), (441.0, Found::NotSure));
    let pedals = &big(&known).pedals;
    assert_eq!(pedals[0].part, Part::Pedal { letter: Letter::F });
    assert_eq!((pedals.len(), pedals[0].does), (1, Does::Off));
    assert_eq!(known.air.len(), 1);
    let checks = &big(&known).checks;
    assert_eq!((checks.len(), checks[0].1.a4_hz), (1, 441.0));
}

#[test]
fn what_a_round_read_beside_the_pitch_is_known_afterwards() {
    let mut diary = Diary::default();
    let stiff = Kept {
        b: Some(6.1e-5),
        t60_s: Some(4.2),
        level_dbfs: Some(-31.5),
        ..kept(5, 0.4)
    };
    round(
        &mut diary,
        1,
        vec![over("G3", Some(stiff), Some(kept(9, 0.2)), State::InTune)],
    );
    let read = g3(&diary).history;
    let told: Vec<_> = read.iter().map(|p| (p.b, p.t60_s, p.level_dbfs)).collect();
    assert_eq!(
        told,
        [(Some(6.1e-5), Some(4.2), Some(-31.5)), (None, None, None)]
    );
}

fn correct(of: &RecordId, now: Now) -> Entry {
    let (of, why) = (of.clone(), String::new());
    Entry::Correction(Correction { of, now, why })
}

#[test]
fn a_withdrawn_round_is_as_if_it_had_not_been() {
    let mut diary = Diary::default();
    let first = round(
        &mut diary,
        1,
        vec![over("G3", None, Some(kept(9, 2.0)), State::InTune)],
    );
    let withdrawn = append(&mut diary, "desk", 5, &correct(&first, Now::Withdrawn));
    assert_eq!(diary.known().harps, []);
    assert_eq!(diary.known().corrected, vec![first.clone()]);
    assert!(diary.rounds().is_empty() && diary.round(&first).is_err());
    assert_eq!(diary.unfinished().unwrap(), None);
    // that was wrong in its turn
    append(&mut diary, "desk", 6, &correct(&withdrawn, Now::Withdrawn));
    assert_eq!(g3(&diary).history.len(), 1);
    assert_eq!(diary.rounds().len(), 1);
    // it was another harp
    let other = Entry::Round(begun("other"));
    append(
        &mut diary,
        "desk",
        7,
        &correct(&first, Now::Entry(Box::new(other))),
    );
    let known = diary.known();
    assert_eq!(known.harps.len(), 1);
    assert!(
        known.harp("other").unwrap().strings[&name("G3")]
            .last
            .is_some()
    );
}

#[test]
fn the_last_correction_of_a_record_holds() {
    let mut diary = Diary::default();
    let wrong = append(&mut diary, "phone", 1, &fitted(None, true));
    for (minute, used) in [(2, true), (3, false)] {
        let now = Now::Entry(Box::new(fitted(Some("2026-11-01"), used)));
        append(&mut diary, "phone", minute, &correct(&wrong, now));
    }
    let known = g3(&diary).fitted.unwrap();
    assert_eq!(
        (known.used, known.when.to_string().as_str()),
        (false, "2026-11-01T00:00:00Z")
    );
    // something of a newer version is true: nothing is known rather than what was wrong
    let line = format!(
        r#"{{"device":"phone","seq":4,"at":"2026-11-26T18:09:00Z","kind":"correction","v":1,"body":{{"of":{{"device":"phone","seq":{}}},"now":{{"kind":"string_fitted","v":2,"body":{{}}}},"why":""}}}}"#,
        wrong.seq
    );
    assert_eq!(diary.import(line.as_bytes()).troubles, []);
    assert_eq!(diary.known().harps, []);
}

#[test]
fn a_round_that_is_not_over_is_run_again() {
    let mut diary = Diary::default();
    let round = append(&mut diary, "phone", 1, &Entry::Round(begun("big")));
    for entry in Entry::round_events(&round, 0, &events()) {
        append(&mut diary, "phone", 2, &entry);
    }
    let summary = diary.round(&round).unwrap().replayed().summary();
    let told: Vec<_> = summary.strings.iter().filter(|s| s.fitted).collect();
    assert_eq!(told.len(), 1, "G3 is fitted there");
    assert_eq!((g3(&diary).fittings, g3(&diary).breaks.len()), (1, 1));
    // an end that stands before the last events is not the end
    let over = RoundOver::of(round.clone(), false, &summary);
    append(&mut diary, "phone", 3, &Entry::RoundOver(over));
    let ended = diary.known();
    append(
        &mut diary,
        "phone",
        4,
        &Entry::round_events(&round, 900, &events()[..1])[0],
    );
    assert_eq!(big(&diary.known()).strings[&name("G3")].fittings, 1);
    assert_eq!(big(&ended).strings[&name("G3")].fittings, 1);
}

#[test]
fn what_is_not_understood_is_named() {
    let mut diary = Diary::default();
    append(&mut diary, "phone", 1, &harp_entry("big"));
    let newer =
        r#"{"device":"desk","seq":1,"at":"2026-11-26T18:40:00Z","kind":"harp","v":2,"body":{}}"#;
    diary.import(newer.as_bytes());
    assert_eq!(diary.known().not_understood, [id("desk", 1)]);
    let device: Device = "desk".parse().unwrap();
    assert_eq!(diary.known().not_understood[0].device, device);
}
