//! A round as it is told while it is heard: sentences for people, one JSON object a line for programs.

use std::io::{self, Write};

use pitch::{Tongue, signed};
use tuning::round::{
    Event, Round, Say, State, Summed, Warned, care, sentence, state_words, which_way_the_key_turns,
};
use tuning::{Direction, Happened};

use super::line::TuneLine;
use crate::names;
use harp::Naming;

/// The command speaks English.
const TONGUE: Tongue = Tongue::English;
/// Seconds between two words on where a string is while its pin is turned, for people.
const LIVE_S: f64 = 0.5;

/// Writes what happens in a round.
pub struct Report<'a> {
    out: &'a mut dyn Write,
    naming: Naming,
    json: bool,
    live_s: f64,
    /// ways for which it was said how the key turns
    shown: [bool; 2],
}

impl<'a> Report<'a> {
    /// For a program, or for a person who names strings so.
    pub fn new(out: &'a mut dyn Write, naming: Naming, json: bool) -> Report<'a> {
        Report {
            out,
            naming,
            json,
            live_s: f64::NEG_INFINITY,
            shown: [false; 2],
        }
    }

    /// Something said before all, to a person only; whether it was.
    pub fn notice(&mut self, words: &str) -> io::Result<bool> {
        if !self.json {
            writeln!(self.out, "{words}")?;
        }
        Ok(!self.json)
    }

    /// One thing that happened, and what is said to it.
    pub fn happened(&mut self, happened: &Happened) -> io::Result<()> {
        let at_s = happened.event.at_s();
        if let Event::Heard(heard) = &happened.event
            && self.json
            && let Some(line) = TuneLine::heard(heard)
        {
            self.line(&line)?;
        }
        for say in &happened.says {
            self.say(at_s, say)?;
        }
        if !happened.says.is_empty() {
            self.out.flush()?;
        }
        Ok(())
    }

    fn say(&mut self, at_s: f64, say: &Say) -> io::Result<()> {
        let words = self.words(say);
        if self.json {
            return self.line(&TuneLine::said(at_s, say, words));
        }
        match say {
            // the last word comes a third of a second later
            Say::Sounds { .. } => return Ok(()),
            Say::Moving { .. } if at_s < self.live_s + LIVE_S => return Ok(()),
            Say::Moving { .. } => self.live_s = at_s,
            _ => {}
        }
        writeln!(self.out, "{at_s:>7.2}  {words}")?;
        if let Say::Turn(turn) = say {
            self.how_the_key_turns(turn.way)?;
        }
        Ok(())
    }

    /// Once for each way: usual practice, which differs on some harps.
    fn how_the_key_turns(&mut self, way: Direction) -> io::Result<()> {
        let shown = &mut self.shown[usize::from(way == Direction::Up)];
        if std::mem::replace(shown, true) {
            return Ok(());
        }
        writeln!(
            self.out,
            "{:7}  {}",
            "",
            which_way_the_key_turns(way, TONGUE)
        )
    }

    /// Something about the sound as a whole.
    pub fn sound(&mut self, at_s: f64, warning: &str, detail: &str) -> io::Result<()> {
        if self.json {
            return self.line(&TuneLine::sound(at_s, warning, detail));
        }
        writeln!(self.out, "{at_s:>7.2}  Note, {warning}: {detail}.")
    }

    /// What the round came to.
    pub fn summary(&mut self, round: &Round) -> io::Result<()> {
        let summary = round.summary();
        if self.json {
            let words = |w: &Warned| self.words(&Say::Warning(w.warning.clone()));
            let line = TuneLine::summary(&summary, words);
            self.line(&line)?;
            return self.out.flush();
        }
        let count = |state: State| summary.strings.iter().filter(|s| s.state == state).count();
        let in_tune = count(State::InTune) + count(State::InTuneByEar);
        writeln!(
            self.out,
            "\n{in_tune} of {} in tune, {} left, in {:.1} minutes.\n",
            summary.strings.len(),
            summary.left,
            summary.minutes
        )?;
        writeln!(self.out, "string  before   after     ±  plucks")?;
        for s in summary.strings.iter().filter(|s| s.plucks > 0) {
            writeln!(self.out, "{}", self.row(s))?;
        }
        if summary.strings.iter().any(asks_for_care) {
            writeln!(self.out, "\n{}", care(TONGUE))?;
        }
        self.out.flush()
    }

    fn row(&self, s: &Summed) -> String {
        let off = |k: Option<tuning::round::Kept>| k.map_or(String::new(), |k| signed(k.off_cents));
        format!(
            "{:<6}  {:>6}  {:>6}  {:>4}  {:>6}  {}",
            self.naming.string(s.string),
            off(s.before),
            off(s.after),
            s.after
                .map_or(String::new(), |k| format!("{:.1}", k.u95_cents)),
            s.plucks,
            state_words(s.state, TONGUE)
        )
    }

    fn words(&self, say: &Say) -> String {
        names::said(self.naming, |names| sentence(say, names, TONGUE))
    }

    fn line(&mut self, line: &TuneLine) -> io::Result<()> {
        serde_json::to_writer(&mut *self.out, line)?;
        writeln!(self.out)
    }
}

/// Whether a key was to be turned far.
fn asks_for_care(s: &Summed) -> bool {
    let far = |k: tuning::round::Kept| k.off_cents.abs() > tuning::round::FAR_CENTS;
    s.fitted || s.before.is_some_and(far) || s.after.is_some_and(far)
}
