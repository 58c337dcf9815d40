//! What the evening says, held to what the scores say.

use std::path::Path;

use serde_json::{Value, json};

use crate::command::run;
use crate::{page, told};

#[test]
fn low_strings_are_told_for_each_piece_and_between_them() {
    let told = told(&[]);
    let keys = |piece: usize| -> Vec<(String, String)> {
        let strings = told["pieces"][piece]["discless"].as_array().unwrap();
        let text = |value: &Value| value.as_str().unwrap().to_owned();
        strings
            .iter()
            .map(|key| (text(&key["string"]), text(&key["pitch"])))
            .collect()
    };
    let pair = |one: &str, other: &str| (one.to_owned(), other.to_owned());
    // bar 2 of the first wants C sharp; the part on paper says C flat; bars 4 and 8 of the last want C
    assert_eq!(keys(0), [pair("C1", "C#1"), pair("D1", "Dn1")]);
    assert_eq!(keys(1), [pair("C1", "Cb1")]);
    assert_eq!(keys(2), [pair("C1", "Cn1"), pair("D1", "Db1")]);
    let turn = |string: &str, from: &str, to: &str, semitones: i32, after: usize, before: usize| {
        json!({
            "harp": "pedal47", "string": string, "from": from, "to": to, "semitones": semitones,
            "after_piece": after, "after_movement": 1, "before_piece": before, "before_movement": 1,
            "in_a_rest": false,
        })
    };
    assert_eq!(
        told["retunings"],
        json!([
            turn("C1", "C#1", "Cb1", -2, 1, 2),
            turn("C1", "Cb1", "Cn1", 1, 2, 3),
            turn("D1", "Dn1", "Db1", -1, 1, 3),
        ])
    );
}

#[test]
fn pedals_before_a_piece_are_told_from_where_the_last_one_left_them() {
    let told = told(&[]);
    let moved = |piece: usize| -> Vec<String> {
        let moved = told["pieces"][piece]["pedals_before"].as_array().unwrap();
        let text = |value: &Value| value.as_str().unwrap_or("?").to_owned();
        let told = moved.iter().map(|one| {
            format!(
                "{} {} {}",
                text(&one["pedal"]),
                text(&one["from"]),
                text(&one["to"])
            )
        });
        told.collect()
    };
    // nothing is known before the first: all seven
    assert_eq!(moved(0).len(), 7);
    assert_eq!(moved(0)[1], "C ? sharp");
    // D major is left, with C sharp and F sharp; three flats are wanted
    assert_eq!(
        moved(1),
        [
            "C sharp natural",
            "B natural flat",
            "E natural flat",
            "F sharp natural",
            "A natural flat"
        ]
    );
    // the part leaves C sharp, B flat, E and A natural; four flats are wanted
    assert_eq!(
        moved(2),
        [
            "D natural flat",
            "C sharp natural",
            "E natural flat",
            "A natural flat"
        ]
    );
}

#[test]
fn the_other_pitch_is_told_in_cents() {
    let told = told(&[]);
    let last = &told["pieces"][2];
    assert_eq!(
        (last["a4_before_hz"].as_f64(), last["a4_hz"].as_f64()),
        (Some(440.0), Some(442.0))
    );
    // 1200 · log2(442 ÷ 440), exact arithmetic
    let cents = 1200.0 * (442.0_f64 / 440.0).log2();
    assert!((last["whole_harp_cents"].as_f64().unwrap() - cents).abs() < 1e-9);
    assert_eq!(told["pieces"][1]["a4_before_hz"], Value::Null);
}

#[test]
fn strings_are_counted_as_the_scores_have_them() {
    let told = told(&[]);
    let string = |name: &str| {
        let strings = told["strings"].as_array().unwrap();
        let found = strings.iter().find(|used| used["string"] == name);
        found
            .unwrap_or_else(|| panic!("{name} in {}", told["strings"]))
            .clone()
    };
    let check = |name: &str, figures: [u32; 4], pieces: Value| {
        let used = string(name);
        let told =
            ["attacks", "alone", "exposed", "called_exposed"].map(|field| used[field].clone());
        assert_eq!(json!(told), json!(figures), "{name}");
        assert_eq!(used["pieces"], pieces, "{name}");
    };
    // C1: bar 2; bars 4 and 8, each under the first note of the tune
    check("C1", [3, 0, 0, 0], json!([1, 2, 3]));
    // D1: bars 1 and 9, alone in bar 12; bar 2 of the last
    check("D1", [4, 1, 1, 0], json!([1, 3]));
    // A4 eleven times in the first, nine times flat in the last, called exposed on paper
    check("A4", [20, 13, 0, 1], json!([1, 2, 3]));
    check("E5", [11, 10, 0, 0], json!([1, 3]));
    check("E6", [0, 0, 0, 1], json!([2]));
}

#[test]
fn the_round_before_the_evening_takes_each_low_string_as_it_is_first_wanted() {
    let told = told(&[]);
    let discless = json!([{"string": "C1", "pitch": "C#1"}, {"string": "D1", "pitch": "Dn1"}]);
    assert_eq!(
        told["harps"],
        json!([{"harp": "pedal47", "a4_hz": 440.0, "open": null, "discless": discless}])
    );
    let offered = |piece: usize| told["pieces"][piece]["turnable_before"].clone();
    assert_eq!(
        [offered(0), offered(1), offered(2)],
        [json!([]), json!(["C1", "D1"]), json!(["C1", "D1"])]
    );
    assert!(page(&[]).contains("sevenflats tune --harp pedal47 --a4 440 --discless C1=C#1,D1=Dn1"));
}

#[test]
fn each_piece_carries_its_plan_or_its_part() {
    let told = told(&[]);
    let plan = &told["pieces"][0]["plan"];
    assert_eq!(plan["moves"], 6);
    assert_eq!(plan["optimal"], true);
    assert_eq!(told["pieces"][0]["source"], "score");
    let paper = &told["pieces"][1];
    assert_eq!(
        (&paper["source"], &paper["plan"], &paper["moves"]),
        (&json!("paper"), &Value::Null, &json!(7))
    );
    let shorthand = paper["shorthand"].as_str().unwrap();
    assert!(shorthand.contains("9 [A] F | B\n9:3 | C♯\n"), "{shorthand}");
    assert_eq!(paper["findings"], json!([]));
    assert_eq!(paper["exposed"], json!(["A4", "E6"]));
}

#[test]
fn a_person_reads_what_is_set_and_turned() {
    let page = page(&[]);
    for line in [
        "2. Salt Meadow, Fenn Marlow",
        "  pedal47, A = 440 Hz; from paper, 7 pedals moved",
        "  before it   7C from C♯ to C♭, pedals C♮ B♭ E♭ F♮ A♭",
        "  before it   the whole harp to A = 442 Hz (+7.9 cents), 7C from C♭ to C♮, 7D from D♮ to D♭, pedals D♭ C♮ E♭ A♭",
        "  7C  from C♭ to C♮, after 2, before 3: up a semitone",
        "  7D  from D♮ to D♭, after 1, before 3: down a semitone",
    ] {
        assert!(page.contains(line), "{line}\n{page}");
    }
    assert!(
        page.contains("eyes out of the plane of the strings"),
        "{page}"
    );
    assert!(page.contains("ask your technician"), "{page}");
}

#[test]
fn the_shorthand_of_the_guide_is_read_whole() {
    let guide = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/before-a-concert.md");
    let guide = std::fs::read_to_string(guide).unwrap();
    let (_, example) = guide.split_once("```\n# Salt Meadow").unwrap();
    let (example, _) = example.split_once("\n```").unwrap();
    let read = pedals::PaperPart::read(&format!("# {example}"));
    assert_eq!(read.errors, []);
    assert_eq!(read.part.movements.len(), 2);
    assert_eq!(read.part.movements[0].places.len(), 5);
    let harp = harp::Harp::named("pedal47").unwrap();
    assert_eq!(read.part.check(&harp), []);
}

#[test]
fn pieces_on_one_lever_harp_share_an_open_tuning() {
    let scores = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plan/scores");
    let folder = tempfile::tempdir().unwrap();
    let mut text = "harp = \"lever34\"\n".to_owned();
    for score in ["two-movements", "lever-right-hand"] {
        let file = format!("{score}.musicxml");
        std::fs::copy(scores.join(&file), folder.path().join(&file)).unwrap();
        text += &format!("[[piece]]\nscore = \"{file}\"\n");
    }
    std::fs::write(folder.path().join("levers.toml"), text).unwrap();
    let run = run(folder.path(), &["programme", "levers.toml", "--json"], &[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    let told: Value = serde_json::from_str(&run.out).unwrap();
    let open = |piece: usize| told["pieces"][piece]["open"].as_str().unwrap();
    assert_eq!(open(0), open(1));
    assert_eq!(told["pieces"][1]["open_before"], Value::Null);
    assert_eq!(told["pieces"][0]["opening_setting"], Value::Null);
    // levers are told from where the first piece left them
    let flips = told["pieces"][1]["levers_before"].as_array().unwrap();
    assert!(
        flips
            .iter()
            .all(|flip| flip["to"] == "on" || flip["to"] == "off"),
        "{flips:?}"
    );
}
