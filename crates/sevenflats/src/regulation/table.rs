//! The figures of a check as a table, for people.

use std::io::{self, Write};

use harp::Naming;
use pitch::{Tongue, signed};
use sheet::{CheckSheet, found_words};
use tuning::regulation::StepSize;

/// Writes the table, the earlier errors beside where there are some; the highest string first, as a technician works.
pub(super) fn write(out: &mut dyn Write, check: &CheckSheet, naming: Naming) -> io::Result<()> {
    let heads = if check.before.is_empty() {
        "string   open  natural     ±  sharp     ±    sum   own  found"
    } else {
        "string   open  natural  was   ±  sharp  was   ±    sum   own  found"
    };
    writeln!(out, "{heads}")?;
    for one in check.strings.iter().rev() {
        let [natural_was, sharp_was] = check.before.get(&one.string).copied().unwrap_or_default();
        let was = |error: Option<f64>| match check.before.is_empty() {
            true => String::new(),
            false => format!("{:>5}", error.map_or(String::new(), signed)),
        };
        let figure = |cents: Option<f64>| cents.map_or("–".to_owned(), signed);
        let error = |step: &Option<StepSize>| figure(step.as_ref().map(|step| step.error_cents));
        let sure = |step: &Option<StepSize>| {
            step.as_ref()
                .map_or(String::new(), |step| format!("{:.1}", step.u95_cents))
        };
        writeln!(
            out,
            "{:<6} {:>6}  {:>7}{} {:>5}  {:>5}{} {:>5} {:>6} {:>5}  {}",
            naming.string(one.string),
            figure(one.open_cents),
            error(&one.natural),
            was(natural_was),
            sure(&one.natural),
            error(&one.sharp),
            was(sharp_was),
            sure(&one.sharp),
            error(&one.sum),
            one.own_cents
                .map_or(String::new(), |own| format!("{own:.1}")),
            found_words(one, Tongue::English),
        )?;
    }
    Ok(())
}
