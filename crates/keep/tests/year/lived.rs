//! A year as it is lived: mornings, breaks, a new top octave in summer, a technician's visit; and what goes wrong in it.

use diary::{Diary, Moment};
use harp::{Harp, Setup, StringName};
use pitch::{Letter, ReferencePitch};

use crate::draws::Draws;
use crate::hidden::{self, Hidden};
use crate::weather::weather;
use crate::written::{Written, moment};

/// Days of the two checks, before and after the technician came.
pub(crate) const CHECKS: [u32; 2] = [150, 164];
/// The day on which the top octave is restrung.
const NEW_TOP: u32 = 220;
/// The day from which on another microphone hears everything less surely, and a little stiffer.
const OTHER_MICROPHONE: u32 = 310;
/// Strings that break in a year, on the average.
const BREAKS: f64 = 5.0;

/// What goes wrong.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Wrong {
    /// From a day on a pin lets go by so many cents a day.
    LoosePin(&'static str, u32, f64),
    /// On a day a string of another octave is put on, so many times as stiff: a half from above, two from below.
    OtherString(&'static str, u32, f64),
    /// From a day on a string is false: its readings are wide and its B has changed.
    FalseString(&'static str, u32),
    /// From a day on a string has grown dull: it rings two fifths of its time, and half as loud.
    DullString(&'static str, u32),
    /// On a day a string is put on that settles so many times slower than the one of day 30.
    SlowString(&'static str, u32, f64),
    /// A pedal gives the wrong natural by so many cents, until the technician comes.
    Pedal(Letter, f64),
    /// A disc gives the wrong sharp by so many cents, before the visit and after it.
    Disc(&'static str, f64),
}

impl Wrong {
    fn string(self) -> Option<StringName> {
        match self {
            Wrong::LoosePin(string, ..)
            | Wrong::OtherString(string, ..)
            | Wrong::FalseString(string, _)
            | Wrong::DullString(string, _)
            | Wrong::SlowString(string, ..) => Some(name(string)),
            Wrong::Pedal(..) | Wrong::Disc(..) => None,
        }
    }
}

pub(crate) fn name(text: &str) -> StringName {
    text.parse().unwrap()
}

pub(crate) struct Lived {
    pub(crate) harp: Harp,
    written: Written,
    strings: Vec<Hidden>,
    draws: Draws,
}

impl Lived {
    pub(crate) fn new(seed: u64) -> Self {
        let harp = Harp::named("pedal47").unwrap();
        let standing = harp.standing(&Setup::open(ReferencePitch::A440)).unwrap();
        let targets: Vec<f64> = standing.iter().map(|s| s.target_hz).collect();
        let mut draws = Draws::new(seed);
        let strings = hidden::strings(&harp, &targets, &mut draws);
        Lived {
            written: Written::new(&harp),
            harp,
            strings,
            draws,
        }
    }

    /// Lives the year; every so many evenings somebody looks at what is known.
    pub(crate) fn live(
        mut self,
        wrong: &[Wrong],
        every: u32,
        mut look: impl FnMut(&Harp, &Diary, Moment),
    ) {
        let air = weather(&mut self.draws);
        let mut before = air[0];
        for (day, now) in (0u32..).zip(air) {
            for string in &mut self.strings {
                string.night(before, now, &mut self.draws);
            }
            before = now;
            self.written.air(moment(day, 7.5), now);
            for one in wrong {
                self.goes_wrong(*one, day);
            }
            self.all_alike(day);
            self.restrung(day, wrong);
            if self.draws.chance(0.8) {
                let hour = self.draws.between(8.0, 9.5);
                self.round(moment(day, hour));
            }
            if CHECKS.contains(&day) {
                let when = moment(day, 15.0);
                self.written
                    .checked(when, &self.harp, &self.strings, &mut self.draws);
            }
            if day % every == every - 1 || day == 364 {
                look(&self.harp, &self.written.diary, moment(day, 20.0));
            }
        }
    }

    /// What changes for all strings at once is no fault of any: another microphone, and six weeks at 442 Hz.
    fn all_alike(&mut self, day: u32) {
        let a4_hz = match day {
            200 => 442.0,
            242 => 440.0,
            _ if day == OTHER_MICROPHONE => {
                for string in &mut self.strings {
                    string.u95 *= 1.5;
                    string.b *= 1.2;
                    string.t60_s *= 0.8;
                    string.level_dbfs -= 9.0;
                }
                return;
            }
            _ => return,
        };
        let reference = ReferencePitch::new(a4_hz).unwrap();
        let setup = Setup::open(reference);
        let standing = self.harp.standing(&setup).unwrap();
        for (string, stands) in self.strings.iter_mut().zip(standing) {
            string.off += pitch::cents(stands.target_hz, string.target_hz);
            string.target_hz = stands.target_hz;
        }
        self.written.begins_at(&self.harp, &setup);
    }

    fn round(&mut self, when: Moment) {
        let mut all: Vec<&mut Hidden> = self.strings.iter_mut().collect();
        self.written.round(when, &mut all, &mut self.draws);
    }

    fn string(&mut self, name: StringName) -> &mut Hidden {
        self.strings.iter_mut().find(|s| s.name == name).unwrap()
    }

    fn restrung(&mut self, day: u32, wrong: &[Wrong]) {
        if self.draws.chance(BREAKS / 365.0) {
            let at = (self.draws.unit() * self.strings.len() as f64) as usize;
            let name = self.strings[at].name;
            // a string with a fault stays, or the fault would go with it
            if !wrong.iter().any(|one| one.string() == Some(name)) {
                self.written.broke(moment(day, 7.6), name);
                self.fit(name, day);
            }
        }
        if day == NEW_TOP {
            let top: Vec<StringName> = self.strings.iter().rev().take(9).map(|s| s.name).collect();
            for name in top {
                self.fit(name, day);
            }
        }
    }

    /// A string is put on in the morning and brought up three times before the round.
    fn fit(&mut self, name: StringName, day: u32) {
        self.written.fitted(moment(day, 7.7), name);
        let at = self.strings.iter().position(|s| s.name == name).unwrap();
        self.strings[at].fitted(&mut self.draws);
        for hour in [7.75, 7.8, 7.9] {
            self.strings[at].days(0.03);
            let mut one = [&mut self.strings[at]];
            self.written
                .round(moment(day, hour), &mut one, &mut self.draws);
        }
    }

    fn goes_wrong(&mut self, wrong: Wrong, day: u32) {
        match wrong {
            Wrong::LoosePin(string, from, cents) if day == from => {
                self.string(name(string)).slips = cents;
            }
            Wrong::OtherString(string, on, times) if day == on => {
                self.fit(name(string), day);
                self.string(name(string)).b *= times;
            }
            Wrong::FalseString(string, from) if day == from => {
                let string = self.string(name(string));
                string.u95 *= 3.0;
                string.b *= 1.5;
                string.b_scatter *= 2.0;
            }
            Wrong::DullString(string, from) if day == from => {
                let string = self.string(name(string));
                string.t60_s *= 0.4;
                string.level_dbfs -= 6.0;
            }
            Wrong::SlowString(string, on, slowness) => {
                if day == 30 || day == on {
                    self.fit(name(string), day);
                }
                if day == on {
                    self.string(name(string)).slowness = slowness;
                }
            }
            Wrong::Pedal(letter, cents) if day == CHECKS[0] - 20 || day == CHECKS[1] - 4 => {
                let sign = if day < CHECKS[0] { 1.0 } else { -1.0 };
                for string in self.strings.iter_mut().filter(|s| s.name.letter == letter) {
                    string.steps[0] += sign * cents;
                    string.steps[1] -= sign * cents;
                }
            }
            Wrong::Disc(string, cents) if day == CHECKS[0] - 20 => {
                self.string(name(string)).steps[1] += cents;
            }
            _ => {}
        }
    }
}
