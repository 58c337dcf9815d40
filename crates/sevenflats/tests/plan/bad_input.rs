//! Whatever comes in: a clear word and what to do, or what could be read and what was doubtful; with
//! the exit code that `sevenflats --help` tells, within ten seconds of work and half a gigabyte.

use std::fs::{self, File};
use std::path::Path;
use std::process::Command;

use miniz_oxide::deflate::compress_to_vec;
use tempfile::{TempDir, tempdir};

use crate::asked::scores;
use crate::command::{Run, run};

const DONE: i32 = 0;
const NOT_READ: i32 = 1;
const NOT_UNDERSTOOD: i32 = 2;
/// Kilobytes that a plan may ask for.
const ROOM_KB: u32 = 512 * 1024;

const HEAD: &str = "<score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>Harp</part-name></score-part></part-list><part id=\"P1\">";
const TAIL: &str = "</part></score-partwise>";
const LENGTHS: &str = "<attributes><divisions>4</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";

fn note(letter: &str, duration: u32) -> String {
    format!(
        "<note><pitch><step>{letter}</step><octave>4</octave></pitch><duration>{duration}</duration></note>"
    )
}

fn bars(bars: &[String]) -> String {
    let bars = bars.iter().zip(1..);
    let bars = bars.map(|(bar, number)| format!("<measure number=\"{number}\">{bar}</measure>"));
    format!("{HEAD}{}{TAIL}", bars.collect::<String>())
}

/// A bar that is played so many times.
fn again(letter: &str, times: u32) -> String {
    format!(
        "<barline location=\"left\"><repeat direction=\"forward\"/></barline>{LENGTHS}{}<barline location=\"right\"><repeat direction=\"backward\" times=\"{times}\"/></barline>",
        note(letter, 16)
    )
}

fn with(name: &str, bytes: &[u8]) -> TempDir {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join(name), bytes).unwrap();
    folder
}

#[track_caller]
fn says(run: &Run, code: i32, expected: &[&str]) {
    let said = format!("{}\n{}", run.err, run.out);
    assert_eq!(run.code, Some(code), "{said}");
    for words in expected {
        assert!(said.contains(words), "no '{words}' in {said}");
    }
}

#[track_caller]
fn check(name: &str, bytes: &[u8], code: i32, expected: &[&str]) {
    let folder = with(name, bytes);
    says(
        &run(folder.path(), &["plan", name, "--json"], &[]),
        code,
        expected,
    );
}

/// The same where room and work are limited, so that a plan that takes more dies.
#[track_caller]
fn check_limited(folder: &Path, name: &str, code: i32, expected: &[&str]) {
    check_marked(folder, name, &[], code, expected);
}

#[track_caller]
fn check_marked(folder: &Path, name: &str, more: &[&str], code: i32, expected: &[&str]) {
    let limits = format!("ulimit -v {ROOM_KB} && ulimit -t 10");
    let script = format!("{limits} && exec \"$0\" plan \"$@\" --json");
    let output = Command::new("sh")
        .args(["-c", &script, env!("CARGO_BIN_EXE_sevenflats"), name])
        .args(more)
        .current_dir(folder)
        .output()
        .unwrap();
    let run = Run {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    };
    says(&run, code, expected);
}

#[test]
fn what_is_no_score_is_said_with_what_would_be_one() {
    check(
        "empty.musicxml",
        b"",
        NOT_READ,
        &["empty.musicxml: the score is empty"],
    );
    let text = b"not a score at all. ".repeat(400);
    check(
        "notes.txt",
        &text,
        NOT_READ,
        &["notes.txt", "MusicXML (.musicxml, .xml, .mxl) nor MIDI"],
    );
    check(
        "page.xml",
        b"<?xml version='1.0'?><html/>",
        NOT_READ,
        &["no MusicXML score"],
    );
    check("bare.xml", b"<score-partwise/>", NOT_READ, &["no measure"]);
    check(
        "cut.mid",
        b"MThd\0\0\0\x06\0\x01\0\x01\0\x60MTrk\0\0\0\x20\0\x90",
        NOT_READ,
        &["cut.mid"],
    );
    check(
        "cut.mxl",
        b"PK\x03\x04\x14\0\0\0",
        NOT_READ,
        &["cut.mxl", "damaged"],
    );
}

#[test]
fn a_file_that_is_not_there_or_is_a_folder_is_named() {
    let folder = tempdir().unwrap();
    fs::create_dir(folder.path().join("scores")).unwrap();
    for name in ["nowhere.mxl", "scores"] {
        let run = run(folder.path(), &["plan", name], &[]);
        says(&run, NOT_READ, &[name, "cannot be read", "check its name"]);
    }
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read_is_named() {
    use std::os::unix::fs::PermissionsExt;
    let folder = with("locked.musicxml", bars(&[note("C", 16)]).as_bytes());
    let path = folder.path().join("locked.musicxml");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o000)).unwrap();
    let run = run(folder.path(), &["plan", "locked.musicxml"], &[]);
    // who may do everything reads it all the same
    if File::open(&path).is_ok() {
        says(&run, DONE, &["Before the piece"]);
    } else {
        says(&run, NOT_READ, &["locked.musicxml", "that you may read it"]);
    }
}

#[test]
fn a_score_cut_anywhere_is_planned_as_far_as_it_goes_or_refused_in_words() {
    let whole = fs::read(scores().join("contract.musicxml")).unwrap();
    let (mut planned, mut refused) = (0, 0);
    for part in 0..40 {
        let end = whole.len() * part / 40;
        let folder = with("cut.musicxml", &whole[..end]);
        let run = run(folder.path(), &["plan", "cut.musicxml", "--json"], &[]);
        match run.code {
            Some(DONE) => {
                says(&run, DONE, &["\"diagnostics\":[{", "breaks off"]);
                planned += 1;
            }
            _ => {
                says(&run, NOT_READ, &["cut.musicxml"]);
                refused += 1;
            }
        }
    }
    assert!(
        planned > 10 && refused > 5,
        "{planned} planned, {refused} refused"
    );
}

#[test]
fn one_bad_bar_costs_that_bar_only() {
    let text = bars(&[
        format!("{LENGTHS}{}", note("C", 16)),
        "<note><pitch></note>".to_owned(),
        note("D", 16),
    ]);
    check(
        "bad.musicxml",
        text.as_bytes(),
        DONE,
        &["bar 2", "\"measure\":3"],
    );
}

#[test]
fn more_than_200_million_bytes_are_refused_unread() {
    let folder = tempdir().unwrap();
    let file = File::create(folder.path().join("huge.musicxml")).unwrap();
    file.set_len(200_000_001).unwrap();
    let expected = ["huge.musicxml", "more than 200000000 bytes"];
    check_limited(folder.path(), "huge.musicxml", NOT_READ, &expected);
    file.set_len(199_000_000).unwrap();
    check_limited(
        folder.path(),
        "huge.musicxml",
        NOT_READ,
        &["no score that can be read"],
    );
}

// As many notes as are read at all, and the rest words: the file and its plan must not stand in memory together.
#[test]
fn a_score_just_small_enough_is_marked_in_the_same_room() {
    let full = format!("{LENGTHS}{}", note("C", 4).repeat(4));
    let words = format!("<!--{}-->", "-x".repeat(2_000_000));
    let mut written = vec![full; 130_000];
    written.resize(130_000 + 33, words);
    let folder = with("large.musicxml", bars(&written).as_bytes());
    let out = ["--score-out", "out.musicxml"];
    let moves = ["\"moves\":0"];
    check_marked(folder.path(), "large.musicxml", &out, DONE, &moves);
    let marked = fs::metadata(folder.path().join("out.musicxml")).unwrap();
    assert!(
        (190_000_000..200_100_000).contains(&marked.len()),
        "{}",
        marked.len()
    );
}

// PKWARE's APPNOTE: a local header, the directory, its end. Checksums are not looked at before sizes
// and paths are.
fn archive(name: &str, content: &[u8], claims: u32) -> Vec<u8> {
    let packed = compress_to_vec(content, 6);
    let length = |bytes: &[u8]| u32::try_from(bytes.len()).unwrap().to_le_bytes();
    let mut fields = vec![20, 0, 0, 0, 8, 0, 0, 0, 0, 0, 0, 0, 0, 0];
    fields.extend(length(&packed));
    fields.extend(claims.to_le_bytes());
    fields.extend(u16::try_from(name.len()).unwrap().to_le_bytes());
    fields.extend([0, 0]);
    let local = [b"PK\x03\x04", &fields[..], name.as_bytes(), &packed].concat();
    let directory = [b"PK\x01\x02\x14\0", &fields[..], &[0; 14], name.as_bytes()].concat();
    let (begin, size) = (length(&local), length(&directory));
    let end = [
        &b"PK\x05\x06\0\0\0\0\x01\0\x01\0"[..],
        &size,
        &begin,
        &[0, 0],
    ]
    .concat();
    [local, directory, end].concat()
}

#[test]
fn a_zip_bomb_is_refused_whether_or_not_it_lies() {
    let zeros = vec![0; 50_000_000];
    for (claims, words) in [
        (400_000_000, "more than 200000000 bytes"),
        (1_000, "damaged"),
    ] {
        let folder = with("bomb.mxl", &archive("s.xml", &zeros, claims));
        check_limited(folder.path(), "bomb.mxl", NOT_READ, &["bomb.mxl", words]);
    }
}

#[test]
fn a_path_that_climbs_out_of_an_archive_is_refused() {
    let container =
        b"<container><rootfiles><rootfile full-path=\"../../score.xml\"/></rootfiles></container>";
    let name = "META-INF/container.xml";
    let mut bytes = archive(name, container, u32::try_from(container.len()).unwrap());
    // CRC-32 (ISO 3309), which is looked at before a path is
    let sum = !container.iter().fold(!0_u32, |sum, &byte| {
        (0..8).fold(sum ^ u32::from(byte), |sum, _| {
            (sum >> 1) ^ (0xEDB8_8320 & (sum & 1).wrapping_neg())
        })
    });
    let directory = bytes
        .windows(4)
        .position(|four| four == b"PK\x01\x02")
        .unwrap();
    bytes[14..18].copy_from_slice(&sum.to_le_bytes());
    bytes[directory + 16..directory + 20].copy_from_slice(&sum.to_le_bytes());
    check(
        "out.mxl",
        &bytes,
        NOT_READ,
        &["out.mxl", "'../../score.xml', which is not inside it"],
    );
}

#[test]
fn an_entity_bomb_never_goes_off() {
    let mut entities = String::from("<!ENTITY a0 'ha'>");
    for (last, step) in (0..40).zip(1..) {
        entities += &format!("<!ENTITY a{step} '&a{last};&a{last};'>");
    }
    let score = bars(&[
        format!("{LENGTHS}<x>&a40;</x>{}", note("C", 16)),
        note("D", 16),
    ]);
    let text = format!("<!DOCTYPE score-partwise [{entities}]>{score}");
    let folder = with("ha.musicxml", text.as_bytes());
    let expected = [
        "abbreviations of its own",
        "bar 1: part Harp: this bar cannot be read",
    ];
    check_limited(folder.path(), "ha.musicxml", DONE, &expected);
}

#[test]
fn a_million_notes_in_a_bar_cost_that_bar_only() {
    let text = bars(&[
        format!("{LENGTHS}{}", note("C", 1).repeat(1_000_000)),
        note("D", 16),
    ]);
    let folder = with("many.musicxml", text.as_bytes());
    let expected = ["bar 1: part Harp: this bar cannot be read", "\"measure\":2"];
    check_limited(folder.path(), "many.musicxml", DONE, &expected);
}

#[test]
fn repeats_that_explode_are_planned_as_written() {
    let text = bars(&vec![again("C", 1000); 200]);
    let folder = with("again.musicxml", text.as_bytes());
    let expected = [
        "repeats and jumps make more than 50000 bars",
        "\"measure\":200",
    ];
    check_limited(folder.path(), "again.musicxml", DONE, &expected);
}

// Each of 100 bars 200 times makes 20,000 bars and, with a place for a foot on every beat, 80,000
// places: too many.
#[test]
fn what_is_too_long_with_its_repeats_is_planned_without_them_and_it_is_said() {
    let text = bars(&vec![again("C", 200); 100]);
    let folder = with("long.musicxml", text.as_bytes());
    let expected = [
        "with its repeats the piece is too long",
        "planned without them",
    ];
    check_limited(folder.path(), "long.musicxml", DONE, &expected);
}

// 30,000 bars of one note: planned until a bar that is named.
#[test]
fn what_is_too_long_as_it_is_written_is_planned_as_far_as_it_goes() {
    let text = bars(&vec![format!("{LENGTHS}{}", note("C", 16)); 30_000]);
    let folder = with("endless.musicxml", text.as_bytes());
    let expected = [
        "too long to be planned whole: planned until bar ",
        "\"moves\":0",
    ];
    check_limited(folder.path(), "endless.musicxml", DONE, &expected);
}

#[test]
fn a_part_that_is_not_there_is_answered_with_those_that_are() {
    let run = run(
        &scores(),
        &["plan", "repeat.musicxml", "--part", "Celesta"],
        &[],
    );
    says(&run, NOT_READ, &["no part is called 'Celesta'", "1 Harp"]);
}

#[test]
fn prices_that_cannot_be_used_are_said_with_what_to_do() {
    for (text, expected) in [
        ("moved = -1\n", "'moved' must be a whole number from 0"),
        ("sprung = 1\n", "no price called 'sprung'"),
        ("moved = [", "line 1"),
    ] {
        let folder = with("mine.toml", text.as_bytes());
        let score = scores().join("repeat.musicxml");
        let words = ["plan", score.to_str().unwrap(), "--weights", "mine.toml"];
        let answer = run(folder.path(), &words, &[]);
        says(&answer, NOT_UNDERSTOOD, &["--weights mine.toml", expected]);
    }
    let answer = run(
        &scores(),
        &["plan", "repeat.musicxml", "--weights", "none.toml"],
        &[],
    );
    says(
        &answer,
        NOT_UNDERSTOOD,
        &["--weights none.toml", "check the name"],
    );
}

#[test]
fn what_this_harp_does_not_have_is_said_before_the_score_is_read() {
    let check = |words: &[&str], expected: &[&str]| {
        let words = [&["plan", "nowhere.mxl"], words].concat();
        says(&run(&scores(), &words, &[]), NOT_UNDERSTOOD, expected);
    };
    check(&["--missing", "A7"], &["A7", "C1", "G7"]);
    check(&["--open", "Eb"], &["--open", "lever harps"]);
    check(
        &["--harp", "lever34", "--stuck", "F=sharp"],
        &["pedal harps"],
    );
    check(&["--harp", "semitones"], &["neither pedals nor levers"]);
}

#[test]
fn a_place_that_the_score_does_not_have_is_said_with_how_to_count() {
    let words = ["plan", "repeat.musicxml", "--pin", "99:1:F=sharp"];
    says(
        &run(&scores(), &words, &[]),
        NOT_UNDERSTOOD,
        &["--pin 99:1", "counted from 1"],
    );
}
