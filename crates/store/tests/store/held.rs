//! What the file says that it holds, and the lines of certain places.

use diary::{Entry, Gap, Held, Met};

use crate::samples::{Folder, at, id, note, now, record};

fn stretch(device: &str, from: u64, to: u64) -> Gap {
    let device = device.parse().unwrap();
    Gap { device, from, to }
}

#[test]
fn the_file_says_what_its_diary_says() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    store.append(&now(), &[note("a"), note("b")]).unwrap();
    let others = [
        record("phone", 1, 1, "one"),
        record("phone", 3, 2, "three"),
        record("phone", 3, 3, "another"),
        record("phone", 300, 4, "far"),
    ];
    store.merge(&others).unwrap();
    let diary = store.diary().unwrap();
    let plain = Held::of(diary.records().chain(diary.apart()));
    assert_eq!(store.held().unwrap(), plain);
    assert_eq!(store.places().unwrap(), plain.without_sums());
}

#[test]
fn lines_of_a_stretch_come_in_order_with_those_kept_apart_until_it_is_enough() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    let others = [
        record("phone", 3, 3, "another"),
        record("phone", 1, 1, "one"),
        record("phone", 3, 2, "three"),
        record("tablet", 2, 2, "elsewhere"),
        record("phone", 4, 4, "four"),
    ];
    store.merge(&others).unwrap();
    let mut found = Vec::new();
    let enough = 3;
    store
        .lines(&stretch("phone", 1, 9), &mut |id, line| {
            found.push((id.seq, line.split("body\":").last().unwrap().to_owned()));
            found.len() < enough
        })
        .unwrap();
    let words: Vec<(u64, &str)> = found
        .iter()
        .map(|(seq, words)| (*seq, words.as_str()))
        .collect();
    assert_eq!(
        words,
        [(1, "\"one\"}"), (3, "\"three\"}"), (3, "\"another\"}")]
    );
    let sums = store.sums(&stretch("phone", 2, 4)).unwrap();
    assert_eq!(sums.iter().map(|(seq, _)| *seq).collect::<Vec<_>>(), [3, 4]);
    assert_ne!(sums, store.sums(&stretch("phone", 1, 3)).unwrap());
}

#[test]
fn the_last_clock_that_was_seen_is_that_of_the_device_asked_for() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    let met = |device: &str, seq, ahead_s| {
        let device = device.parse().unwrap();
        Entry::Met(Met {
            device,
            seq,
            ahead_s,
        })
    };
    let phone = id("phone", 1).device;
    assert_eq!(store.last_met(&phone).unwrap(), None);
    store
        .append(&at("2026-11-26T18:00:00Z"), &[met("phone", 1, 1.0)])
        .unwrap();
    store
        .append(
            &at("2026-11-26T19:00:00Z"),
            &[met("phone", 2, 2.0), met("tablet", 9, 9.0)],
        )
        .unwrap();
    let (when, last) = store.last_met(&phone).unwrap().unwrap();
    assert_eq!(
        (when.as_str(), last.seq, last.ahead_s),
        ("2026-11-26T19:00:00Z", 2, 2.0)
    );
}

#[test]
fn a_file_that_was_put_aside_is_no_longer_in_its_place() {
    let folder = Folder::new();
    let store = folder.open("diary.sqlite");
    assert!(store.is_in_place());
    if cfg!(unix) {
        std::fs::rename(folder.file("diary.sqlite"), folder.file("aside.sqlite")).unwrap();
        assert!(!store.is_in_place());
        drop(folder.open("diary.sqlite"));
        assert!(!store.is_in_place());
    }
}
