//! What is measured, from the options given.

use clap::Args;
use pluck::Set;

use crate::trial::{Cell, Place};

/// Takes of every string in a full run.
const TAKES: u64 = 22;
/// Takes in a run that is only tried out.
const QUICK_TAKES: u64 = 2;
/// So many times the takes are heard where figures are held against the bound.
const BOUND_FACTOR: u64 = 3;
/// Milliseconds heard after the onset.
pub const SPANS_MS: [u32; 3] = [250, 500, 1000];
/// The sets on which others are measured, and for how long they hear each pluck.
pub const RIVAL_SETS: [Set; 5] = [Set::Real40, Set::Real20, Set::Real10, Set::Pit10, Set::Pit0];
/// See [`RIVAL_SETS`].
pub const RIVAL_SPAN_MS: u32 = 500;

/// Which plucks are heard.
#[derive(Args, Clone, Debug, PartialEq)]
pub struct Plan {
    /// Takes of every string [default: 22; 66 where figures are held against the bound]
    #[arg(long)]
    takes: Option<u64>,
    /// The seed of all plucks.
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
    /// Only this set; may be given more than once.
    #[arg(long = "set", value_name = "SET")]
    sets: Vec<Set>,
    /// Only this long after the onset, in seconds: 0.25, 0.5 or 1; may be given more than once.
    #[arg(long = "t", value_name = "SECONDS", value_parser = span)]
    spans_ms: Vec<u32>,
    /// Two takes of every string, no hour-long file: to try things out.
    #[arg(long)]
    pub quick: bool,
    /// Leave others out.
    #[arg(long)]
    pub alone: bool,
}

impl Plan {
    /// Whether this is the run that the published page shows.
    pub fn is_full(&self) -> bool {
        let usual = self.takes.is_none_or(|takes| takes == TAKES) && self.seed == 1;
        usual && self.sets.is_empty() && self.spans_ms.is_empty() && !self.quick && !self.alone
    }

    /// Takes of every string in each table.
    pub fn takes(&self) -> u64 {
        let usual = if self.quick { QUICK_TAKES } else { TAKES };
        self.takes.unwrap_or(usual)
    }

    /// Takes of every string where figures are held against the bound.
    pub fn bound_takes(&self) -> u64 {
        self.takes() * BOUND_FACTOR
    }

    /// The sets, in their usual order.
    pub fn sets(&self) -> impl Iterator<Item = Set> {
        Set::ALL
            .into_iter()
            .filter(|set| self.sets.is_empty() || self.sets.contains(set))
    }

    /// The sets on which others are measured.
    pub fn rival_sets(&self) -> impl Iterator<Item = Set> {
        self.sets()
            .filter(|set| !self.alone && RIVAL_SETS.contains(set))
    }

    /// Milliseconds heard after the onset, ascending.
    pub fn spans_ms(&self) -> impl Iterator<Item = u32> {
        SPANS_MS
            .into_iter()
            .filter(|ms| self.spans_ms.is_empty() || self.spans_ms.contains(ms))
    }

    /// Every pluck that is rendered.
    pub fn places(&self) -> impl Iterator<Item = (Set, Place)> {
        self.sets().flat_map(|set| {
            let takes = if has_bound(set) {
                self.bound_takes()
            } else {
                self.takes()
            };
            Set::order(takes).map(move |(index, take)| (set, Place { index, take }))
        })
    }

    /// Every way in which one pluck is heard.
    pub fn cells(&self, set: Set, _place: Place) -> impl Iterator<Item = Cell> {
        self.spans_ms().flat_map(move |span_ms| {
            let ways: &[bool] = if set == Set::Pit0 {
                &[false, true]
            } else {
                &[false]
            };
            ways.iter().map(move |&guided| Cell {
                set,
                span_ms,
                guided,
            })
        })
    }

    /// The lines of a table, in order.
    pub fn all_cells(&self) -> Vec<Cell> {
        let any = Place { index: 0, take: 0 };
        self.sets().flat_map(|set| self.cells(set, any)).collect()
    }
}

/// Whether figures are held against the bound on this set.
pub fn has_bound(set: Set) -> bool {
    matches!(set, Set::Clean20 | Set::Clean10)
}

fn span(text: &str) -> Result<u32, String> {
    let seconds: f64 = text.parse().map_err(|_| format!("'{text}' is no number"))?;
    let ms = (seconds * 1000.0).round();
    SPANS_MS
        .into_iter()
        .find(|span| f64::from(*span) == ms)
        .ok_or_else(|| format!("{text} s is not measured: 0.25, 0.5 or 1"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::Parser;

    #[derive(Parser)]
    struct Line {
        #[command(flatten)]
        plan: Plan,
    }

    fn plan(words: &[&str]) -> Plan {
        Line::parse_from(["bench"].iter().chain(words)).plan
    }

    #[test]
    fn the_full_run_has_the_plucks_that_were_asked_for() {
        let full = plan(&[]);
        assert!(full.is_full() && plan(&["--takes", "22"]).is_full());
        let of = |wanted: Set| full.places().filter(|(set, _)| *set == wanted).count();
        assert_eq!(
            (of(Set::Real20), of(Set::Clean40), of(Set::Clean20)),
            (1034, 1034, 3102)
        );
        assert_eq!(full.all_cells().len(), 8 * 3 + 3);
    }

    #[test]
    fn anything_left_out_is_not_the_full_run() {
        for words in [
            &["--quick"][..],
            &["--seed", "2"],
            &["--set", "pit0"],
            &["--t", "0.5"],
        ] {
            assert!(!plan(words).is_full(), "{words:?}");
        }
    }

    #[test]
    fn filters_filter() {
        let some = plan(&[
            "--set", "pit0", "--set", "real20", "--t", ".5", "--takes", "1",
        ]);
        assert_eq!(some.places().count(), 94);
        assert_eq!(some.all_cells().len(), 3);
        assert_eq!(
            span("0.3").unwrap_err(),
            "0.3 s is not measured: 0.25, 0.5 or 1"
        );
    }
}
