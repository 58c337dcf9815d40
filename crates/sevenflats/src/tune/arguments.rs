//! What may be said after `sevenflats tune`.

use std::path::PathBuf;

use clap::Args;
use harp::StringName;
use pitch::ReferencePitch;
use tuning::round::{Order, Tolerance};

use crate::arguments::{HarpArguments, RawArguments, ShownArguments, StandArguments, a4, listen_s};

/// Tolerances that make sense, in cents.
const TOLERANCE_CENTS: std::ops::RangeInclusive<f64> = 0.5..=50.0;

/// What belongs to tuning, and not to taking the A.
const TUNING: [&str; 11] = [
    "demo",
    "a4",
    "order",
    "tolerance",
    "touch_up",
    "string",
    "new",
    "broken",
    "said",
    "picture",
    "listen_s",
];

/// `sevenflats tune`.
#[derive(Debug, Args)]
pub struct TuneArguments {
    /// A recording of the round (WAV, FLAC or MP3); '-' for raw samples of one channel on standard
    /// input, from any recorder
    #[arg(long, value_name = "FILE", default_value = "-")]
    pub from: PathBuf,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub raw: RawArguments,

    /// Make an invented round, keep it as this WAV file, and tune by that
    #[arg(long, value_name = "FILE", conflicts_with_all = ["from", "rate"])]
    pub demo: Option<PathBuf>,

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

    /// The order in which strings are asked for: a string (from there down, then up), middle-octave,
    /// bass, letters, octaves, or your own list of strings with commas between [default: 4G]
    #[arg(long, value_parser = order)]
    pub order: Option<Order>,

    /// Cents either way that are called in tune: one for all strings, or two with a comma between, for
    /// C3 to C7 and for the others [default: 3,5]
    #[arg(long, value_name = "CENTS", value_parser = tolerance)]
    pub tolerance: Option<Tolerance>,

    /// Only these strings, in the pedals or levers that stand: second best to a whole round
    #[arg(long, value_name = "STRINGS", value_delimiter = ',')]
    pub touch_up: Option<Vec<StringName>>,

    /// The string that is plucked first, however far off it is
    #[arg(long)]
    pub string: Option<StringName>,

    /// Strings fitted new, which climb from far below
    #[arg(long, value_name = "STRINGS", value_delimiter = ',')]
    pub new: Vec<StringName>,

    /// Broken strings, played without
    #[arg(long, value_name = "STRINGS", value_delimiter = ',')]
    pub broken: Vec<StringName>,

    /// The reference pitch at which this harp usually stands, if another than tonight's
    #[arg(long, value_name = "HZ", value_parser = a4)]
    pub usual_a4: Option<ReferencePitch>,

    /// What you say during the round, a line each: seconds, then what, as in '42.5 skip 4G'; or a
    /// terminal (/dev/tty) or a pipe, to say it live; '--said help' lists what can be said
    #[arg(long, value_name = "FILE")]
    pub said: Option<PathBuf>,

    /// Take the A from the sound: a note that somebody holds, alone, for three seconds or more (an A4
    /// unless you name another); nothing is tuned
    #[arg(long, value_name = "NOTE", num_args = 0..=1, default_missing_value = "A4", value_parser = note, conflicts_with_all = TUNING)]
    pub take_a: Option<pitch::SpelledPitch>,

    /// Draw the harp as the round left it, as this SVG file
    #[arg(long, value_name = "FILE")]
    pub picture: Option<PathBuf>,

    /// The picture's size: phone, tablet, desk, or paper (A4 upright)
    #[arg(long, value_name = "SIZE", default_value = "desk", value_parser = size, requires = "picture")]
    pub picture_size: sheet::Size,

    /// The picture in light ink on dark paper
    #[arg(long, requires = "picture")]
    pub picture_dark: bool,

    /// Seconds to listen to each pluck; the next pluck ends it earlier
    #[arg(long, default_value_t = 0.6, value_parser = listen_s)]
    pub listen_s: f64,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub shown: ShownArguments,
}

fn size(text: &str) -> Result<sheet::Size, String> {
    match text.to_lowercase().as_str() {
        "phone" => Ok(sheet::Size::Phone),
        "tablet" => Ok(sheet::Size::Tablet),
        "desk" => Ok(sheet::Size::Desk),
        "paper" => Ok(sheet::Size::Paper),
        _ => Err("the sizes are phone, tablet, desk and paper".to_owned()),
    }
}

pub(crate) fn order(text: &str) -> Result<Order, String> {
    match text.to_lowercase().as_str() {
        "middle-octave" => return Ok(Order::MiddleOctave),
        "bass" => return Ok(Order::FromBass),
        "letters" => return Ok(Order::Letters),
        "octaves" => return Ok(Order::Octaves),
        _ => {}
    }
    let strings: Result<Vec<StringName>, _> = text.split(',').map(|s| s.trim().parse()).collect();
    match strings.as_deref() {
        Ok([first]) => Ok(Order::FromMiddle(*first)),
        Ok(list) => Ok(Order::List(list.to_vec())),
        Err(_) => Err("an order is a string, as in 4G, or middle-octave, bass, letters, octaves, or strings with commas between".to_owned()),
    }
}

fn tolerance(text: &str) -> Result<Tolerance, String> {
    let number = |word: &str| {
        let cents: Option<f64> = word.trim().parse().ok();
        cents
            .filter(|c| TOLERANCE_CENTS.contains(c))
            .ok_or_else(|| {
                format!(
                    "'{word}' is no tolerance: {} to {} cents, as in 3 or 3,5",
                    TOLERANCE_CENTS.start(),
                    TOLERANCE_CENTS.end()
                )
            })
    };
    match text.split_once(',') {
        None => Ok(Tolerance::everywhere(number(text)?)),
        Some((middle, outer)) => Ok(Tolerance {
            middle_cents: number(middle)?,
            outer_cents: number(outer)?,
        }),
    }
}

fn note(text: &str) -> Result<pitch::SpelledPitch, String> {
    text.parse()
        .map_err(|error: pitch::SpellingError| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn orders_are_named_in_the_trades_words_or_listed() {
        let string = |s: &str| s.parse::<StringName>().unwrap();
        let check = |text: &str, expected: Order| assert_eq!(order(text), Ok(expected));
        check("4C", Order::FromMiddle(string("C4")));
        check("middle-octave", Order::MiddleOctave);
        check("Bass", Order::FromBass);
        check("letters", Order::Letters);
        check("octaves", Order::Octaves);
        check("4G, 3A", Order::List(vec![string("G3"), string("A4")]));
        assert!(order("sideways").unwrap_err().contains("an order is"));
    }

    #[test]
    fn a_picture_has_one_of_four_sizes() {
        assert_eq!(size("Paper"), Ok(sheet::Size::Paper));
        assert!(size("wall").unwrap_err().contains("phone, tablet"));
    }

    #[test]
    fn a_tolerance_is_one_figure_or_two() {
        assert_eq!(tolerance("2"), Ok(Tolerance::everywhere(2.0)));
        let two = Tolerance {
            middle_cents: 2.0,
            outer_cents: 6.0,
        };
        assert_eq!(tolerance("2, 6"), Ok(two));
        for text in ["0", "-3", "3,x", "nan", "500"] {
            assert!(tolerance(text).unwrap_err().contains("as in 3"), "{text}");
        }
    }
}
