//! What may be said on the command line.

use std::ops::RangeInclusive;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};
use harp::{OpenTuning, Position, Setting, StringName};
use pitch::{ReferencePitch, SpelledPitch};

pub use crate::diary::arguments::DiaryArguments;
pub use crate::forecast::arguments::ForecastArguments;
pub use crate::handout::arguments::HandoutArguments;
pub use crate::plan::arguments::PlanArguments;
pub use crate::programme::arguments::ProgrammeArguments;
pub use crate::regulation::arguments::RegulationArguments;
use crate::serve;
pub use crate::serve::arguments::ServeArguments;
use crate::sound::{HIGHEST_RATE_HZ, LOWEST_RATE_HZ, PcmFormat};
pub use crate::tune::arguments::TuneArguments;
use harp::Naming;

/// How long a pluck may be listened to, in seconds.
const LISTEN_S: RangeInclusive<f64> = 0.05..=10.0;

/// For a working harpist: know the harp, prepare the programme, tune, check, keep, teach.
#[derive(Debug, Parser)]
#[command(name = "sevenflats", version, after_help = EXIT_CODES, max_term_width = 100)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

const EXIT_CODES: &str = "Exit codes: 0 done; 1 something could not be read, or nothing was heard in it; \
2 the command is not understood, or asks for what the harp does not have.";

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Name every pluck in recordings: which string, how far off, how sure
    #[command(after_help = EXIT_CODES)]
    Hear(HearArguments),
    /// Tune a whole harp, string by string, by what it sounds like
    #[command(after_help = EXIT_CODES)]
    Tune(Box<TuneArguments>),
    /// List the harp's strings: names, targets and what is known of each
    #[command(after_help = EXIT_CODES)]
    Strings(StringsArguments),
    /// Plan a score: the opening pedals or levers, every change, what cannot be had
    #[command(after_help = EXIT_CODES)]
    Plan(Box<PlanArguments>),
    /// Prepare an evening: what is set and turned before each piece, which strings matter, a page for the stage
    #[command(after_help = EXIT_CODES)]
    Programme(Box<ProgrammeArguments>),
    /// The diary in its file: take in, give out, show, look through, back up, restore
    Diary(DiaryArguments),
    /// Check the regulation: what each disc or lever makes of its string, and whose the fault is
    #[command(after_help = EXIT_CODES)]
    Regulation(Box<RegulationArguments>),
    /// Say where each string will be at a time, and which to touch first
    #[command(after_help = EXIT_CODES)]
    Forecast(Box<ForecastArguments>),
    /// Print what a student takes home: her own harp's strings, a round, a new string, what to beware of
    #[command(after_help = EXIT_CODES)]
    Handout(Box<HandoutArguments>),
    /// Serve the page to the browsers of this machine, and to no other
    #[command(after_help = serve::arguments::EXIT_CODES)]
    Serve(ServeArguments),
}

/// `sevenflats hear`.
#[derive(Debug, Args)]
pub struct HearArguments {
    /// Recordings (WAV, FLAC or MP3); '-' for raw samples of one channel on standard input
    #[arg(required_unless_present = "demo", value_name = "FILE")]
    pub files: Vec<PathBuf>,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub harp: HarpArguments,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub stand: StandArguments,

    /// The string that is plucked, however far off it is: G3 or 4G
    #[arg(long)]
    pub string: Option<StringName>,

    /// Seconds to listen to each pluck; the next pluck ends it earlier
    #[arg(long, default_value_t = 0.6, value_parser = listen_s)]
    pub listen_s: f64,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub raw: RawArguments,

    /// Make an invented round, keep it as this WAV file, and hear that
    #[arg(long, value_name = "FILE", conflicts_with = "files")]
    pub demo: Option<PathBuf>,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub shown: ShownArguments,
}

/// What the raw samples on '-' are.
#[derive(Clone, Copy, Debug, Args)]
pub struct RawArguments {
    /// Sampling rate of the raw samples on '-', in hertz
    #[arg(long, value_name = "HZ", value_parser = clap::value_parser!(u32).range(LOWEST_RATE_HZ as i64..=HIGHEST_RATE_HZ as i64))]
    pub rate: Option<u32>,

    /// How the raw samples on '-' are written
    #[arg(long, default_value = "s16le", requires = "rate")]
    pub format: PcmFormat,
}

/// `sevenflats strings`.
#[derive(Debug, Args)]
pub struct StringsArguments {
    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub harp: HarpArguments,

    /// The key in which a lever harp stands with all levers off: Eb, C, F or Ab
    #[arg(long, value_name = "KEY", value_parser = open_tuning)]
    pub open: Option<OpenTuning>,

    /// Print the harp as a commented file, to fill in with your own figures
    #[arg(long, conflicts_with = "json")]
    pub toml: bool,

    /// What each string needs, from what the diary knows: its age, whether it is due, what is asked about it, spares and what to
    /// order; --harp is then a harp's name in the diary [default file: as for `sevenflats diary`]
    #[arg(long, value_name = "FILE", num_args = 0..=1, conflicts_with_all = ["toml", "open"])]
    pub diary: Option<Option<PathBuf>>,

    /// The harp is played every day, for a living: its strings are due earlier
    #[arg(long, requires = "diary")]
    pub professional: bool,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub shown: ShownArguments,
}

/// The harp that is meant where none is named.
pub(crate) const USUAL_HARP: &str = "pedal47";

/// Which harp, at which reference pitch.
#[derive(Debug, Args)]
pub struct HarpArguments {
    /// A harp by name (pedal47, pedal46, pedal44, pedal40, lever38, lever36, lever34, lever26,
    /// lever22, semitones) or your own harp's TOML file
    #[arg(long, value_name = "NAME|FILE", default_value = USUAL_HARP)]
    pub harp: String,

    /// The reference pitch: the frequency of the A above middle C, 380 to 480 [default: 440, the
    /// demo's 442]
    #[arg(long, value_name = "HZ", value_parser = a4)]
    pub a4: Option<ReferencePitch>,
}

/// Where the pedals, levers and strings without discs stand.
#[derive(Debug, Args)]
pub struct StandArguments {
    /// The key in which a lever harp stands with all levers off: Eb, C, F or Ab
    #[arg(long, value_name = "KEY", value_parser = open_tuning)]
    pub open: Option<OpenTuning>,

    /// Where all pedals or levers stand: open, natural or sharp
    #[arg(long, default_value = "open", value_parser = position)]
    pub position: Position,

    /// The pedals one by one, -1 flat, 0 natural, 1 sharp: '{"D":0,"C":-1,"B":-1,"E":0,"F":0,"G":1,"A":-1}'
    #[arg(long, value_name = "JSON")]
    pub setting: Option<Setting>,

    /// Strings whose lever is on: E4,A3
    #[arg(long, value_name = "STRINGS", value_delimiter = ',')]
    pub levers: Vec<StringName>,

    /// What strings without discs are tuned to, where not as the position says: C1=Cn1,D1=Db1
    #[arg(long, value_name = "STRING=PITCH", value_delimiter = ',', value_parser = discless)]
    pub discless: Vec<(StringName, SpelledPitch)>,
}

/// How the answer is shown.
#[derive(Debug, Args)]
pub struct ShownArguments {
    /// How strings and notes are named: harp (4G) or scientific (G3), english, german or solfege;
    /// one of each with a comma between
    #[arg(long, default_value = "harp,english")]
    pub names: Naming,

    /// For programs: one JSON object a line
    #[arg(long)]
    pub json: bool,
}

pub(crate) fn a4(text: &str) -> Result<ReferencePitch, String> {
    let a4_hz: f64 = text
        .parse()
        .map_err(|_| "not a number of hertz, as in 442".to_owned())?;
    ReferencePitch::new(a4_hz).map_err(|error| error.to_string())
}

pub(crate) fn listen_s(text: &str) -> Result<f64, String> {
    let seconds: f64 = text
        .parse()
        .map_err(|_| "not a number of seconds, as in 0.6".to_owned())?;
    if LISTEN_S.contains(&seconds) {
        Ok(seconds)
    } else {
        Err(format!(
            "between {} and {} seconds",
            LISTEN_S.start(),
            LISTEN_S.end()
        ))
    }
}

pub(crate) fn open_tuning(text: &str) -> Result<OpenTuning, String> {
    OpenTuning::from_name(text).ok_or_else(|| "the keys are Eb, C, F and Ab".to_owned())
}

fn position(text: &str) -> Result<Position, String> {
    Position::from_name(text).ok_or_else(|| "the positions are open, natural and sharp".to_owned())
}

pub(crate) fn discless(text: &str) -> Result<(StringName, SpelledPitch), String> {
    let (string, pitch) = text
        .split_once('=')
        .ok_or_else(|| "a string, '=' and its pitch, as in C1=Cn1".to_owned())?;
    let string = string
        .trim()
        .parse::<StringName>()
        .map_err(|error| error.to_string())?;
    let pitch = pitch
        .trim()
        .parse::<SpelledPitch>()
        .map_err(|error| error.to_string())?;
    Ok((string, pitch))
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_consistent() {
        Arguments::command().debug_assert();
    }

    fn check(words: &[&str], message: &str) {
        let words = ["sevenflats", "hear", "round.wav"].iter().chain(words);
        let error = Arguments::try_parse_from(words).unwrap_err().to_string();
        assert!(error.contains(message), "{error}");
    }

    #[test]
    fn what_cannot_be_is_said_with_what_can() {
        check(&["--a4", "4400"], "between 380 and 480 Hz");
        check(&["--a4", "A"], "not a number of hertz");
        check(&["--open", "G"], "the keys are Eb, C, F and Ab");
        check(&["--position", "flattish"], "open, natural and sharp");
        check(&["--setting", "{\"D\":2}"], "D is set to 2");
        check(&["--levers", "E4,X9"], "'X9' names no string");
        check(&["--discless", "C1"], "as in C1=Cn1");
        check(&["--discless", "C1=Hn1"], "'Hn1' is no pitch");
        check(&["--string", "G33"], "'G33' names no string");
        check(&["--listen-s", "0"], "between 0.05 and 10 seconds");
        check(&["--names", "loud"], "'loud' is no way of naming");
        check(&["--rate", "100"], "8000..=192000");
    }
}
