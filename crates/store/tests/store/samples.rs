//! Records and files to try with.

use std::path::PathBuf;

use diary::{At, Device, Entry, Note, Record, RecordId};
use store::Store;

pub(crate) struct Folder(tempfile::TempDir);

impl Folder {
    pub(crate) fn new() -> Folder {
        Folder(tempfile::tempdir().unwrap())
    }

    pub(crate) fn file(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub(crate) fn open(&self, name: &str) -> Store {
        Store::open(&self.file(name)).unwrap()
    }

    /// The names of all that lies here, in order.
    pub(crate) fn names(&self) -> Vec<String> {
        let files = std::fs::read_dir(self.0.path()).unwrap();
        let names = files.map(|file| file.unwrap().file_name().into_string().unwrap());
        let mut names: Vec<String> = names.collect();
        names.sort();
        names
    }
}

pub(crate) fn at(text: &str) -> At {
    text.parse().unwrap()
}

pub(crate) fn now() -> At {
    at("2026-11-26T20:00:00Z")
}

pub(crate) fn note(text: &str) -> Entry {
    Entry::Note(Note {
        harp: None,
        string: None,
        text: text.to_owned(),
    })
}

pub(crate) fn id(device: &str, seq: u64) -> RecordId {
    let device: Device = device.parse().unwrap();
    RecordId { device, seq }
}

pub(crate) fn record(device: &str, seq: u64, minute: u64, words: &str) -> Record {
    let line = format!(
        r#"{{"device":"{device}","seq":{seq},"at":"2026-11-26T18:{minute:02}:00Z","kind":"words","v":1,"body":"{words}"}}"#
    );
    Record::parse(&line).unwrap()
}
