//! What is shown while the sound is heard: a table for people, or one JSON object a line.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};

use harp::{Harp, Mechanism, StringName};
use pitch::{Tongue, signed};
use tuning::round::care;
use tuning::{Heard, Reading, Refused};

use crate::json::{FileLine, Line, SummaryLine, WarningLine};
use crate::sentence;
use crate::verdict::Verdict;
use harp::Naming;

/// Whom the answer is for.
#[derive(Clone, Copy, Debug)]
pub enum Reader<'a> {
    /// A program.
    Program,
    /// A person, with her way of naming, and her harp.
    Person(Naming, &'a Harp),
}

/// Writes what is heard, and keeps count for the last line.
pub struct Report<'a> {
    out: &'a mut dyn Write,
    reader: Reader<'a>,
    /// Whether a program is told in each line which file it is about.
    files_told: bool,
    file: Option<String>,
    plucks: usize,
    readings: usize,
    refused: usize,
    strings: BTreeSet<StringName>,
    rows: BTreeMap<StringName, Vec<f64>>,
    verdicts: Vec<Verdict>,
}

impl<'a> Report<'a> {
    /// A report on so many `files`, that nothing stands in yet.
    pub fn new(out: &'a mut dyn Write, reader: Reader<'a>, files: usize) -> Report<'a> {
        Report {
            out,
            reader,
            files_told: files > 1,
            file: None,
            plucks: 0,
            readings: 0,
            refused: 0,
            strings: BTreeSet::new(),
            rows: BTreeMap::new(),
            verdicts: Vec::new(),
        }
    }

    /// Plucks so far: each has one final reading or one refusal.
    pub fn plucks(&self) -> usize {
        self.plucks
    }

    /// Something said before all, to a person only; whether it was.
    pub fn notice(&mut self, words: &str) -> io::Result<bool> {
        match self.reader {
            Reader::Program => Ok(false),
            Reader::Person(..) => writeln!(self.out, "{words}").map(|()| true),
        }
    }

    /// Begins a file.
    pub fn begin(&mut self, name: &str, rate_hz: u32) -> io::Result<()> {
        self.file = self.files_told.then(|| name.to_owned());
        match self.reader {
            Reader::Program => Ok(()),
            Reader::Person(..) => {
                writeln!(self.out, "{name}, {rate_hz} Hz\n")?;
                writeln!(self.out, "  at s  string  note      off     ±")
            }
        }
    }

    /// One thing heard.
    pub fn heard(&mut self, heard: &Heard) -> io::Result<()> {
        self.count(heard);
        match (self.reader, heard) {
            (Reader::Program, _) => self.line(&Line::from(heard)),
            (Reader::Person(naming, harp), Heard::Reading(reading)) if reading.last => {
                let row = row(reading, naming, harp);
                writeln!(self.out, "{row}")
            }
            (Reader::Person(..), Heard::Reading(_)) => Ok(()),
            (Reader::Person(naming, _), Heard::Refused(refused)) => {
                let row = refused_row(refused, naming);
                writeln!(self.out, "{row}")
            }
            (Reader::Person(naming, _), Heard::Warning(warning)) => {
                let mut line = WarningLine::from(warning);
                line.string = warning.string.map(|string| naming.string(string));
                self.warning(&line)
            }
        }?;
        self.out.flush()
    }

    /// Something to know about the sound as a whole.
    pub fn warning(&mut self, warning: &WarningLine) -> io::Result<()> {
        match self.reader {
            Reader::Program => self.line(&Line::Warning(warning.clone())),
            Reader::Person(..) => writeln!(
                self.out,
                "{:>6.2}  {:<6}  Note, {}: {}.",
                warning.at_s,
                warning.string.as_deref().unwrap_or_default(),
                warning.warning,
                warning.detail
            ),
        }
    }

    /// The last line, over all files.
    pub fn summary(&mut self) -> io::Result<()> {
        self.file = None;
        match self.reader {
            Reader::Program => {
                let summary = Line::Summary(SummaryLine {
                    plucks: self.plucks,
                    readings: self.readings,
                    refused: self.refused,
                    strings: self.strings.iter().map(StringName::to_string).collect(),
                });
                self.line(&summary)
            }
            Reader::Person(naming, _) => self.summary_in_words(naming),
        }?;
        self.out.flush()
    }

    fn line(&mut self, line: &Line) -> io::Result<()> {
        let file = self.file.as_deref();
        serde_json::to_writer(&mut *self.out, &FileLine { line, file })?;
        writeln!(self.out)
    }

    fn count(&mut self, heard: &Heard) {
        match heard {
            Heard::Reading(reading) if reading.last => {
                self.plucks += 1;
                self.readings += 1;
                self.verdicts.push(Verdict::of(reading));
                if let Some(string) = reading.string {
                    self.strings.insert(string);
                    self.rows.entry(string).or_default().push(reading.off_cents);
                }
            }
            Heard::Refused(_) => {
                self.plucks += 1;
                self.refused += 1;
            }
            Heard::Reading(_) | Heard::Warning(_) => {}
        }
    }

    fn summary_in_words(&mut self, naming: Naming) -> io::Result<()> {
        let count = |wanted: fn(&Verdict) -> bool| {
            self.verdicts
                .iter()
                .filter(|verdict| wanted(verdict))
                .count()
        };
        let in_tune = count(|verdict| matches!(verdict, Verdict::InTune));
        let low = count(|verdict| matches!(verdict, Verdict::Up(_)));
        let high = count(|verdict| matches!(verdict, Verdict::Down(_) | Verdict::High(_)));
        let unsure = count(|verdict| matches!(verdict, Verdict::Near | Verdict::WhichString));
        writeln!(
            self.out,
            "\n{} heard, {} not read; of the others {in_tune} in tune, {low} low, {high} high, {unsure} not sure.",
            if self.plucks == 1 {
                "1 pluck".to_owned()
            } else {
                format!("{} plucks", self.plucks)
            },
            self.refused
        )?;
        for (&string, offs) in &self.rows {
            if let [first, .., last] = offs.as_slice() {
                writeln!(
                    self.out,
                    "{} was plucked {} times: {} before, {} after.",
                    naming.string(string),
                    offs.len(),
                    signed(*first),
                    signed(*last)
                )?;
            }
        }
        if self.verdicts.iter().any(|verdict| verdict.asks_for_care()) {
            writeln!(self.out, "\n{}", care(Tongue::English))?;
        }
        Ok(())
    }
}

fn row(reading: &Reading, naming: Naming, harp: &Harp) -> String {
    let mechanism = reading
        .string
        .and_then(|string| harp.string(string))
        .map_or(Mechanism::Nothing, |string| string.mechanism);
    let sure = Verdict::of(reading) != Verdict::WhichString;
    let [name, note, off] = match (reading.string, reading.position) {
        (Some(string), Some(position)) if sure => [
            naming.string(string),
            naming.sounding(string, position),
            signed(reading.off_cents),
        ],
        // A sign would be a direction: where the string is not sure there is none.
        _ => ["?".to_owned(), String::new(), String::new()],
    };
    format!(
        "{:>6.2}  {name:<6}  {note:<5}  {off:>6}  {:>4.1}  {}",
        reading.at_s,
        reading.u95_cents,
        sentence::reading(reading, naming, mechanism)
    )
}

fn refused_row(refused: &Refused, naming: Naming) -> String {
    let name = refused
        .string
        .map_or_else(|| "?".to_owned(), |string| naming.string(string));
    format!(
        "{:>6.2}  {name:<6}  {:<5}  {:>6}  {:>4}  {}",
        refused.at_s,
        "",
        "",
        "",
        sentence::refused(refused)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::example;

    /// The `file` of every line of a report in which one reading was heard in each of `files`.
    fn check(files: &[&str], expected: &[Option<&str>]) {
        let mut out = Vec::new();
        let mut report = Report::new(&mut out, Reader::Program, files.len());
        for file in files {
            report.begin(file, 48_000).unwrap();
            let reading = example::reading("G3", 0.0, 0.5, None);
            report.heard(&Heard::Reading(reading)).unwrap();
        }
        report.summary().unwrap();
        let told: Vec<Option<String>> = String::from_utf8(out)
            .unwrap()
            .lines()
            .map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap())
            .map(|line| {
                line.get("file")
                    .map(|file| file.as_str().unwrap().to_owned())
            })
            .collect();
        let told: Vec<Option<&str>> = told.iter().map(Option::as_deref).collect();
        assert_eq!(told, expected);
    }

    #[test]
    fn a_program_is_told_which_of_several_files_a_line_is_about() {
        check(&["a.wav", "b.wav"], &[Some("a.wav"), Some("b.wav"), None]);
    }

    #[test]
    fn a_single_file_is_not_named_in_its_lines() {
        check(&["a.wav"], &[None, None]);
    }
}
