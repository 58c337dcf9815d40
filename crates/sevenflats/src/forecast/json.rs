//! The forecast for programs: one object.

use std::io::Write;

use forecast::because_words;
use pitch::Tongue;
use serde::Serialize;

use super::Told;

#[derive(Serialize)]
struct Line<'a> {
    harp: &'a str,
    at: String,
    a4_hz: f64,
    /// Stretches of the diary that it rests on.
    rests_on: usize,
    strings: Vec<StringLine>,
    order: Vec<OrderLine>,
    in_tune: InTuneLine,
    /// What is expected to be left out of tune after the minutes that there are, as a share of all notes.
    left_out: Option<f64>,
}

#[derive(Serialize)]
struct StringLine {
    string: String,
    expected_cents: f64,
    u95_cents: f64,
    p_out: f64,
    why: Vec<String>,
}

#[derive(Serialize)]
struct OrderLine {
    string: String,
    p_out: f64,
    weight: f64,
    gain: f64,
}

#[derive(Serialize)]
struct InTuneLine {
    /// As it was asked for.
    confidence: f64,
    after_plucks: Option<usize>,
    /// How sure it is now that no string that is played is out.
    now: f64,
}

pub(super) fn write(told: &Told<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    let strings = told.ahead.strings.iter().map(|one| StringLine {
        string: one.string.to_string(),
        expected_cents: one.expected_cents,
        u95_cents: one.u95_cents,
        p_out: told.p_out(one.string),
        why: one
            .because
            .iter()
            .map(|why| because_words(why, Tongue::English))
            .collect(),
    });
    let order = told.order.iter().map(|next| OrderLine {
        string: next.string.to_string(),
        p_out: next.p_out,
        weight: next.weight,
        gain: next.gain,
    });
    let line = Line {
        harp: &told.known.harp,
        at: told.when.to_string(),
        a4_hz: told.a4_hz,
        rests_on: told.rests_on,
        strings: strings.collect(),
        order: order.collect(),
        in_tune: InTuneLine {
            confidence: told.asked,
            after_plucks: told.in_tune.after_plucks,
            now: told.in_tune.confidence,
        },
        left_out: told.left_out(),
    };
    serde_json::to_writer(&mut *out, &line)?;
    writeln!(out)
}
