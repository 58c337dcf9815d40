//! What may be said after `sevenflats plan`.

use std::ops::RangeInclusive;
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use harp::{OpenTuning, Setting, StringName};
use pedals::Quarters;
use pitch::{Alteration, Letter, ReferencePitch};

use crate::arguments::{ShownArguments, a4, open_tuning};
use crate::printed::PrintArguments;

/// Least times of a foot that make sense, in seconds.
const TAU_S: RangeInclusive<f64> = 0.0..=5.0;
/// Lengths of rests that make sense, in seconds.
const REST_S: RangeInclusive<f64> = 1.0..=3600.0;

/// `sevenflats plan`.
#[derive(Debug, Args)]
pub struct PlanArguments {
    /// The score: MusicXML (.musicxml, .xml, .mxl) or MIDI (.mid)
    #[arg(required_unless_present = "toml", value_name = "SCORE")]
    pub score: Option<PathBuf>,

    /// A harp by name (pedal47, pedal46, pedal44, pedal40, lever38, lever36, lever34, lever26,
    /// lever22) or your own harp's TOML file
    #[arg(long, value_name = "NAME|FILE", default_value = "pedal47")]
    pub harp: String,

    /// The part to plan: its name, a piece of it, its id, or its number from 1 [default: the harp's]
    #[arg(long, value_name = "NAME")]
    pub part: Option<String>,

    /// What a note marked as a harmonic is, where the score does not say: the string, or the sound
    #[arg(long, value_enum, default_value = "string")]
    pub harmonics: HarmonicsWord,

    /// Plan each bar once, as it is written
    #[arg(long)]
    pub no_repeats: bool,

    /// The least time between two moves of one foot, in seconds; 0 for feet that need none
    #[arg(long, value_name = "SECONDS", default_value_t = 0.4, value_parser = tau_s)]
    pub tau: f64,

    /// Fewest notes lost, then fewest moves, then fewest respellings
    #[arg(long, conflicts_with = "weights")]
    pub fewest: bool,

    /// Prices of your own: a TOML file; --toml prints one to fill in
    #[arg(long, value_name = "FILE")]
    pub weights: Option<PathBuf>,

    /// Whether notes may be played on another string than the written one
    #[arg(long, value_enum, default_value = "free")]
    pub spelling: SpellingWord,

    /// 'ignore': any register, and no strings without discs
    #[arg(long, value_enum, default_value = "harp")]
    pub octaves: OctavesWord,

    /// What feet may do beside the usual: cross over, two neighbouring pedals at once
    #[arg(long, value_enum, value_delimiter = ',', value_name = "cross,two")]
    pub allow: Vec<AllowWord>,

    /// Where the pedals stand at the beginning: '{"D":0,"C":-1,"B":-1}'
    #[arg(long, value_name = "JSON")]
    pub opening: Option<Setting>,

    /// Strings without discs may be retuned in rests of so many seconds
    #[arg(long, value_name = "SECONDS", value_parser = rest_s)]
    pub retune: Option<f64>,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub broken: BrokenArguments,

    /// Where a pedal must stand, at a measure (counted from 1) and beat: 12:1:F=sharp
    #[arg(long, value_name = "MEASURE:BEAT:PEDAL=WHERE", value_delimiter = ',', value_parser = pin)]
    pub pin: Vec<PinWord>,

    /// Open tunings of a lever harp that you allow: Eb,C,F,Ab
    #[arg(long, value_name = "KEYS", value_delimiter = ',', value_parser = open_tuning)]
    pub open: Vec<OpenTuning>,

    /// Write the score again with the plan in it, and nothing else changed, as this MusicXML file
    #[arg(long, value_name = "FILE")]
    pub score_out: Option<PathBuf>,

    /// The reference pitch that the printed sheet names, in hertz
    #[arg(long, value_name = "HZ", default_value = "440", value_parser = a4)]
    pub a4: ReferencePitch,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub print: PrintArguments,

    /// Print the prices as a commented file, to fill in with your own
    #[arg(long, conflicts_with = "json")]
    pub toml: bool,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub shown: ShownArguments,
}

/// What is broken.
#[derive(Clone, Debug, Default, Args)]
pub struct BrokenArguments {
    /// Pedals that are stuck, and where: F=sharp
    #[arg(long, value_name = "PEDAL=WHERE", value_delimiter = ',', value_parser = stuck)]
    pub stuck: Vec<(Letter, Alteration)>,

    /// Strings that are missing: 5A
    #[arg(long, value_name = "STRINGS", value_delimiter = ',')]
    pub missing: Vec<StringName>,

    /// Strings whose disc fails, and where: 4F=sharp
    #[arg(long, value_name = "STRING=WHERE", value_delimiter = ',', value_parser = dead)]
    pub dead: Vec<(StringName, Alteration)>,
}

/// After `--harmonics`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum HarmonicsWord {
    /// The written note is the string; it sounds an octave higher
    String,
    /// The written note is what sounds
    Sounding,
}

/// After `--spelling`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SpellingWord {
    /// Where it is worth it
    Free,
    /// Only where there is no other way
    Written,
}

/// After `--octaves`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum OctavesWord {
    /// The harp's own strings
    Harp,
    /// Every register, all strings with discs
    Ignore,
}

/// After `--allow`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum AllowWord {
    /// The right foot may take B, the left E
    Cross,
    /// One foot may take two neighbouring pedals at once
    Two,
}

/// After `--pin`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PinWord {
    /// The written measure, from 1.
    pub measure: u32,
    /// Quarters, the first is 1.
    pub beat: Quarters,
    /// The pedal.
    pub pedal: Letter,
    /// Where it stands.
    pub to: Alteration,
}

fn tau_s(text: &str) -> Result<f64, String> {
    seconds(text, TAU_S)
}

fn rest_s(text: &str) -> Result<f64, String> {
    seconds(text, REST_S)
}

fn seconds(text: &str, within: RangeInclusive<f64>) -> Result<f64, String> {
    let seconds: f64 = text
        .parse()
        .map_err(|_| "not a number of seconds, as in 0.4".to_owned())?;
    if within.contains(&seconds) {
        Ok(seconds)
    } else {
        let (least, most) = (within.start(), within.end());
        Err(format!("between {least} and {most} seconds"))
    }
}

fn stuck(text: &str) -> Result<(Letter, Alteration), String> {
    let form = || "a pedal, '=' and flat, natural or sharp, as in F=sharp".to_owned();
    let (pedal, place) = text.split_once('=').ok_or_else(form)?;
    let mut signs = pedal.trim().chars();
    let letter = signs.next().and_then(Letter::from_char).ok_or_else(form)?;
    match signs.next() {
        None => Ok((letter, alteration(place).ok_or_else(form)?)),
        Some(_) => Err(form()),
    }
}

fn dead(text: &str) -> Result<(StringName, Alteration), String> {
    let form = || "a string, '=' and natural or sharp, as in 4F=sharp".to_owned();
    let (string, place) = text.split_once('=').ok_or_else(form)?;
    let string = string.trim().parse::<StringName>();
    let string = string.map_err(|error| error.to_string())?;
    Ok((string, alteration(place).ok_or_else(form)?))
}

fn pin(text: &str) -> Result<PinWord, String> {
    let form = || "a measure, a beat and where a pedal stands, as in 12:5/2:F=sharp".to_owned();
    let mut parts = text.splitn(3, ':');
    let mut part = || parts.next().ok_or_else(form);
    let (measure, beat, place) = (part()?, part()?, part()?);
    let (pedal, to) = stuck(place)?;
    Ok(PinWord {
        measure: measure.trim().parse().map_err(|_| form())?,
        beat: quarters(beat.trim()).ok_or_else(form)?,
        pedal,
        to,
    })
}

fn quarters(text: &str) -> Option<Quarters> {
    let (above, below) = text.split_once('/').unwrap_or((text, "1"));
    let below: i64 = below.parse().ok()?;
    (below > 0).then_some(Quarters::new(above.parse().ok()?, below))
}

fn alteration(word: &str) -> Option<Alteration> {
    let all = [Alteration::Flat, Alteration::Natural, Alteration::Sharp];
    all.into_iter().find(|place| place.as_str() == word.trim())
}

#[cfg(test)]
mod tests {
    use clap::Parser;

    use crate::arguments::Arguments;

    fn check(words: &[&str], message: &str) {
        let words = ["sevenflats", "plan", "piece.mxl"].iter().chain(words);
        let error = Arguments::try_parse_from(words).unwrap_err().to_string();
        assert!(error.contains(message), "{error}");
    }

    #[test]
    fn what_cannot_be_is_said_with_what_can() {
        check(&["--tau", "9"], "between 0 and 5 seconds");
        check(&["--tau", "soon"], "as in 0.4");
        check(&["--stuck", "F"], "as in F=sharp");
        check(&["--stuck", "H=sharp"], "as in F=sharp");
        check(&["--stuck", "FF=sharp"], "as in F=sharp");
        check(&["--missing", "9X"], "'9X' names no string");
        check(&["--dead", "4F"], "as in 4F=sharp");
        check(&["--pin", "12:F=sharp"], "as in 12:5/2:F=sharp");
        check(&["--pin", "12:1/0:F=sharp"], "as in 12:5/2:F=sharp");
        check(&["--spelling", "loose"], "free");
        check(&["--allow", "jump"], "cross");
        check(
            &["--fewest", "--weights", "mine.toml"],
            "cannot be used with",
        );
    }
}
