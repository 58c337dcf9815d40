//! Lines of the first version, as they were first written. They must read for ever: never change `first_version.jsonl`.

use diary::{Diary, Entry};
use tuning::Heard;
use tuning::round::Event;

use crate::samples::{begun_with_all, events, id, over};

const LINES: &str = include_str!("first_version.jsonl");

/// A line of the file, by its kind.
#[track_caller]
fn check(kind: &str, says: impl Fn(Entry)) {
    let mut diary = Diary::default();
    let read = diary.import(LINES.as_bytes());
    assert_eq!((read.merged.taken.len(), read.troubles), (4, Vec::new()));
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
fn the_first_end_reads() {
    check("round_over", |entry| {
        assert_eq!(entry, Entry::RoundOver(over(&id("phone", 2))));
    });
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
