//! Killed while it writes: what was called written is there, and the file is whole.
//!
//! The test starts itself again as the writer, and kills it (SIGKILL, or what the system has for it). Ten times; with
//! `SEVENFLATS_LONG` two hundred.

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use store::Store;

use crate::samples::{Folder, note, now};

/// Where the writer writes: said to the test that is started again.
const FILE: &str = "STORE_TEST_FILE";

/// How often each diary is killed: one that grows all the time takes longer and longer to look through.
const EACH: u64 = 10;

/// Not a test of its own: what is killed. Without a file it has nothing to do.
#[test]
fn the_writer_that_is_killed() {
    let Ok(path) = std::env::var(FILE) else {
        return;
    };
    let mut store = Store::open(Path::new(&path)).unwrap();
    let mut out = std::io::stdout();
    let large = "x".repeat(20_000);
    loop {
        let notes = [note("small"), note(&large), note("small")];
        let written = store.append(&now(), &notes).unwrap();
        writeln!(out, "\nwritten {}", written[2].seq).unwrap();
        out.flush().unwrap();
    }
}

/// Lets a writer go on for a while and kills it; the last place that it called written.
fn killed_after(path: &Path, wait: Duration) -> u64 {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args([
            "killed::the_writer_that_is_killed",
            "--exact",
            "--nocapture",
        ])
        .env(FILE, path)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let out = BufReader::new(child.stdout.take().unwrap());
    let mut lines = out.lines().map_while(Result::ok);
    let number = |line: &String| line.strip_prefix("written ")?.parse::<u64>().ok();
    // it writes by now
    let mut last = lines.find_map(|line| number(&line)).unwrap_or(0);
    std::thread::sleep(wait);
    child.kill().unwrap();
    child.wait().unwrap();
    last = lines
        .filter_map(|line| number(&line))
        .last()
        .unwrap_or(last);
    last
}

#[test]
fn what_was_called_written_is_there_however_often_the_writer_is_killed() {
    let times = if std::env::var("SEVENFLATS_LONG").is_ok() {
        200
    } else {
        10
    };
    let folder = Folder::new();
    let (mut path, mut before) = (folder.file("diary.sqlite"), 0);
    for time in 0..times {
        if time % EACH == 0 {
            path = folder.file(&format!("diary-{time}.sqlite"));
            before = 0;
        }
        // not always at the same point of a transaction
        let last = killed_after(&path, Duration::from_micros(137 * (time % 29)));
        assert!(last > before, "it wrote nothing");
        let store = Store::open(&path).unwrap();
        let count = store.diary().unwrap().records().count() as u64;
        assert!(count >= last, "{last} called written, {count} there");
        assert_eq!(count % 3, 0, "a transaction was written by halves");
        let looked = store.check(&now()).unwrap();
        assert!(looked.is_whole(), "{looked:?}");
        before = count;
    }
}
