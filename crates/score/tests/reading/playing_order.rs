//! Repeats, endings and jumps (MusicXML 4.0: repeat, ending, sound).

use crate::written::{direction, doubts, order, piece, rest, score};

/// Measures in short: `|:` and `:|` (`:|3` for three times, `:|!` to be taken after a jump too),
/// `[1` and `1]` around endings, and jumps: `dc`, `ds`, `segno`, `tocoda`, `coda`, `fine`, with
/// `@1,2` behind them for time-only.
fn measure(short: &str) -> String {
    let (mut left, mut right) = (String::new(), String::new());
    for word in short.split_whitespace() {
        let (begins, text) = element(word);
        if begins {
            left += &text;
        } else {
            right += &text;
        }
    }
    format!("{left}{}{right}", rest(4))
}

/// Whether a word stands at the beginning of its measure, and its element.
fn element(word: &str) -> (bool, String) {
    let bar = |side: &str, inside: &str| format!("<barline location=\"{side}\">{inside}</barline>");
    let backward = |more: &str| bar("right", &format!("<repeat direction=\"backward\"{more}/>"));
    if word == "|:" {
        return (true, bar("left", "<repeat direction=\"forward\"/>"));
    }
    if let Some(number) = word.strip_prefix('[') {
        let ending = format!("<ending number=\"{number}\" type=\"start\"/>");
        return (true, bar("left", &ending));
    }
    if let Some(number) = word.strip_suffix(']') {
        let ending = format!("<ending number=\"{number}\" type=\"stop\"/>");
        return (false, bar("right", &ending));
    }
    match word.strip_prefix(":|") {
        Some("") => return (false, backward("")),
        Some("!") => return (false, backward(" after-jump=\"yes\"")),
        Some(times) => return (false, backward(&format!(" times=\"{times}\""))),
        None => {}
    }
    let (name, only) = word.split_once('@').unwrap_or((word, ""));
    let sound = match name {
        "dc" => "dacapo=\"yes\"",
        "ds" => "dalsegno=\"s\"",
        "segno" => "segno=\"s\"",
        "tocoda" => "tocoda=\"c\"",
        "coda" => "coda=\"c\"",
        "fine" => "fine=\"yes\"",
        _ => panic!("no such word: {word}"),
    };
    let only = match only {
        "" => String::new(),
        passes => format!(" time-only=\"{passes}\""),
    };
    let target = matches!(name, "segno" | "coda");
    let sound = format!("<sound {sound}{only}/>");
    // a sound may stand in the measure or in a direction
    let direction =
        format!("<direction><direction-type><words>x</words></direction-type>{sound}</direction>");
    (target, if name == "ds" { direction } else { sound })
}

fn read(measures: &[&str]) -> score::Piece {
    let measures: Vec<String> = measures.iter().map(|short| measure(short)).collect();
    let measures: Vec<&str> = measures.iter().map(String::as_str).collect();
    piece(&score(&measures))
}

#[track_caller]
fn check(measures: &[&str], expected: &str) {
    assert_eq!(order(&read(measures)), expected, "{measures:?}");
}

#[test]
fn a_repeat_goes_back_to_its_beginning() {
    check(&["", ":|", ""], "1 2 1 2 3");
    check(&["", "|:", ":|", ""], "1 2 3 2 3 4");
    check(&["|: :|", "|: :|"], "1 1 2 2");
    check(&["", ":|", "", ":|"], "1 2 1 2 3 4 3 4");
}

#[test]
fn a_repeat_may_be_taken_more_often() {
    check(&["|: :|3", ""], "1 1 1 2");
    check(&["|: :|1", ""], "1 2");
}

#[test]
fn endings_are_played_at_their_passes() {
    check(&["|:", "[1 1] :|", "[2 2]", ""], "1 2 1 3 4");
    check(&["|:", "[1,2 1,2] :|", "[3 3]", ""], "1 2 1 2 1 3 4");
    check(&["|:", "[1", "1] :|", "[2", "2]", ""], "1 2 3 1 4 5 6");
    check(
        &["|:", "[1 1] :|", "[2 2] :|", "[3 3]", ""],
        "1 2 1 3 1 4 5",
    );
}

#[test]
fn a_section_after_endings_repeats_from_there() {
    check(&["|:", "[1 1] :|", "[2 2]", "", ":|"], "1 2 1 3 4 5 4 5");
    check(
        &["", "[1 1] :|", "[2 2]", "", "[1 1] :|", "[2 2]"],
        "1 2 1 3 4 5 4 6",
    );
}

#[test]
fn da_capo_al_fine_ends_at_the_fine_and_takes_no_repeat_again() {
    check(&["|:", ":| fine", "", "dc"], "1 2 1 2 3 4 1 2");
    check(
        &["|:", "[1 1] :|", "[2 2] fine", "", "dc"],
        "1 2 1 3 4 5 1 3",
    );
}

#[test]
fn a_repeat_that_holds_after_a_jump_is_taken_again() {
    check(&["|:", ":|! fine", "dc"], "1 2 1 2 3 1 2 1 2");
}

#[test]
fn dal_segno_al_coda_goes_over_the_sign_to_the_coda() {
    check(
        &["", "segno", "tocoda", "ds", "coda", ""],
        "1 2 3 4 2 3 5 6",
    );
    check(&["", "segno", "", "ds", ""], "1 2 3 4 2 3 4 5");
}

#[test]
fn time_only_says_at_which_playing_a_jump_holds() {
    check(&["|:", "tocoda@2", ":|", "", "coda"], "1 2 3 1 2 5");
    check(&["", "dc@1,2", ""], "1 2 1 2 1 2 3");
    check(&["fine@2", "dc"], "1 2 1");
}

#[test]
fn a_jump_at_the_end_of_a_repeat_waits_for_the_last_pass() {
    check(&["|:", ":| dc", ""], "1 2 1 2 1 2 3");
}

#[test]
fn jumps_in_words_and_signs_are_followed_where_no_sound_tells_any() {
    let words = |text: &str| format!("<words>{text}</words>");
    let of = |inside: &str| format!("{}{}", rest(4), direction(inside));
    let text = score(&[
        &of(&words("Fine")),
        &rest(4),
        &of(&words("D.C. al Fine")),
        &rest(4),
    ]);
    let found = piece(&text);
    assert_eq!(order(&found), "1 2 3 1");
    assert!(doubts(&found).contains("'D.C. al Fine' stands in words only"));
    let signs = score(&[
        &rest(4),
        &of("<segno/>"),
        &of("<coda/>"),
        &of(&words("D.S. al Coda")),
        &of("<coda/>"),
    ]);
    assert_eq!(order(&piece(&signs)), "1 2 3 4 2 3 5");
}

#[test]
fn a_word_alone_changes_nothing() {
    let text = score(&[
        &format!("{}{}", rest(4), direction("<words>Fine</words>")),
        &rest(4),
    ]);
    assert_eq!(order(&piece(&text)), "1 2");
}

#[test]
fn what_cannot_be_followed_is_said() {
    let lost = read(&["", "ds", ""]);
    assert_eq!(order(&lost), "1 2 3");
    assert!(doubts(&lost).contains("bar 2: a jump to a sign that is not there"));
    let never = read(&["", "[2 2]", ""]);
    assert_eq!(order(&never), "1 3");
    assert!(doubts(&never).contains("bar 2: repeats and jumps never lead to this bar"));
}

#[test]
fn an_order_longer_than_any_is_read_as_written() {
    let long = read(&["|: :|4000000000", ""]);
    assert_eq!(order(&long), "1 2");
    assert!(doubts(&long).contains("read without them"));
}

#[test]
fn each_playing_of_a_bar_has_its_number() {
    let passes: Vec<u32> = read(&["|:", "[1 1] :|", "[2 2]"])
        .order
        .iter()
        .map(|p| p.pass)
        .collect();
    assert_eq!(passes, [1, 1, 2, 1]);
}
