//! An invented harp lived with: rounds in the mornings, concerts in halls, strings that break; what its diary would know.

use std::collections::BTreeMap;

use diary::{Air, FittedKnown, HarpKnown, Moment, Point, Stands, StringKnown};
use forecast::{AirNow, Ask};
use harp::{Harp, Setup, StringName};
use pitch::ReferencePitch;

use crate::draws::Draws;
use crate::hidden::{Hidden, Makes};
use crate::weather::{Weather, hours};

/// Tuned again beyond so many cents.
pub(crate) const TOLERANCE: f64 = 3.0;

pub(crate) struct Lived {
    pub(crate) harp: Harp,
    pub(crate) known: HarpKnown,
    pub(crate) air: Vec<(Moment, Air)>,
    pub(crate) names: Vec<StringName>,
    pub(crate) strings: Vec<Hidden>,
    targets: Vec<f64>,
    weather: Vec<Weather>,
    hour: u32,
    /// Days on which a hall is played in.
    pub(crate) halls: Vec<u32>,
    pub(crate) draws: Draws,
}

impl Lived {
    pub(crate) fn new(seed: u64, days: u32) -> Lived {
        let mut draws = Draws::new(seed);
        let harp = Harp::named("pedal47").unwrap();
        let halls: Vec<u32> = (5..days).filter(|_| draws.chance(0.15)).collect();
        let weather = hours(days, &halls, &mut draws);
        let makes = Makes::new(&mut draws);
        let strings = harp.strings().iter().map(|string| {
            let height = f64::from(string.name.key() - 60) / 12.0;
            Hidden::new(string.wire, height, &makes, weather[0], &mut draws)
        });
        let strings = strings.collect();
        let standing = harp.standing(&Setup::open(ReferencePitch::A440)).unwrap();
        let names: Vec<StringName> = harp.strings().iter().map(|s| s.name).collect();
        let known = HarpKnown {
            harp: "an invented harp".to_owned(),
            toml: None,
            strings: names
                .iter()
                .map(|name| (*name, StringKnown::default()))
                .collect(),
            pedals: Vec::new(),
            checks: Vec::new(),
            a4_hz: None,
            visits: Vec::new(),
            rounds: 0,
        };
        Lived {
            targets: standing.iter().map(|s| s.target_hz).collect(),
            harp,
            known,
            air: Vec::new(),
            names,
            strings,
            weather,
            hour: 0,
            halls,
            draws,
        }
    }

    pub(crate) fn now(&self) -> Moment {
        Moment::of_unix_s(1_735_689_600.0).plus_s(f64::from(self.hour) * 3600.0)
    }

    pub(crate) fn weather(&self) -> Weather {
        self.weather[self.hour as usize]
    }

    /// Hours pass until that hour of that day.
    pub(crate) fn until(&mut self, day: u32, of_day: u32) {
        while self.hour < day * 24 + of_day {
            let before = self.weather();
            self.hour += 1;
            let now = self.weather();
            for string in &mut self.strings {
                string.hour(before, now, &mut self.draws);
            }
            let at = (self.hour / 24, self.hour % 24);
            if self.halls.contains(&at.0) && (at.1 == 16 || at.1 == 23) {
                let all = 1.5 * self.draws.normal();
                for string in &mut self.strings {
                    string.carried(all, &mut self.draws);
                }
            }
        }
    }

    /// She writes the air down.
    pub(crate) fn reads_air(&mut self) {
        let weather = self.weather();
        let air = Air {
            harp: None,
            temperature_c: Some(weather.celsius + 0.2 * self.draws.normal()),
            humidity_percent: Some(weather.percent + 1.5 * self.draws.normal()),
        };
        self.air.push((self.now(), air));
    }

    /// A round over these strings: each is read, and tuned and read again where it is out.
    pub(crate) fn round(&mut self, which: &[usize]) {
        for (place, &at) in which.iter().enumerate() {
            let when = self.now().plus_s(6.0 * place as f64);
            let found = self.strings[at].read(&mut self.draws);
            if found.0.abs() > TOLERANCE {
                self.write(at, when, found, (true, false));
                self.strings[at].tuned(&mut self.draws);
                let left = self.strings[at].read(&mut self.draws);
                self.write(at, when.plus_s(4.0), left, (false, true));
            } else {
                self.write(at, when, found, (true, true));
            }
        }
        self.known.rounds += 1;
    }

    pub(crate) fn whole_round(&mut self) {
        let all: Vec<usize> = (0..self.strings.len()).collect();
        self.round(&all);
    }

    fn write(
        &mut self,
        at: usize,
        when: Moment,
        (off, u95): (f64, f64),
        (found, left): (bool, bool),
    ) {
        let target_hz = self.targets[at];
        let string = self.known.strings.get_mut(&self.names[at]).unwrap();
        let point = Point {
            when,
            heard_hz: pitch::raise(target_hz, off),
            target_hz,
            off_cents: off,
            u95_cents: u95,
            b: None,
            t60_s: None,
            level_dbfs: None,
            raised: 0,
            found,
            left,
            string: string.fittings,
        };
        string.history.push(point);
        string.last = Some(point);
    }

    /// A string breaks and another is put on and brought up.
    pub(crate) fn restring(&mut self, at: usize) {
        let when = self.now();
        let string = self.known.strings.get_mut(&self.names[at]).unwrap();
        string.breaks.push(when);
        string.fittings += 1;
        string.stands = Stands::On;
        string.fitted = Some(FittedKnown {
            when,
            used: false,
            material: None,
            gauge_mm: None,
            by: String::new(),
        });
        self.strings[at].fitted();
        self.strings[at].tuned(&mut self.draws);
        let left = self.strings[at].read(&mut self.draws);
        self.write(at, when.plus_s(60.0), left, (false, true));
    }

    /// Where all will stand now.
    pub(crate) fn ask<'a>(&'a self, targets: &'a BTreeMap<StringName, f64>) -> Ask<'a> {
        let weather = self.weather();
        Ask {
            known: &self.known,
            air: &self.air,
            targets,
            when: self.now(),
            air_then: AirNow {
                temperature_c: Some(weather.celsius),
                humidity_percent: Some(weather.percent),
            },
        }
    }

    /// What each string should sound.
    pub(crate) fn targets(&self) -> BTreeMap<StringName, f64> {
        self.names
            .iter()
            .copied()
            .zip(self.targets.iter().copied())
            .collect()
    }
}
