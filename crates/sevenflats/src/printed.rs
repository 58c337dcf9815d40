//! What goes to the printer: pages as PDF or SVG, in the size and signs that were asked for.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use harp::Naming;
use pitch::Tongue;
use sheet::{Diagrams, FontsIn, Page, Paper, PieceSheet, Print, Style};

use crate::trouble::Trouble;

/// How a sheet is printed.
#[derive(Clone, Debug, Args)]
pub struct PrintArguments {
    /// Print it too: a .pdf file, or an .svg file for each page
    #[arg(long, value_name = "FILE", value_parser = sheet_file)]
    pub sheet: Option<PathBuf>,

    /// In large print, for a dark pit
    #[arg(long, requires = "sheet")]
    pub large: bool,

    /// Settings as letters, the right foot on top, not as diagrams
    #[arg(long, requires = "sheet")]
    pub letters: bool,

    /// The paper
    #[arg(long, value_enum, default_value = "a4")]
    pub paper: PaperWord,
}

/// After `--paper`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperWord {
    /// 210 × 297 mm
    A4,
    /// 8½ × 11 inches
    Letter,
}

impl PaperWord {
    pub(crate) fn paper(self) -> Paper {
        match self {
            PaperWord::A4 => Paper::A4,
            PaperWord::Letter => Paper::Letter,
        }
    }
}

impl PrintArguments {
    /// How the pages look.
    pub(crate) fn style(&self, naming: Naming) -> Style {
        Style {
            paper: self.paper.paper(),
            print: if self.large {
                Print::Large
            } else {
                Print::Usual
            },
            diagrams: if self.letters {
                Diagrams::Letters
            } else {
                Diagrams::Signs
            },
            naming,
            tongue: Tongue::English,
        }
    }
}

/// Prints one piece, if that is asked for.
pub(crate) fn piece(
    sheet: impl FnOnce() -> PieceSheet,
    arguments: &PrintArguments,
    naming: Naming,
) -> Result<(), Trouble> {
    let Some(path) = &arguments.sheet else {
        return Ok(());
    };
    let sheet = sheet();
    let pages = sheet::piece_pages(&sheet, &arguments.style(naming));
    write(path, &pages, &sheet.title)
}

/// Writes pages in English: one PDF, or an SVG for each, numbered where there are several.
pub(crate) fn write(path: &Path, pages: &[Page], title: &str) -> Result<(), Trouble> {
    write_in(Tongue::English, path, pages, title).map(|_| ())
}

/// Writes pages in a language, and gives the files.
pub(crate) fn write_in(
    tongue: Tongue,
    path: &Path,
    pages: &[Page],
    title: &str,
) -> Result<Vec<PathBuf>, Trouble> {
    let mut written = Vec::new();
    let mut write = |path: PathBuf, bytes: Vec<u8>| -> Result<(), Trouble> {
        std::fs::write(&path, bytes).map_err(|reason| failed(&path, &reason))?;
        written.push(path);
        Ok(())
    };
    if is_svg(path) {
        for (at, page) in pages.iter().enumerate() {
            let text = sheet::svg(page, FontsIn::ThePage);
            write(numbered(path, at + 1, pages.len()), text.into_bytes())?;
        }
        return Ok(written);
    }
    let bytes = sheet::pdf(pages, title, tongue).map_err(|reason| failed(path, &reason))?;
    write(path.to_owned(), bytes)?;
    Ok(written)
}

fn failed(path: &Path, reason: &impl ToString) -> Trouble {
    Trouble::Sheet {
        path: path.to_owned(),
        reason: reason.to_string(),
    }
}

/// `evening.svg`, or `evening-2.svg` of several.
fn numbered(path: &Path, number: usize, of: usize) -> PathBuf {
    if of < 2 {
        return path.to_owned();
    }
    let mut name = path.file_stem().map(OsString::from).unwrap_or_default();
    name.push(format!("-{number}.svg"));
    path.with_file_name(name)
}

fn is_svg(path: &Path) -> bool {
    path.extension()
        .is_some_and(|kind| kind.eq_ignore_ascii_case("svg"))
}

pub(crate) fn sheet_file(text: &str) -> Result<PathBuf, String> {
    let path = PathBuf::from(text);
    let pdf = path
        .extension()
        .is_some_and(|kind| kind.eq_ignore_ascii_case("pdf"));
    if pdf || is_svg(&path) {
        Ok(path)
    } else {
        Err("a file whose name ends in .pdf or .svg".to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn several_pages_are_numbered() {
        let path = Path::new("out/evening.svg");
        assert_eq!(numbered(path, 1, 1), path);
        assert_eq!(numbered(path, 2, 3), Path::new("out/evening-2.svg"));
        assert!(sheet_file("evening.docx").is_err());
        assert!(sheet_file("evening.PDF").is_ok());
    }
}
