//! What two diaries lack of each other, found out from what they say shortly.

use diary::{BLOCK, Diary, Held, LineSum, Record, RecordId};
use proptest::prelude::*;

use crate::samples::id;

fn held(places: &[u64]) -> Held {
    let mut held = Held::default();
    for seq in places {
        held.add(&id("phone", *seq), None);
    }
    held
}

fn json(held: &Held) -> String {
    serde_json::to_string(held).unwrap()
}

fn record(seq: u64, words: &str) -> Record {
    let line = format!(
        r#"{{"device":"phone","seq":{seq},"at":"2026-11-26T18:40:00Z","kind":"words","v":1,"body":"{words}"}}"#
    );
    Record::parse(&line).unwrap()
}

#[test]
fn places_are_told_as_stretches_whatever_their_order() {
    let told = r#"[{"device":"phone","places":[[1,4],[7,7]]}]"#;
    assert_eq!(json(&held(&[4, 7, 1, 3, 2, 2])), told);
    assert_eq!(
        serde_json::from_str::<Held>(told).unwrap(),
        held(&[1, 2, 3, 4, 7])
    );
    assert_eq!(json(&held(&[])), "[]");
}

#[test]
fn what_is_no_stretch_is_refused() {
    for bad in [
        r#"[{"device":"phone","places":[[4,1]]}]"#,
        r#"[{"device":"","places":[]}]"#,
        r#"[{"device":"phone","places":[[1,9007199254740992]]}]"#,
        r#"[{"device":"phone","places":[],"sums":[[0,"no sum"]]}]"#,
    ] {
        assert!(serde_json::from_str::<Held>(bad).is_err(), "{bad}");
    }
}

#[test]
fn two_records_in_one_place_show_in_the_sum() {
    let (one, other) = (record(3, "one"), record(3, "other"));
    let sums = |records: &[&Record]| {
        let held = Held::of(records.iter().copied());
        held.sums()
            .map(|(_, block, sum)| (block, sum))
            .collect::<Vec<_>>()
    };
    assert_ne!(sums(&[&one]), sums(&[&other]));
    // whichever stays, and whichever is kept apart
    assert_eq!(sums(&[&one, &other]), sums(&[&other, &one]));
    let far = record(BLOCK, "one");
    assert_eq!(sums(&[&far])[0].0, 1);
    assert!(Held::of([&one]).without_sums().sums().next().is_none());
    assert_eq!(
        "0123456789abcdef".parse::<LineSum>().unwrap().to_string(),
        "0123456789abcdef"
    );
}

proptest! {
    #[test]
    fn what_is_lacking_makes_both_alike(own in prop::collection::btree_set(0_u64..60, 0..40), other in prop::collection::btree_set(0_u64..60, 0..40)) {
        let own_held = held(&own.iter().copied().collect::<Vec<_>>());
        let other_held = held(&other.iter().copied().collect::<Vec<_>>());
        let mut lacking = Vec::new();
        for gap in own_held.lacking(&other_held) {
            lacking.extend(gap.from..=gap.to);
        }
        // place by place, which is slow and plain
        let plain: Vec<u64> = other.difference(&own).copied().collect();
        prop_assert_eq!(lacking, plain);
        for seq in 0..60 {
            prop_assert_eq!(own_held.holds(&id("phone", seq)), own.contains(&seq));
        }
        prop_assert_eq!(own_held.last(&id("phone", 0).device), own.last().copied());
    }

    #[test]
    fn a_diary_and_its_records_in_any_order_say_the_same(places in prop::collection::vec((1_u64..600, 0_u8..3), 0..50)) {
        let records: Vec<Record> = places.iter().map(|(seq, words)| record(*seq, &words.to_string())).collect();
        let (mut there, mut back) = (Diary::default(), Diary::default());
        there.merge(records.clone());
        back.merge(records.into_iter().rev());
        let of = |diary: &Diary| Held::of(diary.records().chain(diary.apart()));
        prop_assert_eq!(of(&there), of(&back));
        prop_assert_eq!(serde_json::from_str::<Held>(&json(&of(&there))).unwrap(), of(&back));
        let ids: Vec<&RecordId> = there.records().map(Record::id).collect();
        prop_assert!(ids.iter().all(|id| of(&there).holds(id)));
    }
}
