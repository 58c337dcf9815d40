//! The kinds that came after the first rounds: their first lines, which must read for ever, and what they are written as.
//! Never change a file of first lines: what comes later has a file of its own.

use std::collections::BTreeSet;

use diary::{
    Air, Asked, AskedAbout, BeatsCounted, Correction, Does, EarDrill, Entry, Fault, Found,
    HeardKept, Met, Note, Now, OffKept, Part, PedalFound, PieceKept, PositionRead, PracticeKept,
    ProgrammeKept, ReadingKept, Record, ReferenceTaken, Regulation, Side, SizeAnswered, Spares,
    StringBroken, StringChecked, StringFitted, StringRemoved, TunedByEar, Visit,
};
use harp::Material;
use pitch::{Alteration, Letter};

use crate::samples::{at, id, name, reading};
use crate::written::check;

const LINES: &str = concat!(
    include_str!("kinds_first_version.jsonl"),
    include_str!("drawer_first_version.jsonl"),
    include_str!("practice_first_version.jsonl"),
);

fn big() -> String {
    "big".to_owned()
}

fn air() -> Entry {
    Entry::Air(Air {
        harp: None,
        temperature_c: Some(20.5),
        humidity_percent: Some(45.0),
    })
}

fn fitted(material: Option<Material>) -> Entry {
    Entry::StringFitted(StringFitted {
        harp: big(),
        string: name("G3"),
        on: Some("2026-11-20".parse().unwrap()),
        material,
        gauge_mm: Some(1.14),
        used: false,
        by: "herself".to_owned(),
    })
}

fn checked(found: Found) -> StringChecked {
    let position = |position, off_cents| PositionRead {
        position,
        off_cents,
        u95_cents: 0.5,
    };
    StringChecked {
        string: name("A4"),
        positions: vec![
            position(Alteration::Flat, 0.0),
            position(Alteration::Natural, 3.0),
            position(Alteration::Sharp, -2.0),
        ],
        own_cents: Some(0.75),
        found,
    }
}

fn regulation() -> Entry {
    const ALL: [Found; 7] = [
        Found::Right,
        Found::Disc,
        Found::Lever,
        Found::Pedal,
        Found::OwnString,
        Found::TooNew,
        Found::NotSure,
    ];
    Entry::Regulation(Regulation {
        harp: big(),
        a4_hz: 441.0,
        strings: ALL.map(checked).to_vec(),
        pedals: vec![PedalFound {
            letter: Letter::F,
            position: Alteration::Sharp,
            off_cents: -6.0,
            u95_cents: 1.5,
        }],
        note: "before the visit".to_owned(),
    })
}

fn faults() -> [Entry; 5] {
    let disc = Part::Disc {
        string: name("F3"),
        position: Alteration::Natural,
    };
    let lever = Part::Lever { string: name("F4") };
    let pedal = Part::Pedal { letter: Letter::F };
    [
        (disc.clone(), Some(Does::Fails)),
        (disc, None),
        (lever, Some(Does::Buzzes)),
        (pedal.clone(), Some(Does::Slips)),
        (pedal, Some(Does::Off)),
    ]
    .map(|(part, does)| {
        Entry::Fault(Fault {
            harp: big(),
            part,
            does,
            on: None,
            note: String::new(),
        })
    })
}

fn corrections() -> [Entry; 2] {
    let correction = |now, why: &str| {
        Entry::Correction(Correction {
            of: id("phone", 7),
            now,
            why: why.to_owned(),
        })
    };
    [
        correction(Now::Withdrawn, "twice"),
        correction(Now::Entry(Box::new(air())), ""),
    ]
}

fn spares() -> Entry {
    Entry::Spares(Spares {
        harp: Some(big()),
        string: Some(name("E4")),
        material: Some(Material::Gut),
        gauge_mm: Some(0.97),
        bought: Some("2026-10-02".parse().unwrap()),
        change: -1,
    })
}

fn visit() -> Entry {
    Entry::Visit(Visit {
        harp: big(),
        on: Some("2026-11-24".parse().unwrap()),
        who: String::new(),
        done: "regulated, F pedal felted".to_owned(),
        note: "again in a year".to_owned(),
    })
}

/// By ear on her harp; without one.
fn practised() -> [Entry; 2] {
    let off = |off_cents, u95_cents| OffKept {
        off_cents,
        u95_cents,
    };
    let heard = |heard_hz, u95_cents| {
        Some(HeardKept {
            heard_hz,
            u95_cents,
        })
    };
    let octave = TunedByEar {
        drill: EarDrill::Octave,
        string: name("C4"),
        against: Some(name("C5")),
        guess: Some(Side::Low),
        before: Some(off(-12.5, 0.75)),
        after: Some(off(1.25, 0.5)),
        target_hz: 246.94,
        found: heard(245.5, 0.5),
        left: heard(247.0, 0.25),
        took_s: 61.0,
    };
    let bare = |drill, string, against: Option<&str>, guess, took_s| TunedByEar {
        drill,
        string: name(string),
        against: against.map(name),
        guess,
        before: None,
        after: None,
        target_hz: 246.94,
        found: None,
        left: None,
        took_s,
    };
    let asked = [
        (AskedAbout::TunerName, true),
        (AskedAbout::Pin, false),
        (AskedAbout::OctaveNumber, true),
        (AskedAbout::DiagramRead, true),
        (AskedAbout::DiagramSet, false),
    ];
    let with_harp = PracticeKept {
        harp: Some(big()),
        took_s: 412.5,
        by_ear: vec![
            octave,
            bare(EarDrill::Unison, "B3", Some("C4"), Some(Side::High), 20.0),
            bare(EarDrill::Fifth, "G4", None, None, 0.0),
            bare(EarDrill::Letter, "F2", Some("F4"), None, 0.0),
        ],
        ..PracticeKept::default()
    };
    let without = PracticeKept {
        took_s: 90.0,
        sizes: vec![SizeAnswered {
            hz: 262.0,
            size_cents: 12.5,
            right: true,
        }],
        asked: asked.map(|(about, right)| Asked { about, right }).to_vec(),
        counted: vec![BeatsCounted {
            per_s: 6.9,
            said_per_s: 7.0,
        }],
        ..PracticeKept::default()
    };
    [with_harp, without].map(Entry::Practice)
}

/// One of every kind, in the order of the file.
fn entries() -> Vec<Entry> {
    let mut entries = vec![
        Entry::Programme(ProgrammeKept {
            title: "An evening".to_owned(),
            on: Some("2026-12-05".parse().unwrap()),
            place: "the old mill".to_owned(),
            pieces: vec![PieceKept {
                title: "Two Lakes".to_owned(),
                harp: big(),
                plan: Some(id("desk", 3)),
                note: String::new(),
            }],
        }),
        Entry::Reading(Box::new(ReadingKept {
            harp: big(),
            a4_hz: 440.0,
            raised: 1,
            reading: reading(),
        })),
        Entry::Reference(ReferenceTaken {
            harp: None,
            a4_hz: 442.0,
            u95_cents: Some(0.5),
            from: "the oboe".to_owned(),
        }),
        air(),
        Entry::StringBroken(StringBroken {
            harp: big(),
            string: name("G3"),
            on: None,
            place: "at the pin".to_owned(),
        }),
        Entry::StringRemoved(StringRemoved {
            harp: big(),
            string: name("G3"),
            on: None,
        }),
        regulation(),
        Entry::Note(Note {
            harp: Some(big()),
            string: Some(name("C1")),
            text: "buzzes in the hall".to_owned(),
        }),
        Entry::Met(Met {
            device: id("phone", 1).device,
            seq: 12,
            ahead_s: -1.5,
        }),
        fitted(None),
    ];
    entries.extend(Material::ALL.map(|material| fitted(Some(material))));
    entries.extend(faults());
    entries.extend(corrections());
    entries.extend([spares(), visit()]);
    entries.extend(practised());
    entries
}

#[test]
fn the_first_lines_read_and_are_still_written_so() {
    let entries = entries();
    assert_eq!(LINES.lines().count(), entries.len());
    for (line, entry) in LINES.lines().zip(&entries) {
        let record = Record::parse(line).unwrap();
        assert_eq!(record.entry().as_ref(), Some(entry), "{line}");
        let mut writer = diary::Writer::new("desk", record.id().seq).unwrap();
        assert_eq!(writer.line(record.at(), entry).unwrap(), line);
    }
}

#[test]
fn every_kind_but_those_of_rounds_and_plans_is_there() {
    let kinds: BTreeSet<&str> = entries().iter().map(Entry::kind).collect();
    assert_eq!(
        kinds.into_iter().collect::<Vec<_>>(),
        [
            "air",
            "correction",
            "fault",
            "met",
            "note",
            "practice",
            "programme",
            "reading",
            "reference",
            "regulation",
            "spares",
            "string_broken",
            "string_fitted",
            "string_removed",
            "visit",
        ]
    );
}

#[test]
fn what_is_written_is_read_back() {
    for entry in entries() {
        check(&entry);
    }
    for odd in [f64::NAN, f64::INFINITY, -0.0] {
        check(&Entry::Air(Air {
            harp: Some(String::new()),
            temperature_c: Some(odd),
            humidity_percent: None,
        }));
    }
}

#[test]
fn a_correction_may_hold_what_is_not_known_yet_and_never_another_correction() {
    let line = r#"{"device":"desk","seq":1,"at":"2026-11-26T18:40:00Z","kind":"correction","v":1,"body":{"of":{"device":"desk","seq":1},"now":{"kind":"air","v":2,"body":{"b":[1.5],"a":null}},"why":""}}"#;
    let entry = Record::parse(line).unwrap().entry().unwrap();
    let Entry::Correction(Correction {
        now: Now::Unknown(unknown),
        ..
    }) = &entry
    else {
        panic!("{entry:?}");
    };
    assert_eq!((unknown.kind.as_str(), unknown.v), ("air", 2));
    let mut writer = diary::Writer::new("desk", 1).unwrap();
    let again = writer.line(&at("2026-11-26T18:40:00Z"), &entry).unwrap();
    assert_eq!(Record::parse(&again).unwrap().entry(), Some(entry));
    let nested = line.replace(r#""kind":"air","v":2"#, r#""kind":"correction","v":1"#);
    let error = Record::parse(&nested).unwrap_err().to_string();
    assert!(
        error.contains("name the record that was wrong at first"),
        "{error}"
    );
    let bad = line.replace(r#""kind":"air","v":2"#, r#""kind":"air","v":1"#);
    assert!(Record::parse(&bad).is_err(), "none of its kind");
}
