//! An hour of sound takes no more memory than a second of it. By default a fixed sample is heard, five
//! minutes; with `SEVENFLATS_LONG`, the whole hour.
#![cfg(target_os = "linux")]
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "makes a file, runs the command and watches it"
)]

#[path = "support/wav.rs"]
mod wav;

use std::fs::File;
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use serde_json::Value;
use tempfile::tempdir;

const RATE_HZ: u32 = 48_000;
/// What an hour-long file may take, in bytes.
const MOST_BYTES: u64 = 64 << 20;
/// One pluck in so many seconds; between them the file is silent, and takes no room on the disk.
const EVERY_S: u32 = 20;

#[test]
fn an_hour_of_sound_is_heard_in_little_memory() {
    let minutes = if std::env::var("SEVENFLATS_LONG").is_ok() {
        60
    } else {
        5
    };
    let folder = tempdir().unwrap();
    let path = folder.path().join("long.wav");
    let plucks = write(&path, minutes * 60);
    let (most_bytes, answer) = watch(&path);
    let summary: Value = serde_json::from_str(answer.lines().last().unwrap()).unwrap();
    assert_eq!(summary["readings"], plucks, "{summary}");
    assert!(
        most_bytes > 0,
        "the command was gone before it could be watched"
    );
    assert!(most_bytes <= MOST_BYTES, "{} MB", most_bytes >> 20);
}

/// A WAV file of so many seconds, with string 3A plucked again and again; how often.
fn write(path: &Path, seconds: u32) -> u32 {
    let pluck: Vec<u8> = wav::pluck(415.305, RATE_HZ, 3.0)
        .iter()
        .flat_map(|sample| ((sample * 32_767.0) as i16).to_le_bytes())
        .collect();
    wav::write(path, RATE_HZ, 1, &[]);
    let mut file = File::options().read(true).write(true).open(path).unwrap();
    let mut header = Vec::new();
    file.read_to_end(&mut header).unwrap();
    let sound = seconds * RATE_HZ * 2;
    let length = header.len() as u32;
    header[4..8].copy_from_slice(&(length - 8 + sound).to_le_bytes());
    header[length as usize - 4..].copy_from_slice(&sound.to_le_bytes());
    file.rewind().unwrap();
    file.write_all(&header).unwrap();
    file.set_len(u64::from(length + sound)).unwrap();
    let plucks = seconds / EVERY_S;
    for n in 0..plucks {
        let place = length + n * EVERY_S * RATE_HZ * 2;
        file.seek(SeekFrom::Start(u64::from(place))).unwrap();
        file.write_all(&pluck).unwrap();
    }
    plucks
}

/// Hears the file; the most memory that the command held, in bytes, and its answer.
fn watch(path: &Path) -> (u64, String) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_sevenflats"))
        .args(["hear", "--json"])
        .arg(path)
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut out = child.stdout.take().unwrap();
    let reading = std::thread::spawn(move || {
        let mut answer = String::new();
        out.read_to_string(&mut answer).unwrap();
        answer
    });
    let status = format!("/proc/{}/status", child.id());
    let mut most_bytes = 0;
    while child.try_wait().unwrap().is_none() {
        let words = std::fs::read_to_string(&status).unwrap_or_default();
        most_bytes = most_bytes.max(peak(&words).unwrap_or(0));
        std::thread::sleep(Duration::from_millis(5));
    }
    assert!(child.wait().unwrap().success());
    (most_bytes, reading.join().unwrap())
}

/// The peak that the system kept for a process, in bytes.
fn peak(status: &str) -> Option<u64> {
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace()
        .nth(1)?
        .parse::<u64>()
        .ok()
        .map(|kib| kib * 1024)
}
