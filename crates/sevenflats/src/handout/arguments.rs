//! What may be said after `sevenflats handout`.

use std::path::PathBuf;

use clap::Args;
use harp::OpenTuning;
use pitch::Tongue;
use tuning::round::Order;

use crate::arguments::{HarpArguments, open_tuning};
use crate::printed::{PaperWord, sheet_file};
use crate::tune::arguments::order;

/// `sevenflats handout`.
#[derive(Debug, Args)]
pub struct HandoutArguments {
    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub harp: HarpArguments,

    /// The key in which a lever harp stands with all levers off: Eb, C, F or Ab
    #[arg(long, value_name = "KEY", value_parser = open_tuning)]
    pub open: Option<OpenTuning>,

    /// A harp from the diary, with the pitch that it was tuned to last; --harp is then its name there [default file: as for
    /// `sevenflats diary`]
    #[arg(long, value_name = "FILE", num_args = 0..=1)]
    pub diary: Option<Option<PathBuf>>,

    /// The order in which the student tunes: a string (from there down, then up), middle-octave, bass, letters, octaves, or a
    /// list of strings with commas between [default: 4G]
    #[arg(long, value_parser = order)]
    pub order: Option<Order>,

    /// The student's name, if it is to stand on the page
    #[arg(
        long,
        value_name = "NAME",
        default_value = "",
        hide_default_value = true
    )]
    pub student: String,

    /// The language of the words and of the notes' names: en, de or fr
    #[arg(long, value_name = "LANGUAGE", default_value = "en", value_parser = language)]
    pub language: Tongue,

    /// Where to write it: a .pdf file, or an .svg file for each page
    #[arg(long, value_name = "FILE", value_parser = sheet_file)]
    pub out: PathBuf,

    /// The paper
    #[arg(long, value_enum, default_value = "a4")]
    pub paper: PaperWord,

    /// For programs: what was printed as one JSON object
    #[arg(long)]
    pub json: bool,
}

fn language(text: &str) -> Result<Tongue, String> {
    Tongue::from_code(text).ok_or_else(|| "the languages are en, de and fr".to_owned())
}
