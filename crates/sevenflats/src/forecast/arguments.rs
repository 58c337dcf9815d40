//! What may be said after `sevenflats forecast`.

use std::path::PathBuf;

use ::diary::{At, Moment};
use clap::Args;
use forecast::AirNow;
use pitch::ReferencePitch;

use crate::arguments::{ShownArguments, a4};

/// `sevenflats forecast`.
#[derive(Debug, Args)]
pub struct ForecastArguments {
    /// The diary [default: the usual file of `sevenflats diary`]
    #[arg(long, value_name = "FILE")]
    pub diary: Option<PathBuf>,

    /// A harp's name in the diary [default: the one that was tuned last]
    #[arg(long, value_name = "NAME")]
    pub harp: Option<String>,

    /// When: a time as in 2026-11-26T18:40:00Z, or so many minutes from now as in +90 [default: now]
    #[arg(long, value_name = "TIME", value_parser = when, default_value = "+0", allow_hyphen_values = true)]
    pub at: When,

    /// The air then: °C and per cent of humidity, as in 21.5,45
    #[arg(long, value_name = "C,PERCENT", value_parser = air)]
    pub air: Option<AirNow>,

    /// The evening's file, as for `sevenflats programme`: strings that are played more count more
    #[arg(long, value_name = "EVENING")]
    pub programme: Option<PathBuf>,

    /// The reference pitch: the A above middle C in Hz, 380 to 480 [default: as the harp was tuned last]
    #[arg(long, value_name = "HZ", value_parser = a4)]
    pub a4: Option<ReferencePitch>,

    /// Move the whole harp: the A4 in Hz that is wanted by the time of --at, 380 to 480
    #[arg(long, value_name = "HZ", value_parser = a4, conflicts_with_all = ["minutes", "programme", "air", "tolerance"])]
    pub move_to: Option<ReferencePitch>,

    /// The harp's usual A4 in Hz: far above it a technician is asked first [default: what the diary shows]
    #[arg(long, value_name = "HZ", value_parser = a4, requires = "move_to")]
    pub usual_a4: Option<ReferencePitch>,

    /// How many minutes there are
    #[arg(long, value_name = "MINUTES", value_parser = minutes)]
    pub minutes: Option<f64>,

    /// How long a string takes you, seconds
    #[arg(long, value_name = "SECONDS", value_parser = seconds, default_value = "12.8")]
    pub seconds_per_string: f64,

    /// Cents within which a string is in tune, everywhere [default: 3 from C3 to C7, 5 elsewhere]
    #[arg(long, value_name = "CENTS", value_parser = cents)]
    pub tolerance: Option<f64>,

    /// How sure you want to be that no string is out, 0.5 to 0.99
    #[arg(long, value_name = "SHARE", value_parser = share, default_value = "0.9")]
    pub confidence: f64,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub shown: ShownArguments,
}

/// A moment, or so many seconds from now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum When {
    /// At that moment.
    At(Moment),
    /// So many seconds from now.
    In(f64),
}

fn when(text: &str) -> Result<When, String> {
    if let Some(minutes) = text.strip_prefix('+') {
        return within(minutes, 0.0, 1e6, "minutes").map(|minutes| When::In(60.0 * minutes));
    }
    let at: Result<At, _> = text.parse();
    at.map(|at| When::At(Moment::of(&at)))
        .map_err(|error| format!("{error}; or minutes from now, as in +90"))
}

fn air(text: &str) -> Result<AirNow, String> {
    let both = text.split_once(',').ok_or("two figures, as in 21.5,45")?;
    Ok(AirNow {
        temperature_c: Some(within(both.0, -20.0, 60.0, "°C")?),
        humidity_percent: Some(within(both.1, 0.0, 100.0, "per cent")?),
    })
}

fn minutes(text: &str) -> Result<f64, String> {
    within(text, 0.1, 600.0, "minutes")
}

fn seconds(text: &str) -> Result<f64, String> {
    within(text, 1.0, 600.0, "seconds")
}

fn cents(text: &str) -> Result<f64, String> {
    within(text, 0.5, 50.0, "cents")
}

fn share(text: &str) -> Result<f64, String> {
    within(text, 0.5, 0.99, "of one")
}

fn within(text: &str, least: f64, most: f64, unit: &str) -> Result<f64, String> {
    let figure: Option<f64> = text.trim().parse().ok();
    let figure = figure.filter(|figure| (least..=most).contains(figure));
    figure.ok_or(format!("{text}: from {least} to {most} {unit}"))
}
