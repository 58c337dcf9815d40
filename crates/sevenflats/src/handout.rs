//! `sevenflats handout`: what a student takes home about her own harp, on paper.

pub mod arguments;

use std::io::Write;
use std::path::PathBuf;

use ::diary::Known;
use harp::{BUILT_IN, Harp, Naming};
use pitch::ReferencePitch;
use serde::Serialize;
use sheet::{Handout, HandoutString, Style, handout_pages};
use store::Store;

use crate::diary::place;
use crate::printed;
use crate::situation;
use crate::trouble::Trouble;
use arguments::HandoutArguments;

/// What `--json` tells.
#[derive(Serialize)]
struct Told {
    student: String,
    harp: String,
    a4_hz: f64,
    language: &'static str,
    pages: usize,
    files: Vec<PathBuf>,
    strings: Vec<StringLine>,
}

#[derive(Serialize)]
struct StringLine {
    string: String,
    harp_number: String,
    /// As it is printed.
    name: String,
    colour: &'static str,
    /// Whether a pedal or a lever moves it.
    moves: bool,
    sounds: String,
    tuner_shows: String,
}

/// A harp, what she calls it, and to what it is tuned.
struct Hers {
    harp: Harp,
    name: String,
    reference: ReferencePitch,
}

/// Prints the handout, and tells where it lies.
pub(crate) fn handout(arguments: &HandoutArguments, out: &mut dyn Write) -> Result<(), Trouble> {
    let hers = hers(arguments)?;
    let harp = match arguments.open {
        Some(open) => hers.harp.with_open(open)?,
        None => hers.harp,
    };
    let mut handout = Handout::of(&harp, hers.reference).ok_or(Trouble::NotForThisHarp(
        "a handout is for a harp with pedals or levers",
    ))?;
    handout.student.clone_from(&arguments.student);
    handout.harp = hers.name;
    handout.order = arguments.order.clone().unwrap_or_default();
    let style = Style {
        paper: arguments.paper.paper(),
        naming: Naming {
            language: arguments.language.notes(),
            ..Naming::default()
        },
        tongue: arguments.language,
        ..Style::default()
    };
    let pages = handout_pages(&handout, &style);
    let title = pages.first().map_or("", |page| &page.title);
    let files = printed::write_in(arguments.language, &arguments.out, &pages, title)?;
    if arguments.json {
        let told = told(&handout, &style, pages.len(), files);
        serde_json::to_writer(&mut *out, &told).map_err(std::io::Error::from)?;
        writeln!(out)?;
    } else {
        for file in files {
            writeln!(out, "{}", file.display())?;
        }
    }
    Ok(out.flush()?)
}

/// The harp that is meant: built in, in a file, or in the diary.
fn hers(arguments: &HandoutArguments) -> Result<Hers, Trouble> {
    let wanted = &arguments.harp.harp;
    let Some(named) = &arguments.diary else {
        let known_by_name = BUILT_IN.iter().any(|built_in| built_in.name == wanted);
        let harp = situation::harp(&arguments.harp)?;
        return Ok(Hers {
            name: match known_by_name {
                true => String::new(),
                false => situation::called(wanted, &harp),
            },
            reference: situation::reference(&arguments.harp, false),
            harp,
        });
    };
    let path = place::place(named.as_ref())?;
    let known = Store::open_existing(&path)?.ends()?.known();
    in_diary(&known, arguments)
}

fn in_diary(known: &Known, arguments: &HandoutArguments) -> Result<Hers, Trouble> {
    let wanted = &arguments.harp.harp;
    let one = known.harp(wanted);
    // the usual harp's name is what stands there when nothing was said
    let only = match known.harps.as_slice() {
        [only] if wanted == crate::arguments::USUAL_HARP => Some(only),
        _ => None,
    };
    let known = one.or(only).ok_or_else(|| Trouble::NoHarpInDiary {
        name: wanted.clone(),
    })?;
    let no_file = || Trouble::NoHarpFile {
        name: known.harp.clone(),
    };
    let file = known.toml.as_deref().ok_or_else(no_file)?;
    let last = known.a4_hz.and_then(|(_, hz)| ReferencePitch::new(hz).ok());
    Ok(Hers {
        harp: Harp::from_toml(file).map_err(|_| no_file())?,
        name: known.harp.clone(),
        reference: arguments.harp.a4.or(last).unwrap_or(ReferencePitch::A440),
    })
}

fn told(handout: &Handout, style: &Style, pages: usize, files: Vec<PathBuf>) -> Told {
    let string = |one: &HandoutString| StringLine {
        string: one.name.to_string(),
        harp_number: one.name.harp_number(),
        name: style.naming.string(one.name),
        colour: one.colour.as_str(),
        moves: one.moves,
        sounds: style.naming.language.name(one.sounds),
        tuner_shows: style.naming.language.name(one.shown),
    };
    Told {
        student: handout.student.clone(),
        harp: handout.harp.clone(),
        a4_hz: handout.reference.a4_hz(),
        language: style.tongue.code(),
        pages,
        files,
        strings: handout.strings.iter().map(string).collect(),
    }
}
