//! Rounds from beginning to end: string by string, passed and eased down, interrupted, near, undone.

use tuning::round::{Plan, State};

use crate::table::{check, name, plan};

/// Ten strings of a pedal harp, from 5F to 4A.
fn few() -> Plan {
    let mut plan = plan("pedal47");
    plan.strings
        .retain(|s| (name("5F")..=name("4A")).contains(&s.standing.string));
    plan
}

#[test]
fn a_harp_twenty_cents_low_is_brought_up_string_by_string() {
    // order: 4G 4F 5E 5D 5C 5B 5A 5G 5F, then 4A; 4F and 5E, 5C and 5B stand a semitone apart
    let round = check(
        few(),
        "begin            | 10 strings; Now 4G
         pluck 4G -21     | 4G: 21.0 cents low. Up more; not Now
         move  4G -15     | 4G: −15.0, still up
         move  4G -6      | still up; not enough
         move  4G -1      | 4G: −1.0, there; 4G: enough
         pluck 4G -0.5    | 4G: in tune (−0.5); Now 4F
         pluck 4F -19     | 4F: 19.0 cents low. Up a little
         pluck 4F -1      | 4F: in tune; Now 5E
         pluck 5E -22     | 5E: 22.0 cents low. Up more
         pluck 5E -6      | 5E: 6.0 cents low. Up a hair
         pluck 5E 1       | 5E: in tune; Now 5D
         pluck 5D -18     | 5D: 18.0 cents low
         pluck 5D 2       | 5D: in tune; Now 5C; left
         pluck 5C -20     | 5C: 20.0 cents low
         pluck 5C 0       | 5C: in tune; Now 5B
         pluck 5B -24     | 5B: 24.0 cents low. Up more
         pluck 5B 0       | 5B: in tune; Now 5A
         pluck 5A -20     | 5A: 20.0 cents low
         pluck 5A 1       | 5A: in tune; Now 5G
         pluck 5G -17     | 5G: 17.0 cents low
         pluck 5G 1       | 5G: in tune; Now 5F
         pluck 5F -20     | 5F: 20.0 cents low
         pluck 5F 0       | 5F: in tune; Now 4A
         pluck 4A -20     | 4A: 20.0 cents low
         pluck 4A 0       | 4A: in tune; Hear 4G and 4F again; cents in all; Now 4G again
         pluck 4G -5      | 4G: 5.0 cents low. Up a hair
         pluck 4G 0       | 4G: in tune; Now 4F again
         pluck 4F -2      | 4F: in tune; All heard
         finish           | over",
    );
    let summary = round.summary();
    assert_eq!(
        (summary.left, summary.again.len(), summary.warnings.len()),
        (0, 0, 0)
    );
    let g = summary
        .strings
        .iter()
        .find(|s| s.string == name("4G"))
        .unwrap();
    assert!((g.before.unwrap().off_cents + 21.0).abs() < 1e-9);
    assert!(g.after.unwrap().off_cents.abs() < 1e-9);
    assert_eq!((g.plucks, g.state), (4, State::InTune));
}
