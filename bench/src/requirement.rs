//! What must be reached, as data, and whether it is.

use pluck::Set;

use crate::figures::{Figure, Results, by_octave};
use crate::listener::Measure;
use crate::plan::SPANS_MS;
use crate::statistics::Estimate;
use crate::trial::{Cell, Trial};

/// How a figure has to lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Limit {
    /// No more than this.
    AtMost(f64),
    /// No less than this.
    AtLeast(f64),
    /// From the first to the second.
    Within(f64, f64),
}

impl Limit {
    /// Whether a figure is as it must be.
    pub fn is_met(self, value: f64) -> bool {
        self.excess(value) <= 0.0
    }

    /// By how much it is missed; negative inside.
    pub fn excess(self, value: f64) -> f64 {
        match self {
            Self::AtMost(most) => value - most,
            Self::AtLeast(least) => least - value,
            Self::Within(least, most) => (least - value).max(value - most),
        }
    }
}

/// Which plucks a requirement is about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum About {
    /// All plucks of a line.
    Cell(Cell),
    /// The octave of a line that misses the limit most, or comes nearest to it.
    WorstOctave(Cell),
    /// The same, with all takes that are held against the bound.
    WorstOctaveOfBound(Cell),
    /// The strings from C4 up, or those below.
    Register(Cell, Register),
}

/// A part of the harp.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Register {
    /// C4 and above.
    FromC4,
    /// Below C4.
    BelowC4,
}

impl Register {
    fn has(self, octave: i8) -> bool {
        (octave >= 4) == (self == Self::FromC4)
    }
}

/// One figure that must be reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Requirement {
    /// Of which plucks.
    pub about: About,
    /// Which figure.
    pub figure: Figure,
    /// How it has to lie.
    pub limit: Limit,
}

/// A requirement's figure as measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    /// The figure.
    pub estimate: Estimate,
    /// The octave, where it is one octave's.
    pub octave: Option<i8>,
    /// Whether it is as it must be.
    pub met: bool,
}

impl Requirement {
    /// What the results say; `None` where they say nothing.
    pub fn judge(&self, results: &Results) -> Option<Finding> {
        match self.about {
            About::Cell(cell) => self.whole(&results.cell(cell)),
            About::Register(cell, register) => {
                let mut trials = results.cell(cell);
                trials.retain(|trial| register.has(trial.octave));
                self.whole(&trials)
            }
            About::WorstOctave(cell) => self.worst(&results.cell(cell)),
            About::WorstOctaveOfBound(cell) => {
                self.worst(&results.against_bound(cell.set, cell.span_ms))
            }
        }
    }

    /// The line of a table it belongs to.
    pub fn cell(&self) -> Cell {
        match self.about {
            About::Cell(cell)
            | About::WorstOctave(cell)
            | About::WorstOctaveOfBound(cell)
            | About::Register(cell, _) => cell,
        }
    }

    fn whole(&self, trials: &[&Trial]) -> Option<Finding> {
        let estimate = self.figure.of(trials)?;
        Some(Finding {
            estimate,
            octave: None,
            met: self.limit.is_met(estimate.value),
        })
    }

    fn worst(&self, trials: &[&Trial]) -> Option<Finding> {
        let octaves = by_octave(trials).into_iter();
        let found = octaves.filter_map(|(octave, trials)| {
            let finding = self.whole(&trials)?;
            Some(Finding {
                octave: Some(octave),
                ..finding
            })
        });
        found.max_by(|a, b| {
            let excess = |finding: &Finding| self.limit.excess(finding.estimate.value);
            excess(a).total_cmp(&excess(b))
        })
    }
}

/// All requirements that single plucks can answer, in the order of the page.
pub fn requirements() -> Vec<Requirement> {
    let mut all = accuracy();
    all.extend(wrong());
    all.extend(refused());
    all.extend(bound());
    all.extend(honesty());
    all.extend(first_reading());
    all
}

fn cell(set: Set, span_ms: u32) -> Cell {
    Cell {
        set,
        span_ms,
        guided: false,
    }
}

fn accuracy() -> Vec<Requirement> {
    let limits = [
        (Set::Real20, 250, Some(0.40), 2.0),
        (Set::Real20, 500, Some(0.25), 1.0),
        (Set::Real20, 1000, Some(0.20), 0.8),
        (Set::Real40, 500, Some(0.25), 0.9),
        (Set::Real10, 500, Some(0.28), 1.1),
        (Set::Pit10, 500, None, 1.6),
    ];
    let mut all = Vec::new();
    for (set, span_ms, median, p95) in limits {
        for measure in Measure::ALL {
            let mut add = |figure, most| {
                all.push(Requirement {
                    about: About::Cell(cell(set, span_ms)),
                    figure,
                    limit: Limit::AtMost(most),
                });
            };
            if let Some(median) = median {
                add(Figure::Median(measure), median);
            }
            add(Figure::P95(measure), p95);
        }
    }
    all
}

fn wrong() -> Vec<Requirement> {
    let real = [Set::Real40, Set::Real20, Set::Real10];
    let real = real
        .into_iter()
        .flat_map(|set| SPANS_MS.map(|ms| (cell(set, ms), 0.2)));
    let guided = Cell {
        guided: true,
        ..cell(Set::Pit0, 500)
    };
    let pit = [
        (cell(Set::Pit10, 500), 0.5),
        (cell(Set::Pit0, 500), 5.0),
        (guided, 1.0),
    ];
    let rows = real.chain(pit).map(|(cell, most)| Requirement {
        about: About::Cell(cell),
        figure: Figure::Wrong,
        limit: Limit::AtMost(most),
    });
    rows.collect()
}

fn refused() -> Vec<Requirement> {
    let mut all = Vec::new();
    for set in Set::ALL {
        let most: &[(bool, f64)] = match set {
            Set::Clean40 | Set::Clean20 | Set::Clean10 => &[(false, 0.0)],
            Set::Real40 | Set::Real20 => &[(false, 1.0)],
            Set::Real10 => &[(false, 2.0)],
            Set::Pit10 => &[(false, 5.0)],
            Set::Pit0 => &[(false, 25.0), (true, 15.0)],
        };
        for &(guided, most) in most {
            all.extend(SPANS_MS.map(|span_ms| Requirement {
                about: About::Cell(Cell {
                    guided,
                    ..cell(set, span_ms)
                }),
                figure: Figure::Refused,
                limit: Limit::AtMost(most),
            }));
        }
    }
    all
}

fn bound() -> Vec<Requirement> {
    let sets = [Set::Clean20, Set::Clean10].into_iter();
    let rows = sets.flat_map(|set| {
        SPANS_MS.map(|span_ms| Requirement {
            about: About::WorstOctaveOfBound(cell(set, span_ms)),
            figure: Figure::OverBound,
            limit: Limit::AtMost(1.1),
        })
    });
    rows.collect()
}

fn honesty() -> Vec<Requirement> {
    let mut all = Vec::new();
    for set in Set::ALL {
        for span_ms in SPANS_MS {
            for measure in Measure::ALL {
                let cell = cell(set, span_ms);
                let holds = Figure::Holds(measure);
                all.push(Requirement {
                    about: About::Cell(cell),
                    figure: holds,
                    limit: Limit::Within(93.0, 97.0),
                });
                all.push(Requirement {
                    about: About::WorstOctave(cell),
                    figure: holds,
                    limit: Limit::Within(90.0, 99.0),
                });
                all.push(Requirement {
                    about: About::Cell(cell),
                    figure: Figure::Width(measure),
                    limit: Limit::AtMost(4.0),
                });
            }
        }
    }
    all
}

fn first_reading() -> Vec<Requirement> {
    let half = cell(Set::Real20, 500);
    let whole = About::Cell(half);
    let rows = [
        (whole, Figure::FirstRight, Limit::AtLeast(99.0)),
        (whole, Figure::FirstU95(50.0), Limit::AtMost(12.0)),
        (whole, Figure::FirstU95(95.0), Limit::AtMost(12.0)),
        (
            whole,
            Figure::FirstHolds(Measure::Heard),
            Limit::Within(93.0, 97.0),
        ),
        (
            whole,
            Figure::FirstHolds(Measure::FirstPartial),
            Limit::Within(93.0, 97.0),
        ),
        (
            About::Register(half, Register::FromC4),
            Figure::FirstGiven(95.0),
            Limit::AtMost(0.1),
        ),
        (
            About::Register(half, Register::BelowC4),
            Figure::FirstGiven(95.0),
            Limit::AtMost(0.25),
        ),
    ];
    let rows = rows.map(|(about, figure, limit)| Requirement {
        about,
        figure,
        limit,
    });
    rows.to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_include_their_ends() {
        for (limit, value, met) in [
            (Limit::AtMost(0.2), 0.2, true),
            (Limit::AtMost(0.2), 0.201, false),
            (Limit::AtLeast(99.0), 98.9, false),
            (Limit::Within(93.0, 97.0), 97.0, true),
            (Limit::Within(93.0, 97.0), 92.9, false),
            (Limit::Within(93.0, 97.0), 97.1, false),
            (Limit::AtMost(1.0), f64::NAN, false),
        ] {
            assert_eq!(limit.is_met(value), met, "{limit:?} {value}");
        }
    }

    #[test]
    fn every_set_has_its_share_of_refusals_and_its_intervals_limited() {
        let all = requirements();
        for set in Set::ALL {
            let of = |figure: Figure| {
                let about = |r: &&Requirement| r.figure == figure && r.cell().set == set;
                all.iter().filter(about).count()
            };
            assert_eq!(
                of(Figure::Refused),
                if set == Set::Pit0 { 6 } else { 3 },
                "{set}"
            );
            assert_eq!(of(Figure::Holds(Measure::Heard)), 6, "{set}");
        }
    }

    #[test]
    fn registers_meet_at_c4() {
        assert!(Register::FromC4.has(4) && !Register::FromC4.has(3));
        assert!(Register::BelowC4.has(3) && !Register::BelowC4.has(4));
    }
}
