//! The evening as a file of hers: pieces in order, each a score or a part on paper.

use std::path::{Path, PathBuf};

use harp::OpenTuning;
use pitch::ReferencePitch;
use toml_edit::{Document, Item, TableLike};

use crate::plan::arguments::HarmonicsWord;

/// No such file is longer than this, in bytes.
pub(super) const LONGEST: u64 = 1 << 20;
/// Most pieces of one evening.
const MOST_PIECES: usize = 200;
/// Keys of the evening.
const KEYS: [&str; 5] = ["title", "note", "harp", "a4_hz", "piece"];
/// Keys of a piece.
const PIECE_KEYS: [&str; 12] = [
    "title",
    "composer",
    "harp",
    "a4_hz",
    "score",
    "part",
    "harmonics",
    "repeats",
    "open",
    "tau_s",
    "paper",
    "pencilled",
];

/// An evening as it is asked for.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct EveningFile {
    pub(super) title: String,
    pub(super) note: String,
    pub(super) pieces: Vec<Entry>,
}

/// A piece as it is asked for.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Entry {
    pub(super) title: Option<String>,
    pub(super) composer: Option<String>,
    pub(super) harp: String,
    pub(super) reference: ReferencePitch,
    pub(super) from: From,
}

/// Where a piece comes from. Files are named relative to the evening's.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum From {
    Score {
        path: PathBuf,
        part: Option<String>,
        harmonics: HarmonicsWord,
        repeats: bool,
        open: Vec<OpenTuning>,
        /// Least time between two moves of one foot.
        tau_s: f64,
    },
    /// A file in the shorthand.
    PaperFile(PathBuf),
    /// The shorthand itself, and the line of the evening's file at which it begins, from 1.
    Pencilled { text: String, line: usize },
}

/// An evening to be filled in.
pub(super) const TO_FILL_IN: &str = r##"# An evening: its pieces in the order in which they are played.
# Files are named as they lie beside this one.
title = "An evening"
note = ""              # a line under the title: the place, the day
harp = "pedal47"       # a harp by name, or your own harp's file
a4_hz = 440            # the reference pitch

[[piece]]              # a piece with a score, which is planned
score = "first.musicxml"
# title = "…"          # what the score does not say, or not so
# composer = "…"
# harp = "…"           # where it is another than the evening's
# a4_hz = 442          # the same
# part = "Harp"        # which part of the score
# harmonics = "string" # or "sounding"
# repeats = true
# open = ["Eb", "C"]   # a lever harp's open tunings that you allow
# tau_s = 0.4          # the least time between two moves of one foot

[[piece]]              # a piece from a paper part, written down by hand
title = "From paper"
pencilled = """
opening B♭ E♭          # all others are natural
7C = C♮
12 F# | B
17 [A] F
"""
# paper = "second.txt" # the same, in a file of its own
"##;

/// Reads an evening's file; errors name the line and what to do.
pub(super) fn read(text: &str) -> Result<EveningFile, String> {
    if text.trim_start().starts_with('<') {
        return Err("this is a score, not an evening: plan it alone with `sevenflats plan`, or name it in an evening's file; `sevenflats programme --toml` prints one to fill in".to_owned());
    }
    let document = Document::parse(text).map_err(|error| {
        let line = error.span().map_or(1, |span| line(text, span.start));
        format!("line {line}: {}", error.message())
    })?;
    let top = Place {
        text,
        table: document.as_table(),
        line: 1,
        what: "the evening",
    };
    top.check(&KEYS)?;
    let harp = top.string("harp")?.unwrap_or("pedal47");
    let reference = top.reference()?.unwrap_or(ReferencePitch::A440);
    let tables = match document.as_table().get("piece") {
        Some(Item::ArrayOfTables(tables)) => tables,
        Some(_) => {
            return Err(format!(
                "line {}: each piece begins with [[piece]]",
                top.line_of("piece")
            ));
        }
        None => return Err("there is no piece; each begins with [[piece]]".to_owned()),
    };
    if tables.len() > MOST_PIECES {
        return Err(format!(
            "{} pieces are no evening; {MOST_PIECES} are read",
            tables.len()
        ));
    }
    let pieces = tables.iter().map(|table| {
        let place = Place {
            text,
            table,
            line: table.span().map_or(1, |span| line(text, span.start)),
            what: "a piece",
        };
        piece(&place, harp, reference)
    });
    Ok(EveningFile {
        title: top.string("title")?.unwrap_or_default().to_owned(),
        note: top.string("note")?.unwrap_or_default().to_owned(),
        pieces: pieces.collect::<Result<_, _>>()?,
    })
}

fn piece(place: &Place<'_>, harp: &str, reference: ReferencePitch) -> Result<Entry, String> {
    place.check(&PIECE_KEYS)?;
    let own = |key| place.string(key).map(|text| text.map(str::to_owned));
    Ok(Entry {
        title: own("title")?,
        composer: own("composer")?,
        harp: own("harp")?.unwrap_or_else(|| harp.to_owned()),
        reference: place.reference()?.unwrap_or(reference),
        from: from(place)?,
    })
}

fn from(place: &Place<'_>) -> Result<From, String> {
    let (score, paper, pencilled) = (
        place.string("score")?,
        place.string("paper")?,
        place.string("pencilled")?,
    );
    if score.is_none()
        && let Some(key) = ["part", "harmonics", "repeats", "open", "tau_s"]
            .iter()
            .find(|key| place.table.contains_key(key))
    {
        return Err(format!(
            "line {}: '{key}' belongs to a score, and none is named",
            place.line_of(key)
        ));
    }
    match (score, paper, pencilled) {
        (Some(path), None, None) => Ok(From::Score {
            path: Path::new(path).to_owned(),
            part: place.string("part")?.map(str::to_owned),
            harmonics: match place.string("harmonics")? {
                None | Some("string") => HarmonicsWord::String,
                Some("sounding") => HarmonicsWord::Sounding,
                Some(_) => return Err(place.wrong("harmonics", "\"string\" or \"sounding\"")),
            },
            repeats: place
                .read("repeats", "true or false", Item::as_bool)?
                .unwrap_or(true),
            open: open(place)?,
            tau_s: match place.number("tau_s")? {
                None => 0.4,
                Some(tau_s) if (0.0..=5.0).contains(&tau_s) => tau_s,
                Some(_) => return Err(place.wrong("tau_s", "between 0 and 5 seconds")),
            },
        }),
        (None, Some(path), None) => Ok(From::PaperFile(Path::new(path).to_owned())),
        (None, None, Some(text)) => Ok(From::Pencilled {
            text: text.to_owned(),
            line: place.line_of_text("pencilled"),
        }),
        _ => Err(format!(
            "line {}: a piece has one of score (a file), paper (a file in the shorthand) and pencilled (the shorthand itself)",
            place.line
        )),
    }
}

fn open(place: &Place<'_>) -> Result<Vec<OpenTuning>, String> {
    let Some(item) = place.table.get("open") else {
        return Ok(Vec::new());
    };
    let wrong = || {
        place.wrong(
            "open",
            "open tunings, as in [\"Eb\", \"C\"]: Eb, C, F and Ab",
        )
    };
    let named = |name: &str| {
        let open = OpenTuning::from_name(name).filter(|open| *open != OpenTuning::Cb);
        open.ok_or_else(wrong)
    };
    if let Some(name) = item.as_str() {
        return Ok(vec![named(name)?]);
    }
    let all = item.as_array().ok_or_else(wrong)?;
    all.iter()
        .map(|value| named(value.as_str().ok_or_else(wrong)?))
        .collect()
}

/// A table, and where it stands.
struct Place<'a> {
    text: &'a str,
    table: &'a dyn TableLike,
    line: usize,
    what: &'a str,
}

impl<'a> Place<'a> {
    fn check(&self, known: &[&str]) -> Result<(), String> {
        match self.table.iter().find(|(key, _)| !known.contains(key)) {
            None => Ok(()),
            Some((key, _)) => Err(format!(
                "line {}: {} has no '{key}'; it has {}",
                self.line_of(key),
                self.what,
                known.join(", ")
            )),
        }
    }

    fn line_of(&self, key: &str) -> usize {
        let key = self
            .table
            .get_key_value(key)
            .and_then(|(key, _)| key.span());
        key.map_or(self.line, |span| line(self.text, span.start))
    }

    /// The line of a text's first line: the one after the quotes, where it begins there.
    fn line_of_text(&self, key: &str) -> usize {
        let Some(span) = self.table.get(key).and_then(Item::span) else {
            return self.line_of(key);
        };
        let begun = &self.text[span.start..];
        let below = ["\"\"\"\n", "'''\n", "\"\"\"\r\n", "'''\r\n"]
            .iter()
            .any(|quotes| begun.starts_with(quotes));
        line(self.text, span.start) + usize::from(below)
    }

    fn read<T>(
        &self,
        key: &str,
        form: &str,
        as_that: impl Fn(&'a Item) -> Option<T>,
    ) -> Result<Option<T>, String> {
        match self.table.get(key) {
            None => Ok(None),
            Some(item) => as_that(item).map(Some).ok_or_else(|| self.wrong(key, form)),
        }
    }

    fn string(&self, key: &str) -> Result<Option<&'a str>, String> {
        self.read(key, "a text in quotes", Item::as_str)
    }

    fn number(&self, key: &str) -> Result<Option<f64>, String> {
        let number = |item: &Item| {
            item.as_float()
                .or_else(|| item.as_integer().map(|whole| whole as f64))
        };
        self.read(key, "a number", number)
    }

    fn reference(&self) -> Result<Option<ReferencePitch>, String> {
        let Some(a4_hz) = self.number("a4_hz")? else {
            return Ok(None);
        };
        let found = ReferencePitch::new(a4_hz);
        found
            .map(Some)
            .map_err(|reason| format!("line {}: {reason}", self.line_of("a4_hz")))
    }

    fn wrong(&self, key: &str, form: &str) -> String {
        format!("line {}: '{key}' is to be {form}", self.line_of(key))
    }
}

fn line(text: &str, byte: usize) -> usize {
    1 + text
        .as_bytes()
        .iter()
        .take(byte)
        .filter(|&&byte| byte == b'\n')
        .count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_to_fill_in_can_be_read() {
        let evening = read(TO_FILL_IN).unwrap();
        assert_eq!(evening.pieces.len(), 2);
        let From::Pencilled { text, line } = &evening.pieces[1].from else {
            panic!("{:?}", evening.pieces[1]);
        };
        let first = TO_FILL_IN.lines().nth(line - 1).unwrap();
        assert!(first.starts_with("opening"), "{first}");
        assert!(text.starts_with("opening"), "{text}");
    }

    fn check(text: &str, wrong: &str) {
        let error = read(text).unwrap_err();
        assert!(error.contains(wrong), "{error}");
    }

    #[test]
    fn what_is_wrong_is_named_with_its_line() {
        check(
            "title = 3\n[[piece]]\nscore = \"a\"",
            "line 1: 'title' is to be a text",
        );
        check("tite = \"x\"", "line 1: the evening has no 'tite'");
        check("title = \"x\"", "there is no piece");
        check("piece = 3", "each piece begins with [[piece]]");
        check(
            "[[piece]]\ntitle = \"x\"",
            "line 1: a piece has one of score",
        );
        check(
            "[[piece]]\nscore = \"a\"\npaper = \"b\"",
            "a piece has one of",
        );
        check(
            "[[piece]]\nscore = \"a\"\na4_hz = 44",
            "line 3: the reference pitch",
        );
        check(
            "[[piece]]\npaper = \"a\"\npart = \"b\"",
            "line 3: 'part' belongs to a score",
        );
        check(
            "[[piece]]\nscore = \"a\"\nopen = [\"G\"]",
            "line 3: 'open' is to be open tunings",
        );
        check("[[piece]]\nscore = \"a\"\ntau_s = 9", "between 0 and 5");
        check("[[piece]\n", "line 1");
    }
}
