//! What an ear can tell apart, against the published table and thresholds.

use pitch::{JND_TABLE, glide_audible_cents, jnd_cents, jnd_hz};

use crate::cases::{Case, check, rows};

#[test]
fn the_limits_of_hearing_are_the_published_ones() {
    check("hearing-limits", law);
}

fn law(case: &Case) -> Option<Vec<f64>> {
    let each = |law: &dyn Fn(f64) -> f64| case.list("hz").into_iter().map(law).collect();
    Some(match case.law.as_str() {
        "smallest audible glide in cents" => each(&glide_audible_cents),
        "just-noticeable step in cents" => each(&|hz| jnd_cents(hz).unwrap()),
        _ => return None,
    })
}

#[test]
fn the_table_of_just_noticeable_steps_is_the_published_one() {
    let rows = rows("hearing-limits", "just-noticeable.csv");
    assert_eq!(rows.len(), JND_TABLE.len());
    for row in rows {
        let row: Vec<f64> = row.iter().map(|text| text.parse().unwrap()).collect();
        assert_eq!(jnd_hz(row[0]), Some(row[1]));
    }
}
