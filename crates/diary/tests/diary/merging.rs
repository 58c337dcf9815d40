//! Two diaries become one, whichever comes first.

use diary::{Diary, Entry, HarpKept, Record};
use proptest::prelude::*;

use crate::samples::{append, at, harp_entry, id, minute};

fn record(device: &str, seq: u64, minutes: u64, words: &str) -> Record {
    let at = minute(minutes);
    let line = format!(
        r#"{{"device":"{device}","seq":{seq},"at":"{at}","kind":"words","v":1,"body":"{words}"}}"#
    );
    Record::parse(&line).unwrap()
}

fn lines<'a>(records: impl IntoIterator<Item = &'a Record>) -> Vec<String> {
    let all = records.into_iter();
    all.map(|r| format!("{} {}", r.id(), r.line().split("body\":").last().unwrap()))
        .collect()
}

#[track_caller]
fn check_order(records: &[Record], order: &[&str]) {
    for turned in [false, true] {
        let mut diary = Diary::default();
        let mut given = records.to_vec();
        if turned {
            given.reverse();
        }
        diary.merge(given);
        let ids: Vec<String> = diary
            .in_order()
            .iter()
            .map(|r| r.id().to_string())
            .collect();
        assert_eq!(ids, order);
    }
}

#[test]
fn a_device_counts_its_own_records_from_one() {
    let mut diary = Diary::default();
    assert_eq!(
        append(&mut diary, "phone", 1, &harp_entry("a")),
        id("phone", 1)
    );
    assert_eq!(
        append(&mut diary, "phone", 2, &harp_entry("a")),
        id("phone", 2)
    );
    assert_eq!(
        append(&mut diary, "desk", 3, &harp_entry("a")),
        id("desk", 1)
    );
    diary.merge([record("phone", 9, 4, "far ahead")]);
    assert_eq!(
        append(&mut diary, "phone", 5, &harp_entry("a")),
        id("phone", 10)
    );
    let gaps: Vec<_> = diary.gaps().iter().map(|g| (g.from, g.to)).collect();
    assert_eq!(gaps, [(3, 8)]);
    let full = format!("{}", diary::HIGHEST_SEQ);
    diary.merge([record("old", full.parse().unwrap(), 1, "last")]);
    assert!(diary.append("old", minute(2), &harp_entry("a")).is_err());
    assert!(diary.append("", minute(2), &harp_entry("a")).is_err());
}

#[test]
fn a_record_that_says_the_same_is_known_however_it_is_written() {
    let mut diary = Diary::default();
    let first = record("phone", 1, 1, "x");
    diary.merge([first.clone()]);
    let turned = r#"{"v":1, "body":"\u0078","kind":"words", "at":"2026-11-26T18:01:00Z","seq":1,"device":"phone"}"#;
    let merged = diary.merge([Record::parse(turned).unwrap()]);
    assert_eq!(
        (merged.taken.len(), merged.known, merged.conflicts.len()),
        (0, 1, 0)
    );
    assert_eq!(
        diary.record(&id("phone", 1)),
        Some(&first),
        "the line stays as it came first"
    );
}

#[test]
fn the_same_place_with_another_body_is_kept_apart_and_named() {
    let mut diary = Diary::default();
    diary.merge([record("phone", 1, 1, "x")]);
    // as after a backup was restored under the old name
    let merged = diary.merge([record("phone", 1, 1, "y"), record("phone", 1, 2, "x")]);
    assert_eq!(merged.taken, []);
    assert_eq!(merged.conflicts, [id("phone", 1), id("phone", 1)]);
    assert_eq!(lines(diary.records()), [r#"phone 1 "x"}"#]);
    assert_eq!(lines(diary.apart()), [r#"phone 1 "y"}"#, r#"phone 1 "x"}"#]);
    assert_eq!(diary.in_order().len(), 1, "never replayed");
    // the earlier comes last: it stays all the same
    let earlier = record("phone", 1, 0, "z");
    let mut late = diary.clone();
    late.merge([earlier.clone()]);
    let mut early = Diary::default();
    early.merge([earlier]);
    early.merge(diary.records().chain(diary.apart()).cloned());
    assert_eq!(late, early);
    assert_eq!(lines(late.records()), [r#"phone 1 "z"}"#]);
    // offered again it is known, and a file passes both on
    let merged = diary.merge([record("phone", 1, 1, "y")]);
    assert_eq!((merged.known, merged.conflicts.len()), (1, 0));
    let mut other = Diary::default();
    other.import(diary.export().as_bytes());
    assert_eq!(other, diary);
}

#[test]
fn within_a_device_the_place_counts_across_devices_the_time() {
    check_order(
        &[
            record("desk", 1, 10, ""),
            record("phone", 1, 5, ""),
            record("phone", 2, 20, ""),
            record("desk", 2, 15, ""),
        ],
        &["phone 1", "desk 1", "desk 2", "phone 2"],
    );
    // the phone's clock was put back
    check_order(
        &[
            record("phone", 1, 30, ""),
            record("phone", 2, 5, ""),
            record("desk", 1, 10, ""),
            record("desk", 2, 40, ""),
        ],
        &["desk 1", "phone 1", "phone 2", "desk 2"],
    );
    // at the same moment
    check_order(
        &[
            record("phone", 1, 5, ""),
            record("desk", 1, 5, ""),
            record("desk", 2, 5, ""),
        ],
        &["desk 1", "desk 2", "phone 1"],
    );
}

#[test]
fn a_later_record_of_a_harp_takes_the_place_of_the_earlier() {
    let mut diary = Diary::default();
    append(&mut diary, "phone", 1, &harp_entry("little"));
    append(&mut diary, "phone", 3, &harp_entry("big"));
    let newer = HarpKept {
        harp: "little".to_owned(),
        toml: "kind = \"lever22\"".to_owned(),
    };
    append(&mut diary, "desk", 2, &Entry::Harp(newer.clone()));
    let harps = diary.harps();
    let names: Vec<&str> = harps.iter().map(|h| h.harp.as_str()).collect();
    assert_eq!(names, ["big", "little"]);
    assert_eq!(harps[1], newer);
    assert_eq!(at("2026-11-26T18:02:00Z"), minute(2));
}

fn some_records() -> impl Strategy<Value = Vec<Record>> {
    let one = (0usize..3, 1u64..6, 0u64..59, 0usize..2);
    let one = one.prop_map(|(device, seq, minutes, words)| {
        record(
            ["desk", "phone", "tablet"][device],
            seq,
            minutes,
            ["x", "y"][words],
        )
    });
    prop::collection::vec(one, 0..24)
}

/// The first of each place: what a set of records is where nothing conflicts.
fn without_conflicts(records: Vec<Record>) -> Vec<Record> {
    let mut diary = Diary::default();
    diary.merge(records);
    diary.records().cloned().collect()
}

proptest! {
    #[test]
    fn merging_is_a_set_union(a in some_records(), split in 0usize..24, turn in any::<bool>()) {
        let all = without_conflicts(a);
        let (left, right) = all.split_at(split.min(all.len()));
        let mut one = Diary::default();
        one.merge(all.iter().cloned());
        let mut other = Diary::default();
        let (first, second) = if turn { (right, left) } else { (left, right) };
        other.merge(first.iter().cloned());
        other.merge(all.iter().rev().cloned());
        other.merge(second.iter().cloned());
        prop_assert_eq!(&one, &other);
        prop_assert_eq!(one.export(), other.export());
    }

    #[test]
    fn two_diaries_become_the_same_whichever_comes_first(a in some_records(), b in some_records()) {
        let (mut one, mut other) = (Diary::default(), Diary::default());
        one.merge(a.iter().chain(&b).cloned());
        other.merge(b.iter().rev().chain(&a).cloned());
        prop_assert_eq!(&one, &other);
        prop_assert_eq!(one.export(), other.export());
    }

    #[test]
    fn nothing_is_ever_lost_or_taken_twice(a in some_records(), b in some_records()) {
        let mut diary = Diary::default();
        let first = diary.merge(a.iter().cloned());
        prop_assert_eq!(first.taken.len() + first.known + first.conflicts.len(), a.len());
        let before: Vec<Record> = diary.records().cloned().collect();
        diary.merge(b.iter().cloned());
        for record in &before {
            prop_assert!(diary.record(record.id()).is_some());
        }
        for record in a.iter().chain(&b) {
            let mut here = diary.records().chain(diary.apart());
            prop_assert!(here.any(|r| r.says_the_same(record)));
        }
        let again = diary.merge(a.iter().chain(&b).cloned());
        prop_assert_eq!(again.known, a.len() + b.len());
        let mut copy = Diary::default();
        copy.import(diary.export().as_bytes());
        prop_assert_eq!(copy, diary);
    }

    #[test]
    fn within_a_device_the_order_is_its_own(a in some_records()) {
        let mut diary = Diary::default();
        diary.merge(a);
        let order = diary.in_order();
        for (at, record) in order.iter().enumerate() {
            for later in &order[at..] {
                let same = later.id().device == record.id().device;
                prop_assert!(!same || later.id().seq >= record.id().seq);
            }
        }
    }
}
