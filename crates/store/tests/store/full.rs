//! A disk that is full: nothing is written by halves, and all that was there stays.
//!
//! The disk is made full by the system's own limit on the size of a file (`ulimit -f`, POSIX.1-2017), under which the test
//! starts itself again. Not on systems without a POSIX shell.
#![cfg(unix)]

use std::process::Command;

use store::{Store, StoreError};

use crate::samples::{Folder, note, now};

const FILE: &str = "STORE_TEST_FULL";

/// Not a test of its own: what runs into the limit. Without a file it has nothing to do.
#[test]
fn the_writer_on_a_full_disk() {
    let Ok(path) = std::env::var(FILE) else {
        return;
    };
    let mut store = Store::open(path.as_ref()).unwrap();
    let large = "x".repeat(50_000);
    let mut written = 0;
    let error = loop {
        match store.append(&now(), &[note(&large), note("small")]) {
            Ok(_) => written += 2,
            Err(error) => break error,
        }
        assert!(written < 2_000, "the limit is not felt");
    };
    assert!(matches!(error, StoreError::Full { .. }), "{error}");
    assert!(error.to_string().contains("make room"), "{error}");
    let there = store.diary().unwrap().records().count();
    println!("\nthere {there} written {written}");
    assert_eq!(there, written + 1);
}

#[test]
fn a_full_disk_is_named_and_costs_nothing_that_was_written() {
    let folder = Folder::new();
    let path = folder.file("diary.sqlite");
    let mut store = Store::open(&path).unwrap();
    store.append(&now(), &[note("before")]).unwrap();
    drop(store);
    // without the signal that would end the process, a write fails as on a full disk; 2,000 blocks of 512 bytes
    let output = Command::new("sh")
        .args(["-c", "trap '' XFSZ; ulimit -f 2000; exec \"$0\" \"$@\""])
        .arg(std::env::current_exe().unwrap())
        .args(["full::the_writer_on_a_full_disk", "--exact", "--nocapture"])
        .env(FILE, &path)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(
        output.status.success(),
        "{said}{}",
        String::from_utf8_lossy(&output.stderr)
    );
    assert!(said.contains("there "), "the writer did not run: {said}");
    // room again
    let mut store = Store::open(&path).unwrap();
    let before = store.diary().unwrap().records().count();
    assert!(before > 1);
    assert!(store.check(&now()).unwrap().is_whole());
    store.append(&now(), &[note("after")]).unwrap();
    assert_eq!(store.diary().unwrap().records().count(), before + 1);
}
