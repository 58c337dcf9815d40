//! `sevenflats regulation`: every string in every position, from a recording or live, and what its steps are off by.

pub mod arguments;
mod keeping;
pub mod line;
mod table;

use std::collections::BTreeMap;
use std::io::Write;
use std::path::Path;

use harp::{Harp, HarpKind, Setup, StringName};
use pitch::{ReferencePitch, Tongue};
use sheet::{CheckSheet, check_csv};
use tuning::regulation::{
    Bounds, Check, Happened, Hearing, Pace, SETTLED_DAYS, Say, Weight, how_to_leave, regulated,
    seconds, sentence, whose_work, within_time,
};
use tuning::round::Act;
use tuning::{Heard, Reason};

use crate::sound::notes;
use crate::sound::{Sound, SoundError};
use crate::source::{self, OpenInput};
use crate::trouble::Trouble;
use crate::tune::saying::Saying;
use crate::{demo, names, printed, situation};
use arguments::RegulationArguments;
use keeping::{Errors, Keeping};
use line::{CheckLine, StringLine};

/// The command speaks English.
const TONGUE: Tongue = Tongue::English;

/// Checks by what is heard. What cannot be read to its end is returned, and what was measured stands.
pub fn regulation(
    arguments: &RegulationArguments,
    input: OpenInput<'_>,
    out: &mut dyn Write,
    notice: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    let harp = situation::harp(&arguments.harp)?;
    let setup = Setup {
        open: arguments.open,
        discless: arguments.discless.clone(),
        ..Setup::open(situation::reference(
            &arguments.harp,
            arguments.demo.is_some(),
        ))
    };
    let mut keeping = Keeping::open(arguments, &harp)?;
    let before = match (&arguments.before, &keeping) {
        (Some(path), _) => earlier(path)?,
        (None, Some(keeping)) => keeping.errors_before(&harp),
        (None, None) => BTreeMap::new(),
    };
    let (strings, from) = match &arguments.demo {
        Some(path) => (demo::write_checked(path)?, path),
        None => (strings(arguments, &harp)?, &arguments.from),
    };
    match (arguments.demo.is_some(), arguments.shown.json) {
        (true, true) => writeln!(notice, "{}", demo::CHECKED_NOTICE)?,
        (true, false) => writeln!(out, "{}", demo::CHECKED_NOTICE)?,
        (false, _) => {}
    }
    let mut telling = Telling {
        arguments,
        kind: harp.kind(),
        out,
    };
    telling.how_long(&harp, &strings)?;
    if let Some(keeping) = &keeping {
        telling.fresh(&keeping.fresh(&strings))?;
    }
    if arguments.how_long {
        return Ok(Vec::new());
    }
    let check = Check::new(&harp, &setup, &strings)?;
    source::check_rate(std::slice::from_ref(from), arguments.raw.rate)?;
    let sound = source::open(from, arguments.raw, input)?;
    let name = source::name(from);
    let hearing = Hearing::new(sound.rate_hz(), check, setup.reference, arguments.listen_s);
    let hearing = hearing.map_err(|reason| Trouble::Ear {
        name: name.clone(),
        reason,
    })?;
    let (hearing, listened_s, mut troubles) = listened(&mut telling, hearing, sound, &name)?;
    let age_days = |string| {
        let known = keeping.as_ref().and_then(|kept| kept.days_on(string));
        arguments.new.contains(&string).then_some(0).or(known)
    };
    let plucks = hearing.check().plucks();
    let check = CheckSheet {
        harp: situation::called(&arguments.harp.harp, &harp),
        reference: setup.reference,
        strings: regulated(&harp, plucks, &Bounds::default(), age_days),
        before,
    };
    if let Some(keeping) = &mut keeping {
        match keeping.keep(&harp, setup.reference, plucks, &check.strings) {
            Ok(Some(words)) => telling.say(listened_s, &words)?,
            Ok(None) => {}
            Err(trouble) => troubles.push(trouble),
        }
    }
    telling.summed_up(&check, hearing.check().left())?;
    troubles.extend(given_out(arguments, &check));
    Ok(troubles)
}

/// The table and the sheet, where they are asked for; what cannot be written is told.
fn given_out(arguments: &RegulationArguments, check: &CheckSheet) -> Vec<Trouble> {
    let naming = arguments.shown.names;
    let mut troubles = Vec::new();
    if let Some(path) = &arguments.csv {
        let written = std::fs::write(path, check_csv(check, naming, TONGUE));
        troubles.extend(written.err().map(|reason| Trouble::Csv {
            path: path.to_owned(),
            reason,
        }));
    }
    if let Some(path) = &arguments.print.sheet {
        let pages = sheet::check_pages(check, &arguments.print.style(naming));
        let title = pages.first().map_or("", |page| &page.title);
        troubles.extend(printed::write(path, &pages, title).err());
    }
    troubles
}

/// The strings that are to be checked; one that the harp does not have is told.
fn strings(arguments: &RegulationArguments, harp: &Harp) -> Result<Vec<StringName>, Trouble> {
    let standing = harp.standing(&Setup::open(ReferencePitch::A440))?;
    let named = arguments.strings.iter().flatten().chain(&arguments.new);
    for &string in named {
        situation::guided(&standing, Some(string))?;
    }
    let available = arguments.minutes.map(|minutes| 60.0 * minutes);
    let chosen = within_time(harp, available, &Pace::default());
    let strings = match &arguments.strings {
        Some(few) => few.iter().copied().filter(|s| chosen.contains(s)).collect(),
        None => chosen,
    };
    if strings.is_empty() {
        return Err(Trouble::NotForThisHarp(
            "nothing is left to check: no disc or lever moves those strings, or there is no time for one",
        ));
    }
    Ok(strings)
}

/// The sound to its end, or as far as it goes.
fn listened(
    telling: &mut Telling<'_>,
    mut hearing: Hearing,
    mut sound: Sound,
    name: &str,
) -> Result<(Hearing, f64, Vec<Trouble>), Trouble> {
    let mut said = Saying::new(Vec::new(), telling.arguments.said.as_deref())?;
    let mut plucks = 0;
    for note in notes::of_form(&sound) {
        telling.say(note.at_s, &format!("{}: {}.", note.warning, note.detail))?;
    }
    telling.asked(&hearing)?;
    let broken: Option<SoundError> = 'sound: loop {
        while let Some(act) = said.due(sound.read_s()) {
            match act {
                Ok(Act::Skip(string)) => {
                    let happened = hearing.skip(string);
                    telling.happened(sound.read_s(), &happened, &hearing)?;
                }
                Ok(Act::Finish) => break 'sound None,
                Ok(_) => telling.say(sound.read_s(), "In a check, say skip 4G or finish.")?,
                Err(what) => telling.say(sound.read_s(), &what)?,
            }
        }
        let heard = match sound.next_block() {
            Ok(Some(samples)) => hearing.push(samples),
            Ok(None) => break None,
            Err(reason) => break Some(reason),
        };
        for happened in heard {
            plucks += usize::from(is_last_word(&happened));
            telling.happened(sound.read_s(), &happened, &hearing)?;
        }
    };
    for happened in hearing.finish() {
        plucks += usize::from(is_last_word(&happened));
        telling.happened(sound.read_s(), &happened, &hearing)?;
    }
    for note in notes::of_samples(&sound, false) {
        telling.say(note.at_s, &format!("{}: {}.", note.warning, note.detail))?;
    }
    let mut troubles: Vec<Trouble> = broken
        .map(|reason| Trouble::Sound {
            name: name.to_owned(),
            reason,
        })
        .into_iter()
        .collect();
    if plucks == 0 && troubles.is_empty() {
        troubles.push(Trouble::NothingHeard {
            name: name.to_owned(),
            read_s: sound.read_s(),
            advice: notes::advice(&sound),
        });
    }
    Ok((hearing, sound.read_s(), troubles))
}

fn is_last_word(happened: &Happened) -> bool {
    match &happened.heard {
        Some(Heard::Reading(reading)) => reading.last,
        Some(Heard::Refused(_)) => true,
        _ => false,
    }
}

/// Tells what goes on: sentences for people, one JSON object a line for programs.
struct Telling<'a> {
    arguments: &'a RegulationArguments,
    kind: HarpKind,
    out: &'a mut dyn Write,
}

impl Telling<'_> {
    fn how_long(&mut self, harp: &Harp, strings: &[StringName]) -> Result<(), Trouble> {
        let positions = if self.kind == HarpKind::Lever { 3 } else { 4 };
        let minutes = (seconds(harp, strings, &Pace::default()) / 60.0).ceil();
        let words = format!(
            "{} strings, {} plucks: about {minutes} minutes. A string fitted less than {SETTLED_DAYS} days ago is best left \
             until it has settled: name it with --new.",
            strings.len(),
            positions * strings.len(),
        );
        if self.arguments.how_long || !self.arguments.shown.json {
            self.say(0.0, &words)?;
        }
        Ok(())
    }

    /// Strings that the diary knows as new.
    fn fresh(&mut self, fresh: &[(StringName, u32)]) -> Result<(), Trouble> {
        if fresh.is_empty() || self.arguments.shown.json {
            return Ok(());
        }
        let naming = self.arguments.shown.names;
        let named = fresh.iter().map(|&(string, days)| {
            let word = if days == 1 { "day" } else { "days" };
            format!("{} ({days} {word})", naming.string(string))
        });
        let named = named.collect::<Vec<_>>().join(", ");
        self.say(
            0.0,
            &format!("New by the diary, so shown and not judged: {named}."),
        )
    }

    /// The string that is asked for.
    fn asked(&mut self, hearing: &Hearing) -> Result<(), Trouble> {
        if let Some((_, string)) = hearing.check().next()
            && !self.arguments.shown.json
        {
            let naming = self.arguments.shown.names;
            let left = hearing.check().left();
            writeln!(
                self.out,
                "{:7}  Pluck {} ({left} to come).",
                "",
                naming.string(string)
            )?;
            self.out.flush()?;
        }
        Ok(())
    }

    fn happened(
        &mut self,
        at_s: f64,
        happened: &Happened,
        hearing: &Hearing,
    ) -> Result<(), Trouble> {
        match &happened.heard {
            Some(Heard::Refused(refused)) => {
                let words = format!(
                    "Once more: {} ({}).",
                    refused.reason.as_str(),
                    refused.detail
                );
                self.say(refused.at_s, &words)?;
            }
            Some(Heard::Reading(reading)) if reading.last && reading.string.is_none() => {
                let words = format!("Once more: {}.", Reason::NotSure.as_str());
                self.say(reading.at_s, &words)?;
            }
            Some(Heard::Warning(warning)) => {
                let words = format!("{}: {}.", warning.warning.as_str(), warning.detail);
                self.say(warning.at_s, &words)?;
            }
            _ => {}
        }
        for say in &happened.says {
            if let Some(words) = self.words(say) {
                self.say(at_s, &words)?;
            }
        }
        if !happened.says.is_empty() {
            self.asked(hearing)?;
        }
        Ok(())
    }

    fn words(&self, say: &Say) -> Option<String> {
        names::said(self.arguments.shown.names, |names| {
            sentence(say, self.kind, names, TONGUE)
        })
    }

    fn say(&mut self, at_s: f64, words: &str) -> Result<(), Trouble> {
        if self.arguments.shown.json {
            let words = words.to_owned();
            return self.line(&CheckLine::Say { at_s, words });
        }
        writeln!(self.out, "{at_s:>7.2}  {words}")?;
        Ok(self.out.flush()?)
    }

    fn summed_up(&mut self, check: &CheckSheet, left: usize) -> Result<(), Trouble> {
        let found = check.strings.iter().flat_map(|one| one.found.values());
        let for_report = |weight| matches!(weight, Weight::Report | Weight::Urgent);
        let report = found.filter(|found| for_report(found.weight)).count();
        let (a4_hz, strings) = (check.reference.a4_hz(), check.strings.len());
        if self.arguments.shown.json {
            for one in &check.strings {
                self.line(&CheckLine::String(Box::new(StringLine::from(one))))?;
            }
            return self.line(&CheckLine::Summary {
                a4_hz,
                strings,
                left,
                report,
            });
        }
        writeln!(
            self.out,
            "\n{strings} strings at A = {a4_hz} Hz, {report} steps for the technician, {left} plucks left.\n\
             Cents beyond a semitone, ± half of a 95 % interval; sum: both steps; own: where the string came back to.\n"
        )?;
        table::write(self.out, check, self.arguments.shown.names)?;
        if left > 0 {
            writeln!(self.out, "\n{}", how_to_leave(TONGUE))?;
        }
        writeln!(self.out, "\n{}", whose_work(TONGUE).join("\n"))?;
        Ok(self.out.flush()?)
    }

    fn line(&mut self, line: &CheckLine) -> Result<(), Trouble> {
        serde_json::to_writer(&mut *self.out, line).map_err(std::io::Error::from)?;
        writeln!(self.out)?;
        Ok(())
    }
}

/// The errors of an earlier check, natural and sharp.
fn earlier(path: &Path) -> Result<Errors, Trouble> {
    let told = |reason: String| Trouble::Before {
        path: path.to_owned(),
        reason,
    };
    let text = std::fs::read_to_string(path).map_err(|error| told(error.to_string()))?;
    let mut strings = BTreeMap::new();
    for (number, line) in (1..).zip(text.lines()) {
        let wrong = |error: &dyn std::fmt::Display| {
            told(format!("line {number} is none of a check: {error}"))
        };
        let line: CheckLine = serde_json::from_str(line).map_err(|error| wrong(&error))?;
        if let CheckLine::String(one) = line {
            let string = one.string.parse().map_err(|error| wrong(&error))?;
            strings.insert(string, [one.error_cents.natural, one.error_cents.sharp]);
        }
    }
    if strings.is_empty() {
        return Err(told("no string is in it".to_owned()));
    }
    Ok(strings)
}
