//! Files as they come: whole, cut off, from other programs.

use diary::{Diary, LONGEST_LINE, ReadError, Record};
use proptest::prelude::*;

use crate::samples::{append, harp_entry, id};

const GOOD: &str =
    r#"{"device":"phone","seq":1,"at":"2026-11-26T18:40:00Z","kind":"words","v":1,"body":{}}"#;
const OTHER: &str =
    r#"{"device":"phone","seq":2,"at":"2026-11-26T18:41:00Z","kind":"words","v":1,"body":{}}"#;

/// Takes in a file: how many records were taken, and each trouble as it is said.
#[track_caller]
fn check(file: impl AsRef<[u8]>, taken: usize, troubles: &[&str]) {
    let mut diary = Diary::default();
    let read = diary.import(file.as_ref());
    let said: Vec<String> = read.troubles.iter().map(ToString::to_string).collect();
    assert_eq!(read.merged.taken.len(), taken, "{said:?}");
    assert_eq!(said.len(), troubles.len(), "{said:?}");
    for (said, words) in said.iter().zip(troubles) {
        for word in words.split(" … ") {
            assert!(said.contains(word), "{said}\nhas no '{word}'");
        }
    }
    let again = diary.import(file.as_ref());
    assert_eq!(
        (again.merged.taken.len(), again.merged.known),
        (0, taken),
        "twice"
    );
    assert_eq!(again.troubles, read.troubles);
}

#[test]
fn marks_ends_and_empty_lines_of_any_program_are_fine() {
    check("", 0, &[]);
    check("\n\n", 0, &[]);
    check(format!("{GOOD}\n{OTHER}\n"), 2, &[]);
    check(format!("{GOOD}\n{OTHER}"), 2, &[]);
    check(format!("\u{feff}{GOOD}\r\n\r\n  \t{OTHER}  \r\n"), 2, &[]);
}

#[test]
fn a_bad_line_is_named_and_the_rest_is_read() {
    check(
        format!("{GOOD}\nhello\n{OTHER}\n"),
        2,
        &["line 2: … copy the file again"],
    );
    check(format!("\n[1]\n{GOOD}\n7\n"), 1, &["line 2: ", "line 4: "]);
    let cut = &OTHER[..OTHER.len() - 9];
    check(
        format!("{GOOD}\n{cut}"),
        1,
        &["line 2: … cut off; copy it again"],
    );
    let mut bytes = format!("{GOOD}\n").into_bytes();
    bytes.extend(b"\xff\xfe{}\n");
    bytes.extend(OTHER.as_bytes());
    check(bytes, 2, &["line 2: … UTF-8"]);
    let long = format!("{GOOD}\n\"{}\"\n{OTHER}", "x".repeat(LONGEST_LINE));
    check(long, 2, &["line 2: … is this file a diary?"]);
    let deep = format!("{GOOD}\n{}\n{OTHER}", "[".repeat(100_000));
    check(deep, 2, &["line 2: "]);
}

#[test]
fn what_is_wrong_in_a_record_is_said() {
    for (from, to, said) in [
        (r#""seq":1"#, r#""seq":-1"#, "no record of a diary"),
        (r#""seq":1"#, r#""seq":1.5"#, "no record of a diary"),
        (r#""seq":1,"#, "", "missing field `seq`"),
        (
            r#""seq":1"#,
            r#""seq":9007199254740992"#,
            "at most 9007199254740991",
        ),
        (r#""seq":1"#, r#""seq":1,"seq":1"#, "'seq' stands twice"),
        (
            r#""body":{}"#,
            r#""body":{"a":1,"a":2}"#,
            "'a' stands twice",
        ),
        (r#","body":{}"#, "", "missing field `body`"),
        ("18:40", "25:40", "there is no such day or hour"),
        ("00Z", "00+01:00", "write it in UTC"),
        (r#""phone""#, r#""""#, "the device has no name"),
        (r#""words""#, r#""""#, "a kind is a word"),
        (r#""v":1"#, r#""v":0"#, "versions count from 1"),
        (
            r#""words""#,
            r#""harp""#,
            "no record of kind 'harp', version 1: missing field",
        ),
        ("{}}", "{}}}", "trailing characters"),
    ] {
        let line = GOOD.replace(from, to);
        assert_ne!(line, GOOD, "{from}");
        check(
            format!("{line}\n{OTHER}"),
            1,
            &[&format!("line 1: … {said}")],
        );
    }
    assert_eq!(
        Record::parse(&GOOD.replace(',', ",\n")),
        Err(ReadError::NotOneLine)
    );
}

#[test]
fn what_is_not_known_yet_is_passed_on_byte_for_byte() {
    let lines = [
        r#"{"device":"phone","seq":1,"at":"2026-11-26T18:40:00Z","kind":"dream","v":1,"body":{"b":1.50,"a":[1E2, 12345678901234567890123]}}"#,
        r#"{"device":"phone","seq":2,"at":"2026-11-26T18:40:00Z","kind":"harp","v":2,"body":"\u00e9 / é"}"#,
        r#"{ "signed":"later", "v":1,"seq":3,"device":"phone","kind":"harp","at":"2026-11-26T18:40:00Z","body":{"harp":"a","toml":"","more":null}}"#,
    ];
    let mut diary = Diary::default();
    let read = diary.import(lines.join("\n").as_bytes());
    assert_eq!((read.merged.taken.len(), read.troubles.len()), (3, 0));
    assert_eq!(diary.export(), lines.join("\n") + "\n");
    assert_eq!(diary.record(&id("phone", 2)).unwrap().entry(), None);
    assert!(diary.record(&id("phone", 3)).unwrap().entry().is_some());
}

proptest! {
    #[test]
    fn no_file_is_too_bad_to_be_read(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        Diary::default().import(&bytes);
    }

    #[test]
    fn a_file_cut_off_anywhere_gives_the_lines_before(cut in 0usize..4000) {
        let mut diary = Diary::default();
        for minute in 0..3 {
            append(&mut diary, "phone", minute, &harp_entry("little"));
        }
        let file = diary.export();
        let cut = cut.min(file.len());
        let mut read = Diary::default();
        let imported = read.import(&file.as_bytes()[..cut]);
        let whole: usize = file.as_bytes()[..cut].iter().filter(|b| **b == b'\n').count();
        let open = !file[..cut].is_empty() && !file[..cut].ends_with('\n');
        // a line that lacks only its end is whole
        let ended = open && file[cut..].starts_with('\n');
        prop_assert_eq!(imported.merged.taken.len(), whole + usize::from(ended));
        prop_assert_eq!(imported.troubles.len(), usize::from(open && !ended));
        for trouble in imported.troubles {
            prop_assert_eq!(trouble.error, ReadError::CutOff);
        }
    }
}
