//! The forecast for people.

use std::io::Write;

use forecast::because_words;
use harp::Naming;
use pitch::Tongue;

use super::Told;

/// Fewer stretches than this teach little of a harp.
const FEW: usize = 5;

pub(super) fn write(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let tongue = Tongue::English;
    writeln!(
        out,
        "{}, {}, A4 = {} Hz. Learned from {} {} that its strings were left and found again.",
        told.known.harp,
        told.when,
        tongue.number(told.a4_hz, 1),
        told.rests_on,
        if told.rests_on == 1 { "time" } else { "times" }
    )?;
    if told.rests_on < FEW {
        writeln!(
            out,
            "That is little: intervals are wide until some rounds are in the diary, with the air beside them."
        )?;
    }
    writeln!(out, "\nstring  expected  ±     out   why")?;
    for one in &told.ahead.strings {
        let why: Vec<String> = one
            .because
            .iter()
            .map(|why| because_words(why, tongue))
            .collect();
        writeln!(
            out,
            "{:<7} {:>7}  {:>5}  {:>3} %  {}",
            naming.string(one.string),
            tongue.signed(one.expected_cents),
            tongue.number(one.u95_cents, 1),
            tongue.number(100.0 * told.p_out(one.string), 0),
            why.join("; ")
        )?;
    }
    let order: Vec<String> = told
        .order
        .iter()
        .take(told.plucks.unwrap_or(12))
        .map(|next| naming.string(next.string))
        .collect();
    match told.plucks {
        Some(plucks) => writeln!(
            out,
            "\nFirst, in {} minutes ({plucks} strings): {}",
            told.minutes.unwrap_or_default(),
            order.join(" ")
        )?,
        None => writeln!(out, "\nFirst: {}", order.join(" "))?,
    }
    if let Some(left) = told.left_out() {
        writeln!(
            out,
            "After that {} % of all notes are expected out of tune.",
            tongue.number(100.0 * left, 0)
        )?;
    }
    let sure = tongue.number(100.0 * told.asked, 0);
    match told.in_tune.after_plucks {
        Some(0) => writeln!(
            out,
            "It may be called in tune now: {sure} % sure that no string is out."
        ),
        Some(plucks) => writeln!(
            out,
            "It may be called in tune after {plucks} strings: {sure} % sure then that no string is out."
        ),
        None => writeln!(
            out,
            "It cannot be called in tune, {sure} % sure, without plucking all of it."
        ),
    }
}
