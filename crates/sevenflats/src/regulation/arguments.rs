//! What may be said after `sevenflats regulation`.

use std::path::PathBuf;

use clap::Args;
use harp::{OpenTuning, StringName};
use pitch::SpelledPitch;

use crate::arguments::{
    HarpArguments, RawArguments, ShownArguments, discless, listen_s, open_tuning,
};
use crate::printed::PrintArguments;

/// `sevenflats regulation`.
#[derive(Debug, Args)]
pub struct RegulationArguments {
    /// A recording of the check (WAV, FLAC or MP3); '-' for raw samples of one channel on standard
    /// input, from any recorder
    #[arg(long, value_name = "FILE", default_value = "-")]
    pub from: PathBuf,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub raw: RawArguments,

    /// Make an invented check of a few strings, keep it as this WAV file, and hear that
    #[arg(long, value_name = "FILE", conflicts_with_all = ["from", "rate", "harp", "strings", "minutes"])]
    pub demo: Option<PathBuf>,

    /// Say how many strings there is time for and how long it takes, and end
    #[arg(long, conflicts_with_all = ["from", "rate", "demo"])]
    pub how_long: bool,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub harp: HarpArguments,

    /// The key in which a lever harp stands with all levers off: Eb, C, F or Ab
    #[arg(long, value_name = "KEY", value_parser = open_tuning)]
    pub open: Option<OpenTuning>,

    /// What strings without discs are tuned to: C1=Cn1,D1=Db1 [default: as with all pedals up]
    #[arg(long, value_name = "STRING=PITCH", value_delimiter = ',', value_parser = discless)]
    pub discless: Vec<(StringName, SpelledPitch)>,

    /// Only these strings
    #[arg(long, value_name = "STRINGS", value_delimiter = ',')]
    pub strings: Option<Vec<StringName>>,

    /// Only as many strings as there is time for, those that matter most first
    #[arg(long, value_name = "MINUTES", value_parser = minutes, conflicts_with = "strings")]
    pub minutes: Option<f64>,

    /// Strings that were fitted less than two weeks ago: shown and not judged
    #[arg(long, value_name = "STRINGS", value_delimiter = ',')]
    pub new: Vec<StringName>,

    /// What you say meanwhile, as in 'tune': skip 4G, finish
    #[arg(long, value_name = "FILE")]
    pub said: Option<PathBuf>,

    /// An earlier check, as --json told it, to stand beside this one: before and after a visit
    #[arg(long, value_name = "FILE")]
    pub before: Option<PathBuf>,

    /// Keep the check in the diary, in FILE or in its usual place. Strings put on less than two weeks ago are then known from it,
    /// and so is the check before, unless --before names another
    #[arg(long, value_name = "FILE", num_args = 0..=1, conflicts_with = "demo")]
    pub diary: Option<Option<PathBuf>>,

    /// The harp's name in the diary [default: its kind, lowest and highest string, as the page writes it: 'pedal C1 G7']
    #[arg(long, value_name = "NAME", requires = "diary")]
    pub called: Option<String>,

    /// Keep the figures as a table for your technician, as this CSV file
    #[arg(long, value_name = "FILE")]
    pub csv: Option<PathBuf>,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub print: PrintArguments,

    /// Seconds to listen to each pluck; the next pluck ends it earlier
    #[arg(long, default_value_t = 0.8, value_parser = listen_s)]
    pub listen_s: f64,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub shown: ShownArguments,
}

fn minutes(text: &str) -> Result<f64, String> {
    let minutes: Option<f64> = text.parse().ok();
    minutes
        .filter(|minutes| (0.5..=600.0).contains(minutes))
        .ok_or_else(|| "a number of minutes, 0.5 to 600".to_owned())
}
