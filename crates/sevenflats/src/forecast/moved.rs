//! `sevenflats forecast --move-to`: the whole harp moved to another pitch.

use std::collections::BTreeMap;
use std::io::Write;

use ::diary::{HarpKnown, Known, Moment};
use forecast::{Change, ChangeAsk, change, learn};
use harp::Naming;
use pitch::{ReferencePitch, Tongue};
use serde::Serialize;

use super::arguments::ForecastArguments;
use super::{harp_of, stands_at, when};
use crate::diary::place;
use crate::trouble::Trouble;

pub(super) fn tell(
    arguments: &ForecastArguments,
    all: &Known,
    known: &HarpKnown,
    to: ReferencePitch,
    out: &mut dyn Write,
) -> Result<(), Trouble> {
    let harp = keep::strung(&harp_of(known)?, known);
    let told = change(
        &ChangeAsk {
            harp: &harp,
            known,
            air: &all.air,
            from: stands_at(arguments, known),
            to,
            usual_a4_hz: arguments.usual_a4.map(ReferencePitch::a4_hz),
            now: Moment::of(&place::now()),
            when: when(arguments),
        },
        &learn(&harp, known, &all.air),
    );
    match arguments.shown.json {
        true => json(&known.harp, &told, out)?,
        false => page(&known.harp, &told, arguments.shown.names, out)?,
    }
    Ok(())
}

#[derive(Serialize)]
struct Line<'a> {
    harp: &'a str,
    from_a4_hz: f64,
    to_a4_hz: f64,
    usual_a4_hz: f64,
    cents: f64,
    load_n: LoadLine,
    strings: Vec<StringLine>,
    passes: Vec<PassLine>,
    passes_why: String,
    /// The order of every pass.
    order: Vec<String>,
    /// Of the first pass; `null` where nothing is brought past its place.
    overshoot_cents: Option<BTreeMap<String, PastLine>>,
    overshoot_why: Vec<String>,
    start_by: String,
    start_why: String,
    late: bool,
    ask_technician: bool,
    cautions: Vec<String>,
}

#[derive(Serialize)]
struct LoadLine {
    /// `null` where no string's figures are known.
    before: Option<f64>,
    after: Option<f64>,
    strings_known: usize,
    strings_unknown: usize,
}

#[derive(Serialize)]
struct StringLine {
    string: String,
    move_cents: f64,
}

#[derive(Serialize)]
struct PassLine {
    by: String,
    overshoots: bool,
}

#[derive(Serialize)]
struct PastLine {
    cents: f64,
    u95_cents: f64,
}

fn json(harp: &str, told: &Change, out: &mut dyn Write) -> std::io::Result<()> {
    let words = told.words(Tongue::English);
    let past: BTreeMap<String, PastLine> = told
        .strings
        .iter()
        .filter_map(|one| Some((one.string.to_string(), one.overshoot?)))
        .map(|(string, past)| {
            let line = PastLine {
                cents: past.cents,
                u95_cents: past.u95_cents,
            };
            (string, line)
        })
        .collect();
    let load = told.load;
    let known = |n: f64| (load.strings_known > 0).then_some(n);
    let strings = told.strings.iter().map(|one| StringLine {
        string: one.string.to_string(),
        move_cents: one.move_cents,
    });
    let passes = told.passes.iter().map(|pass| PassLine {
        by: pass.by.to_string(),
        overshoots: pass.overshoots,
    });
    let line = Line {
        harp,
        from_a4_hz: told.from_a4_hz,
        to_a4_hz: told.to_a4_hz,
        usual_a4_hz: told.usual_a4_hz,
        cents: told.cents,
        load_n: LoadLine {
            before: known(load.before_n),
            after: known(load.after_n),
            strings_known: load.strings_known,
            strings_unknown: load.strings_unknown,
        },
        strings: strings.collect(),
        passes: passes.collect(),
        passes_why: words.passes,
        order: told.order.iter().map(ToString::to_string).collect(),
        overshoot_cents: (!past.is_empty()).then_some(past),
        overshoot_why: words.past,
        start_by: told.start_by.to_string(),
        start_why: words.start,
        late: told.late,
        ask_technician: told.ask_technician,
        cautions: words.cautions,
    };
    serde_json::to_writer(&mut *out, &line)?;
    writeln!(out)
}

fn page(harp: &str, told: &Change, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let tongue = Tongue::English;
    let words = told.words(tongue);
    writeln!(out, "{harp}. {}", words.headline)?;
    if let Some(ask) = &words.ask {
        writeln!(out, "{ask}")?;
    }
    writeln!(out, "{}\n\n{}", words.load, words.passes)?;
    for (at, pass) in told.passes.iter().enumerate() {
        writeln!(out, "  {}. by {}", at + 1, pass.by)?;
    }
    writeln!(out, "{}", words.start)?;
    if let Some(late) = &words.late {
        writeln!(out, "{late}")?;
    }
    let order: Vec<String> = told.order.iter().map(|s| naming.string(*s)).collect();
    writeln!(out, "\n{}\n  {}\n", words.order, order.join(" "))?;
    for past in &words.past {
        writeln!(out, "{past}")?;
    }
    writeln!(out, "\nstring   moves  past it")?;
    for one in &told.strings {
        let past = one.overshoot.map_or("–".to_owned(), |past| {
            format!(
                "{} ±{}",
                tongue.signed(past.cents),
                tongue.number(past.u95_cents, 1)
            )
        });
        writeln!(
            out,
            "{:<7} {:>6}  {past}",
            naming.string(one.string),
            tongue.signed(one.move_cents)
        )?;
    }
    writeln!(out)?;
    for caution in &words.cautions {
        writeln!(out, "- {caution}")?;
    }
    Ok(())
}
