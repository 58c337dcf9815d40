//! Reading the cases of a reference folder and holding results against them.

use std::collections::BTreeSet;
use std::path::PathBuf;

use toml_edit::{ArrayOfTables, Document, InlineTable, Item, Table, Value};

/// One check value, or several that one law gives.
pub(crate) struct Case {
    pub(crate) id: String,
    pub(crate) law: String,
    pub(crate) source: String,
    given: InlineTable,
    expected: Vec<f64>,
    tolerance: Tolerance,
    pub(crate) ways_agree_share: Option<f64>,
}

enum Tolerance {
    Absolute(f64),
    Share(f64),
}

/// The folder of that name beside the crates.
pub(crate) fn folder(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("../../reference")
        .join(name)
}

pub(crate) fn read(folder_name: &str, file: &str) -> String {
    let path = folder(folder_name).join(file);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The rows of a CSV file without quotes, each as wide as its heading.
pub(crate) fn rows(folder_name: &str, file: &str) -> Vec<Vec<String>> {
    let text = read(folder_name, file);
    let mut lines = text
        .lines()
        .map(|line| line.split(',').map(str::to_owned).collect());
    let heading: Vec<String> = lines.next().unwrap();
    let rows: Vec<Vec<String>> = lines.collect();
    assert!(!rows.is_empty(), "{folder_name}/{file} holds no row");
    assert!(
        rows.iter().all(|row| row.len() == heading.len()),
        "{folder_name}/{file} is ragged"
    );
    rows
}

/// The cases of a folder's `data.toml`.
pub(crate) fn cases(folder_name: &str) -> Vec<Case> {
    let text = read(folder_name, "data.toml");
    let document = Document::parse(&*text).unwrap();
    let tables = document.get("case").and_then(Item::as_array_of_tables);
    let cases: Vec<Case> = tables
        .map(ArrayOfTables::iter)
        .into_iter()
        .flatten()
        .map(Case::read)
        .collect();
    assert!(!cases.is_empty(), "{folder_name} holds no case");
    cases
}

/// Computes every case of a folder by `law` and compares; `law` answers `None` to an unknown one.
#[track_caller]
pub(crate) fn check(folder_name: &str, law: impl Fn(&Case) -> Option<Vec<f64>>) {
    for case in cases(folder_name) {
        let found = law(&case).unwrap_or_else(|| panic!("{}: no law '{}'", case.id, case.law));
        case.compare(&found);
    }
}

/// The ids of every case there is.
pub(crate) fn all_ids() -> BTreeSet<String> {
    const FOLDERS: [&str; 5] = [
        "compass",
        "hearing-limits",
        "pitch-arithmetic",
        "string-mechanics",
        "winds-and-warmth",
    ];
    FOLDERS
        .into_iter()
        .flat_map(cases)
        .map(|case| case.id)
        .collect()
}

impl Case {
    fn read(table: &Table) -> Self {
        let text = |key: &str| {
            let text = table.get(key).and_then(Item::as_str);
            text.unwrap_or_else(|| panic!("a case has no {key}: {table}"))
                .to_owned()
        };
        let absolute = table
            .get("tolerance")
            .map(|item| Tolerance::Absolute(as_number(item)));
        let share = table
            .get("tolerance_share")
            .map(|item| Tolerance::Share(as_number(item)));
        let expected = table.get("expected").and_then(Item::as_array).unwrap();
        let expected: Vec<f64> = expected.iter().map(number).collect();
        assert!(!expected.is_empty(), "{} expects nothing", text("id"));
        Self {
            id: text("id"),
            law: text("law"),
            source: text("source"),
            given: table
                .get("given")
                .and_then(Item::as_inline_table)
                .unwrap()
                .clone(),
            expected,
            tolerance: absolute.xor(share).unwrap(),
            ways_agree_share: table.get("ways_agree_share").map(as_number),
        }
    }

    /// A number that the case gives.
    pub(crate) fn get(&self, key: &str) -> f64 {
        number(self.value(key))
    }

    /// A list of numbers that the case gives.
    pub(crate) fn list(&self, key: &str) -> Vec<f64> {
        self.value(key)
            .as_array()
            .unwrap()
            .iter()
            .map(number)
            .collect()
    }

    /// A text that the case gives.
    pub(crate) fn text(&self, key: &str) -> &str {
        self.value(key).as_str().unwrap()
    }

    /// A list of texts that the case gives.
    pub(crate) fn texts(&self, key: &str) -> Vec<&str> {
        self.value(key)
            .as_array()
            .unwrap()
            .iter()
            .map(|value| value.as_str().unwrap())
            .collect()
    }

    fn value(&self, key: &str) -> &Value {
        self.given
            .get(key)
            .unwrap_or_else(|| panic!("{} gives no {key}", self.id))
    }

    #[track_caller]
    fn compare(&self, found: &[f64]) {
        let Self {
            id, law, expected, ..
        } = self;
        assert_eq!(found.len(), expected.len(), "{id} ({law}): {found:?}");
        for (&found, &expected) in found.iter().zip(expected) {
            let tolerance = match self.tolerance {
                Tolerance::Absolute(tolerance) => tolerance,
                Tolerance::Share(share) => share * expected.abs(),
            };
            let off = (found - expected).abs();
            assert!(
                off <= tolerance,
                "{id} ({law}): {found}, not {expected} within {tolerance}"
            );
        }
    }
}

fn as_number(item: &Item) -> f64 {
    number(item.as_value().unwrap())
}

fn number(value: &Value) -> f64 {
    value
        .as_float()
        .or_else(|| value.as_integer().map(|whole| whole as f64))
        .unwrap()
}
