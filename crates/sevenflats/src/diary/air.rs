//! The air that the diary knows: as it was read last, and before that where it is asked for.

use std::io::Write;

use ::diary::{Air, Known, Moment};
use serde::Serialize;

use super::arguments::ShowArguments;
use super::json::line;

#[derive(Serialize)]
#[serde(tag = "kind", rename = "air")]
struct AirLine<'a> {
    at: String,
    harp: Option<&'a str>,
    temperature_c: Option<f64>,
    humidity_percent: Option<f64>,
}

/// The readings that were asked for, from the first to the last: the last of each place, or so many of each; none where only
/// certain strings were asked for.
fn asked_for<'a>(known: &'a Known, asked: &ShowArguments) -> Vec<&'a (Moment, Air)> {
    if !asked.string.is_empty() {
        return Vec::new();
    }
    let most = asked.history.map_or(1, |most| most as usize);
    let of_harp = |air: &Air| asked.harp.is_none() || air.harp.is_none() || air.harp == asked.harp;
    let mut counts: Vec<(&Option<String>, usize)> = Vec::new();
    let mut latest: Vec<&(Moment, Air)> = Vec::new();
    for reading in known.air.iter().rev().filter(|(_, air)| of_harp(air)) {
        let place = &reading.1.harp;
        let at = counts.iter().position(|(known, _)| *known == place);
        let at = at.unwrap_or_else(|| {
            counts.push((place, 0));
            counts.len() - 1
        });
        if let Some((_, count)) = counts.get_mut(at)
            && *count < most
        {
            *count += 1;
            latest.push(reading);
        }
    }
    latest.reverse();
    latest
}

/// For people: a sentence for each.
pub(super) fn tell(
    known: &Known,
    asked: &ShowArguments,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let readings = asked_for(known, asked);
    for (when, air) in &readings {
        let temperature = air.temperature_c.map(|c| format!("{c:.1} °C"));
        let humidity = air.humidity_percent.map(|p| format!("{p:.0} % humidity"));
        let parts: Vec<String> = temperature.into_iter().chain(humidity).collect();
        let place = air
            .harp
            .as_ref()
            .map_or_else(String::new, |harp| format!(" at {harp}"));
        let minute: String = when.to_string().chars().take(16).collect();
        writeln!(
            out,
            "Air{place}: {}, on {}",
            parts.join(", "),
            minute.replace('T', " ")
        )?;
    }
    match readings.is_empty() {
        true => Ok(()),
        false => writeln!(out),
    }
}

/// For programs: a line for each.
pub(super) fn write(
    known: &Known,
    asked: &ShowArguments,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    for (when, air) in asked_for(known, asked) {
        let told = AirLine {
            at: when.to_string(),
            harp: air.harp.as_deref(),
            temperature_c: air.temperature_c,
            humidity_percent: air.humidity_percent,
        };
        line(&told, out)?;
    }
    Ok(())
}
