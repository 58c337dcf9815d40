//! The figures of a check as a table, for people and for the technician.

use std::collections::BTreeMap;
use std::io::{self, Write};

use harp::Naming;
use pitch::{Tongue, signed};
use tuning::regulation::{Regulated, Step, StepSize, finding, too_new};

use super::line::StringLine;

/// Writes the table, the earlier errors beside where there are some; the highest string first, as a technician works.
pub(super) fn write(
    out: &mut dyn Write,
    all: &[Regulated],
    before: &BTreeMap<String, StringLine>,
    naming: Naming,
) -> io::Result<()> {
    let heads = if before.is_empty() {
        "string   open  natural     ±  sharp     ±    sum   own  found"
    } else {
        "string   open  natural  was   ±  sharp  was   ±    sum   own  found"
    };
    writeln!(out, "{heads}")?;
    for one in all.iter().rev() {
        let was = before.get(&one.string.to_string());
        let was = |step: Step| {
            let error = was.and_then(|was| match step {
                Step::Natural => was.error_cents.natural,
                Step::Sharp => was.error_cents.sharp,
            });
            let shown = error.map_or(String::new(), signed);
            if before.is_empty() {
                String::new()
            } else {
                format!("{shown:>5}")
            }
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
            was(Step::Natural),
            sure(&one.natural),
            error(&one.sharp),
            was(Step::Sharp),
            sure(&one.sharp),
            error(&one.sum),
            one.own_cents
                .map_or(String::new(), |own| format!("{own:.1}")),
            found(one),
        )?;
    }
    Ok(())
}

/// What was found of a string, in words.
pub(super) fn found(one: &Regulated) -> String {
    if one.new {
        return too_new(Tongue::English).to_owned();
    }
    let steps = one.found.iter().filter_map(|(&step, found)| {
        let size = one.step(step)?;
        finding(step, size, found, Tongue::English)
    });
    steps.collect::<Vec<_>>().join("; ")
}

/// The same as comma-separated values (RFC 4180), a line for each string, figures with a point.
pub(super) fn csv(
    out: &mut dyn Write,
    all: &[Regulated],
    before: &BTreeMap<String, StringLine>,
    naming: Naming,
) -> io::Result<()> {
    let heads = [
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
    write!(out, "{}\r\n", heads.join(","))?;
    for one in all {
        let was = before.get(&one.string.to_string());
        let natural = one.natural.as_ref();
        let sharp = one.sharp.as_ref();
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
            was.and_then(|was| was.error_cents.natural),
            was.and_then(|was| was.error_cents.sharp),
        ];
        let figures =
            figures.map(|cents| cents.map_or(String::new(), |cents| format!("{cents:.2}")));
        write!(
            out,
            "{},{},\"{}\"\r\n",
            naming.typed(one.string),
            figures.join(","),
            found(one).replace('"', "\"\"")
        )?;
    }
    Ok(())
}
