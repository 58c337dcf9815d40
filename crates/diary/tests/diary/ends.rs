//! What is known without the events of rounds that are over is what is known with them.

use diary::{Diary, Ends, Entry, Record, RecordId, RoundOver};

use crate::samples::{append, begun, events, harp_entry};

/// A round of two records of events, and its end where it has one.
fn round(diary: &mut Diary, device: &str, is_over: bool) -> RecordId {
    let round = append(diary, device, 1, &Entry::Round(begun("big")));
    let all = events();
    let (first, rest) = all.split_at(all.len() / 2);
    for (at, part) in [(0, first), (first.len(), rest)] {
        for entry in Entry::round_events(&round, at as u64, part) {
            append(diary, device, 2, &entry);
        }
    }
    if is_over {
        let summary = diary.round(&round).unwrap().replayed().summary();
        let over = RoundOver::of(round.clone(), true, &summary);
        append(diary, device, 3, &Entry::RoundOver(over));
    }
    round
}

fn gathered<'a>(records: impl Iterator<Item = &'a Record>) -> Option<Diary> {
    let mut ends = Ends::default();
    ends.push(records.cloned());
    ends.finish().ok()
}

#[test]
fn nothing_that_is_known_is_lost() {
    let mut diary = Diary::default();
    append(&mut diary, "phone", 0, &harp_entry("big"));
    round(&mut diary, "phone", true);
    round(&mut diary, "desk", false);
    let short = gathered(diary.records()).unwrap();
    assert_eq!(short.known(), diary.known());
    let count = |diary: &Diary| {
        diary
            .records()
            .filter(|r| r.kind() == "round_events")
            .count()
    };
    assert_eq!((count(&diary), count(&short)), (4, 2));
    // in any order of records
    let all: Vec<&Record> = diary.records().collect();
    let back = gathered(all.into_iter().rev()).unwrap();
    assert_eq!(back, short);
}

#[test]
fn a_round_that_goes_on_behind_its_end_is_to_be_read_whole() {
    let mut diary = Diary::default();
    let id = round(&mut diary, "phone", true);
    let late = &Entry::round_events(&id, 900, &events()[..1])[0];
    append(&mut diary, "phone", 4, late);
    assert_eq!(gathered(diary.records()), None);
}
