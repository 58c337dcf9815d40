//! Lines of the first version, as they were first written. They must read for ever: never change `first_version.jsonl`.

use diary::{Diary, Entry};
use harp::{OpenTuning, Position};
use pitch::{Alteration, Letter};
use tuning::round::{Act, Event, Order};
use tuning::{Direction, Heard};

use crate::samples::{begun_with_all, events, id, name, ordered, over};

const LINES: &str = include_str!("first_version.jsonl");

/// A line of the file, by its kind.
#[track_caller]
fn check(kind: &str, says: impl Fn(Entry)) {
    let mut diary = Diary::default();
    let read = diary.import(LINES.as_bytes());
    assert_eq!((read.merged.taken.len(), read.troubles), (10, Vec::new()));
    let record = diary.records().find(|r| r.kind() == kind).unwrap();
    assert_eq!(record.v(), 1);
    says(record.entry().unwrap());
}

#[test]
fn the_first_harp_reads() {
    check("harp", |entry| {
        let Entry::Harp(kept) = entry else {
            panic!("{entry:?}");
        };
        let harp = harp::Harp::from_toml(&kept.toml).unwrap();
        assert_eq!((kept.harp.as_str(), harp.strings().len()), ("little", 34));
    });
}

#[test]
fn the_first_beginning_reads() {
    check("round", |entry| {
        let begun = begun_with_all();
        let Entry::Round(read) = entry else {
            panic!("{entry:?}");
        };
        assert_eq!(read.plan(), begun.plan());
        // the file's comments may be worded otherwise today
        let today = diary::RoundBegun {
            toml: read.toml.clone(),
            ..begun
        };
        assert_eq!(read, today);
    });
}

#[test]
fn the_first_events_read() {
    check("round_events", |entry| {
        let Entry::RoundEvents(read) = entry else {
            panic!("{entry:?}");
        };
        assert_eq!((read.round, read.first), (id("phone", 2), 0));
        assert_eq!(read.events, events());
        // figures as they stand in the file
        let Event::Heard(Heard::Reading(first)) = &read.events[0] else {
            panic!("{:?}", read.events[0]);
        };
        assert_eq!((first.heard_hz, first.partials.len()), (183.1, 2));
    });
}

#[test]
fn events_with_an_order_are_of_the_second_version_and_read() {
    let line = r#"{"device":"phone","seq":4,"at":"2026-11-26T18:45:00Z","kind":"round_events","v":2,"body":{"round":{"device":"phone","seq":2},"first":7,"events":[{"what":"order","at_s":19.5,"strings":["C4","G3"]}]}}"#;
    let record = diary::Record::parse(line).unwrap();
    assert_eq!(record.round(), Some(&id("phone", 2)));
    let entry = record.entry().unwrap();
    let part = diary::RoundEvents {
        round: id("phone", 2),
        first: 7,
        events: vec![ordered()],
    };
    assert_eq!(entry, Entry::RoundEvents(part));
    assert_eq!(entry.v(), 2);
}

#[test]
fn the_first_end_reads() {
    check("round_over", |entry| {
        assert_eq!(entry, Entry::RoundOver(over(&id("phone", 2))));
    });
}

/// The entry of a place in the file.
fn entry(seq: u64) -> Entry {
    let mut diary = Diary::default();
    diary.import(LINES.as_bytes());
    diary.record(&id("phone", seq)).unwrap().entry().unwrap()
}

#[test]
fn every_word_of_the_first_version_means_what_it_meant() {
    let (g3, cb_major) = (
        name("G3"),
        r#"{"D":0,"C":-1,"B":-1,"E":0,"F":0,"G":1,"A":-1}"#,
    );
    let rounds = [
        (
            Some(OpenTuning::Cb),
            Position::Natural,
            Some(cb_major),
            Order::FromMiddle(g3),
        ),
        (
            Some(OpenTuning::Eb),
            Position::Sharp,
            None,
            Order::MiddleOctave,
        ),
        (
            Some(OpenTuning::C),
            Position::Open,
            Some("{}"),
            Order::FromBass,
        ),
        (Some(OpenTuning::F), Position::Open, None, Order::Letters),
        (None, Position::Open, None, Order::Octaves),
    ];
    for (seq, (open, position, setting, order)) in (5..).zip(rounds) {
        let Entry::Round(read) = entry(seq) else {
            panic!("phone {seq}");
        };
        assert_eq!((read.setup.open, read.setup.position), (open, position));
        assert_eq!(read.setup.setting, setting.map(|s| s.parse().unwrap()));
        assert_eq!(read.order, order);
        assert!(read.plan().is_ok(), "phone {seq}");
    }
    let Entry::RoundEvents(read) = entry(10) else {
        panic!("phone 10");
    };
    let ways = [
        (Some(Alteration::Natural), Some(Direction::Down)),
        (Some(Alteration::Sharp), Some(Direction::There)),
        (None, None),
    ];
    for (event, (position, direction)) in read.events.iter().zip(ways) {
        let Event::Heard(Heard::Reading(read)) = event else {
            panic!("{event:?}");
        };
        assert_eq!((read.position, read.direction), (position, direction));
        assert_eq!(
            (read.u95_cents, read.shows_off_cents),
            (f64::INFINITY, f64::NEG_INFINITY)
        );
    }
    let letters = [
        Letter::C,
        Letter::D,
        Letter::E,
        Letter::F,
        Letter::G,
        Letter::A,
    ];
    for (event, letter) in read.events[3..].iter().zip(letters) {
        let act = Act::AsSaid(letter);
        assert_eq!(*event, Event::Act { at_s: 2.0, act });
    }
    assert_eq!(read.events.len(), 9);
}

#[test]
fn lines_are_still_written_as_they_were_first() {
    for line in LINES.lines() {
        let record = diary::Record::parse(line).unwrap();
        let mut diary = Diary::default();
        let entry = record.entry().unwrap();
        let device = record.id().device.as_str();
        let written = diary.append(device, record.at().clone(), &entry).unwrap();
        let seq = format!("\"seq\":{},", record.id().seq);
        assert_eq!(written.line().replace("\"seq\":1,", &seq), line);
    }
}
