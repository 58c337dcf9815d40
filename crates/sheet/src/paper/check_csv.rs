//! A regulation check as comma-separated values, for whoever reckons on with it.

use harp::Naming;
use pitch::Tongue;

use super::check_page::{CheckSheet, found_words};

/// The columns.
const HEADS: [&str; 13] = [
    "string",
    "open_cents",
    "natural_step_cents",
    "natural_error_cents",
    "natural_u95_cents",
    "sharp_step_cents",
    "sharp_error_cents",
    "sharp_u95_cents",
    "sum_error_cents",
    "own_cents",
    "before_natural_error_cents",
    "before_sharp_error_cents",
    "found",
];

/// The check's table (RFC 4180), a line for each string from the bass up, figures with a point; what was found is told in a
/// language.
pub fn check_csv(check: &CheckSheet, naming: Naming, tongue: Tongue) -> String {
    let mut table = format!("{}\r\n", HEADS.join(","));
    for one in &check.strings {
        let [natural_was, sharp_was] = check.before.get(&one.string).copied().unwrap_or_default();
        let (natural, sharp) = (one.natural.as_ref(), one.sharp.as_ref());
        let figures = [
            one.open_cents,
            natural.map(|step| step.cents),
            natural.map(|step| step.error_cents),
            natural.map(|step| step.u95_cents),
            sharp.map(|step| step.cents),
            sharp.map(|step| step.error_cents),
            sharp.map(|step| step.u95_cents),
            one.sum.as_ref().map(|step| step.error_cents),
            one.own_cents,
            natural_was,
            sharp_was,
        ];
        let figures =
            figures.map(|cents| cents.map_or(String::new(), |cents| format!("{cents:.2}")));
        table.push_str(&format!(
            "{},{},\"{}\"\r\n",
            naming.typed(one.string),
            figures.join(","),
            found_words(one, tongue).replace('"', "\"\"")
        ));
    }
    table
}
