//! Devices whose clocks differ.

use diary::{Diary, Entry, Met, Record};
use proptest::prelude::*;

use crate::samples::{at, id};

const DAY_S: f64 = 86_400.0;

fn words(device: &str, seq: u64, time: &str) -> Record {
    let line = format!(
        r#"{{"device":"{device}","seq":{seq},"at":"{time}","kind":"words","v":1,"body":0}}"#
    );
    Record::parse(&line).unwrap()
}

fn met(by: (&str, u64, &str), other: (&str, u64), ahead_s: f64) -> Record {
    let (device, seq, time) = by;
    let mut writer = diary::Writer::new(device, seq).unwrap();
    let met = Met {
        device: id(other.0, 1).device,
        seq: other.1,
        ahead_s,
    };
    let line = writer.line(&at(time), &Entry::Met(met)).unwrap();
    Record::parse(&line).unwrap()
}

#[track_caller]
fn check(records: &[Record], order: &[&str]) {
    for turned in [false, true] {
        let mut given = records.to_vec();
        if turned {
            given.reverse();
        }
        let mut diary = Diary::default();
        diary.merge(given);
        let names: Vec<String> = diary
            .in_order()
            .iter()
            .map(|r| r.id().to_string())
            .collect();
        assert_eq!(names, order);
    }
}

#[test]
fn a_clock_that_is_a_day_ahead_is_put_right_once_it_was_seen() {
    let records = [
        words("phone", 1, "2026-11-27T18:00:00Z"),
        words("desk", 1, "2026-11-26T18:30:00Z"),
        words("phone", 2, "2026-11-27T19:00:00Z"),
        words("desk", 2, "2026-11-26T19:30:00Z"),
    ];
    check(&records, &["desk 1", "desk 2", "phone 1", "phone 2"]);
    let mut seen = records.to_vec();
    seen.push(met(
        ("desk", 3, "2026-11-26T20:00:00Z"),
        ("phone", 2),
        DAY_S,
    ));
    check(&seen, &["phone 1", "desk 1", "phone 2", "desk 2", "desk 3"]);
    // the same, seen by the phone: the phone counts, and the order is the same
    let mut seen = records.to_vec();
    seen.push(met(
        ("phone", 3, "2026-11-27T20:00:00Z"),
        ("desk", 2),
        -DAY_S,
    ));
    check(
        &seen,
        &["phone 1", "desk 1", "phone 2", "desk 2", "phone 3"],
    );
}

#[test]
fn what_was_written_between_two_meetings_is_corrected_by_the_later() {
    check(
        &[
            words("phone", 1, "2026-11-27T18:00:00Z"),
            met(("desk", 1, "2026-11-26T18:10:00Z"), ("phone", 1), DAY_S),
            // then the clock was put right
            words("phone", 2, "2026-11-26T18:20:00Z"),
            met(("desk", 2, "2026-11-26T18:30:00Z"), ("phone", 2), 0.0),
            words("phone", 3, "2026-11-26T18:40:00Z"),
            words("desk", 3, "2026-11-26T18:50:00Z"),
        ],
        &[
            "phone 1", "desk 1", "phone 2", "desk 2", "phone 3", "desk 3",
        ],
    );
}

#[test]
fn clocks_are_compared_over_others_too() {
    check(
        &[
            words("tablet", 1, "2026-11-26T16:00:00Z"),
            met(("desk", 1, "2026-11-26T18:00:00Z"), ("phone", 1), 3600.0),
            met(
                ("phone", 1, "2026-11-26T19:00:00Z"),
                ("tablet", 1),
                -3.0 * 3600.0,
            ),
            words("desk", 2, "2026-11-26T18:30:00Z"),
            // two hours behind the desk: 18:45 there
            words("tablet", 2, "2026-11-26T16:45:00Z"),
        ],
        &["desk 1", "phone 1", "tablet 1", "desk 2", "tablet 2"],
    );
}

#[test]
fn nonsense_about_clocks_is_left_out() {
    for ahead_s in [f64::NAN, f64::INFINITY, 1e30] {
        check(
            &[
                met(("desk", 1, "2026-11-26T18:00:00Z"), ("phone", 1), ahead_s),
                met(("desk", 2, "2026-11-26T18:10:00Z"), ("desk", 1), 900.0),
                words("phone", 1, "2026-11-26T18:05:00Z"),
            ],
            &["desk 1", "phone 1", "desk 2"],
        );
    }
}

proptest! {
    /// Whatever devices say of each other's clocks, every record has one place, and those of a device their own order.
    #[test]
    fn any_meetings_give_an_order(
        said in prop::collection::vec((0usize..4, 0usize..4, 0u64..9, -1e5f64..1e5), 0..12)
    ) {
        let devices = ["a", "b", "c", "d"];
        let mut diary = Diary::default();
        for (seq, (by, other, place, ahead_s)) in (1..).zip(said) {
            let time = format!("2026-11-26T18:{seq:02}:00Z");
            diary.merge([met((devices[by], seq, &time), (devices[other], place), ahead_s)]);
        }
        let order = diary.in_order();
        prop_assert_eq!(order.len(), diary.records().count());
        for (at, record) in order.iter().enumerate() {
            for later in &order[at..] {
                let same = later.id().device == record.id().device;
                prop_assert!(!same || later.id().seq >= record.id().seq);
            }
        }
    }
}

#[test]
fn a_clock_that_cannot_be_right_is_named() {
    let mut diary = Diary::default();
    diary.merge([
        words("phone", 1, "2026-11-27T18:00:00Z"),
        words("phone", 2, "2026-11-26T18:00:00Z"),
        words("phone", 3, "2026-11-26T17:59:00Z"),
        words("desk", 1, "2026-11-27T19:00:00Z"),
    ]);
    let seen = diary.check(&at("2026-11-26T19:00:00Z")).clocks;
    assert_eq!(
        seen,
        [
            diary::ClockSeen::PutBack {
                record: id("phone", 2),
                by_s: DAY_S
            },
            diary::ClockSeen::Ahead {
                record: id("desk", 1),
                by_s: DAY_S
            },
        ]
    );
    assert_eq!(diary.check(&at("2026-11-28T19:00:00Z")).clocks.len(), 1);
}
