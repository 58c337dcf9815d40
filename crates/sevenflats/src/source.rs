//! Where a sound comes from: a file, or raw samples on standard input.

use std::io::Read;
use std::path::{Path, PathBuf};

use crate::arguments::RawArguments;
use crate::sound::Sound;
use crate::trouble::Trouble;

/// The name that stands for raw samples on standard input.
const STANDARD_INPUT: &str = "-";

/// Where the raw samples on `-` come from: opened once, when they are asked for.
pub type OpenInput<'a> = &'a mut dyn FnMut() -> Box<dyn Read>;

/// Whether a sampling rate is given where it is needed, and only there.
pub fn check_rate(files: &[PathBuf], rate: Option<u32>) -> Result<(), Trouble> {
    let raw = files.iter().filter(|file| is_standard_input(file)).count();
    match (raw, rate) {
        (0, Some(_)) => Err(Trouble::Rate(
            "--rate belongs to the raw samples on '-'; a file brings its own sampling rate",
        )),
        (1, None) => Err(Trouble::Rate(
            "raw samples on '-' need their sampling rate: add --rate 48000, or what it is",
        )),
        (2.., _) => Err(Trouble::Rate("'-' can be read only once: name it once")),
        _ => Ok(()),
    }
}

/// Opens a file, or the raw samples on `-`, which are as `raw` says.
pub fn open(file: &Path, raw: RawArguments, input: OpenInput<'_>) -> Result<Sound, Trouble> {
    let sound = match raw.rate {
        Some(rate_hz) if is_standard_input(file) => Sound::pcm(input(), raw.format, rate_hz),
        _ => Sound::open(file),
    };
    sound.map_err(|reason| Trouble::Sound {
        name: name(file),
        reason,
    })
}

/// Whether it is the name of the raw samples.
pub fn is_standard_input(file: &Path) -> bool {
    file == Path::new(STANDARD_INPUT)
}

/// What a sound is called in a message.
pub fn name(file: &Path) -> String {
    if is_standard_input(file) {
        "standard input".to_owned()
    } else {
        file.display().to_string()
    }
}
