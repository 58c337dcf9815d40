//! The figures of a table, from the trials behind them.

use pluck::Set;

use crate::listener::Measure;
use crate::plan::Plan;
use crate::statistics::{Estimate, estimate, median, per_cent, percentile, root_mean_square};
use crate::trial::{Cell, First, Judged, Trial};

/// One figure of some trials. Errors are those of accepted readings of the right string; rates are over all plucks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Figure {
    /// Median of the absolute error, cents.
    Median(Measure),
    /// Its 95th percentile, cents.
    P95(Measure),
    /// Another string named, or a value more than 50 cents off, per cent.
    Wrong,
    /// No value, or no string named, per cent.
    Refused,
    /// Plucks before which a string was named for what sounded already, per cent.
    Before,
    /// Plucks after which another string was named for a pluck that never was, per cent; counted as wrong too.
    After,
    /// Intervals that hold the truth, per cent.
    Holds(Measure),
    /// Median of u95 ÷ median of the absolute error.
    Width(Measure),
    /// Median of u95, cents.
    U95(Measure),
    /// Root mean square of error ÷ bound.
    OverBound,
    /// First readings of the right string, per cent of all plucks that gave any reading.
    FirstRight,
    /// Percentile (0 to 100) of the first readings' u95, cents.
    FirstU95(f64),
    /// First readings whose u95 is at most so many cents, per cent.
    FirstWithin(f64),
    /// First readings whose interval holds the truth, per cent.
    FirstHolds(Measure),
    /// Percentile (0 to 100) of the sound handed over when the first reading came, seconds.
    FirstGiven(f64),
    /// Percentile (0 to 100) of how long first readings say they listened, seconds.
    FirstListened(f64),
    /// First readings that were not the last word, per cent.
    FirstEarly,
}

impl Figure {
    /// The figure with its 95 % interval; plucks are what is redrawn. `None` where there is nothing to take it from.
    pub fn of(self, trials: &[&Trial]) -> Option<Estimate> {
        estimate(trials, |trials| self.value(trials))
    }

    fn value(self, trials: &[&Trial]) -> Option<f64> {
        match self {
            Self::Median(m) => median(&errors(trials, m)),
            Self::P95(m) => percentile(&errors(trials, m), 95.0),
            Self::Wrong => per_cent(trials, |trial| trial.is_wrong()),
            Self::Refused => per_cent(trials, |trial| trial.last.is_none()),
            Self::Before => per_cent(trials, |trial| trial.named_before),
            Self::After => per_cent(trials, |trial| trial.another_after),
            Self::Holds(m) => per_cent(&accepted(trials), |judged| judged.of(m).holds()),
            Self::Width(m) => ratio(median(&u95s(trials, m)), median(&errors(trials, m))),
            Self::U95(m) => median(&u95s(trials, m)),
            Self::OverBound => root_mean_square(&over_bound(trials)),
            Self::FirstRight => {
                let any: Vec<_> = trials.iter().filter(|t| gave_any(t)).collect();
                per_cent(&any, |trial| first(trial).is_some())
            }
            Self::FirstU95(p) => percentile(&firsts(trials, |judged| judged.heard.u95_cents), p),
            Self::FirstWithin(cents) => {
                let u95s = firsts(trials, |judged| judged.heard.u95_cents);
                per_cent(&u95s, |u95| *u95 <= cents)
            }
            Self::FirstHolds(m) => {
                let all: Vec<Judged> = trials.iter().filter_map(|t| first(t)).collect();
                per_cent(&all, |judged| judged.of(m).holds())
            }
            Self::FirstGiven(p) => percentile(&firsts(trials, |judged| judged.given_s), p),
            Self::FirstListened(p) => percentile(&firsts(trials, |judged| judged.listened_s), p),
            Self::FirstEarly => {
                let all: Vec<Judged> = trials.iter().filter_map(|t| first(t)).collect();
                per_cent(&all, |judged| !judged.last)
            }
        }
    }
}

/// All trials of a run, and which of them belong where.
#[derive(Debug)]
pub struct Results {
    trials: Vec<Trial>,
    takes: u64,
}

impl Results {
    /// The trials of a plan.
    pub fn new(plan: &Plan, trials: Vec<Trial>) -> Self {
        Self {
            trials,
            takes: plan.takes(),
        }
    }

    /// All of them.
    pub fn all(&self) -> &[Trial] {
        &self.trials
    }

    /// The trials of one line of a table.
    pub fn cell(&self, cell: Cell) -> Vec<&Trial> {
        let within = |trial: &&Trial| trial.cell == cell && trial.place.take < self.takes;
        self.trials.iter().filter(within).collect()
    }

    /// The trials held against the bound: more takes of the same.
    pub fn against_bound(&self, set: Set, span_ms: u32) -> Vec<&Trial> {
        let cell = Cell {
            set,
            span_ms,
            guided: false,
        };
        self.trials
            .iter()
            .filter(|trial| trial.cell == cell)
            .collect()
    }
}

/// The trials of each scientific octave, ascending.
pub fn by_octave<'a>(trials: &[&'a Trial]) -> Vec<(i8, Vec<&'a Trial>)> {
    let of = |octave: i8| -> Vec<&'a Trial> {
        trials
            .iter()
            .copied()
            .filter(|t| t.octave == octave)
            .collect()
    };
    (0..=8)
        .map(|octave| (octave, of(octave)))
        .filter(|(_, trials)| !trials.is_empty())
        .collect()
}

fn accepted(trials: &[&Trial]) -> Vec<Judged> {
    trials.iter().filter_map(|trial| trial.accepted()).collect()
}

fn errors(trials: &[&Trial], measure: Measure) -> Vec<f64> {
    let judged = trials.iter().filter_map(|trial| trial.accepted());
    judged.map(|j| j.of(measure).error_cents.abs()).collect()
}

fn u95s(trials: &[&Trial], measure: Measure) -> Vec<f64> {
    let judged = trials.iter().filter_map(|trial| trial.accepted());
    judged.map(|j| j.of(measure).u95_cents).collect()
}

fn over_bound(trials: &[&Trial]) -> Vec<f64> {
    let pairs = trials
        .iter()
        .filter_map(|trial| Some((trial.accepted()?, trial.bound_cents?)));
    pairs
        .map(|(j, bound)| j.first_partial.error_cents / bound)
        .collect()
}

fn ratio(above: Option<f64>, below: Option<f64>) -> Option<f64> {
    let (above, below) = (above?, below?);
    (below > 0.0).then(|| above / below)
}

fn gave_any(trial: &Trial) -> bool {
    trial.last.is_some() || matches!(trial.first, First::Named(_))
}

fn first(trial: &Trial) -> Option<Judged> {
    match trial.first {
        First::Named(judged) => Some(judged).filter(|judged| judged.right),
        First::Nameless => None,
    }
}

fn firsts(trials: &[&Trial], of: impl Fn(&Judged) -> f64) -> Vec<f64> {
    trials
        .iter()
        .filter_map(|t| first(t))
        .map(|j| of(&j))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{Miss, Place};

    const CELL: Cell = Cell {
        set: Set::Clean20,
        span_ms: 500,
        guided: false,
    };

    fn judged(right: bool, error_cents: f64, u95_cents: f64) -> Judged {
        let miss = Miss {
            error_cents,
            u95_cents,
        };
        Judged {
            right,
            heard: miss,
            first_partial: miss,
            listened_s: 0.1,
            given_s: 0.11,
            last: false,
        }
    }

    fn trial(octave: i8, last: Option<Judged>) -> Trial {
        Trial {
            cell: CELL,
            place: Place { index: 0, take: 0 },
            octave,
            last,
            first: last.map_or(First::Nameless, First::Named),
            refused: None,
            named_before: false,
            another_after: false,
            bound_cents: Some(0.5),
        }
    }

    /// Ten plucks: six right with errors 1 … 6 and u95 3.5, one refused, one another string, two far off.
    fn ten() -> Vec<Trial> {
        let mut all: Vec<Trial> = (1..=6)
            .map(|cents| trial(3, Some(judged(true, -f64::from(cents), 3.5))))
            .collect();
        all.push(trial(3, None));
        all.push(trial(4, Some(judged(false, 0.0, 3.5))));
        all.push(trial(4, Some(judged(true, 60.0, 3.5))));
        all.push(trial(4, Some(judged(true, -70.0, 3.5))));
        all
    }

    #[test]
    fn each_figure_counts_what_it_says() {
        let all = ten();
        let trials: Vec<&Trial> = all.iter().collect();
        for (figure, expected) in [
            (Figure::Median(Measure::Heard), 4.5),
            (Figure::P95(Measure::FirstPartial), 66.5),
            (Figure::Wrong, 30.0),
            (Figure::Refused, 10.0),
            (Figure::Holds(Measure::Heard), 37.5),
            (Figure::Width(Measure::Heard), 3.5 / 4.5),
            (Figure::U95(Measure::Heard), 3.5),
            (Figure::FirstRight, 800.0 / 9.0),
            (Figure::FirstU95(50.0), 3.5),
            (Figure::FirstWithin(3.0), 0.0),
            (Figure::FirstHolds(Measure::Heard), 37.5),
            (Figure::FirstGiven(95.0), 0.11),
            (Figure::FirstListened(50.0), 0.1),
            (Figure::FirstEarly, 100.0),
        ] {
            let got = figure.of(&trials).unwrap();
            assert!((got.value - expected).abs() < 1e-9, "{figure:?}: {got:?}");
            assert!(
                got.low <= got.value + 1e-9 && got.value <= got.high + 1e-9,
                "{figure:?}: {got:?}"
            );
        }
    }

    #[test]
    fn a_bound_reached_exactly_is_one() {
        let all: Vec<Trial> = (0..8)
            .map(|_| trial(3, Some(judged(true, 0.5, 1.0))))
            .collect();
        let trials: Vec<&Trial> = all.iter().collect();
        assert_eq!(Figure::OverBound.of(&trials).unwrap().value, 1.0);
    }

    #[test]
    fn an_honest_interval_holds_nineteen_times_in_twenty() {
        let mut draws = pluck::generator::Generator::new(&[3]);
        let honest = |error: f64| trial(3, Some(judged(true, error, 1.96)));
        let all: Vec<Trial> = (0..4000).map(|_| honest(draws.normal())).collect();
        let trials: Vec<&Trial> = all.iter().collect();
        let holds = Figure::Holds(Measure::FirstPartial).of(&trials).unwrap();
        assert!((holds.value - 95.0).abs() < 1.4, "{holds:?}"); // four standard deviations
        assert!(holds.low < 95.2 && holds.high > 94.8 && holds.high - holds.low < 2.0);
        let over = Figure::OverBound.of(&trials).unwrap(); // the bound is 0.5, the deviation 1
        assert!((over.value - 2.0).abs() < 0.1, "{over:?}");
        let width = Figure::Width(Measure::Heard).of(&trials).unwrap();
        assert!((width.value - 1.96 / 0.6745).abs() < 0.15, "{width:?}"); // median of |N(0, 1)|
    }

    #[test]
    fn octaves_are_kept_apart() {
        let all = ten();
        let trials: Vec<&Trial> = all.iter().collect();
        let octaves = by_octave(&trials);
        let counts: Vec<_> = octaves
            .iter()
            .map(|(octave, t)| (*octave, t.len()))
            .collect();
        assert_eq!(counts, [(3, 7), (4, 3)]);
    }

    #[test]
    fn nothing_accepted_gives_no_error() {
        let all = [trial(3, None)];
        let trials: Vec<&Trial> = all.iter().collect();
        assert_eq!(Figure::Median(Measure::Heard).of(&trials), None);
        assert_eq!(Figure::Refused.of(&trials).unwrap().value, 100.0);
    }
}
