//! The figures of every line of plucks, in detail.

use std::collections::BTreeMap;

use super::{alone, cell_name, table, with_interval};
use crate::figures::{Figure, Results, by_octave};
use crate::listener::Measure;
use crate::plan::{Plan, has_bound};
use crate::trial::{Cell, Trial};

/// Octaves of the harp's strings, scientific.
const OCTAVES: [i8; 7] = [1, 2, 3, 4, 5, 6, 7];

/// Rates and errors of every line.
pub fn accuracy(plan: &Plan, results: &Results) -> String {
    let heading = [
        "set, heard",
        "plucks",
        "refused, %",
        "wrong, %",
        "after, %",
        "before, %",
        "`heard_hz` median",
        "`heard_hz` p95",
        "`f1_hz` median",
        "`f1_hz` p95",
    ];
    let rows = plan.all_cells().into_iter().map(|cell| {
        let trials = results.cell(cell);
        let mut row = vec![cell_name(cell), trials.len().to_string()];
        let figures = [
            Figure::Refused,
            Figure::Wrong,
            Figure::After,
            Figure::Before,
        ]
        .into_iter();
        let errors = Measure::ALL
            .into_iter()
            .flat_map(|m| [Figure::Median(m), Figure::P95(m)]);
        row.extend(
            figures
                .chain(errors)
                .map(|f| with_interval(f.of(&trials), 2)),
        );
        row
    });
    table(&heading, &rows.collect::<Vec<_>>())
}

/// Why plucks were refused.
pub fn refusals(plan: &Plan, results: &Results) -> String {
    let rows = plan.all_cells().into_iter().filter_map(|cell| {
        let mut reasons: BTreeMap<&str, usize> = BTreeMap::new();
        for trial in results.cell(cell) {
            if let Some(reason) = &trial.refused {
                *reasons.entry(reason).or_default() += 1;
            }
        }
        let words: Vec<String> = reasons
            .iter()
            .map(|(why, n)| format!("{why} {n}"))
            .collect();
        (!words.is_empty()).then(|| vec![cell_name(cell), words.join(", ")])
    });
    let rows: Vec<Vec<String>> = rows.collect();
    if rows.is_empty() {
        return "None was.\n".to_owned();
    }
    table(&["set, heard", "refused: reason and count"], &rows)
}

/// How often intervals hold, by octave, and how wide they are.
pub fn intervals(plan: &Plan, results: &Results, measure: Measure) -> String {
    let mut heading = vec!["set, heard".to_owned(), "holds, %".to_owned()];
    heading.extend(OCTAVES.map(|octave| format!("octave {octave}")));
    heading.extend([
        "median u95, cents".to_owned(),
        "median u95 ÷ median error".to_owned(),
    ]);
    let rows = plan.all_cells().into_iter().map(|cell| {
        let trials = results.cell(cell);
        let mut row = vec![
            cell_name(cell),
            with_interval(Figure::Holds(measure).of(&trials), 1),
        ];
        row.extend(per_octave(&trials, Figure::Holds(measure), 1, false));
        row.push(alone(Figure::U95(measure).of(&trials), 2));
        row.push(with_interval(Figure::Width(measure).of(&trials), 2));
        row
    });
    let heading: Vec<&str> = heading.iter().map(String::as_str).collect();
    table(&heading, &rows.collect::<Vec<_>>())
}

/// RMSE of `f1_hz` ÷ bound, by octave.
pub fn over_bound(plan: &Plan, results: &Results) -> String {
    let mut heading = vec!["set, heard".to_owned(), "plucks".to_owned()];
    heading.extend(OCTAVES.map(|octave| format!("octave {octave}")));
    let cells = plan
        .all_cells()
        .into_iter()
        .filter(|cell| has_bound(cell.set));
    let rows = cells.map(|cell| {
        let trials = results.against_bound(cell.set, cell.span_ms);
        let mut row = vec![cell_name(cell), trials.len().to_string()];
        row.extend(per_octave(&trials, Figure::OverBound, 2, true));
        row
    });
    let heading: Vec<&str> = heading.iter().map(String::as_str).collect();
    table(&heading, &rows.collect::<Vec<_>>())
}

/// Median of the absolute error by octave, where the error has no other place: the two measures of one set.
pub fn errors_by_octave(results: &Results, cell: Cell) -> String {
    let mut heading = vec![cell_name(cell)];
    heading.extend(OCTAVES.map(|octave| format!("octave {octave}")));
    let trials = results.cell(cell);
    let figures = Measure::ALL.into_iter().flat_map(|m| {
        let name = m.as_str();
        [
            (format!("`{name}` median"), Figure::Median(m)),
            (format!("`{name}` p95"), Figure::P95(m)),
        ]
    });
    let rows = figures.map(|(name, figure)| {
        let mut row = vec![name];
        row.extend(per_octave(&trials, figure, 2, true));
        row
    });
    let heading: Vec<&str> = heading.iter().map(String::as_str).collect();
    table(&heading, &rows.collect::<Vec<_>>())
}

/// First readings by register.
pub fn first_readings(results: &Results, cell: Cell) -> String {
    let heading = [
        "first reading",
        "plucks",
        "right string, %",
        "early, %",
        "u95 median, cents",
        "u95 ≤ 12 cents, %",
        "`heard_hz` holds, %",
        "sound given: median, s",
        "p95, s",
        "listened: median, s",
        "p95, s",
    ];
    let trials = results.cell(cell);
    let registers = [
        ("all strings", 0..=8),
        ("from C4 up", 4..=8),
        ("below C4", 0..=3),
    ];
    let rows = registers.into_iter().map(|(name, octaves)| {
        let of: Vec<&Trial> = trials
            .iter()
            .copied()
            .filter(|t| octaves.contains(&t.octave))
            .collect();
        let figures = [
            (Figure::FirstRight, 1),
            (Figure::FirstEarly, 1),
            (Figure::FirstU95(50.0), 2),
            (Figure::FirstWithin(12.0), 1),
            (Figure::FirstHolds(Measure::Heard), 1),
            (Figure::FirstGiven(50.0), 3),
            (Figure::FirstGiven(95.0), 3),
            (Figure::FirstListened(50.0), 3),
            (Figure::FirstListened(95.0), 3),
        ];
        let mut row = vec![name.to_owned(), of.len().to_string()];
        row.extend(figures.map(|(figure, places)| with_interval(figure.of(&of), places)));
        row
    });
    table(&heading, &rows.collect::<Vec<_>>())
}

fn per_octave(trials: &[&Trial], figure: Figure, places: usize, interval: bool) -> Vec<String> {
    let octaves = by_octave(trials);
    let of = |octave: &i8| {
        let trials = octaves
            .iter()
            .find(|(o, _)| o == octave)
            .map(|(_, trials)| trials);
        let estimate = trials.and_then(|trials| figure.of(trials));
        if interval {
            with_interval(estimate, places)
        } else {
            alone(estimate, places)
        }
    };
    OCTAVES.iter().map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{First, Place};
    use pluck::Set;

    #[test]
    fn octaves_without_plucks_are_blank() {
        let trial = Trial {
            cell: Cell {
                set: Set::Real20,
                span_ms: 500,
                guided: false,
            },
            place: Place { index: 0, take: 0 },
            octave: 3,
            last: None,
            first: First::Nameless,
            refused: Some("too noisy".to_owned()),
            named_before: false,
            another_after: false,
            bound_cents: None,
        };
        let cells = per_octave(&[&trial], Figure::Refused, 1, false);
        assert_eq!(cells, ["–", "–", "100.0", "–", "–", "–", "–"]);
    }
}
