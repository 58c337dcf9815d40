//! How a sheet is to look: all of it hers to choose.

use harp::Naming;
use pitch::Tongue;

/// What she chose.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Style {
    /// The paper.
    pub paper: Paper,
    /// The size of the print.
    pub print: Print,
    /// How settings are shown.
    pub diagrams: Diagrams,
    /// How strings and notes are named.
    pub naming: Naming,
    /// The language of all other words.
    pub tongue: Tongue,
}

/// A sheet of paper, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    #[default]
    A4,
    /// 8½ × 11 inches.
    Letter,
}

/// How large the print is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Print {
    /// As in a printed part.
    #[default]
    Usual,
    /// Twice that, for a dark pit.
    Large,
}

/// How a setting is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Diagrams {
    /// Uprights on a line.
    #[default]
    Signs,
    /// Letters in two lines, the right foot on top.
    Letters,
}

impl Paper {
    /// Width and height in points, 72 to the inch.
    ///
    /// ```
    /// assert_eq!(sheet::Paper::Letter.size_pt(), (612.0, 792.0));
    /// ```
    pub fn size_pt(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0 * 72.0 / 25.4, 297.0 * 72.0 / 25.4),
            Self::Letter => (612.0, 792.0),
        }
    }

    /// Width and height as CSS and SVG write lengths.
    pub(crate) fn lengths(self) -> (&'static str, &'static str) {
        match self {
            Self::A4 => ("210mm", "297mm"),
            Self::Letter => ("8.5in", "11in"),
        }
    }
}
