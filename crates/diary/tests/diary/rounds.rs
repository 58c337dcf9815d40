//! Rounds written down as they happen, and taken up again.

use diary::{Branch, Diary, Entry, RecordId, RoundError, RoundEvents, RoundOver};
use tuning::round::Event;

use crate::a_player::{Played, play};
use crate::samples::{append, begun, harp_entry, id, minute};

fn begin(diary: &mut Diary, device: &str, minutes: u64, harp: &str) -> RecordId {
    append(diary, device, minutes, &Entry::Round(begun(harp)))
}

fn add(diary: &mut Diary, device: &str, round: &RecordId, first: usize, events: &[Event]) {
    let entries = Entry::round_events(round, first as u64, events);
    for entry in entries {
        append(diary, device, 30, &entry);
    }
}

fn end(diary: &mut Diary, device: &str, minutes: u64, round: &RecordId, played: &Played) {
    let over = RoundOver::of(round.clone(), true, &played.round.summary());
    append(diary, device, minutes, &Entry::RoundOver(over));
}

/// A copy made through a file.
fn copy(diary: &Diary) -> Diary {
    let mut copy = Diary::default();
    let read = copy.import(diary.export().as_bytes());
    assert_eq!(read.troubles, []);
    copy
}

#[test]
fn a_round_broken_off_is_taken_up_as_it_was() {
    let played = play("pedal47", 3, 0.1, 60);
    let mut diary = Diary::default();
    append(&mut diary, "phone", 0, &harp_entry("big"));
    let round = begin(&mut diary, "phone", 1, "big");
    let (mut first, half) = (0, played.events.len() / 2);
    for part in played.events[..half].chunks(150) {
        add(&mut diary, "phone", &round, first, part);
        first += part.len();
    }
    let kept = copy(&diary).unfinished().unwrap().unwrap();
    assert_eq!(
        (kept.id.clone(), kept.events.len(), kept.has_hole),
        (round.clone(), half, false)
    );
    let mut again = kept.replayed();
    let last_s = played.events[..half]
        .iter()
        .map(Event::at_s)
        .fold(0.0, f64::max);
    assert!(kept.last_s() >= last_s && kept.last_s() < last_s + 1.0);
    for event in &played.events[half..] {
        again.step(event);
    }
    assert!(again == played.round);

    add(&mut diary, "phone", &round, half, &played.events[half..]);
    end(&mut diary, "phone", 40, &round, &played);
    let diary = copy(&diary);
    assert_eq!(diary.unfinished(), Ok(None));
    let kept = diary.round(&round).unwrap();
    assert!(kept.replayed() == played.round);
    let listed = diary.rounds();
    let counts = listed[0].counts.unwrap();
    let heard = played
        .round
        .summary()
        .strings
        .iter()
        .filter(|s| s.plucks > 0)
        .count();
    assert_eq!(
        (
            listed.len(),
            listed[0].finished,
            counts.strings,
            counts.heard
        ),
        (1, Some(true), 47, heard)
    );
    assert_eq!(
        (listed[0].begun_at.clone(), listed[0].harp.as_str()),
        (minute(1), "big")
    );
}

#[test]
fn a_round_that_was_over_and_went_on_is_unfinished_again() {
    let played = play("pedal47", 4, 0.0, 20);
    let mut diary = Diary::default();
    let round = begin(&mut diary, "phone", 1, "big");
    let (some, rest) = played.events.split_at(50);
    add(&mut diary, "phone", &round, 0, some);
    end(&mut diary, "phone", 20, &round, &played);
    assert_eq!(diary.unfinished(), Ok(None));
    add(&mut diary, "phone", &round, 50, rest);
    let kept = diary.unfinished().unwrap().unwrap();
    assert!(kept.replayed() == played.round && kept.over.is_some());
    assert_eq!(diary.rounds()[0].finished, None);
}

#[test]
fn the_last_open_round_is_taken_up_and_one_left_behind_is_not() {
    let mut diary = Diary::default();
    assert_eq!(diary.unfinished(), Ok(None));
    begin(&mut diary, "phone", 1, "big");
    let little = begin(&mut diary, "phone", 2, "little");
    let later = begin(&mut diary, "desk", 3, "big");
    let open = |diary: &Diary| diary.unfinished().unwrap().map(|kept| kept.id);
    assert_eq!(open(&diary), Some(later.clone()));
    let played = play("pedal47", 5, 0.0, 4);
    end(&mut diary, "desk", 4, &later, &played);
    assert_eq!(open(&diary), Some(little.clone()));
    end(&mut diary, "phone", 5, &little, &played);
    assert_eq!(open(&diary), None);
}

#[test]
fn what_lies_behind_a_hole_is_not_replayed_until_the_hole_is_filled() {
    let played = play("pedal47", 6, 0.0, 20);
    let mut whole = Diary::default();
    let round = begin(&mut whole, "phone", 1, "big");
    for (at, part) in played.events.chunks(100).enumerate() {
        add(&mut whole, "phone", &round, 100 * at, part);
    }
    let lost = id("phone", 3);
    let mut holed = Diary::default();
    holed.merge(whole.records().filter(|r| *r.id() != lost).cloned());
    let kept = holed.round(&round).unwrap();
    assert_eq!(
        (kept.events.len(), kept.has_hole, kept.branches.len()),
        (100, true, 0)
    );
    assert_eq!(holed.gaps().len(), 1);
    holed.merge([whole.record(&lost).unwrap().clone()]);
    let kept = holed.round(&round).unwrap();
    assert!(!kept.has_hole && kept.replayed() == played.round);
}

#[test]
fn a_round_gone_on_with_on_another_device_is_one_round() {
    let played = play("pedal47", 8, 0.0, 20);
    let (some, rest) = played.events.split_at(120);
    let mut diary = Diary::default();
    let round = begin(&mut diary, "phone", 20, "big");
    add(&mut diary, "phone", &round, 0, some);
    // the desk's clock is behind
    let entry = &Entry::round_events(&round, 120, rest)[0];
    append(&mut diary, "desk", 5, entry);
    let kept = diary.round(&round).unwrap();
    assert!(kept.branches.is_empty());
    assert_eq!(kept.events.len(), 520.min(played.events.len()));
    assert_eq!(kept.events[..], played.events[..kept.events.len()]);
}

#[test]
fn two_devices_that_go_on_at_once_are_told_apart() {
    let played = play("pedal47", 9, 0.0, 20);
    let events = &played.events;
    let mut diary = Diary::default();
    let round = begin(&mut diary, "phone", 1, "big");
    let mut part = |device: &str, minutes, first: u64, events: &[Event]| {
        let entry = Entry::RoundEvents(RoundEvents {
            round: round.clone(),
            first,
            events: events.to_vec(),
        });
        append(&mut diary, device, minutes, &entry)
    };
    part("phone", 10, 0, &events[..50]);
    // the desk goes on from there, and by its clock before the phone does
    let strayed = part("desk", 2, 50, &events[100..110]);
    let after = part("desk", 3, 60, &events[110..115]);
    part("phone", 13, 50, &events[50..60]);
    // the same once more does no harm
    part("phone", 14, 50, &events[50..60]);
    part("phone", 15, 60, &events[60..80]);
    let later = part("desk", 40, 80, &events[200..203]);
    let kept = diary.round(&round).unwrap();
    assert_eq!(kept.events, events[..80]);
    assert!(!kept.has_hole);
    let branch = |(record, events)| Branch { record, events };
    let branches = [(strayed, 10), (after, 5), (later, 3)].map(branch);
    assert_eq!(kept.branches, branches);
}

#[test]
fn two_devices_begin_two_rounds() {
    let (one, other) = (play("pedal47", 10, 0.0, 10), play("pedal47", 11, 0.0, 10));
    let mut phone = Diary::default();
    let mut desk = Diary::default();
    let first = begin(&mut phone, "phone", 1, "big");
    let second = begin(&mut desk, "desk", 1, "big");
    add(&mut phone, "phone", &first, 0, &one.events);
    add(&mut desk, "desk", &second, 0, &other.events);
    phone.merge(desk.records().cloned());
    assert!(phone.round(&first).unwrap().replayed() == one.round);
    assert!(phone.round(&second).unwrap().replayed() == other.round);
    assert_eq!(phone.rounds().len(), 2);
}

#[test]
fn a_round_that_cannot_be_taken_out_says_why() {
    let mut diary = Diary::default();
    append(&mut diary, "phone", 1, &harp_entry("big"));
    for none in [id("phone", 1), id("phone", 2)] {
        assert_eq!(
            diary.round(&none),
            Err(RoundError::NoSuchRound { id: none.clone() })
        );
    }
    let mut bad = begun("big");
    bad.toml = "kind = \"zither\"".to_owned();
    let round = append(&mut diary, "phone", 2, &Entry::Round(bad));
    let error = diary.round(&round).unwrap_err().to_string();
    assert!(
        error.contains("phone 2") && error.contains("zither"),
        "{error}"
    );
    // events of a round that is not here are kept, and disturb nothing
    add(&mut diary, "phone", &id("desk", 4), 0, &[]);
    let played = play("pedal47", 12, 0.0, 2);
    add(&mut diary, "phone", &id("desk", 4), 0, &played.events);
    assert_eq!(diary.rounds().len(), 1);
}
