//! A number as records hold it. JSON knows only finite ones (RFC 8259, section 6); the others are words.

use std::fmt;

use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A number that reads back as itself, whatever it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Figure(pub(crate) f64);

const WORDS: [(&str, f64); 3] = [
    ("nan", f64::NAN),
    ("inf", f64::INFINITY),
    ("-inf", f64::NEG_INFINITY),
];

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            finite if finite.is_finite() => serializer.serialize_f64(finite),
            nan if nan.is_nan() => serializer.serialize_str("nan"),
            infinite if infinite > 0.0 => serializer.serialize_str("inf"),
            _ => serializer.serialize_str("-inf"),
        }
    }
}

impl<'de> Deserialize<'de> for Figure {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(Reader).map(Figure)
    }
}

struct Reader;

impl Visitor<'_> for Reader {
    type Value = f64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a number")
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<f64, E> {
        Ok(value)
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<f64, E> {
        Ok(value as f64)
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<f64, E> {
        Ok(value as f64)
    }

    fn visit_str<E: Error>(self, word: &str) -> Result<f64, E> {
        let known = WORDS.into_iter().find(|(known, _)| *known == word);
        let (_, value) = known.ok_or_else(|| E::custom(format!("'{word}' is no number")))?;
        Ok(value)
    }
}

/// For fields that are numbers: `#[serde(with = "as_figure")]`.
pub(crate) mod as_figure {
    use super::*;

    pub(crate) fn serialize<S: Serializer>(value: &f64, serializer: S) -> Result<S::Ok, S::Error> {
        Figure(*value).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
        Ok(Figure::deserialize(deserializer)?.0)
    }
}

/// The same where there may be none.
pub(crate) mod maybe_figure {
    use super::*;

    pub(crate) fn serialize<S: Serializer>(
        value: &Option<f64>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        value.map(Figure).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<f64>, D::Error> {
        Ok(Option::<Figure>::deserialize(deserializer)?.map(|figure| figure.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: f64, text: &str) {
        assert_eq!(serde_json::to_string(&Figure(value)).unwrap(), text);
        let read: Figure = serde_json::from_str(text).unwrap();
        assert_eq!(read.0.to_bits(), value.to_bits(), "{text}");
    }

    #[test]
    fn every_number_reads_back_as_itself() {
        check(440.0, "440.0");
        check(-0.0, "-0.0");
        check(0.1 + 0.2, "0.30000000000000004");
        check(f64::MIN_POSITIVE / 2.0, "1.1125369292536007e-308");
        check(f64::INFINITY, "\"inf\"");
        check(f64::NEG_INFINITY, "\"-inf\"");
        check(f64::NAN, "\"nan\"");
    }

    #[test]
    fn whole_numbers_of_another_writer_are_numbers() {
        assert_eq!(serde_json::from_str::<Figure>("440").unwrap().0, 440.0);
        assert_eq!(serde_json::from_str::<Figure>("-3").unwrap().0, -3.0);
        assert!(serde_json::from_str::<Figure>("\"440\"").is_err());
        assert!(serde_json::from_str::<Figure>("null").is_err());
    }
}
