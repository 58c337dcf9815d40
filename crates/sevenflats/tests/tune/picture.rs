//! `--picture`: read back by an XML parser from outside the project (`roxmltree`).

use crate::command::run;
use crate::sound::{RATE_HZ, s16le, samples, tune_in};
use roxmltree::Document;
use tempfile::tempdir;

const PLUCKS: crate::sound::Plucks<'_> = &[("Gb3", 0.0), ("Fb3", -18.0)];

/// What the picture says to who cannot see it, after a look at what everybody sees.
fn account(svg: &str) -> String {
    let document = Document::parse(svg).unwrap();
    let root = document.root_element();
    assert_eq!(root.tag_name().name(), "svg");
    let texts = document.descendants();
    let texts = texts.filter(|node| node.tag_name().name() == "text");
    let words: Vec<&str> = texts.filter_map(|node| node.text()).collect();
    for letter in ["7C", "4C", "1C", "0F"] {
        assert!(words.contains(&letter), "no {letter} in {words:?}");
    }
    let mut nodes = document.descendants();
    let desc = nodes.find(|node| node.tag_name().name() == "desc");
    desc.unwrap().text().unwrap().to_owned()
}

#[test]
fn the_picture_holds_the_harp_as_the_round_left_it() {
    let folder = tempdir().unwrap();
    let options = ["--picture", "harp.svg", "--broken", "7D", "--a4", "440"];
    let run = tune_in(folder.path(), PLUCKS, &options);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{}", run.out);
    let svg = std::fs::read_to_string(folder.path().join("harp.svg")).unwrap();
    let account = account(&svg);
    let expected = [
        "A harp of 47 strings.",
        "Off: 4F 18 low",
        "1 of 47 in tune, 44 not yet heard.",
        "Broken: 7D.",
    ];
    for words in expected {
        assert!(account.contains(words), "no '{words}' in {account}");
    }
    let left: Vec<_> = std::fs::read_dir(folder.path()).unwrap().collect();
    assert_eq!(left.len(), 2, "{left:?}");
}

#[test]
fn live_the_picture_is_drawn_too() {
    let folder = tempdir().unwrap();
    let rate = RATE_HZ.to_string();
    let words = ["tune", "--rate", &rate, "--picture", "harp.svg", "--json"];
    let run = run(folder.path(), &words, &s16le(&samples(PLUCKS)));
    assert_eq!(run.code, Some(0), "{}", run.err);
    let svg = std::fs::read_to_string(folder.path().join("harp.svg")).unwrap();
    assert!(account(&svg).contains("1 of 47 in tune"));
}

#[test]
fn a_folder_that_does_not_exist_is_said_and_the_round_is_told() {
    let folder = tempdir().unwrap();
    let options = ["--picture", "nowhere/harp.svg", "--json"];
    let run = tune_in(folder.path(), PLUCKS, &options);
    assert_eq!(run.code, Some(1));
    assert!(
        run.err.contains("the picture cannot be written"),
        "{}",
        run.err
    );
    assert_eq!(run.of_kind("summary").len(), 1, "{}", run.out);
}

#[test]
fn a_picture_that_cannot_take_its_place_leaves_nothing_behind() {
    let folder = tempdir().unwrap();
    std::fs::create_dir(folder.path().join("harp.svg")).unwrap();
    let run = tune_in(folder.path(), PLUCKS, &["--picture", "harp.svg"]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    let left: Vec<_> = std::fs::read_dir(folder.path()).unwrap().collect();
    assert_eq!(left.len(), 2, "{left:?}");
}
