//! `sevenflats strings`: the harp's strings, what each should sound, and what is known of it from
//! the figures that the player gave; with `--diary` what each needs, from what was written of it. What was not given is blank, and it is said what is missing.

mod needs;
mod needs_json;
mod needs_page;

use std::collections::BTreeMap;
use std::io::Write;

use harp::{Field, Figure, StringSheet};
use pitch::{Alteration, ReferencePitch};
use serde::Serialize;

use crate::arguments::StringsArguments;
use crate::situation;
use crate::trouble::Trouble;
use harp::Naming;

/// One line of `sevenflats strings --json`.
#[derive(Serialize)]
struct StringLine {
    string: String,
    harp_number: String,
    colour: &'static str,
    discless: bool,
    target_hz: TargetsLine,
    length_mm: Option<f64>,
    gauge_mm: Option<f64>,
    material: Option<String>,
    tension_n: Option<f64>,
    stress_mpa: Option<f64>,
    break_share: Option<f64>,
    b: Option<f64>,
    stretch_cents: Option<f64>,
    cents_per_degree: Option<f64>,
}

#[derive(Serialize)]
struct TargetsLine {
    flat: Option<f64>,
    natural: Option<f64>,
    sharp: Option<f64>,
}

/// Lists the strings from the bass to the treble.
pub(crate) fn strings(arguments: &StringsArguments, out: &mut dyn Write) -> Result<(), Trouble> {
    if let Some(named) = &arguments.diary {
        needs::needs(arguments, named.as_ref(), out)?;
        return Ok(out.flush()?);
    }
    let mut harp = situation::harp(&arguments.harp)?;
    if let Some(open) = arguments.open {
        harp = harp.with_open(open)?;
    }
    let sheet = harp.sheet(arguments.harp.a4.unwrap_or(ReferencePitch::A440));
    if arguments.toml {
        write!(out, "{}", harp.to_toml())?;
    } else if arguments.shown.json {
        for string in &sheet {
            serde_json::to_writer(&mut *out, &StringLine::from(string))
                .map_err(std::io::Error::from)?;
            writeln!(out)?;
        }
    } else {
        table(&sheet, arguments.shown.names, out)?;
        blanks(&sheet, out)?;
    }
    Ok(out.flush()?)
}

impl From<&StringSheet> for StringLine {
    fn from(sheet: &StringSheet) -> StringLine {
        let given = |figure: &Figure| figure.as_ref().ok().copied();
        StringLine {
            string: sheet.string.to_string(),
            harp_number: sheet.harp_number.clone(),
            colour: sheet.colour.as_str(),
            discless: sheet.discless,
            target_hz: TargetsLine {
                flat: sheet.target_hz.flat,
                natural: sheet.target_hz.natural,
                sharp: sheet.target_hz.sharp,
            },
            length_mm: given(&sheet.length_mm),
            gauge_mm: given(&sheet.gauge_mm),
            material: sheet.material.map(|material| material.to_string()),
            tension_n: given(&sheet.tension_n),
            stress_mpa: given(&sheet.stress_mpa),
            break_share: given(&sheet.break_share),
            b: given(&sheet.b),
            stretch_cents: given(&sheet.stretch_cents),
            cents_per_degree: given(&sheet.cents_per_degree),
        }
    }
}

fn table(sheet: &[StringSheet], naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(
        out,
        "string  colour     flat Hz  natural Hz  sharp Hz  length mm  gauge mm  material     pull N  stress MPa  of breaking  cents/degree"
    )?;
    for string in sheet {
        let target = |alteration| match alteration {
            Alteration::Flat => string.target_hz.flat,
            Alteration::Natural => string.target_hz.natural,
            Alteration::Sharp => string.target_hz.sharp,
        };
        let hz = |alteration| number(target(alteration), 2);
        let figure = |figure: &Figure, places| number(figure.as_ref().ok().copied(), places);
        let material = string
            .material
            .map_or_else(|| "–".to_owned(), |m| m.to_string());
        let share = string.break_share.as_ref().ok().map(|share| share * 100.0);
        let share = share.map_or_else(|| "–".to_owned(), |share| format!("{share:.0} %"));
        writeln!(
            out,
            "{:<6}  {:<8}  {:>8}  {:>10}  {:>8}  {:>9}  {:>8}  {material:<11}  {:>6}  {:>10}  {share:>11}  {:>12}{}",
            naming.string(string.string),
            string.colour.as_str(),
            hz(Alteration::Flat),
            hz(Alteration::Natural),
            hz(Alteration::Sharp),
            figure(&string.length_mm, 1),
            figure(&string.gauge_mm, 2),
            figure(&string.tension_n, 0),
            figure(&string.stress_mpa, 0),
            figure(&string.cents_per_degree, 2),
            if string.discless { "  no discs" } else { "" },
        )?;
    }
    Ok(())
}

/// Says why what is blank is blank.
fn blanks(sheet: &[StringSheet], out: &mut dyn Write) -> std::io::Result<()> {
    let mut missing: BTreeMap<&'static str, usize> = BTreeMap::new();
    for string in sheet {
        for field in missing_of(string) {
            *missing.entry(field.name()).or_default() += 1;
        }
    }
    if missing.is_empty() {
        return Ok(());
    }
    let named: Vec<String> = missing
        .iter()
        .map(|(field, strings)| format!("{field} ({strings} strings)"))
        .collect();
    writeln!(
        out,
        "\n– is blank because it was not given: {}.\nNothing is guessed. `sevenflats strings --toml` prints a file to fill in; name it with --harp.",
        named.join(", ")
    )
}

fn missing_of(string: &StringSheet) -> Vec<Field> {
    let figures = [
        &string.length_mm,
        &string.gauge_mm,
        &string.tension_n,
        &string.stress_mpa,
        &string.break_share,
        &string.b,
        &string.stretch_cents,
        &string.cents_per_degree,
    ];
    let mut fields = Vec::new();
    for blank in figures
        .into_iter()
        .filter_map(|figure| figure.as_ref().err())
    {
        for &field in &blank.missing {
            if !fields.contains(&field) {
                fields.push(field);
            }
        }
    }
    fields
}

fn number(value: Option<f64>, places: usize) -> String {
    value.map_or_else(|| "–".to_owned(), |value| format!("{value:.places$}"))
}
