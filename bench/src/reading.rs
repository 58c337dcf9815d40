//! How long it takes to read a score: ours, and music21 beside it on the same files.

use std::fs;
use std::hint::black_box;
use std::path::Path;

use score::{Options, read};

use crate::cpu_clock::CpuClock;
use crate::made_score::made_score;
use crate::speed::{Load, RUNS, load};
use crate::trouble::Trouble;

/// The scores: name, written bars, whether with repeats.
const SCORES: [(&str, usize, bool); 2] = [
    ("300 bars", 300, false),
    ("1000 bars with repeats", 1000, true),
];

/// One score as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Which score.
    pub name: &'static str,
    /// Bytes of its file.
    pub bytes: usize,
    /// Note heads in it.
    pub notes: usize,
    /// Bars as played.
    pub played: usize,
    /// Seconds on the processor.
    pub ours_s: Load,
    /// The other's seconds on the processor.
    pub other: Other,
}

/// What the other reader took.
#[derive(Clone, Debug, PartialEq)]
pub enum Other {
    /// Its seconds, and its version and settings.
    Ran(Load, String),
    /// Why it was not run.
    NotRun(String),
}

impl Reading {
    /// How many times as fast as the other we are; middle runs.
    pub fn times(&self) -> Option<f64> {
        match &self.other {
            Other::Ran(other_s, _) => Some(other_s.median / self.ours_s.median),
            Other::NotRun(_) => None,
        }
    }
}

/// Writes the scores for others into a folder.
///
/// # Errors
/// What the disk refuses.
pub fn write(folder: &Path) -> Result<(), Trouble> {
    fs::create_dir_all(folder).map_err(Trouble::at(folder))?;
    for (name, bars, repeats) in SCORES {
        let path = folder.join(file(name));
        fs::write(&path, made_score(bars, repeats)).map_err(Trouble::at(&path))?;
    }
    Ok(())
}

/// Times our reader on every score; `table` is what `reading.py` wrote, where it was run.
///
/// # Errors
/// A score that is not read; a table that is not understood.
pub fn measure(table: &Path) -> Result<Vec<Reading>, Trouble> {
    let others = others(table)?;
    let mut readings = Vec::new();
    for (name, bars, repeats) in SCORES {
        let text = made_score(bars, repeats);
        let mut seconds = Vec::new();
        let (mut notes, mut played) = (0, 0);
        for _ in 0..RUNS {
            let clock = CpuClock::start();
            let piece = black_box(read(text.as_bytes(), &Options::default())?);
            seconds.push(clock.seconds());
            (notes, played) = (piece.notes.len(), piece.order.len());
        }
        let other = others
            .iter()
            .find(|(file_name, ..)| *file_name == file(name));
        readings.push(Reading {
            name,
            bytes: text.len(),
            notes,
            played,
            ours_s: load(&seconds),
            other: match other {
                Some((_, about, heads, times)) if !times.is_empty() && *heads == notes => {
                    Other::Ran(load(times), about.clone())
                }
                Some((_, about, _, times)) if times.is_empty() => Other::NotRun(about.clone()),
                Some((_, _, heads, _)) => {
                    Other::NotRun(format!("it reads {heads} notes where we read {notes}"))
                }
                None => Other::NotRun("it was left out".to_owned()),
            },
        });
    }
    Ok(readings)
}

fn file(name: &str) -> String {
    format!("{}.musicxml", name.replace(' ', "-"))
}

/// File, about, note heads, seconds of each run (none where it was not run).
type Row = (String, String, usize, Vec<f64>);

fn others(table: &Path) -> Result<Vec<Row>, Trouble> {
    let text = match fs::read_to_string(table) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(Trouble::at(table)(error)),
    };
    let rows = text.lines().enumerate().map(|(place, line)| {
        row(line).ok_or_else(|| Trouble::Line {
            path: table.to_owned(),
            line: place + 1,
            text: line.to_owned(),
        })
    });
    rows.collect()
}

fn row(line: &str) -> Option<Row> {
    let mut fields = line.split('\t');
    let (file, about, heads) = (fields.next()?, fields.next()?, fields.next()?);
    let times: Option<Vec<f64>> = fields.map(|field| field.parse().ok()).collect();
    Some((
        file.to_owned(),
        about.to_owned(),
        heads.parse().ok()?,
        times?,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_of_the_others_table_is_read() {
        let read = row("a.musicxml\tmusic21 1, BSD\t12\t0.5\t0.25");
        assert_eq!(
            read,
            Some((
                "a.musicxml".to_owned(),
                "music21 1, BSD".to_owned(),
                12,
                vec![0.5, 0.25]
            ))
        );
        assert_eq!(
            row("a.musicxml\tnot run: no such module\t0").map(|row| row.3),
            Some(Vec::new())
        );
        assert_eq!(row("a.musicxml\tx"), None);
    }

    #[test]
    fn without_a_table_we_are_timed_alone() {
        let readings = measure(Path::new("no/such/table")).unwrap();
        assert_eq!(readings.len(), SCORES.len());
        assert!(
            readings
                .iter()
                .all(|r| r.times().is_none() && r.ours_s.median < 5.0 && r.notes > 3000)
        );
    }
}
