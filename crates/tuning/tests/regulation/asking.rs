//! What a check asks for, and what it takes.

use harp::{Harp, Position, Setup, StringName};
use pitch::ReferencePitch;
use tuning::regulation::{Bounds, Check, Pace, Say, Step, Weight, regulated, within_time};

use super::name;

fn check(harp: &str, strings: &[&str]) -> Check {
    let harp = Harp::named(harp).unwrap();
    let strings: Vec<StringName> = strings.iter().map(|string| name(string)).collect();
    Check::new(&harp, &Setup::open(ReferencePitch::A440), &strings).unwrap()
}

/// Plucks the string that is asked for.
fn pluck(check: &mut Check, off_cents: f64) -> Vec<Say> {
    let (_, string) = check.next().unwrap();
    check.heard(string, off_cents, 0.5)
}

#[test]
fn every_string_is_asked_for_in_every_position_and_open_once_more() {
    let mut check = check("pedal47", &["G4", "C1", "F4", "G4"]);
    let mut asked = Vec::new();
    while let Some((position, string)) = check.next() {
        asked.push(format!("{string} {position}"));
        let says = pluck(&mut check, 1.0);
        assert!(matches!(says[0], Say::Taken(_)));
        let moved = says.get(1).copied();
        match asked.len() {
            2 => assert_eq!(moved, Some(Say::Set(Position::Natural))),
            4 => assert_eq!(moved, Some(Say::Set(Position::Sharp))),
            6 => assert_eq!(moved, Some(Say::Set(Position::Open))),
            8 => assert_eq!(moved, Some(Say::Done)),
            _ => assert_eq!(moved, None),
        }
    }
    // the low C has no discs, and the G was named twice
    let expected = [
        "G4 open",
        "F4 open",
        "G4 natural",
        "F4 natural",
        "G4 sharp",
        "F4 sharp",
        "G4 open",
        "F4 open",
    ];
    assert_eq!(asked, expected);
    assert_eq!((check.left(), check.plucks().len()), (0, 8));
    assert_eq!(check.heard(name("G4"), 0.0, 0.5), [Say::Done]);
}

#[test]
fn the_order_is_hers() {
    let mut check = check("pedal47", &["G4", "F4", "E4"]);
    assert!(matches!(
        check.heard(name("E4"), 0.0, 0.5)[0],
        Say::Taken(_)
    ));
    assert_eq!(
        check.heard(name("E4"), 0.0, 0.5),
        [Say::NotAsked(name("E4"))]
    );
    assert_eq!(
        check.heard(name("A4"), 0.0, 0.5),
        [Say::NotAsked(name("A4"))]
    );
    assert_eq!(check.next(), Some((Position::Open, name("G4"))));
}

#[test]
fn a_string_that_stands_as_before_is_asked_about_and_taken_at_the_second_pluck() {
    let mut check = check("pedal47", &["G4", "F4"]);
    pluck(&mut check, 2.0);
    pluck(&mut check, 0.0);
    assert_eq!(pluck(&mut check, -99.0), [Say::AsBefore(name("G4"))]);
    // the pedal was up, and is moved
    assert!(matches!(pluck(&mut check, 1.0)[0], Say::Taken(_)));
    // this disc does not reach its string
    assert_eq!(pluck(&mut check, -96.0), [Say::AsBefore(name("F4"))]);
    assert!(matches!(pluck(&mut check, -96.0)[0], Say::Taken(_)));
    // neither do both
    assert!(matches!(pluck(&mut check, 0.0)[0], Say::Taken(_)));
    assert_eq!(pluck(&mut check, -197.0), [Say::AsBefore(name("F4"))]);
    assert_eq!(
        pluck(&mut check, -197.0).last(),
        Some(&Say::Set(Position::Open))
    );
    // a pedal that stayed down, or in the middle
    assert_eq!(pluck(&mut check, 201.0), [Say::AsBefore(name("G4"))]);
    assert!(matches!(pluck(&mut check, 0.0)[0], Say::Taken(_)));
    assert_eq!(pluck(&mut check, 103.0), [Say::AsBefore(name("F4"))]);
    assert_eq!(pluck(&mut check, 1.0).last(), Some(&Say::Done));
    let harp = Harp::named("pedal47").unwrap();
    let found = regulated(&harp, check.plucks(), &Bounds::default(), |_| None);
    assert_eq!(found[0].found[&Step::Natural].weight, Weight::Urgent);
}

#[test]
fn what_is_far_off_is_no_step() {
    let mut check = check("pedal47", &["G4"]);
    assert_eq!(pluck(&mut check, 80.0), [Say::Far(name("G4"), 80.0)]);
    assert_eq!(check.left(), 4);
}

#[test]
fn a_string_that_is_left_out_is_asked_for_no_more() {
    let mut check = check("pedal47", &["G4", "F4"]);
    pluck(&mut check, 0.0);
    assert_eq!(check.skip(name("F4")), [Say::Set(Position::Natural)]);
    assert_eq!(check.left(), 3);
    assert_eq!(check.skip(name("G4")), [Say::Done]);
}

#[test]
fn levers_are_checked_on_and_off_again() {
    let mut check = check("lever34", &["B4", "C4"]);
    let mut asked = Vec::new();
    while let Some((position, _)) = check.next() {
        asked.push(position.as_str());
        pluck(&mut check, 0.0);
    }
    assert_eq!(asked, ["open", "open", "sharp", "sharp", "open", "open"]);
}

#[test]
fn strings_without_discs_stay_as_they_are_whatever_the_pedals_do() {
    let harp = Harp::named("pedal47").unwrap();
    let strings = within_time(&harp, None, &Pace::default());
    let mut check = Check::new(&harp, &Setup::open(ReferencePitch::A440), &strings).unwrap();
    let mut lowest = Vec::new();
    while check.next().is_some() {
        lowest.push(check.standing()[0].pitch.to_string());
        pluck(&mut check, 0.0);
    }
    lowest.dedup();
    assert_eq!(lowest, ["Cb1"]);
}
