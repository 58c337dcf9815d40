//! How each invented string truly is: what no reading shows as it is.
//!
//! All figures are invented. Only their kind is from outside: warmth takes a wire down by 2 to 4 cents a degree (a bass
//! wire's stress of 500 to 1000 MPa), gut follows damp each string its own way, a new string sinks for weeks.

use harp::{Harp, HarpString, StringName};

use crate::draws::Draws;
use crate::weather::Weather;

pub(crate) struct Hidden {
    pub(crate) name: StringName,
    pub(crate) wire: bool,
    pub(crate) target_hz: f64,
    /// Where it stands against its target, cents.
    pub(crate) off: f64,
    cents_per_degree: f64,
    cents_per_percent: f64,
    /// What it wanders in a day, standard deviation, cents.
    wanders: f64,
    /// Half of the interval of its readings, cents.
    pub(crate) u95: f64,
    pub(crate) b: f64,
    /// Standard deviation of the logarithm of B in its readings.
    pub(crate) b_scatter: f64,
    /// How long it rings, seconds, and how loud it is, decibels, as long as it is well.
    pub(crate) t60_s: f64,
    pub(crate) level_dbfs: f64,
    /// Days since it was put on; `None` for long ago.
    pub(crate) age: Option<f64>,
    /// How much slower than others it settles.
    pub(crate) slowness: f64,
    /// What its pin lets go in a day, cents.
    pub(crate) slips: f64,
    /// Errors of its steps to natural and to sharp, cents.
    pub(crate) steps: [f64; 2],
}

pub(crate) fn strings(harp: &Harp, targets: &[f64], draws: &mut Draws) -> Vec<Hidden> {
    let both = harp.strings().iter().zip(targets);
    both.map(|(string, hz)| hidden(string, *hz, draws))
        .collect()
}

fn hidden(string: &HarpString, target_hz: f64, draws: &mut Draws) -> Hidden {
    let top = string.name.key() >= 89;
    let height = f64::from(string.name.key() - 60) / 12.0;
    let (degree, percent, wanders, u95, b) = match (string.wire, top) {
        (true, _) => (-3.0, 0.03, 0.5, 1.4, 5e-5),
        (false, false) => (-1.0, 0.4, 1.4, 0.5, 1.4e-4 * 1.5f64.powf(height)),
        (false, true) => (-1.5, 0.1, 0.9, 0.9, 1.5e-3 * 1.5f64.powf(height - 2.5)),
    };
    let own = |draws: &mut Draws| 0.2 * draws.normal();
    Hidden {
        name: string.name,
        wire: string.wire,
        target_hz,
        off: draws.normal(),
        cents_per_degree: degree + 0.5 * draws.normal(),
        cents_per_percent: percent * draws.normal(),
        wanders: wanders * own(draws).exp(),
        u95: u95 * own(draws).exp(),
        b: b * own(draws).exp(),
        b_scatter: 0.1 * own(draws).exp(),
        t60_s: 12.0 * (-0.5 * height).exp2() * own(draws).exp(),
        level_dbfs: -30.0 - 2.0 * height + 2.0 * draws.normal(),
        age: None,
        slowness: 1.0,
        slips: 0.0,
        steps: [draws.between(-2.0, 2.0), draws.between(-2.0, 2.0)],
    }
}

impl Hidden {
    /// A night: the air changes, the string wanders, a new one sinks, a loose pin lets go.
    pub(crate) fn night(&mut self, before: Weather, now: Weather, draws: &mut Draws) {
        self.off += self.cents_per_degree * (now.celsius - before.celsius)
            + self.cents_per_percent * (now.percent - before.percent)
            + self.wanders * draws.normal()
            + self.jumps(draws)
            - self.slips * draws.between(0.5, 1.5);
        self.days(1.0);
    }

    /// Now and then a string that is no wire stands elsewhere for no reason that anybody knows.
    fn jumps(&self, draws: &mut Draws) -> f64 {
        let jump = !self.wire && draws.chance(1.0 / 60.0);
        if jump { 6.0 * draws.normal() } else { 0.0 }
    }

    /// Time passes for a new string: a quick and a slow part of its creep (the model is ours, no figure is published).
    pub(crate) fn days(&mut self, days: f64) {
        let Some(age) = &mut self.age else {
            return;
        };
        for (cents, tau) in [(60.0, 0.7), (20.0, 4.0 * self.slowness)] {
            let cents = cents * if tau > 4.0 { self.slowness } else { 1.0 };
            self.off -= cents * ((-*age / tau).exp() - (-(*age + days) / tau).exp());
        }
        *age += days;
    }

    /// Another string is put on: as like the last as two strings from two packets are.
    pub(crate) fn fitted(&mut self, draws: &mut Draws) {
        self.age = Some(0.0);
        self.off = -25.0;
        self.b *= (0.06 * draws.normal()).exp();
        self.t60_s *= (0.1 * draws.normal()).exp();
        self.level_dbfs += draws.normal();
        self.slips = 0.0;
        self.slowness = 1.0;
    }

    /// One pluck: how far off it reads, and the B that is read. One in three hundred is a bad pluck.
    pub(crate) fn read(&self, draws: &mut Draws) -> Read {
        let u95 = self.u95 * (0.2 * draws.normal()).exp();
        let bad = draws.chance(1.0 / 300.0);
        let wide = if bad { 5.0 } else { 1.0 };
        Read {
            off: self.off + wide * u95 / 1.96 * draws.normal(),
            u95,
            b: self.b * (wide * self.b_scatter * draws.normal()).exp(),
            t60_s: self.t60_s * (wide * 0.25 * draws.normal()).exp(),
            level_dbfs: self.level_dbfs + wide * 3.0 * draws.normal(),
        }
    }
}

#[derive(Clone, Copy)]
pub(crate) struct Read {
    pub(crate) off: f64,
    pub(crate) u95: f64,
    pub(crate) b: f64,
    pub(crate) t60_s: f64,
    pub(crate) level_dbfs: f64,
}
