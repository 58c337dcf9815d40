//! What is given of a diary to somebody else.

use std::collections::BTreeSet;

use diary::{
    Air, Correction, Diary, Entry, Giving, Group, HarpKept, Note, Now, Record, RoundEvents,
    StringBroken,
};

use crate::samples::{append, begun, name};

fn note(text: &str) -> Entry {
    Entry::Note(Note {
        harp: None,
        string: None,
        text: text.to_owned(),
    })
}

fn harp(name: &str) -> Entry {
    Entry::Harp(HarpKept {
        harp: name.to_owned(),
        toml: "kind = \"pedal47\"\n".to_owned(),
    })
}

fn broken(harp: &str, on: Option<&str>) -> Entry {
    Entry::StringBroken(StringBroken {
        harp: harp.to_owned(),
        string: name("G3"),
        on: on.map(|day| day.parse().unwrap()),
        place: String::new(),
    })
}

fn giving(groups: &[Group]) -> Giving {
    Giving {
        groups: groups.iter().copied().collect(),
        ..Giving::default()
    }
}

/// No place.
const NONE: [u64; 0] = [];

/// The places that are given, all of the phone.
fn places(diary: &Diary, giving: &Giving) -> Vec<u64> {
    let given = diary.given(giving);
    given.records.iter().map(|record| record.id().seq).collect()
}

#[test]
fn a_round_goes_whole_with_its_harp_and_nothing_else() {
    let mut diary = Diary::default();
    append(&mut diary, "phone", 1, &harp("big"));
    append(&mut diary, "phone", 2, &harp("little"));
    let round = append(&mut diary, "phone", 3, &Entry::Round(begun("big")));
    let part = Entry::RoundEvents(RoundEvents {
        round,
        first: 0,
        events: Vec::new(),
    });
    append(&mut diary, "phone", 4, &note("hers alone"));
    append(&mut diary, "phone", 5, &part);
    let given = diary.given(&giving(&[Group::Rounds]));
    assert_eq!(places(&diary, &giving(&[Group::Rounds])), [1, 3, 5]);
    assert_eq!(given.kinds["round_events"], 1);
    let lines: BTreeSet<&str> = diary.records().map(Record::line).collect();
    assert!(given.records.iter().all(|r| lines.contains(r.line())));
    let little = Giving {
        harp: Some("little".to_owned()),
        ..giving(&[Group::Rounds])
    };
    assert_eq!(places(&diary, &little), NONE, "no round of it, no harp");
    assert_eq!(places(&diary, &giving(&[Group::Notes])), [4]);
    assert_eq!(places(&diary, &giving(&[])), NONE);
}

#[test]
fn what_was_withdrawn_stays_and_a_correction_goes_with_its_record() {
    let mut diary = Diary::default();
    let correction = |of, now| {
        Entry::Correction(Correction {
            of,
            now,
            why: String::new(),
        })
    };
    let air = Entry::Air(Air {
        harp: None,
        temperature_c: Some(200.0),
        humidity_percent: None,
    });
    let withdrawn = append(&mut diary, "phone", 1, &air);
    let wrong = append(&mut diary, "phone", 2, &air);
    let not_air = append(&mut diary, "phone", 3, &air);
    append(
        &mut diary,
        "phone",
        4,
        &correction(withdrawn, Now::Withdrawn),
    );
    let first = Now::Entry(Box::new(air.clone()));
    append(&mut diary, "phone", 5, &correction(wrong.clone(), first));
    let right = Entry::Air(Air {
        harp: None,
        temperature_c: Some(20.0),
        humidity_percent: None,
    });
    append(
        &mut diary,
        "phone",
        6,
        &correction(wrong, Now::Entry(Box::new(right.clone()))),
    );
    let text = Now::Entry(Box::new(note("my own affair")));
    append(&mut diary, "phone", 7, &correction(not_air, text));
    let air = giving(&[Group::Air]);
    assert_eq!(places(&diary, &air), [2, 6]);
    // who reads them knows the same of the air as she does
    let mut theirs = Diary::default();
    theirs.merge(diary.given(&air).records.into_iter().cloned());
    assert_eq!(theirs.told(&["air"]), diary.told(&["air"]));
    assert_eq!(theirs.told(&["air"])[0].entry, right);
    assert_eq!(places(&diary, &giving(&[Group::Notes])), [3, 7]);
}

#[test]
fn days_are_hers_and_what_was_done_earlier_counts_then() {
    let mut diary = Diary::default();
    // written at 18:01 and 18:02 UTC
    append(&mut diary, "phone", 1, &broken("big", None));
    append(&mut diary, "phone", 2, &broken("big", Some("2026-01-05")));
    let since = |day: &str, ahead_min| Giving {
        since: Some(day.parse().unwrap()),
        ahead_min,
        ..giving(&[Group::Strings])
    };
    assert_eq!(places(&diary, &since("2026-11-26", 0)), [1]);
    assert_eq!(places(&diary, &since("2026-11-27", 0)), NONE);
    // where it is eleven hours later the next day has begun
    assert_eq!(places(&diary, &since("2026-11-27", 11 * 60)), [1]);
    assert_eq!(places(&diary, &since("2026-01-05", -11 * 60)), [1, 2]);
}

#[test]
fn a_newer_version_s_records_are_counted_and_kept_back() {
    let line =
        r#"{"device":"phone","seq":1,"at":"2026-11-26T18:40:00Z","kind":"dream","v":1,"body":{}}"#;
    let mut diary = Diary::default();
    diary.merge([Record::parse(line).unwrap()]);
    let given = diary.given(&giving(&Group::ALL));
    assert_eq!((given.records.len(), given.not_understood), (0, 1));
}

#[test]
fn groups_have_words_and_notes_are_not_given_unasked() {
    for group in Group::ALL {
        assert_eq!(group.to_string().parse(), Ok(group));
    }
    assert!("secrets".parse::<Group>().is_err());
    let kept: Vec<Group> = Group::ALL.into_iter().filter(|g| !g.is_usual()).collect();
    assert_eq!(kept, [Group::Notes, Group::Programmes]);
}
