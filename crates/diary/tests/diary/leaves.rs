//! The diary as one reads in it.

use diary::{Air, Correction, Diary, Entry, Note, Now, Record, Says, StringBroken};

use crate::samples::{append, begun, name};

fn note(text: &str) -> Entry {
    Entry::Note(Note {
        harp: None,
        string: None,
        text: text.to_owned(),
    })
}

fn told(diary: &Diary) -> Vec<String> {
    let leaves = diary.leaves();
    let each = leaves.leaves().iter().map(|leaf| {
        let day = if leaf.day_only { " (the day)" } else { "" };
        let says = match leaves.says(diary.record(&leaf.id).unwrap()) {
            Says::Entry(entry) => entry.kind().to_owned(),
            Says::Corrected(entry) => format!("{} corrected: {entry:?}", entry.kind()),
            Says::Withdrawn => "withdrawn".to_owned(),
            Says::Unknown => "unknown".to_owned(),
        };
        format!("{}{day}: {says}", leaf.when)
    });
    each.collect()
}

#[test]
fn all_but_rounds_is_told_by_day_and_as_it_is_known_now() {
    let mut diary = Diary::default();
    append(&mut diary, "phone", 1, &Entry::Round(begun("big")));
    let first = append(&mut diary, "phone", 2, &note("a bried note"));
    let wrong = append(
        &mut diary,
        "phone",
        3,
        &Entry::Air(Air {
            harp: None,
            temperature_c: Some(200.0),
            humidity_percent: None,
        }),
    );
    append(
        &mut diary,
        "phone",
        4,
        &Entry::StringBroken(StringBroken {
            harp: "big".to_owned(),
            string: name("G3"),
            on: Some("2026-11-20".parse().unwrap()),
            place: "at the knot".to_owned(),
        }),
    );
    let corrected = |of, now| {
        Entry::Correction(Correction {
            of,
            now,
            why: String::new(),
        })
    };
    let now = Now::Entry(Box::new(note("a brief note")));
    append(&mut diary, "phone", 5, &corrected(first, now));
    append(&mut diary, "phone", 6, &corrected(wrong, Now::Withdrawn));
    let newer =
        r#"{"device":"desk","seq":1,"at":"2026-11-26T18:07:00Z","kind":"round","v":2,"body":null}"#;
    diary.merge([Record::parse(newer).unwrap()]);
    assert_eq!(
        told(&diary),
        [
            "2026-11-20T00:00:00Z (the day): string_broken",
            "2026-11-26T18:02:00Z: note corrected: Note(Note { harp: None, string: None, text: \"a brief note\" })",
            "2026-11-26T18:03:00Z: withdrawn",
            "2026-11-26T18:05:00Z: correction",
            "2026-11-26T18:06:00Z: correction",
            "2026-11-26T18:07:00Z: unknown",
        ]
    );
}
