//! The harp as it stands: which one it is, and what each of its strings should sound now.

use std::path::{Path, PathBuf};

use harp::{Harp, HarpKind, Setup, Standing, StringName};
use pitch::ReferencePitch;

use crate::arguments::{HarpArguments, StandArguments};
use crate::demo;
use crate::trouble::Trouble;

/// No harp file is longer than this, in bytes: 47 strings with all their figures take some 10,000.
const LONGEST_HARP_FILE: u64 = 1 << 20;

/// The harp that is asked for: by name, or from a file.
pub fn harp(arguments: &HarpArguments) -> Result<Harp, Trouble> {
    harp_named(&arguments.harp)
}

/// The harp of a built-in name, or of a file.
pub fn harp_named(name: &str) -> Result<Harp, Trouble> {
    if harp::BUILT_IN.iter().any(|built_in| built_in.name == name) {
        return Ok(Harp::named(name)?);
    }
    let path = Path::new(name);
    if !path.exists() {
        return Err(Trouble::NoSuchHarp {
            name: name.to_owned(),
        });
    }
    let path = PathBuf::from(path);
    let text = read(&path)?;
    Harp::from_toml(&text).map_err(|error| Trouble::HarpText {
        path,
        reason: error.to_string(),
    })
}

/// A harp as it is called on paper: `Pedal harp, 47 strings`, or by her own file.
pub fn called(name: &str, harp: &Harp) -> String {
    let kind = match harp.kind() {
        HarpKind::Pedal => "Pedal harp",
        HarpKind::Lever => "Lever harp",
        HarpKind::Free => "Instrument",
    };
    if harp::BUILT_IN.iter().any(|built_in| built_in.name == name) {
        return format!("{kind}, {} strings", harp.strings().len());
    }
    let file = Path::new(name).file_stem();
    file.map_or_else(
        || name.to_owned(),
        |file| file.to_string_lossy().into_owned(),
    )
}

/// What each string should sound, bass to treble.
pub fn standing(
    harp: &Harp,
    reference: ReferencePitch,
    stand: &StandArguments,
) -> Result<Vec<Standing>, Trouble> {
    Ok(harp.standing(&setup(reference, stand))?)
}

/// The reference pitch that is asked for; otherwise the demo's, or 440 Hz.
pub fn reference(arguments: &HarpArguments, of_the_demo: bool) -> ReferencePitch {
    let usual = match of_the_demo {
        true => demo::reference(),
        false => ReferencePitch::A440,
    };
    arguments.a4.unwrap_or(usual)
}

/// How pedals, levers and strings without discs stand.
pub fn setup(reference: ReferencePitch, stand: &StandArguments) -> Setup {
    Setup {
        reference,
        open: stand.open,
        position: stand.position,
        setting: stand.setting,
        levers: stand.levers.clone(),
        discless: stand.discless.clone(),
    }
}

/// The string that is named with `--string`, if the harp has it.
pub fn guided(
    standing: &[Standing],
    string: Option<StringName>,
) -> Result<Option<StringName>, Trouble> {
    let (Some(string), [lowest, .., highest]) = (string, standing) else {
        return Ok(string);
    };
    if standing.iter().any(|standing| standing.string == string) {
        Ok(Some(string))
    } else {
        let (lowest, highest) = (lowest.string, highest.string);
        Err(Trouble::NoSuchString {
            string,
            lowest,
            highest,
        })
    }
}

fn read(path: &Path) -> Result<String, Trouble> {
    let failed = |reason| Trouble::HarpFile {
        path: path.to_owned(),
        reason,
    };
    let bytes = std::fs::metadata(path).map_err(failed)?.len();
    if bytes > LONGEST_HARP_FILE {
        return Err(Trouble::HarpFileSize {
            path: path.to_owned(),
            bytes,
        });
    }
    std::fs::read_to_string(path).map_err(failed)
}
