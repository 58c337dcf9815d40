//! The recorded strings that `./dev test` fetches, and what one careful analysis made of them
//! (`reference/concert-harp-recordings`).

use std::path::{Path, PathBuf};

use sevenflats::sound::Sound;

/// The analysis, one string a row.
const TABLE: &str = include_str!("../../../../reference/concert-harp-recordings/data.csv");
/// Strings in each package.
const STRINGS: usize = 23;

/// One string of the table. Frequencies in hertz.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    /// The sample's name: the pitch it is meant for.
    pub(crate) label: String,
    /// Partial 1, or f1 of the stiff-string fit.
    pub(crate) hz: f64,
    /// Whether `hz` is of partial 1 itself.
    pub(crate) of_partial_1: bool,
    /// The analysis' cents from the label at A = 440.
    pub(crate) cents: f64,
    /// Inharmonicity, where it could be had.
    pub(crate) b: Option<f64>,
    /// Seconds until the string is 30 dB down.
    pub(crate) s_to_minus_30_db: f64,
    /// A, B or C: how far the row may be trusted.
    pub(crate) grade: char,
}

/// The whole table, from the bass up.
pub(crate) fn table() -> Vec<Row> {
    let mut lines = TABLE.lines();
    let names: Vec<&str> = lines.next().unwrap().split(',').collect();
    let at = |name: &str| names.iter().position(|n| *n == name).unwrap();
    let rows: Vec<Row> = lines
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            Row {
                label: cells[at("label")].to_owned(),
                hz: cells[at("hz")].parse().unwrap(),
                of_partial_1: cells[at("cents_are_of")] == "partial 1",
                cents: cells[at("cents")].parse().unwrap(),
                b: cells[at("b")].parse().ok(),
                s_to_minus_30_db: cells[at("s_to_minus_30_db")].parse().unwrap(),
                grade: cells[at("grade")].chars().next().unwrap(),
            }
        })
        .collect();
    assert_eq!(rows.len(), STRINGS, "strings in the table");
    rows
}

/// The folder of a package of recordings. That it is there is checked where its files are read.
pub(crate) fn folder(package: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../target/recordings")
        .join(package)
}

/// The file of one string in a package, `harp-wav` or `harp-mp3`.
pub(crate) fn file(package: &str, label: &str) -> PathBuf {
    let extension = package.rsplit('-').next().unwrap();
    let path = folder(package).join(format!("{label}.{extension}"));
    assert!(
        path.is_file(),
        "{} is missing: run ./dev test, which fetches it",
        path.display()
    );
    path
}

/// The first `seconds` of a sound file, and its samples a second.
pub(crate) fn samples(path: &Path, seconds: f64) -> (Vec<f32>, u32) {
    let mut sound = Sound::open(path).unwrap();
    let rate_hz = sound.rate_hz();
    let most = (seconds * f64::from(rate_hz)) as usize;
    let mut samples = Vec::new();
    while let Some(block) = sound.next_block().unwrap() {
        samples.extend_from_slice(block);
        if samples.len() >= most {
            samples.truncate(most);
            break;
        }
    }
    (samples, rate_hz)
}
