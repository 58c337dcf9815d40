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
