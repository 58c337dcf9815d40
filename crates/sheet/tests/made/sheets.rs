//! Sheets of our own invention.
#![allow(dead_code, reason = "each test takes what it needs")]

use harp::Setting;
use pitch::{Alteration, Letter, MajorKey, ReferencePitch};
use sheet::{
    BarChanges, BeatChanges, BeforePiece, Evening, KeyedString, Landmark, MovementSheet, Pencilled,
    PieceSheet, PrintedBar, Remark, RemarkKind, Turned,
};

pub(crate) fn bar(order: u32) -> PrintedBar {
    PrintedBar {
        order,
        label: order.to_string(),
    }
}

/// `F# A Bb`: letters as a player pencils them.
pub(crate) fn pencilled(words: &str) -> Vec<Pencilled> {
    let one = |word: &str| {
        let mut signs = word.chars();
        Pencilled {
            letter: Letter::from_char(signs.next().unwrap()).unwrap(),
            to: match signs.next() {
                Some('b') => Alteration::Flat,
                Some('#') => Alteration::Sharp,
                _ => Alteration::Natural,
            },
            string: None,
            only: Vec::new(),
        }
    };
    words.split_whitespace().map(one).collect()
}

pub(crate) fn changes(order: u32, beat: &str, right: &str, left: &str) -> BarChanges {
    BarChanges {
        bar: bar(order),
        beats: vec![BeatChanges {
            beat: beat.to_owned(),
            right: pencilled(right),
            left: pencilled(left),
        }],
    }
}

pub(crate) fn by_key(string: &str, pitch: &str) -> KeyedString {
    KeyedString {
        string: string.parse().unwrap(),
        pitch: pitch.parse().unwrap(),
        in_rest: None,
    }
}

pub(crate) fn key(fifths: i8) -> Setting {
    Setting::of_key(MajorKey::new(fifths).unwrap())
}

/// Two rehearsal marks, six changes, a remark of each kind but one.
pub(crate) fn harbour() -> PieceSheet {
    let mut twice = changes(34, "3", "E", "");
    twice.beats[0].right[0].only = vec![2];
    let movement = MovementSheet {
        by_key: vec![by_key("C1", "C#1"), by_key("D1", "Db1")],
        opening: key(-3),
        landmarks: vec![
            Landmark {
                bar: bar(17),
                mark: "A".to_owned(),
                times: Vec::new(),
                setting: key(-1),
            },
            Landmark {
                bar: bar(33),
                mark: "B".to_owned(),
                times: Vec::new(),
                setting: key(1),
            },
        ],
        bars: vec![
            changes(4, "2½", "E", ""),
            changes(5, "1", "A", "C#"),
            changes(18, "1", "", "B"),
            twice,
        ],
        ..MovementSheet::default()
    };
    let remark = |order, beat: &str, what| Remark {
        bar: Some(bar(order)),
        beat: beat.to_owned(),
        what,
    };
    PieceSheet {
        title: "Harbour Lights at Low Water".to_owned(),
        composer: "Ottoline Brisk".to_owned(),
        harp: "Concert harp".to_owned(),
        reference: ReferencePitch::new(442.0).unwrap(),
        movements: vec![movement],
        remarks: vec![
            remark(
                9,
                "2",
                RemarkKind::OtherString {
                    written: "G#4".parse().unwrap(),
                    played: "Ab4".parse().unwrap(),
                },
            ),
            remark(
                12,
                "1",
                RemarkKind::Lost {
                    pitch: "A#3".parse().unwrap(),
                    reason: pedals::Reason::TooFast,
                    remedies: vec![pedals::Remedy::LeaveOut],
                },
            ),
            Remark {
                bar: None,
                beat: String::new(),
                what: RemarkKind::Caution("5A is a new string.".to_owned()),
            },
        ],
        before: BeforePiece::default(),
    }
}

/// No change at all.
pub(crate) fn still() -> PieceSheet {
    PieceSheet {
        title: "Still Water".to_owned(),
        reference: ReferencePitch::A440,
        movements: vec![MovementSheet {
            by_key: vec![by_key("C1", "Cn1"), by_key("D1", "Db1")],
            opening: key(2),
            ..MovementSheet::default()
        }],
        ..PieceSheet::default()
    }
}

/// So many bars with a change in each, a mark every eight.
pub(crate) fn long(bars: u32) -> PieceSheet {
    let mut movement = MovementSheet {
        opening: key(0),
        ..MovementSheet::default()
    };
    for order in 1..=bars {
        let letters = ["F#", "F", "G# A#", "G A"][order as usize % 4];
        movement.bars.push(changes(order, "1", letters, "B"));
        if order % 8 == 0 {
            movement.landmarks.push(Landmark {
                bar: bar(order),
                mark: (order / 8).to_string(),
                times: Vec::new(),
                setting: key(i8::try_from(order / 8 % 7).unwrap()),
            });
        }
    }
    PieceSheet {
        title: "The Long Shore".to_owned(),
        movements: vec![movement],
        ..PieceSheet::default()
    }
}

pub(crate) fn evening() -> Evening {
    let mut second = still();
    second.before = BeforePiece {
        follows: true,
        whole_harp: true,
        turned: vec![Turned {
            string: "C1".parse().unwrap(),
            from: "C#1".parse().unwrap(),
            to: "Cn1".parse().unwrap(),
        }],
        left: key(1),
        ..BeforePiece::default()
    };
    Evening {
        title: "An Evening in Two Tides".to_owned(),
        note: "An invented programme".to_owned(),
        pieces: vec![harbour(), second],
    }
}
