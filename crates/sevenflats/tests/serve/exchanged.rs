//! The page and this machine's diary give each other what is lacking: after a month apart, in any order, whatever conflicts.

use std::path::Path;

use diary::Record;
use store::Store;
use tempfile::tempdir;

use crate::a_page::{APage, have, post, post_as};
use crate::made_up::{serving, serving_with};
use crate::wire::{ask, get};

/// Every line that the server's file holds, in an order of its own.
fn lines(path: &Path) -> Vec<String> {
    let mut out = Vec::new();
    Store::open(path)
        .unwrap()
        .export(&mut out)
        .unwrap()
        .unwrap();
    let text = String::from_utf8(out).unwrap();
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    lines.sort();
    lines
}

/// A month of two pages that met nobody.
fn a_month() -> [APage; 2] {
    let mut pages = ["phone", "tablet"].map(APage::new);
    for day in 1..=30 {
        for page in &mut pages {
            let text = format!("day {day} of {}", page.device);
            page.note(&format!("2026-11-{day:02}T18:40:00Z"), &text);
        }
    }
    pages
}

#[test]
fn two_pages_and_a_server_become_one_whichever_comes_first() {
    let mut ends = Vec::new();
    for order in [[0, 1, 0], [1, 0, 1]] {
        let folder = tempdir().unwrap();
        let path = folder.path().join("diary.sqlite");
        let port = serving_with(&path);
        let mut pages = a_month();
        let came: Vec<_> = order
            .map(|page| pages[page].exchange(port, None).unwrap())
            .into();
        assert_eq!((came[0].sent, came[0].got), (30, 0));
        assert_eq!((came[1].sent, came[1].got), (30, 30));
        assert_eq!((came[2].sent, came[2].got), (0, 30));
        assert_eq!(pages[0].lines(), pages[1].lines());
        assert_eq!(pages[0].lines(), lines(&path));
        assert_eq!(pages[0].held(), have(port).unwrap());
        // nothing is lacking: nothing goes
        let again = pages[0].exchange(port, None).unwrap();
        assert_eq!((again.sent, again.got, again.requests), (0, 0, 1));
        ends.push(pages[0].lines());
    }
    assert_eq!(ends[0], ends[1]);
    assert_eq!(ends[0].len(), 60);
}

#[test]
fn a_long_diary_goes_in_pieces() {
    let folder = tempdir().unwrap();
    let port = serving_with(&folder.path().join("diary.sqlite"));
    let mut phone = APage::new("phone");
    let long = "x".repeat(100_000);
    for day in 1..=30 {
        phone.note(&format!("2026-11-{day:02}T18:40:00Z"), &long);
    }
    let there = phone.exchange(port, None).unwrap();
    assert_eq!(there.sent, 30);
    let mut tablet = APage::new("tablet");
    let back = tablet.exchange(port, None).unwrap();
    assert_eq!(back.got, 30);
    assert!(
        there.requests > 10 && back.requests >= 3,
        "{there:?} {back:?}"
    );
    assert_eq!(tablet.lines(), phone.lines());
}

#[test]
fn two_records_in_one_place_are_both_kept_on_both_sides_and_named() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("diary.sqlite");
    let port = serving_with(&path);
    // one browser's data, copied, and both copies went on
    let (mut one, mut other) = (APage::new("phone"), APage::new("phone"));
    for page in [&mut one, &mut other] {
        page.note("2026-11-26T18:40:00Z", "the same");
    }
    one.note("2026-11-26T18:41:00Z", "of one");
    other.note("2026-11-26T18:42:00Z", "of the other");
    one.exchange(port, None).unwrap();
    let came = other.exchange(port, None).unwrap();
    assert_eq!(came.apart, ["phone 2"]);
    let third = one.exchange(port, None).unwrap();
    assert_eq!(third.apart, Vec::<String>::new(), "the server knows both");
    assert_eq!(one.lines(), other.lines());
    assert_eq!(one.lines(), lines(&path));
    assert_eq!(one.lines().len(), 3);
    let stays: Vec<&str> = one.diary.records().map(Record::line).collect();
    assert!(stays[1].contains("of one"), "the earlier is used");
    let again = other.exchange(port, None).unwrap();
    assert_eq!((again.requests, again.apart.len()), (1, 0));
}

#[test]
fn a_newer_versions_record_is_passed_on_byte_for_byte() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("diary.sqlite");
    let port = serving_with(&path);
    let newer = r#"{"body":{"a":1.50},"device":"tablet","seq":1,  "at":"2026-11-26T18:40:00Z","kind":"air","v":9}"#;
    let mut tablet = APage::new("tablet");
    tablet.diary.merge([Record::parse(newer).unwrap()]);
    assert_eq!(tablet.exchange(port, None).unwrap().sent, 1);
    let mut phone = APage::new("phone");
    phone.exchange(port, None).unwrap();
    assert_eq!(phone.lines(), [newer]);
    assert_eq!(lines(&path), [newer]);
}

#[test]
fn a_line_that_is_no_record_is_named_and_the_others_are_taken() {
    let folder = tempdir().unwrap();
    let port = serving_with(&folder.path().join("diary.sqlite"));
    let note = |seq: u64| {
        format!(
            r#"{{"device":"phone","seq":{seq},"at":"2026-11-26T18:40:00Z","kind":"note","v":1,"body":{{"harp":null,"string":null,"text":"a"}}}}"#
        )
    };
    let head = r#"{"kind":"exchange","device":"phone","held":[{"device":"phone","places":[[1,3]]}],"clock":null}"#;
    let sent = format!("{head}\n{}\nno record\n{}\n", note(1), note(3));
    let answer = post(port, &sent).unwrap();
    let said: serde_json::Value = serde_json::from_str(answer.body.trim()).unwrap();
    assert_eq!(said["taken"], 2);
    assert_eq!(said["bad"][0]["line"], 2);
    assert!(
        said["bad"][0]["why"]
            .as_str()
            .unwrap()
            .contains("no record"),
        "{said}"
    );
    for head in [
        "",
        "no head",
        "{}",
        r#"{"kind":"exchange","device":"","held":[],"clock":null}"#,
    ] {
        let answer = post(port, head).unwrap();
        assert_eq!(answer.status, 400, "{head}: {answer:?}");
        assert!(answer.body.contains("not_understood"), "{answer:?}");
    }
}

#[test]
fn how_the_pages_clock_stands_is_written_once_and_not_at_each_opening() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("diary.sqlite");
    let port = serving_with(&path);
    let met = || {
        lines(&path)
            .iter()
            .filter(|line| line.contains(r#""kind":"met""#))
            .count()
    };
    let mut phone = APage::new("phone");
    phone.exchange(port, Some(90.0)).unwrap();
    assert_eq!(
        met(),
        0,
        "a page that wrote nothing has nothing to put in order"
    );
    phone.note("2026-11-26T18:40:00Z", "one");
    phone.exchange(port, Some(90.0)).unwrap();
    assert_eq!(met(), 1);
    phone.exchange(port, Some(95.0)).unwrap();
    assert_eq!(met(), 1, "no new record of the page");
    phone.note("2026-11-26T18:41:00Z", "two");
    phone.exchange(port, Some(91.0)).unwrap();
    assert_eq!(met(), 1, "a second more");
    phone.note("2026-11-26T18:42:00Z", "three");
    phone.exchange(port, Some(93.0)).unwrap();
    assert_eq!(met(), 2, "three seconds more");
    assert!(
        lines(&path)
            .iter()
            .any(|line| line.contains(r#""seq":3,"ahead_s":-93"#)),
        "{:?}",
        lines(&path)
    );
    // what was written of it comes to the page, too
    assert_eq!(phone.lines(), lines(&path));
}

/// Whoever the browser says is asking, and in whatever form: nothing is taken in.
#[test]
fn another_pages_records_are_not_taken() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("diary.sqlite");
    let port = serving_with(&path);
    let (ours, lines) = (
        format!("Origin: http://localhost:{port}"),
        "Content-Type: application/x-ndjson",
    );
    let body = "{\"kind\":\"exchange\",\"device\":\"phone\",\"held\":[],\"clock\":null}\n";
    for (said, status) in [
        (vec!["Origin: http://elsewhere.example", lines], 403),
        (vec!["Origin: null", lines], 403),
        (vec![lines], 403),
        (
            vec![ours.as_str(), lines, "Sec-Fetch-Site: cross-site"],
            403,
        ),
        (vec![ours.as_str(), lines, "Sec-Fetch-Site: same-site"], 403),
        (vec![ours.as_str(), "Content-Type: text/plain"], 415),
        (vec![ours.as_str(), lines], 200),
    ] {
        assert_eq!(
            post_as(port, &said, body).unwrap().status,
            status,
            "{said:?}"
        );
    }
    assert_eq!(
        get(port, "/diary/have", &["Sec-Fetch-Site: cross-site"]).status,
        403
    );
    let other = ask(port, "DELETE", "/diary/exchange", &[]);
    assert_eq!((other.status, other.header("allow")), (405, Some("POST")));
    let have = get(port, "/diary/have", &[]);
    assert_eq!(have.header("cache-control"), Some("no-store"));
    assert_eq!(have.header("content-type"), Some("application/x-ndjson"));
    assert!(have.header("access-control-allow-origin").is_none());
}

#[test]
fn a_request_that_is_too_long_is_refused_in_words() {
    let folder = tempdir().unwrap();
    let port = serving_with(&folder.path().join("diary.sqlite"));
    let long = "x".repeat(sevenflats::serve::exchange::LONGEST + 1);
    let answer = post(port, &long).unwrap();
    assert_eq!(answer.status, 413);
    assert!(
        answer.body.contains("too_long") && answer.body.contains("send fewer records at once"),
        "{}",
        answer.body
    );
}

#[test]
fn without_a_diary_nothing_is_asked_for_and_nothing_taken() {
    let port = serving();
    assert_eq!(get(port, "/diary/have", &[]).status, 204);
    assert_eq!(post(port, "{}\n").unwrap().status, 204);
}

#[test]
fn a_file_that_is_no_diary_is_named_and_left_as_it_is() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("diary.sqlite");
    std::fs::write(&path, "a letter, and no diary").unwrap();
    let port = serving_with(&path);
    let mut phone = APage::new("phone");
    phone.note("2026-11-26T18:40:00Z", "kept");
    let trouble = phone.exchange(port, None).unwrap_err();
    assert_eq!(trouble["trouble"], "no_diary", "{trouble}");
    assert_eq!(std::fs::read(&path).unwrap(), b"a letter, and no diary");
    // put right while the server runs
    std::fs::remove_file(&path).unwrap();
    assert_eq!(phone.exchange(port, None).unwrap().sent, 1);
}

#[test]
fn a_diary_that_another_writes_is_waited_for_and_a_backup_in_its_place_is_seen() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("diary.sqlite");
    let port = serving_with(&path);
    let mut phone = APage::new("phone");
    phone.note("2026-11-26T18:40:00Z", "one");
    phone.exchange(port, None).unwrap();
    let backup = folder.path().join("backup.sqlite");
    Store::open(&path).unwrap().backup(&backup).unwrap();
    phone.note("2026-11-26T18:41:00Z", "two");
    phone.exchange(port, None).unwrap();
    store::restore(&backup, &path, &"2026-11-26T19:00:00Z".parse().unwrap()).unwrap();
    // the backup lacks the second note, and is given it
    assert_eq!(phone.exchange(port, None).unwrap().sent, 1);
    assert_eq!(lines(&path).len(), 2);
}
