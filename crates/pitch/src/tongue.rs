//! The language of sentences, and how it writes numbers. The names of notes are chosen apart.

use crate::{Language, signed};

/// A language in which a reader is spoken to; [`Language`] is the one in which notes are named.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tongue {
    /// English.
    #[default]
    English,
    /// German.
    German,
    /// French.
    French,
}

impl Tongue {
    /// All three.
    pub const ALL: [Self; 3] = [Self::English, Self::German, Self::French];

    /// Its code in ISO 639-1, as pages and settings write it: `en`, `de`, `fr`.
    pub fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
            Self::French => "fr",
        }
    }

    /// The language of a tag whose first part is its code (RFC 5646, section 2.1; capitals do not matter), or of a
    /// locale's name with a low line; `None` for any other language.
    ///
    /// ```
    /// use pitch::Tongue;
    /// assert_eq!(Tongue::from_code("de-AT"), Some(Tongue::German));
    /// assert_eq!(Tongue::from_code("fr_CA"), Some(Tongue::French));
    /// assert_eq!(Tongue::from_code("den"), None);
    /// ```
    pub fn from_code(tag: &str) -> Option<Self> {
        let first = tag.split(['-', '_']).next()?;
        Self::ALL
            .into_iter()
            .find(|tongue| first.eq_ignore_ascii_case(tongue.code()))
    }

    /// The names of notes that its readers usually know.
    pub fn notes(self) -> Language {
        match self {
            Self::English => Language::English,
            Self::German => Language::German,
            Self::French => Language::Solfege,
        }
    }

    /// A number with so many decimals, a true minus, and the language's decimal mark.
    ///
    /// ```
    /// use pitch::Tongue;
    /// assert_eq!(Tongue::English.number(-1.26, 1), "−1.3");
    /// assert_eq!(Tongue::French.number(-1.26, 1), "−1,3");
    /// assert_eq!(Tongue::German.number(442.0, 0), "442");
    /// ```
    pub fn number(self, value: f64, decimals: usize) -> String {
        self.marked(&format!("{value:.decimals$}"))
    }

    /// A number with no more decimals than it needs: 442, 442,5.
    ///
    /// ```
    /// assert_eq!(pitch::Tongue::German.plain(442.5), "442,5");
    /// ```
    pub fn plain(self, value: f64) -> String {
        self.marked(&value.to_string())
    }

    /// Cents as [`signed()`] has them, with the language's decimal mark.
    ///
    /// ```
    /// assert_eq!(pitch::Tongue::French.signed(-1.5), "−1,5");
    /// ```
    pub fn signed(self, cents: f64) -> String {
        self.marked(&signed(cents))
    }

    /// Decimal marks: point in English, comma in German and French (Unicode CLDR, `numbers/symbols/decimal` of en, de
    /// and fr; some of their countries differ).
    fn marked(self, number: &str) -> String {
        let number = number.replace('-', "−");
        match self {
            Self::English => number,
            Self::German | Self::French => number.replace('.', ","),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // RFC 5646, section 2.1 and appendix A: a tag begins with its language; nothing turns on capitals.
    #[test]
    fn a_tag_is_known_by_its_first_part() {
        let check = |tag: &str, expected| assert_eq!(Tongue::from_code(tag), expected, "{tag}");
        for tongue in Tongue::ALL {
            check(tongue.code(), Some(tongue));
        }
        check("de", Some(Tongue::German));
        check("de-CH-1996", Some(Tongue::German));
        check("DE-Latn-DE", Some(Tongue::German));
        check("en-US", Some(Tongue::English));
        check("fr-Latn-CA", Some(Tongue::French));
        for other in ["", "d", "deu", "ja", "x-de", "-de", "i-enochian"] {
            check(other, None);
        }
    }

    #[test]
    fn each_language_writes_its_own_decimal_mark() {
        let check = |tongue: Tongue, expected: [&str; 4]| {
            let found = [
                tongue.number(1234.56, 1),
                tongue.signed(2.25),
                tongue.signed(-0.04),
                tongue.plain(-415.0),
            ];
            assert_eq!(found, expected);
        };
        check(Tongue::English, ["1234.6", "+2.2", "0.0", "−415"]);
        check(Tongue::German, ["1234,6", "+2,2", "0,0", "−415"]);
        check(Tongue::French, ["1234,6", "+2,2", "0,0", "−415"]);
    }

    // Common usage, no single source: H in German, syllables in French.
    #[test]
    fn each_language_has_its_usual_names_of_notes() {
        let b = "B4".parse().unwrap();
        let named = Tongue::ALL.map(|tongue| tongue.notes().name(b));
        assert_eq!(named, ["B", "H", "si"]);
    }
}
