//! `sevenflats hear`: every pluck in a recording named by its string, with how far off it is and
//! how sure that is.

use std::io::{Read, Write};
use std::path::Path;

use harp::Standing;
use pitch::ReferencePitch;
use tuning::{Ear, Heard, Listening, WarningKind};

use crate::arguments::HearArguments;
use crate::demo;
use crate::json::WarningLine;
use crate::report::{Reader, Report};
use crate::situation;
use crate::sound::Sound;
use crate::trouble::Trouble;

/// Below this sampling rate, in hertz, the top strings keep only a partial or two.
const LOW_RATE_HZ: u32 = 22_050;
/// The name that stands for raw samples on standard input.
const STANDARD_INPUT: &str = "-";

/// Where the raw samples on `-` come from: opened once, when they are asked for.
pub type OpenInput<'a> = &'a mut dyn FnMut() -> Box<dyn Read>;

/// Hears every file that is named. What concerns one file only is returned, and the others are
/// heard all the same.
pub fn hear(
    arguments: &HearArguments,
    input: OpenInput<'_>,
    out: &mut dyn Write,
    notice: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    let harp = situation::harp(&arguments.harp)?;
    let reference = match (arguments.harp.a4, &arguments.demo) {
        (Some(reference), _) => reference,
        (None, Some(_)) => demo::reference(),
        (None, None) => ReferencePitch::A440,
    };
    let standing = situation::standing(&harp, reference, &arguments.stand)?;
    let listening = Listening {
        listen_s: arguments.listen_s,
        guided: situation::guided(&standing, arguments.string)?,
        ..Listening::new(reference)
    };
    check_rate(arguments)?;
    let reader = match arguments.shown.json {
        true => Reader::Program,
        false => Reader::Person(arguments.shown.names, &harp),
    };
    let mut files = arguments.files.clone();
    let mut report = Report::new(out, reader, files.len());
    if let Some(path) = &arguments.demo {
        demo::write(path)?;
        if !report.notice(demo::NOTICE)? {
            writeln!(notice, "{}", demo::NOTICE)?;
        }
        files = vec![path.clone()];
    }
    let mut troubles = Vec::new();
    for file in &files {
        let heard = open(file, arguments, input)
            .and_then(|sound| hear_one(&name(file), sound, &standing, &listening, &mut report));
        match heard {
            Ok(()) => {}
            Err(Trouble::Write(reason)) => return Err(Trouble::Write(reason)),
            Err(trouble) => troubles.push(trouble),
        }
    }
    report.summary()?;
    Ok(troubles)
}

fn check_rate(arguments: &HearArguments) -> Result<(), Trouble> {
    let raw = arguments
        .files
        .iter()
        .filter(|file| is_standard_input(file))
        .count();
    match (raw, arguments.rate) {
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

fn open(file: &Path, arguments: &HearArguments, input: OpenInput<'_>) -> Result<Sound, Trouble> {
    let sound = match arguments.rate {
        Some(rate_hz) if is_standard_input(file) => Sound::pcm(input(), arguments.format, rate_hz),
        _ => Sound::open(file),
    };
    sound.map_err(|reason| Trouble::Sound {
        name: name(file),
        reason,
    })
}

/// Hears one sound to its end, or as far as it goes.
fn hear_one(
    name: &str,
    mut sound: Sound,
    standing: &[Standing],
    listening: &Listening,
    report: &mut Report<'_>,
) -> Result<(), Trouble> {
    let mut ear =
        Ear::new(sound.rate_hz(), standing.to_vec(), listening.clone()).map_err(|reason| {
            Trouble::Ear {
                name: name.to_owned(),
                reason,
            }
        })?;
    let before = report.plucks();
    report.begin(name, sound.rate_hz())?;
    warn_of_form(&sound, report)?;
    let mut clipped = false;
    let mut tell = |heard: Vec<Heard>, report: &mut Report<'_>| {
        for heard in &heard {
            clipped |= matches!(heard, Heard::Warning(w) if w.warning == WarningKind::Clipped);
            report.heard(heard)?;
        }
        Ok::<(), Trouble>(())
    };
    let broken = loop {
        match sound.next_block() {
            Ok(Some(samples)) => tell(ear.push(samples), report)?,
            Ok(None) => break None,
            Err(reason) => break Some(reason),
        }
    };
    tell(ear.finish(), report)?;
    warn_of_samples(&sound, clipped, report)?;
    if let Some(reason) = broken {
        warn(
            report,
            sound.read_s(),
            "sound broken off",
            reason.to_string(),
        )?;
        return Err(Trouble::Sound {
            name: name.to_owned(),
            reason,
        });
    }
    if report.plucks() == before {
        let advice = if sound.loudness().is_silent() {
            "it is silent from beginning to end: was the right microphone chosen, and was it on?"
        } else if sound.loudness().cancels() {
            "its channels take each other away: save one of them alone"
        } else {
            "pluck nearer to the microphone, and let each string ring"
        };
        return Err(Trouble::NothingHeard {
            name: name.to_owned(),
            read_s: sound.read_s(),
            advice,
        });
    }
    Ok(())
}

fn warn_of_form(sound: &Sound, report: &mut Report<'_>) -> Result<(), Trouble> {
    if sound.channels() > 1 {
        let detail = format!("{} channels, heard as their average", sound.channels());
        warn(report, 0.0, "channels mixed", detail)?;
    }
    if sound.rate_hz() < LOW_RATE_HZ {
        let (rate, top) = (sound.rate_hz(), sound.rate_hz() / 2);
        let detail = format!(
            "sampled at {rate} Hz, nothing above {top} Hz is in it: the top strings are less sure; record at 48000 Hz"
        );
        warn(report, 0.0, "low sampling rate", detail)?;
    }
    Ok(())
}

fn warn_of_samples(sound: &Sound, told: bool, report: &mut Report<'_>) -> Result<(), Trouble> {
    if let Some((times, at_s)) = sound.loudness().cut_off().filter(|_| !told) {
        let detail = format!("cut off at its limit {times} times: record it more quietly");
        warn(report, at_s, WarningKind::Clipped.as_str(), detail)?;
    }
    if let Some((samples, at_s)) = sound.loudness().damaged() {
        let detail = format!("{samples} samples hold no number, and were heard as silence");
        warn(report, at_s, "damaged samples", detail)?;
    }
    Ok(())
}

fn warn(report: &mut Report<'_>, at_s: f64, warning: &str, detail: String) -> Result<(), Trouble> {
    let line = WarningLine {
        at_s,
        string: None,
        warning: warning.to_owned(),
        detail,
    };
    Ok(report.warning(&line)?)
}

fn is_standard_input(file: &Path) -> bool {
    file == Path::new(STANDARD_INPUT)
}

fn name(file: &Path) -> String {
    if is_standard_input(file) {
        "standard input".to_owned()
    } else {
        file.display().to_string()
    }
}
