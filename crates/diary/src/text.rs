//! What a record holds as text: a string's name `G3`, a pitch `Bn0`.

use std::fmt::Display;
use std::str::FromStr;

use serde::de::Error;
use serde::ser::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A value written and read as its own text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Text<T>(pub(crate) T);

/// Refused where the text would not be read as the same value: there is no string E♯4, and no pitch with three sharps.
impl<T: Display + FromStr + PartialEq> Serialize for Text<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let text = self.0.to_string();
        match text.parse::<T>() {
            Ok(read) if read == self.0 => serializer.serialize_str(&text),
            _ => Err(S::Error::custom(format_args!(
                "'{text}' would not be read as what it names"
            ))),
        }
    }
}

impl<'de, T: FromStr<Err: Display>> Deserialize<'de> for Text<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map(Text).map_err(D::Error::custom)
    }
}

/// Values as texts.
pub(crate) fn texts<T: Copy>(values: &[T]) -> Vec<Text<T>> {
    values.iter().copied().map(Text).collect()
}

/// Texts as values.
pub(crate) fn values<T>(texts: Vec<Text<T>>) -> Vec<T> {
    texts.into_iter().map(|text| text.0).collect()
}

/// For fields that are their own text: `#[serde(with = "as_text")]`.
pub(crate) mod as_text {
    use super::*;

    pub(crate) fn serialize<T, S>(value: &T, serializer: S) -> Result<S::Ok, S::Error>
    where
        T: Display + FromStr + PartialEq + Clone,
        S: Serializer,
    {
        Text(value.clone()).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, T, D>(deserializer: D) -> Result<T, D::Error>
    where
        T: FromStr<Err: Display>,
        D: Deserializer<'de>,
    {
        Ok(Text::deserialize(deserializer)?.0)
    }
}

/// The same where there may be none.
pub(crate) mod maybe_text {
    use super::*;

    pub(crate) fn serialize<T, S>(value: &Option<T>, serializer: S) -> Result<S::Ok, S::Error>
    where
        T: Display + FromStr + PartialEq + Clone,
        S: Serializer,
    {
        value.clone().map(Text).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, T, D>(deserializer: D) -> Result<Option<T>, D::Error>
    where
        T: FromStr<Err: Display>,
        D: Deserializer<'de>,
    {
        Ok(Option::<Text<T>>::deserialize(deserializer)?.map(|text| text.0))
    }
}
