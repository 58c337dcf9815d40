//! Others on the same plucks.

use std::collections::BTreeMap;

use super::{alone, table, with_interval};
use crate::figures::Results;
use crate::plan::Plan;
use crate::rival::{Figures, Rival, our_reads};
use crate::speed::Speed;
use crate::statistics::Estimate;
use crate::trial::{Place, WRONG_CENTS};

/// A row for us and one for each of the others.
pub fn write(
    plan: &Plan,
    results: &Results,
    rivals: &[Rival],
    truths: &BTreeMap<(&'static str, Place), f64>,
    speed: Option<&Speed>,
) -> String {
    let sets: Vec<_> = plan.rival_sets().collect();
    let mut heading = vec!["median / p95, cents / wrong, % / no value, %".to_owned()];
    heading.extend(sets.iter().map(ToString::to_string));
    heading.push("computing ÷ sound".to_owned());
    let mut rows = Vec::new();
    let ours = sets
        .iter()
        .map(|set| figures(&Figures::of(&our_reads(results, *set))));
    let load = speed.map_or("–".to_owned(), |s| format!("{:.4}", s.ear.median));
    rows.push(row("**ours**, unguided", ours, load));
    for rival in rivals.iter().filter(|rival| !rival.pitches.is_empty()) {
        let of = sets
            .iter()
            .map(|set| figures(&Figures::of(&rival.reads(*set, truths))));
        let load = rival
            .load
            .map_or("–".to_owned(), |load| format!("{load:.4}"));
        rows.push(row(&rival.name, of, load));
    }
    let heading: Vec<&str> = heading.iter().map(String::as_str).collect();
    let mut text = table(&heading, &rows);
    text.push('\n');
    for rival in rivals {
        text.push_str(&format!("- {}: {}\n", rival.name, rival.about));
    }
    text
}

fn row(name: &str, figures: impl Iterator<Item = String>, load: String) -> Vec<String> {
    let mut row = vec![name.to_owned()];
    row.extend(figures);
    row.push(load);
    row
}

/// Errors beyond those of a wrong value say nothing of accuracy and are left blank.
fn figures(of: &Figures) -> String {
    let sane = |e: Option<Estimate>| e.filter(|e| e.value <= WRONG_CENTS);
    let median = with_interval(sane(of.median), 2);
    let p95 = alone(sane(of.p95), 2);
    format!(
        "{median} / {p95} / {} / {}",
        alone(of.wrong, 1),
        alone(of.none, 1)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rival::Read;

    #[test]
    fn errors_of_an_octave_are_left_blank_and_counted_wrong() {
        let read = |error_cents: f64| Read {
            error_cents: Some(error_cents),
            wrong: error_cents > 50.0,
        };
        let mut reads = vec![read(1.0); 80];
        reads.extend([read(1200.0); 20]);
        assert_eq!(
            figures(&Figures::of(&reads)),
            "1.00 [1.00, 1.00] / – / 20.0 / 0.0"
        );
    }
}
