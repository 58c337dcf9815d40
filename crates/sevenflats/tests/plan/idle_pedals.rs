//! Pedals that nothing asks for stand where a player looks for them: as the key has them.

use crate::asked::{planned, planned_with, setting};

// 'The Wheel Returns' has B, C, D and E only, and no sharps or flats in its key.
#[test]
fn in_a_key_without_signs_they_are_natural() {
    let plan = planned("repeat", &[]);
    assert_eq!(setting(&plan["opening_setting"]), "nnnnnnn");
}

// Three flats: B, E and A. B and E are played natural; A is played nowhere.
#[test]
fn in_a_key_with_flats_they_are_flat_as_it_says() {
    let (from, to) = ("<fifths>0</fifths>", "<fifths>-3</fifths>");
    let plan = planned_with("repeat", from, to, &[]);
    assert_eq!(setting(&plan["opening_setting"]), "nnnnnnb");
}

#[test]
fn but_where_she_says_otherwise() {
    let plan = planned("repeat", &["--opening", "{\"F\":1}"]);
    assert_eq!(setting(&plan["opening_setting"]), "nnnn#nn");
    let plan = planned("repeat", &["--stuck", "A=sharp"]);
    assert_eq!(setting(&plan["opening_setting"]), "nnnnnn#");
}
