//! Results as Markdown tables. Figures are only laid out here, never made.

pub mod cost;
pub mod others;
pub mod plucks;
pub mod required;

use crate::statistics::Estimate;
use crate::trial::Cell;

/// A table: its heading, then its rows. The first column reads from the left, the others stand right.
pub(crate) fn table(heading: &[&str], rows: &[Vec<String>]) -> String {
    let mut text = format!("| {} |\n|---|", heading.join(" | "));
    text.push_str(&"---:|".repeat(heading.len().saturating_sub(1)));
    text.push('\n');
    for row in rows {
        text.push_str(&format!("| {} |\n", row.join(" | ")));
    }
    text
}

/// `0.29 [0.26, 0.33]`, to so many places.
pub(crate) fn with_interval(estimate: Option<Estimate>, places: usize) -> String {
    estimate.map_or("–".to_owned(), |e| {
        format!(
            "{:.places$} [{:.places$}, {:.places$}]",
            e.value, e.low, e.high
        )
    })
}

/// The figure alone.
pub(crate) fn alone(estimate: Option<Estimate>, places: usize) -> String {
    estimate.map_or("–".to_owned(), |e| format!("{:.places$}", e.value))
}

/// `pit0, 0.5 s, guided`.
pub(crate) fn cell_name(cell: Cell) -> String {
    let seconds = f64::from(cell.span_ms) / 1000.0;
    let guided = if cell.guided { ", guided" } else { "" };
    format!("{}, {seconds} s{guided}", cell.set)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_is_markdown() {
        let rows = [vec!["a".to_owned(), "1".to_owned()]];
        assert_eq!(
            table(&["x", "y"], &rows),
            "| x | y |\n|---|---:|\n| a | 1 |\n"
        );
    }

    #[test]
    fn an_estimate_shows_its_interval() {
        let estimate = Estimate {
            value: 0.288,
            low: 0.26,
            high: 0.334,
            count: 9,
        };
        assert_eq!(with_interval(Some(estimate), 2), "0.29 [0.26, 0.33]");
        assert_eq!(
            (with_interval(None, 2), alone(None, 1)),
            ("–".to_owned(), "–".to_owned())
        );
    }
}
