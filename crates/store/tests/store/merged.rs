//! Two devices, a month apart, in either order; two bodies of one place; against the diary that does the same in memory.

use diary::{Diary, Record};
use proptest::prelude::*;

use crate::samples::{Folder, id, now, record};

fn export(store: &store::Store) -> String {
    let mut out = Vec::new();
    store.export(&mut out).unwrap().unwrap();
    String::from_utf8(out).unwrap()
}

/// Merges two lots in both orders: both files hold the same, and what the diary in memory holds.
#[track_caller]
fn check(one: &[Record], other: &[Record]) {
    let folder = Folder::new();
    let (mut first, mut second) = (folder.open("first.sqlite"), folder.open("second.sqlite"));
    first.merge(one).unwrap();
    first.merge(other).unwrap();
    second.merge(other).unwrap();
    second.merge(one).unwrap();
    let mut diary = Diary::default();
    diary.merge(one.iter().chain(other).cloned());
    for store in [&first, &second] {
        assert_eq!(store.diary().unwrap(), diary);
        let lines = |text: &str| {
            let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
            lines.sort();
            lines
        };
        assert_eq!(lines(&export(store)), lines(&diary.export()));
        let looked = store.check(&now()).unwrap();
        assert!(looked.file.is_empty() && looked.displaced.is_empty());
        assert_eq!(looked.diary.twins.len(), diary.apart().count());
    }
    // each takes in what the other gives: nothing is new
    let given = export(&second);
    let again = first.import(given.as_bytes()).unwrap().merged;
    assert_eq!((again.taken.len(), again.conflicts.len()), (0, 0));
}

#[test]
fn two_devices_that_were_a_month_apart_become_one() {
    let month = |device: &str| -> Vec<Record> {
        (1..=30)
            .map(|day| record(device, day, day, device))
            .collect()
    };
    check(&month("phone"), &month("desk"));
}

#[test]
fn of_two_bodies_in_one_place_the_earlier_is_replayed_and_both_are_kept() {
    let (early, late) = (
        record("phone", 1, 1, "early"),
        record("phone", 1, 2, "late"),
    );
    check(std::slice::from_ref(&early), std::slice::from_ref(&late));
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    store.merge(std::slice::from_ref(&late)).unwrap();
    let merged = store.merge(std::slice::from_ref(&early)).unwrap();
    assert_eq!(merged.conflicts, [id("phone", 1)]);
    assert_eq!(store.diary().unwrap().record(&id("phone", 1)), Some(&early));
    let looked = store.check(&now()).unwrap();
    assert!(!looked.is_whole());
    assert_eq!(looked.diary.twins, [id("phone", 1)]);
    assert_eq!(looked.records, 2);
}

fn some_records() -> impl Strategy<Value = Vec<Record>> {
    let one = (0usize..2, 1u64..5, 0u64..3, 0usize..2).prop_map(|(device, seq, minute, words)| {
        record(["desk", "phone"][device], seq, minute, ["x", "y"][words])
    });
    prop::collection::vec(one, 0..12)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn whatever_comes_first_the_file_is_the_same(one in some_records(), other in some_records()) {
        check(&one, &other);
    }
}
