//! Harp files: what is read, what is refused and in which words, and that writing loses nothing.

#![allow(clippy::unwrap_used, reason = "a test that cannot be set up must stop")]

use harp::{Colour, Field, Figures, Harp, HarpKind, Material, Mechanism, OpenTuning, StringName};
use proptest::prelude::*;

const INVENTED: &str = include_str!("harps/invented-lever-harp.toml");

#[track_caller]
fn check_refused(text: &str, message: &str) {
    let error = Harp::from_toml(text).unwrap_err().to_string();
    assert!(error.contains(message), "{error}");
}

fn name(text: &str) -> StringName {
    text.parse().unwrap()
}

#[test]
fn the_invented_harp_is_read_as_it_is_written() {
    let harp = Harp::from_toml(INVENTED).unwrap();
    assert_eq!(harp.name(), Some("Invented lever harp"));
    assert_eq!(harp.kind(), HarpKind::Lever);
    assert_eq!(harp.strings().len(), 34);
    assert_eq!(harp.open_tuning(), Some(OpenTuning::Eb));
    let mechanism = |text| harp.string(name(text)).unwrap().mechanism;
    assert_eq!(mechanism("D2"), Mechanism::Nothing);
    assert_eq!(mechanism("E2"), Mechanism::Lever);
    let c4 = harp.figures(harp.string(name("C4")).unwrap());
    assert_eq!(c4.material, Some(Material::Gut));
    assert_eq!(c4.get(Field::DensityKgM3), Some(1300.0));
    assert_eq!(c4.get(Field::PinRadiusMm), Some(3.3));
    assert!(harp.string(name("C2")).unwrap().wire);
    assert_eq!(harp.string(name("C2")).unwrap().colour, Colour::Red);
}

#[test]
fn a_harp_that_is_written_is_read_back_as_the_same_harp() {
    let invented = Harp::from_toml(INVENTED).unwrap();
    let gapped = vec![name("C4"), name("E4"), name("G4")];
    let harps = [
        invented,
        harp::synthetic::synthetic_harp().unwrap(),
        Harp::named("semitones").unwrap(),
        Harp::of_strings(HarpKind::Pedal, gapped)
            .unwrap()
            .with_name("a \"quoted\"\nname"),
        Harp::named("pedal47").unwrap().with_unmoved(&[]).unwrap(),
    ];
    for harp in harps {
        let written = harp.to_toml();
        assert_eq!(Harp::from_toml(&written).as_ref(), Ok(&harp), "{written}");
        assert!(
            written.starts_with('#') && written.contains("length_mm "),
            "{written}"
        );
    }
}

#[test]
fn a_harp_known_by_name_may_be_the_kind() {
    let harp = Harp::from_toml("kind = \"pedal46\"\ndiscless = [\"D1\"]").unwrap();
    assert_eq!(harp.strings().len(), 46);
    assert_eq!(harp.string(name("G7")).unwrap().mechanism, Mechanism::Discs);
}

const HARP: &str = "kind = \"pedal47\"\n";

#[test]
fn an_error_names_line_string_field_and_what_to_do() {
    let with = |rest: &str| format!("{HARP}{rest}");
    let string = |rest: &str| format!("{HARP}[[string]]\nname = \"4C\"\n{rest}");
    check_refused(
        &string("gauge_mm = -1.4"),
        "line 4: string C4: gauge_mm is -1.4, which is not believed: it is the outer diameter, \
         millimetres, from 0.1 to 6; check the unit",
    );
    check_refused(&string("gauge_mm = 1450"), "check the unit");
    check_refused(
        &string("length_mm = 0.64"),
        "line 4: string C4: length_mm is 0.64",
    );
    check_refused(&string("length_mm = nan"), "length_mm is NaN");
    check_refused(
        &string("material = \"silk\""),
        "material 'silk' is not known; known are gut",
    );
    check_refused(
        &string("length = 640"),
        "nothing is called 'length'; known are name, material, length_mm",
    );
    check_refused(&string("length_mm = \"640\""), "length_mm must be a number");
    check_refused(
        &string("[[string]]\nname = \"C4\""),
        "line 5: string C4 (4C) is there twice",
    );
    check_refused(
        &with("[[string]]\nlength_mm = 640"),
        "line 2: this [[string]] has no name",
    );
    check_refused(
        &with("[[string]]\nname = \"H4\""),
        "line 3: this string: name: 'H4' names no",
    );
    check_refused(
        &with("[[string]]\nname = \"C8\""),
        "line 3: this harp has no string C8 (0C)",
    );
    check_refused(
        &string("gauge_mm = 1\ncore_mm = 1.2"),
        "line 5: string C4: core_mm: the core",
    );
    check_refused(
        &string("material = \"gut\"\ncore_mm = 1"),
        "a plain string has no core",
    );
    check_refused(
        &string("length_mm = 640\ntotal_length_mm = 600"),
        "longer than its speaking",
    );
    check_refused(
        &with("[materials.gut]\ngauge_mm = 1"),
        "material gut: nothing is called 'gauge_mm'",
    );
    check_refused(&with("[materials.silk]\n"), "'silk' is not known");
    check_refused(
        &with("colour = 1"),
        "line 2: the harp: nothing is called 'colour'",
    );
    check_refused(
        &with("open = \"Eb\""),
        "line 2: a pedal harp cannot stand open in Eb",
    );
    check_refused(&with("open = \"D\""), "open 'D' is not known");
    check_refused(
        &with("no_lever = [\"C1\"]"),
        "line 2: a pedal harp has no 'no_lever'",
    );
    check_refused(
        &with("discless = [\"C0\"]"),
        "line 2: this harp has no string C0",
    );
    check_refused(&with("discless = \"C1\""), "a list of strings");
}

#[test]
fn a_file_without_its_strings_is_refused_and_says_how_to_give_them() {
    check_refused("", "add kind = ");
    check_refused("kind = \"pedal", "line 1: ");
    check_refused("kind = \"harp\"", "kind 'harp' is not known");
    check_refused("kind = \"pedal\"\nlowest = \"C1\"", "lowest and highest");
    check_refused(
        "kind = \"pedal47\"\nlowest = \"C1\"",
        "kind 'pedal47' is not known; known are pedal",
    );
    check_refused(
        "kind = \"lever\"\nstrings = [\"C4\", \"4C\"]",
        "line 2: string C4 (4C) is there twice",
    );
    check_refused("kind = \"lever\"\nkind = \"pedal\"", "line 2: ");
    check_refused(
        "kind = \"lever\"\nlowest = \"C5\"\nhighest = \"C4\"",
        "lies above the highest",
    );
}

/// Figures of any size that is believed, for any of the fields.
fn figures() -> impl Strategy<Value = Figures> {
    let fields: Vec<_> = Field::all().collect();
    proptest::collection::vec((proptest::sample::select(fields), 0.0..=1.0f64), 0..6).prop_map(
        |given| {
            given
                .into_iter()
                .fold(Figures::default(), |figures, (field, share)| {
                    let (low, high) = (*field.believed().start(), *field.believed().end());
                    let value = (low + share * (high - low)).clamp(low, high);
                    // Pairs that could contradict each other are left to the examples above.
                    match field {
                        Field::CoreMm | Field::TotalLengthMm => figures,
                        _ => figures.with(field, value),
                    }
                })
        },
    )
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused_without_a_panic(text in "\\PC*") {
        let _ = Harp::from_toml(&text);
    }

    #[test]
    fn a_harp_file_with_any_line_changed_is_read_or_refused_without_a_panic(
        at in 0usize..60,
        line in "[a-z_\\[\\]]{0,12} ?=? ?[-0-9a-zA-Z\"\\[\\].{}]{0,12}",
    ) {
        let mut lines: Vec<&str> = INVENTED.lines().collect();
        let at = at % lines.len();
        lines[at] = &line;
        let _ = Harp::from_toml(&lines.join("\n"));
    }

    #[test]
    fn any_name_survives_writing(text in any::<String>()) {
        let harp = Harp::named("lever22").unwrap().with_name(&text);
        prop_assert_eq!(Harp::from_toml(&harp.to_toml()), Ok(harp));
    }

    #[test]
    fn any_figures_that_are_believed_survive_writing(given in figures(), at in 0usize..47) {
        let harp = Harp::named("pedal47").unwrap();
        let string = harp.strings()[at].name;
        let harp = harp.with_figures(string, given).unwrap();
        prop_assert_eq!(Harp::from_toml(&harp.to_toml()), Ok(harp));
    }
}
