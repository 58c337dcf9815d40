//! The sets held against an independent implementation in NumPy: `reference/pluck-vectors`.

#![allow(
    clippy::unwrap_used,
    reason = "a vector that cannot be read must fail the test"
)]

use pluck::{Pluck, Set};

const PLUCKS: &str = include_str!("../../../reference/pluck-vectors/plucks.csv");
const SAMPLES: &str = include_str!("../../../reference/pluck-vectors/samples.csv");
/// The plucks' peak is 0.2; a millionth of it.
const SAMPLE_TOLERANCE: f64 = 2e-7;

struct Row {
    key: (Set, usize, u64, u64),
    rest: Vec<String>,
}

#[test]
fn truth_and_bounds_follow_numpy() {
    let rows = rows(PLUCKS);
    assert!(rows.len() >= 24, "only {} plucks to check", rows.len());
    for set in Set::ALL {
        assert!(rows.iter().any(|row| row.key.0 == set), "no pluck of {set}");
    }
    rows.iter().for_each(check_truth);
}

#[test]
fn samples_follow_numpy() {
    let rows = rows(SAMPLES);
    assert!(
        rows.len() >= 24 * 50,
        "only {} samples to check",
        rows.len()
    );
    for same in rows.chunk_by(|a, b| a.key == b.key) {
        let pluck = make(&same[0]);
        for row in same {
            let (place, value): (usize, f64) =
                (row.rest[0].parse().unwrap(), row.rest[1].parse().unwrap());
            let mine = f64::from(pluck.samples[place]);
            assert!(
                (mine - value).abs() < SAMPLE_TOLERANCE,
                "{:?} sample {place}: {mine}, not {value}",
                row.key
            );
        }
    }
}

fn check_truth(row: &Row) {
    let pluck = make(row);
    let truth = &pluck.truth;
    assert_eq!(truth.string, row.rest[0], "{:?}", row.key);
    let squares: f64 = pluck.samples.iter().map(|&x| f64::from(x).powi(2)).sum();
    let mine = [
        (truth.f1_hz, 1e-12),
        (truth.sounding_hz, 1e-9),
        (truth.f0_hz, 1e-12),
        (truth.b, 1e-12),
        (truth.glide_cents, 1e-12),
        (truth.bound_cents(0.25), 1e-8),
        (truth.bound_cents(0.5), 1e-8),
        (truth.bound_cents(1.0), 1e-8),
        (truth.partials.len() as f64, 0.0),
        (truth.noise_power, 1e-9),
        ((squares / pluck.samples.len() as f64).sqrt(), 1e-7),
    ];
    assert_eq!(mine.len() + 1, row.rest.len());
    for (column, ((mine, tolerance), expected)) in mine.iter().zip(&row.rest[1..]).enumerate() {
        let expected: f64 = expected.parse().unwrap();
        let off = (mine - expected).abs();
        assert!(
            off <= tolerance * expected.abs(),
            "{:?} figure {column}: {mine}, not {expected}",
            row.key
        );
    }
}

fn make(row: &Row) -> Pluck {
    let (set, index, take, seed) = row.key;
    set.pluck(index, take, seed)
}

fn rows(table: &str) -> Vec<Row> {
    let parse = |line: &str| {
        let cells: Vec<String> = line.split(',').map(str::to_owned).collect();
        let key = (
            cells[0].parse().unwrap(),
            cells[1].parse().unwrap(),
            cells[2].parse().unwrap(),
            cells[3].parse().unwrap(),
        );
        Row {
            key,
            rest: cells[4..].to_vec(),
        }
    };
    table.lines().skip(1).map(parse).collect()
}
