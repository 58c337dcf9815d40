//! `sevenflats tune`: a whole round, from a recording or from live sound.

pub mod arguments;
pub mod line;
pub mod report;
pub mod said;
pub mod say_line;
pub mod saying;
pub mod take_a;

use std::io::Write;
use std::path::Path;

use harp::{Harp, StringName};
use pitch::ReferencePitch;
use tuning::round::{Act, Event, Plan, Then};
use tuning::{Happened, Heard, Sitting};

use crate::sound::{Sound, SoundError, notes};
use crate::source::{self, OpenInput};
use crate::trouble::Trouble;
use crate::{demo, situation};
use arguments::TuneArguments;
use report::Report;
use saying::Saying;

/// The word after `--said` that asks what can be said.
const HELP: &str = "help";

/// Tunes by what is heard. What cannot be read to its end is returned, and the round stands as far as it went.
pub fn tune(
    arguments: &TuneArguments,
    input: OpenInput<'_>,
    out: &mut dyn Write,
    notice: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    if arguments.said.as_deref() == Some(Path::new(HELP)) {
        writeln!(out, "{}", said::HELP)?;
        return Ok(Vec::new());
    }
    let harp = situation::harp(&arguments.harp)?;
    let plan = plan(arguments, &harp)?;
    if let Some(note) = arguments.take_a {
        return take_a::take_a(arguments, note, &plan, input, (out, notice));
    }
    let said = said(arguments)?;
    let mut report = Report::new(out, arguments.shown.names, arguments.shown.json);
    let from = match &arguments.demo {
        Some(path) => {
            demo::write_tuned(path)?;
            if !report.notice(demo::TUNED_NOTICE)? {
                writeln!(notice, "{}", demo::TUNED_NOTICE)?;
            }
            path
        }
        None => &arguments.from,
    };
    source::check_rate(std::slice::from_ref(from), arguments.raw.rate)?;
    let sound = source::open(from, arguments.raw, input)?;
    let sitting = Sitting::new(sound.rate_hz(), plan, arguments.listen_s);
    let sitting = sitting.map_err(|reason| Trouble::Ear {
        name: source::name(from),
        reason,
    })?;
    let mut hearing = Hearing {
        arguments,
        harp: &harp,
        sitting,
        report,
        plucks: 0,
        live: source::is_standard_input(from),
    };
    hearing.whole(sound, said, &source::name(from))
}

fn plan(arguments: &TuneArguments, harp: &Harp) -> Result<Plan, Trouble> {
    let reference = situation::reference(&arguments.harp, arguments.demo.is_some());
    let setup = situation::setup(reference, &arguments.stand);
    let mut plan = Plan::of(harp, &setup)?;
    let few = arguments.touch_up.iter().flatten();
    let named = arguments.string.iter().chain(&arguments.new).chain(few);
    let standing: Vec<_> = plan.strings.iter().map(|s| s.standing).collect();
    for string in named.chain(&arguments.broken) {
        situation::guided(&standing, Some(*string))?;
    }
    if let Some(order) = &arguments.order {
        plan.order = order.clone();
    }
    if let Some(tolerance) = arguments.tolerance {
        plan.tolerance = tolerance;
    }
    plan.usual_a4_hz = arguments.usual_a4.map(ReferencePitch::a4_hz);
    plan.touch_up = arguments.touch_up.clone();
    Ok(plan)
}

/// What is said before the first second, and what is said later.
fn said(arguments: &TuneArguments) -> Result<Saying, Trouble> {
    let fitted = |s: &StringName| (0.0, Act::Broke(*s, Then::FittedNow));
    let broken = |s: &StringName| (0.0, Act::Broke(*s, Then::PlayWithout));
    // before the round begins, so that it begins with the right string
    let mut said: Vec<(f64, Act)> = arguments.broken.iter().map(broken).collect();
    said.extend(arguments.new.iter().map(fitted));
    said.extend(arguments.string.map(|s| (0.0, Act::ThisOne(s))));
    said.push((0.0, Act::Begin));
    Saying::new(said, arguments.said.as_deref())
}

struct Hearing<'a> {
    arguments: &'a TuneArguments,
    harp: &'a Harp,
    sitting: Sitting,
    report: Report<'a>,
    plucks: usize,
    /// whether the sound comes as it is made
    live: bool,
}

impl Hearing<'_> {
    /// The sound to its end, or as far as it goes; the round's summary and picture come in any case.
    fn whole(
        &mut self,
        mut sound: Sound,
        mut said: Saying,
        name: &str,
    ) -> Result<Vec<Trouble>, Trouble> {
        for note in notes::of_form(&sound) {
            self.report.sound(note.at_s, note.warning, &note.detail)?;
        }
        let broken_off = self.listen(&mut sound, &mut said)?;
        let last = self.sitting.finish();
        self.tell(last)?;
        // what was to be said later is said at the end: nothing is passed over
        for act in said.rest().chain([Act::Finish]) {
            let happened = self.sitting.act(act);
            self.tell(vec![happened])?;
        }
        for note in notes::of_samples(&sound, false) {
            self.report.sound(note.at_s, note.warning, &note.detail)?;
        }
        self.report.summary(self.sitting.round())?;
        let of_sound = |reason| Trouble::Sound {
            name: name.to_owned(),
            reason,
        };
        let mut troubles: Vec<Trouble> = broken_off.map(of_sound).into_iter().collect();
        troubles.extend(self.draw(false).err());
        if self.plucks == 0 && troubles.is_empty() {
            troubles.push(Trouble::NothingHeard {
                name: name.to_owned(),
                read_s: sound.read_s(),
                advice: notes::advice(&sound),
            });
        }
        Ok(troubles)
    }

    /// The sound, and what is said meanwhile; the reason where the sound breaks off.
    fn listen(
        &mut self,
        sound: &mut Sound,
        said: &mut Saying,
    ) -> Result<Option<SoundError>, Trouble> {
        loop {
            while let Some(act) = said.due(self.sitting.now_s()) {
                match act {
                    Ok(act) => {
                        let happened = self.sitting.act(act);
                        self.tell(vec![happened])?;
                    }
                    Err(what) => {
                        let now_s = self.sitting.now_s();
                        self.report.sound(now_s, "not understood", &what)?;
                    }
                }
            }
            match sound.next_block() {
                Ok(Some(samples)) => {
                    let happened = self.sitting.push(samples);
                    self.tell(happened)?;
                }
                Ok(None) => return Ok(None),
                Err(reason) => {
                    let detail = reason.to_string();
                    self.report
                        .sound(sound.read_s(), "sound broken off", &detail)?;
                    return Ok(Some(reason));
                }
            }
        }
    }

    fn tell(&mut self, happened: Vec<Happened>) -> Result<(), Trouble> {
        for happened in &happened {
            self.report.happened(happened)?;
            let last = match &happened.event {
                Event::Heard(Heard::Reading(reading)) => reading.last,
                Event::Heard(Heard::Refused(_)) => true,
                _ => false,
            };
            self.plucks += usize::from(last);
            if last && self.live {
                // the picture follows; whether it can be written is told at the end
                let _ = self.draw(true);
            }
        }
        Ok(())
    }

    /// The harp as it stands in the round, or as the round left it, if a picture was asked for.
    fn draw(&self, under_way: bool) -> Result<(), Trouble> {
        let Some(path) = &self.arguments.picture else {
            return Ok(());
        };
        let names = self.arguments.shown.names.numbers.into();
        let picture = sheet::of_round(self.sitting.round(), self.harp, names, under_way);
        let tone = match self.arguments.picture_dark {
            true => sheet::Tone::Dark,
            false => sheet::Tone::Light,
        };
        let svg = sheet::draw(&picture, self.arguments.picture_size, tone);
        // beside it first, so that who looks at it never sees half a picture
        let beside = path.with_extension("svg.new");
        let written = std::fs::write(&beside, svg).and_then(|()| std::fs::rename(&beside, path));
        written.map_err(|reason| {
            // what could not take its place is not left lying; there may be none
            let _ = std::fs::remove_file(&beside);
            Trouble::Picture {
                path: path.clone(),
                reason,
            }
        })
    }
}
