//! What is written is there, and is all that is there.

use diary::{Entry, Record, RoundEvents, RoundOver};

use crate::samples::{Folder, id, note, now, record};

#[test]
fn records_are_counted_on_when_the_file_is_opened_again() {
    let folder = Folder::new();
    let mut store = folder.open("deep/down/diary.sqlite");
    let device = store.device().clone();
    assert_eq!(device.as_str().len(), 36, "a UUID: {device}");
    assert_eq!(
        store.append(&now(), &[note("a"), note("b")]).unwrap().len(),
        2
    );
    drop(store);
    let mut store = folder.open("deep/down/diary.sqlite");
    assert_eq!(store.device(), &device);
    let written = store.append(&now(), &[note("c")]).unwrap();
    assert_eq!(written[0].seq, 3);
    assert_eq!(store.diary().unwrap().records().count(), 3);
    let looked = store.check(&now()).unwrap();
    assert!(looked.is_whole() && looked.records == 3);
    assert_eq!(looked.diary.devices, [(device, 3)]);
}

#[test]
fn of_several_records_all_are_written_or_none() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    let long = "x".repeat(diary::LONGEST_LINE);
    store.append(&now(), &[note("a"), note(&long)]).unwrap_err();
    assert_eq!(store.diary().unwrap().records().count(), 0);
    assert_eq!(store.append(&now(), &[note("b")]).unwrap()[0].seq, 1);
}

#[test]
fn two_that_are_open_at_once_never_take_one_place() {
    let folder = Folder::new();
    let (mut one, mut other) = (folder.open("diary.sqlite"), folder.open("diary.sqlite"));
    for place in 1..6 {
        let store = if place % 2 == 0 { &mut one } else { &mut other };
        assert_eq!(store.append(&now(), &[note("")]).unwrap()[0].seq, place);
    }
}

#[test]
fn a_newer_record_is_passed_on_byte_for_byte() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    let line = r#"{ "signed":"later", "v":18446744073709551615,"seq":9007199254740991,"device":"a 'b'","kind":"harp","at":"2026-11-26T18:40:00Z","body":[1E2, 12345678901234567890123]}"#;
    let read = store.import(format!("{line}\r\n").as_bytes()).unwrap();
    assert_eq!((read.merged.taken.len(), read.troubles.len()), (1, 0));
    let mut out = Vec::new();
    assert_eq!(store.export(&mut out).unwrap().unwrap(), 1);
    assert_eq!(String::from_utf8(out).unwrap(), format!("{line}\n"));
    let looked = store.check(&now()).unwrap();
    assert_eq!(
        looked.diary.not_understood,
        [id("a 'b'", 9_007_199_254_740_991)]
    );
    assert!(looked.displaced.is_empty() && looked.damaged.is_empty());
}

#[test]
fn a_truncated_and_edited_export_gives_what_is_whole() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    let lines: Vec<String> = (1..6)
        .map(|seq| record("phone", seq, seq, "x").line().to_owned())
        .collect();
    let mut file = lines.join("\n");
    file = file.replace(r#""seq":2,"#, r#""seq":two,"#);
    file.truncate(file.len() - 4);
    let read = store.import(file.as_bytes()).unwrap();
    assert_eq!(read.merged.taken, [1, 3, 4].map(|seq| id("phone", seq)));
    let lines: Vec<usize> = read.troubles.iter().map(|trouble| trouble.line).collect();
    assert_eq!(lines, [2, 5]);
    let looked = store.check(&now()).unwrap();
    assert!(!looked.is_whole(), "the second is missing");
    assert_eq!((looked.diary.gaps[0].from, looked.diary.gaps[0].to), (2, 2));
}

fn round_record(device: &str, seq: u64, kind: &str) -> Record {
    let round = id("phone", 1);
    let entry = match kind {
        "round_over" => Entry::RoundOver(RoundOver {
            round,
            finished: true,
            minutes: 1.0,
            left: 0,
            again: Vec::new(),
            strings: Vec::new(),
        }),
        _ => Entry::RoundEvents(RoundEvents {
            round,
            first: 0,
            events: Vec::new(),
        }),
    };
    let mut writer = diary::Writer::new(device, seq).unwrap();
    Record::parse(&writer.line(&now(), &entry).unwrap()).unwrap()
}

#[test]
fn events_of_rounds_that_are_over_are_left_out_for_who_asks_only_what_is_known() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    let count = |store: &store::Store| store.ends().unwrap().records().count();
    store
        .merge(&[round_record("phone", 2, "round_events")])
        .unwrap();
    assert_eq!(count(&store), 1, "not over");
    store
        .merge(&[round_record("phone", 3, "round_over")])
        .unwrap();
    assert_eq!(count(&store), 1, "only the end");
    store
        .merge(&[round_record("desk", 1, "round_events")])
        .unwrap();
    assert_eq!(count(&store), 3, "another device went on: all of it");
    assert_eq!(
        store.ends().unwrap().known(),
        store.diary().unwrap().known()
    );
}
