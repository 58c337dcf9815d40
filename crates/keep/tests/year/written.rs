//! The invented year as a diary: everything goes in by its public door, as records.

use diary::{
    Air, At, Diary, Entry, HarpKept, Moment, RecordId, RoundBegun, RoundOver, StringBroken,
    StringFitted, StringOver,
};
use harp::{Harp, Setup, StringName};
use pitch::ReferencePitch;
use tuning::round::{Kept, Plan, State, Tolerance};

use crate::draws::Draws;
use crate::hidden::Hidden;
use crate::weather::Weather;

pub(crate) const HARP: &str = "an invented harp";

pub(crate) struct Written {
    pub(crate) diary: Diary,
    begun: RoundBegun,
}

fn at(when: Moment) -> At {
    when.to_string().parse().unwrap()
}

/// The moment of an hour of a day of the invented year.
pub(crate) fn moment(day: u32, hour: f64) -> Moment {
    let first = Moment::of(&"2025-01-01T00:00:00Z".parse().unwrap());
    first.plus_s(f64::from(day) * 86_400.0 + (hour * 3600.0).round())
}

impl Written {
    pub(crate) fn new(harp: &Harp) -> Self {
        let begun = begun(harp, &Setup::open(ReferencePitch::A440));
        let mut written = Written {
            diary: Diary::default(),
            begun,
        };
        let toml = harp.to_toml();
        let harp = HARP.to_owned();
        written.write(moment(0, 7.0), &Entry::Harp(HarpKept { harp, toml }));
        written
    }

    /// From now on rounds are begun so.
    pub(crate) fn begins_at(&mut self, harp: &Harp, setup: &Setup) {
        self.begun = begun(harp, setup);
    }

    pub(crate) fn write(&mut self, when: Moment, entry: &Entry) -> RecordId {
        let record = self.diary.append("phone", at(when), entry).unwrap();
        record.id().clone()
    }

    pub(crate) fn air(&mut self, when: Moment, weather: Weather) {
        let air = Air {
            harp: None,
            temperature_c: Some(weather.celsius),
            humidity_percent: Some(weather.percent),
        };
        self.write(when, &Entry::Air(air));
    }

    pub(crate) fn broke(&mut self, when: Moment, string: StringName) {
        let broken = StringBroken {
            harp: HARP.to_owned(),
            string,
            on: None,
            place: String::new(),
        };
        self.write(when, &Entry::StringBroken(broken));
    }

    pub(crate) fn fitted(&mut self, when: Moment, string: StringName) {
        let fitted = StringFitted {
            harp: HARP.to_owned(),
            string,
            on: None,
            material: None,
            gauge_mm: None,
            used: false,
            by: String::new(),
        };
        self.write(when, &Entry::StringFitted(fitted));
    }

    /// A round over these strings: each is read, and tuned and read again where it is out.
    pub(crate) fn round(&mut self, when: Moment, strings: &mut [&mut Hidden], draws: &mut Draws) {
        let round = self.write(when, &Entry::Round(self.begun.clone()));
        let mut second = 5.0;
        // some days she plucks harder than on others
        let hand_db = 3.0 * draws.normal();
        let told = strings.iter_mut().map(|string| {
            second += 6.0;
            let before = kept(string, second, hand_db, draws);
            let out = before.off_cents.abs() > Tolerance::default().of(string.name);
            let after = if out {
                string.off = 0.7 * draws.normal();
                second += 8.0;
                kept(string, second, hand_db, draws)
            } else {
                before
            };
            StringOver {
                string: string.name,
                before: Some(before),
                after: Some(after),
                plucks: 1 + u64::from(out),
                state: State::InTune,
                fitted: false,
            }
        });
        let over = RoundOver {
            round,
            finished: true,
            strings: told.collect(),
            minutes: second / 60.0,
            left: 0,
            again: Vec::new(),
        };
        self.write(when.plus_s(second), &Entry::RoundOver(over));
    }
}

fn begun(harp: &Harp, setup: &Setup) -> RoundBegun {
    let plan = Plan::of(harp, setup).unwrap();
    RoundBegun::of(HARP, harp, setup, &plan, 0.6)
}

fn kept(string: &Hidden, at_s: f64, hand_db: f64, draws: &mut Draws) -> Kept {
    let read = string.read(draws);
    Kept {
        at_s,
        target_hz: string.target_hz,
        heard_hz: pitch::raise(string.target_hz, read.off),
        off_cents: read.off,
        u95_cents: read.u95,
        b: Some(read.b),
        t60_s: Some(read.t60_s),
        level_dbfs: Some(read.level_dbfs + hand_db),
        aside: None,
    }
}
