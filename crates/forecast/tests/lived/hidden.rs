//! How an invented string truly moves, with causes that the forecast knows nothing of: a step when the harp is carried, some
//! of the damp a day and a half late, wandering with heavy tails, creep by a power of its age, and a fall-back that dies away.
//!
//! All figures are invented. Only their kind is from outside: warmth takes a wire down (Rossing 2010, Eq. 21.1), damp moves
//! gut each string its own way (Lynch-Aird & Woodhouse 2018), a new string sinks for weeks.

use crate::draws::Draws;
use crate::weather::Weather;

/// A string as it truly is.
pub(crate) struct Hidden {
    /// Where it stands against its target, cents.
    pub(crate) off: f64,
    per_degree: f64,
    per_percent: f64,
    /// How much of the damp comes at once; the rest late.
    at_once: f64,
    /// The damp that it has taken up, per cent.
    soaked: f64,
    /// What it wanders in a day, cents.
    wanders: f64,
    /// What its pin lets go in a day, cents.
    slips: f64,
    /// Standard deviation of its readings, cents.
    reads: f64,
    /// Days since it was put on, where that is lately.
    age: Option<f64>,
    creep: f64,
    /// What it will still fall back of its last turning, cents.
    falls: f64,
    falls_back: f64,
}

/// What is one harp's own: no two are alike, nor their rooms.
pub(crate) struct Makes {
    per_degree: f64,
    per_percent: f64,
    wanders: f64,
}

impl Makes {
    pub(crate) fn new(draws: &mut Draws) -> Makes {
        Makes {
            per_degree: -0.5 + 1.3 * draws.normal(),
            per_percent: 0.08 + 0.2 * draws.normal(),
            wanders: (0.4 * draws.normal()).exp(),
        }
    }
}

/// A day and a half.
const LATE_HOURS: f64 = 36.0;

impl Hidden {
    /// A settled string; `height` in octaves above middle C.
    pub(crate) fn new(
        wire: bool,
        height: f64,
        makes: &Makes,
        air: Weather,
        draws: &mut Draws,
    ) -> Hidden {
        let own = |draws: &mut Draws| (0.3 * draws.normal()).exp();
        Hidden {
            off: draws.normal(),
            per_degree: if wire {
                -3.2 + 0.6 * draws.normal()
            } else {
                makes.per_degree + 0.9 * draws.normal()
            },
            per_percent: if wire { 0.03 } else { 0.15 } * draws.normal()
                + if wire { 0.0 } else { makes.per_percent },
            at_once: draws.between(0.3, 0.8),
            soaked: air.percent,
            wanders: if wire { 0.45 } else { 1.0 } * makes.wanders * own(draws),
            slips: if draws.chance(0.03) {
                draws.between(1.5, 5.0)
            } else {
                0.0
            },
            reads: if wire || height > 2.5 { 0.5 } else { 0.2 } * own(draws),
            age: None,
            creep: 14.0 * own(draws),
            falls: 0.0,
            falls_back: 0.12 * own(draws),
        }
    }

    /// An hour passes.
    pub(crate) fn hour(&mut self, before: Weather, now: Weather, draws: &mut Draws) {
        let late = (now.percent - self.soaked) / LATE_HOURS;
        self.soaked += late;
        let damp = self.at_once * (now.percent - before.percent) + (1.0 - self.at_once) * late;
        self.off += self.per_degree * (now.celsius - before.celsius) + self.per_percent * damp;
        self.off += self.wanders / 24f64.sqrt() * heavy(draws);
        if draws.chance(self.slips / 24.0) {
            self.off -= draws.between(0.5, 1.5);
        }
        if let Some(age) = &mut self.age {
            let crept = |days: f64| (days + 0.02).powf(0.3);
            self.off -= self.creep * (crept(*age + 1.0 / 24.0) - crept(*age));
            *age += 1.0 / 24.0;
        }
        self.off -= self.falls / 3.0;
        self.falls *= 2.0 / 3.0;
    }

    /// The harp is carried.
    pub(crate) fn carried(&mut self, all_cents: f64, draws: &mut Draws) {
        self.off += all_cents + 1.2 * draws.normal();
    }

    /// Another string is put on, a quarter tone low.
    pub(crate) fn fitted(&mut self) {
        self.age = Some(0.0);
        self.off = -50.0;
        self.slips = 0.0;
    }

    /// The pin is turned until the string is near its target.
    pub(crate) fn tuned(&mut self, draws: &mut Draws) {
        let left = 0.7 * draws.normal();
        self.falls = self.falls_back * (left - self.off);
        self.off = left;
    }

    /// What a pluck reads, and half of its interval, cents.
    pub(crate) fn read(&self, draws: &mut Draws) -> (f64, f64) {
        (self.off + self.reads * draws.normal(), 1.96 * self.reads)
    }
}

/// Student's t with three degrees of freedom, scaled to a standard deviation of one.
fn heavy(draws: &mut Draws) -> f64 {
    let squares: f64 = (0..3).map(|_| draws.normal().powi(2)).sum();
    let t = draws.normal() / (squares / 3.0).sqrt();
    t / 3f64.sqrt()
}
