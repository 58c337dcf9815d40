//! `sevenflats hear`: every pluck in a recording named by its string, with how far off it is and
//! how sure that is.

use std::io::Write;

use harp::Standing;
use tuning::{Ear, Heard, Listening, WarningKind};

use crate::arguments::HearArguments;
use crate::demo;
use crate::json::WarningLine;
use crate::report::{Reader, Report};
use crate::situation;
use crate::sound::Sound;
use crate::sound::notes::{self, Note};
use crate::source::{self, OpenInput};
use crate::trouble::Trouble;

/// Hears every file that is named. What concerns one file only is returned, and the others are
/// heard all the same.
pub fn hear(
    arguments: &HearArguments,
    input: OpenInput<'_>,
    out: &mut dyn Write,
    notice: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    let harp = situation::harp(&arguments.harp)?;
    let reference = situation::reference(&arguments.harp, arguments.demo.is_some());
    let standing = situation::standing(&harp, reference, &arguments.stand)?;
    let listening = Listening {
        listen_s: arguments.listen_s,
        guided: situation::guided(&standing, arguments.string)?,
        ..Listening::new(reference)
    };
    source::check_rate(&arguments.files, arguments.raw.rate)?;
    let reader = match arguments.shown.json {
        true => Reader::Program,
        false => Reader::Person(arguments.shown.names, &harp),
    };
    let mut files = arguments.files.clone();
    let mut report = Report::new(out, reader, files.len());
    if let Some(path) = &arguments.demo {
        demo::write(path, &demo::round())?;
        if !report.notice(demo::NOTICE)? {
            writeln!(notice, "{}", demo::NOTICE)?;
        }
        files = vec![path.clone()];
    }
    let mut troubles = Vec::new();
    for file in &files {
        let heard = source::open(file, arguments.raw, input).and_then(|sound| {
            hear_one(
                &source::name(file),
                sound,
                &standing,
                &listening,
                &mut report,
            )
        });
        match heard {
            Ok(()) => {}
            Err(Trouble::Write(reason)) => return Err(Trouble::Write(reason)),
            Err(trouble) => troubles.push(trouble),
        }
    }
    report.summary()?;
    Ok(troubles)
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
    for note in notes::of_form(&sound) {
        warn(report, note)?;
    }
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
    for note in notes::of_samples(&sound, clipped) {
        warn(report, note)?;
    }
    if let Some(reason) = broken {
        let note = Note {
            at_s: sound.read_s(),
            warning: "sound broken off",
            detail: reason.to_string(),
        };
        warn(report, note)?;
        return Err(Trouble::Sound {
            name: name.to_owned(),
            reason,
        });
    }
    if report.plucks() == before {
        return Err(Trouble::NothingHeard {
            name: name.to_owned(),
            read_s: sound.read_s(),
            advice: notes::advice(&sound),
        });
    }
    Ok(())
}

fn warn(report: &mut Report<'_>, note: Note) -> Result<(), Trouble> {
    let line = WarningLine {
        at_s: note.at_s,
        string: None,
        warning: note.warning.to_owned(),
        detail: note.detail,
    };
    Ok(report.warning(&line)?)
}
