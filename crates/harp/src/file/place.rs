//! A table of a harp file, and where in the file it stands.

use toml_edit::{Item, TableLike};

use super::HarpFileError;
use crate::{Field, StringName};

/// A table with the text it was read from, so that every error can name its line.
pub(super) struct Place<'a> {
    text: &'a str,
    pub(super) table: &'a dyn TableLike,
    pub(super) what: String,
    /// Line on which the table begins.
    pub(super) line: usize,
}

/// The line, from 1, of a byte of a text.
pub(super) fn line(text: &str, byte: usize) -> usize {
    let before = text.as_bytes().iter().take(byte);
    1 + before.filter(|&&byte| byte == b'\n').count()
}

impl<'a> Place<'a> {
    pub(super) fn new(text: &'a str, table: &'a dyn TableLike, what: String, line: usize) -> Self {
        Self {
            text,
            table,
            what,
            line,
        }
    }

    pub(super) fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// The line of a key; the table's own where the file does not tell.
    pub(super) fn line_of(&self, key: &str) -> usize {
        let key = self
            .table
            .get_key_value(key)
            .and_then(|(key, _)| key.span());
        key.map_or(self.line, |span| line(self.text, span.start))
    }

    pub(super) fn check_keys(
        &self,
        is_known: impl Fn(&str) -> bool,
        known: &str,
    ) -> Result<(), HarpFileError> {
        match self.table.iter().find(|&(key, _)| !is_known(key)) {
            None => Ok(()),
            Some((key, _)) => Err(HarpFileError::UnknownKey {
                line: self.line_of(key),
                place: self.what.clone(),
                key: key.to_owned(),
                known: known.to_owned(),
            }),
        }
    }

    pub(super) fn text(&self, key: &str) -> Result<Option<&'a str>, HarpFileError> {
        self.read(key, "a text in quotes", Item::as_str)
    }

    pub(super) fn figure(&self, field: Field) -> Result<Option<f64>, HarpFileError> {
        let number = |item: &Item| {
            item.as_float()
                .or_else(|| item.as_integer().map(|whole| whole as f64))
        };
        let value = self.read(field.name(), "a number", number)?;
        match value {
            Some(value) if !field.believed().contains(&value) => Err(HarpFileError::NotBelieved {
                line: self.line_of(field.name()),
                place: self.what.clone(),
                field,
                value,
            }),
            value => Ok(value),
        }
    }

    pub(super) fn string_name(&self, key: &str) -> Result<Option<StringName>, HarpFileError> {
        self.text(key)?
            .map(|text| self.parse_name(key, text))
            .transpose()
    }

    pub(super) fn string_names(&self, key: &str) -> Result<Option<Vec<StringName>>, HarpFileError> {
        let wanted = "a list of strings in quotes, such as [\"C1\", \"D1\"]";
        let list = |item: &'a Item| -> Option<Vec<&'a str>> {
            item.as_array()?
                .iter()
                .map(|value| value.as_str())
                .collect()
        };
        let Some(texts) = self.read(key, wanted, list)? else {
            return Ok(None);
        };
        texts
            .into_iter()
            .map(|text| self.parse_name(key, text))
            .collect::<Result<_, _>>()
            .map(Some)
    }

    pub(super) fn table(&self, key: &str) -> Result<Option<Self>, HarpFileError> {
        let table = self.read(key, "a table, such as [materials.gut]", Item::as_table_like)?;
        let line = self.line_of(key);
        Ok(table.map(|table| Self::new(self.text, table, format!("{key} of {}", self.what), line)))
    }

    pub(super) fn tables(&self, key: &str) -> Result<Vec<Self>, HarpFileError> {
        let tables = self.read(key, "written as [[string]]", Item::as_array_of_tables)?;
        let tables = tables.into_iter().flat_map(|tables| tables.iter());
        let place = |table: &'a toml_edit::Table| {
            let line = table
                .span()
                .map_or(self.line, |span| line(self.text, span.start));
            Self::new(self.text, table, format!("this {key}"), line)
        };
        Ok(tables.map(place).collect())
    }

    pub(super) fn unknown_word(&self, key: &str, word: &str, known: &str) -> HarpFileError {
        HarpFileError::UnknownWord {
            line: self.line_of(key),
            place: self.what.clone(),
            key: key.to_owned(),
            word: word.to_owned(),
            known: known.to_owned(),
        }
    }

    fn read<T>(
        &self,
        key: &str,
        wanted: &'static str,
        read: impl Fn(&'a Item) -> Option<T>,
    ) -> Result<Option<T>, HarpFileError> {
        let Some(item) = self.table.get(key) else {
            return Ok(None);
        };
        read(item)
            .map(Some)
            .ok_or_else(|| HarpFileError::WrongType {
                line: self.line_of(key),
                place: self.what.clone(),
                key: key.to_owned(),
                wanted,
            })
    }

    fn parse_name(&self, key: &str, text: &str) -> Result<StringName, HarpFileError> {
        text.parse().map_err(|source| HarpFileError::StringName {
            line: self.line_of(key),
            place: self.what.clone(),
            key: key.to_owned(),
            source,
        })
    }
}
