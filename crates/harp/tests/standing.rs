//! Worked examples of what strings should sound, as a teacher would set them.

#![allow(clippy::unwrap_used, reason = "a test that cannot be set up must stop")]

use harp::{Harp, HarpError, OpenTuning, Position, Setup};
use pitch::ReferencePitch;

/// `expected` is a list of `string=pitch`, blanks between.
#[track_caller]
fn check(name: &str, change: impl FnOnce(&mut Setup), expected: &str) {
    let standing = stand(name, change).unwrap();
    for case in expected.split(' ') {
        let (string, pitch) = case.split_once('=').unwrap();
        let string = string.parse().unwrap();
        let found = standing
            .iter()
            .find(|standing| standing.string == string)
            .unwrap();
        assert_eq!(found.pitch.to_string(), pitch, "{name}: {case}");
        assert_eq!(found.target_hz, ReferencePitch::A440.hz(found.pitch));
    }
}

#[track_caller]
fn check_refused(name: &str, change: impl FnOnce(&mut Setup), message: &str) {
    let error = stand(name, change).unwrap_err().to_string();
    assert!(error.contains(message), "{error}");
}

fn stand(name: &str, change: impl FnOnce(&mut Setup)) -> Result<Vec<harp::Standing>, HarpError> {
    let mut setup = Setup::open(ReferencePitch::A440);
    change(&mut setup);
    Harp::named(name)?.standing(&setup)
}

#[test]
fn a_pedal_harp_stands_flat_natural_or_sharp_as_one() {
    check("pedal47", |_| {}, "C1=Cb1 D1=Db1 A4=Ab4 G7=Gb7");
    check(
        "pedal47",
        |setup| setup.position = Position::Natural,
        "C1=Cn1 B3=Bn3 G7=Gn7",
    );
    check(
        "pedal47",
        |setup| setup.position = Position::Sharp,
        "C1=C#1 B3=B#3 G7=G#7",
    );
}

#[test]
fn a_setting_moves_every_octave_of_a_letter_but_no_string_without_discs() {
    let setting = |setup: &mut Setup| {
        setup.setting = Some(r#"{"D":0,"C":1,"G":1}"#.parse().unwrap());
    };
    check(
        "pedal47",
        setting,
        "D1=Db1 D2=Dn2 C1=Cb1 C4=C#4 G6=G#6 G7=Gb7 A4=Ab4",
    );
}

#[test]
fn a_string_without_discs_is_set_to_any_pitch_near_its_own() {
    let strings = |setup: &mut Setup| {
        setup.discless = vec![
            ("C1".parse().unwrap(), "B0".parse().unwrap()),
            ("0G".parse().unwrap(), "Ab7".parse().unwrap()),
        ];
    };
    check("pedal47", strings, "C1=Bn0 D1=Db1 G7=Ab7");
    let flat = stand("pedal47", strings).unwrap()[0].alteration;
    assert_eq!(flat, pitch::Alteration::Flat);
}

#[test]
fn a_pitch_that_is_not_near_or_not_free_is_refused() {
    let set = |string: &'static str, pitch: &'static str| {
        move |setup: &mut Setup| {
            setup.discless = vec![(string.parse().unwrap(), pitch.parse().unwrap())];
        }
    };
    check_refused("pedal47", set("C1", "G1"), "within 3 semitones");
    check_refused("pedal47", set("C1", "C2"), "12 semitones");
    check_refused("pedal47", set("A4", "A4"), "has discs");
    check_refused("pedal40", set("C1", "C1"), "no string C1 (7C)");
    check_refused(
        "pedal47",
        |setup| {
            set("C1", "C1")(setup);
            setup
                .discless
                .push(("7C".parse().unwrap(), "Cb1".parse().unwrap()));
        },
        "twice",
    );
}

#[test]
fn a_lever_harp_stands_open_in_its_key_and_each_lever_raises_its_own_string() {
    check("lever34", |_| {}, "C2=Cn2 E2=Eb2 A2=Ab2 B3=Bb3 F4=Fn4");
    check(
        "lever34",
        |setup| setup.open = Some(OpenTuning::F),
        "E2=En2 A2=An2 B3=Bb3",
    );
    check(
        "lever34",
        |setup| setup.open = Some(OpenTuning::Ab),
        "D4=Db4 E4=Eb4",
    );
    check(
        "lever34",
        |setup| setup.open = Some(OpenTuning::C),
        "B3=Bn3",
    );
    let levers = |setup: &mut Setup| {
        setup.levers = vec!["E4".parse().unwrap(), "F5".parse().unwrap()];
    };
    check("lever34", levers, "E4=En4 E3=Eb3 F5=F#5 F4=Fn4");
}

#[test]
fn a_position_of_a_lever_harp_puts_the_flat_strings_or_every_lever_on() {
    check(
        "lever34",
        |setup| setup.position = Position::Natural,
        "E2=En2 A2=An2 F4=Fn4 C2=Cn2",
    );
    check(
        "lever34",
        |setup| setup.position = Position::Sharp,
        "E2=En2 C2=C#2 F4=F#4",
    );
}

#[test]
fn a_setting_of_a_lever_harp_reaches_its_levers_and_no_further() {
    let set =
        |text: &'static str| move |setup: &mut Setup| setup.setting = Some(text.parse().unwrap());
    check(
        "lever34",
        set(r#"{"E":0,"F":1}"#),
        "E2=En2 E6=En6 F3=F#3 A2=Ab2",
    );
    check_refused(
        "lever34",
        set(r#"{"D":-1}"#),
        "D2 (6D) cannot stand at flat",
    );
    check_refused("lever34", set(r#"{"E":1}"#), "cannot stand at sharp");
}

#[test]
fn a_lever_that_is_not_there_is_named() {
    let harp = Harp::named("lever26")
        .unwrap()
        .with_unmoved(&["D4".parse().unwrap()])
        .unwrap();
    let mut setup = Setup::open(ReferencePitch::A440);
    setup.levers = vec!["D4".parse().unwrap()];
    let error = harp.standing(&setup).unwrap_err().to_string();
    assert_eq!(error, "string D4 (4D) has no lever");
    setup.levers.clear();
    setup.setting = Some(r#"{"D":1}"#.parse().unwrap());
    assert!(matches!(
        harp.standing(&setup),
        Err(HarpError::NoLever { .. })
    ));
    setup.setting = None;
    setup.position = Position::Sharp;
    let standing = harp.standing(&setup).unwrap();
    let stands = |name: &str| {
        let name = name.parse().unwrap();
        standing
            .iter()
            .find(|s| s.string == name)
            .unwrap()
            .pitch
            .to_string()
    };
    assert_eq!(stands("D4"), "Dn4");
    assert_eq!(stands("D5"), "D#5");
}

#[test]
fn what_a_kind_of_harp_does_not_have_is_refused() {
    check_refused(
        "pedal47",
        |setup| setup.open = Some(OpenTuning::Eb),
        "always C flat major",
    );
    check_refused(
        "lever34",
        |setup| setup.open = Some(OpenTuning::Cb),
        "Eb, C, F and Ab",
    );
    let lever = |setup: &mut Setup| setup.levers = vec!["C4".parse().unwrap()];
    check_refused("pedal47", lever, "has no lever");
    check_refused(
        "lever22",
        |setup| setup.levers = vec!["C2".parse().unwrap()],
        "no string C2",
    );
    check_refused(
        "semitones",
        |setup| setup.position = Position::Sharp,
        "neither pedals",
    );
    let setting = |setup: &mut Setup| setup.setting = Some("{}".parse().unwrap());
    check_refused("semitones", setting, "neither pedals");
}

#[test]
fn every_semitone_stands_where_it_is_named() {
    check("semitones", |_| {}, "B0=Bn0 C#1=C#1 F#3=F#3 A4=An4 G#7=G#7");
}

#[test]
fn a_disc_given_to_a_low_string_lets_its_pedal_move_it() {
    let harp = Harp::named("pedal47")
        .unwrap()
        .with_unmoved(&["C1".parse().unwrap()])
        .unwrap();
    let mut setup = Setup::open(ReferencePitch::A440);
    setup.setting = Some(r#"{"C":0,"D":0,"G":1}"#.parse().unwrap());
    let pitches: Vec<_> = harp
        .standing(&setup)
        .unwrap()
        .iter()
        .map(|s| s.pitch.to_string())
        .collect();
    assert_eq!(pitches[..2], ["Cb1", "Dn1"]);
    assert_eq!(pitches[46], "G#7");
}
