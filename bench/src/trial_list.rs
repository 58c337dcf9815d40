//! Every trial as a line of a table, for whoever wants to know which plucks went wrong.

use harp::StringName;

use crate::trial::{First, Judged, Trial};

/// The heading of the table.
pub const HEADING: &str = "set,string,take,span_ms,guided,verdict,heard_error,heard_u95,f1_error,f1_u95,bound,\
                           first_right,first_error,first_u95,first_given_s,first_listened_s,first_last,named_before,another_after";

/// One line, with the heading's columns; `strings` are the harp's, bass to treble.
pub fn line(trial: &Trial, strings: &[StringName]) -> String {
    let cell = trial.cell;
    let string = strings
        .get(trial.place.index)
        .map(ToString::to_string)
        .unwrap_or_default();
    let verdict = match (&trial.last, &trial.refused) {
        (_, Some(reason)) => reason.replace(',', ";"),
        (Some(judged), None) if !judged.right => "another string".to_owned(),
        _ => "right string".to_owned(),
    };
    let first = match trial.first {
        First::Named(judged) => Some(judged),
        First::Nameless => None,
    };
    let fields = [
        cell.set.to_string(),
        string,
        trial.place.take.to_string(),
        cell.span_ms.to_string(),
        cell.guided.to_string(),
        verdict,
        number(trial.last, |j| j.heard.error_cents),
        number(trial.last, |j| j.heard.u95_cents),
        number(trial.last, |j| j.first_partial.error_cents),
        number(trial.last, |j| j.first_partial.u95_cents),
        trial
            .bound_cents
            .map(|bound| format!("{bound:.5}"))
            .unwrap_or_default(),
        first.map(|j| j.right.to_string()).unwrap_or_default(),
        number(first, |j| j.heard.error_cents),
        number(first, |j| j.heard.u95_cents),
        number(first, |j| j.given_s),
        number(first, |j| j.listened_s),
        first.map(|j| j.last.to_string()).unwrap_or_default(),
        trial.named_before.to_string(),
        trial.another_after.to_string(),
    ];
    fields.join(",")
}

fn number(judged: Option<Judged>, of: impl Fn(&Judged) -> f64) -> String {
    judged.map(|j| format!("{:.4}", of(&j))).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{Cell, Place};
    use pluck::Set;

    #[test]
    fn a_line_has_as_many_fields_as_the_heading() {
        let trial = Trial {
            cell: Cell {
                set: Set::Pit0,
                span_ms: 250,
                guided: true,
            },
            place: Place { index: 0, take: 3 },
            octave: 1,
            last: None,
            first: First::Nameless,
            refused: Some("too noisy, by far".to_owned()),
            named_before: false,
            another_after: false,
            bound_cents: None,
        };
        let line = line(&trial, &["C1".parse().unwrap()]);
        assert!(
            line.starts_with("pit0,C1,3,250,true,too noisy; by far,"),
            "{line}"
        );
        assert_eq!(line.split(',').count(), HEADING.split(',').count());
    }
}
