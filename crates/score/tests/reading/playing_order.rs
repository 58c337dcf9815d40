//! Repeats, endings and jumps (MusicXML 4.0: repeat, ending, sound).

use crate::written::{direction, doubts, order, piece, rest, score};

/// Measures in short: `|:` and `:|` with times, `[1` and `1]` around endings, other words for
/// jumps: `dc`, `ds`, `segno`, `tocoda`, `coda`, `fine`, `@1,2` after them for time-only.
fn measure(short: &str) -> String {
    let (mut left, mut right) = (String::new(), String::new());
    for word in short.split_whitespace() {
        let (name, only) = word.split_once('@').unwrap_or((word, ""));
        let only = if only.is_empty() {
            String::new()
        } else {
            format!(" time-only=\"{only}\"")
        };
        let bar =
            |side: &str, inside: &str| format!("<barline location=\"{side}\">{inside}</barline>");
        match name {
            "|:" => left += &bar("left", "<repeat direction=\"forward\"/>"),
            "dc" => right += &format!("<sound dacapo=\"yes\"{only}/>"),
            "ds" => right += &format!("<direction><sound dalsegno=\"s\"{only}/></direction>"),
            "segno" => left += "<sound segno=\"s\"/>",
            "tocoda" => right += &format!("<sound tocoda=\"c\"{only}/>"),
            "coda" => left += "<sound coda=\"c\"/>",
            "fine" => right += &format!("<sound fine=\"yes\"{only}/>"),
            _ => {
                if let Some(times) = name.strip_prefix(":|") {
                    let times = if times.is_empty() {
                        String::new()
                    } else {
                        format!(" times=\"{}\"", times.trim_matches('x'))
                    };
                    let after = if times.contains('!') {
                        " after-jump=\"yes\""
                    } else {
                        ""
                    };
                    let times = times.replace('!', "");
                    let times = if times == " times=\"\"" {
                        String::new()
                    } else {
                        times
                    };
                    right += &bar(
                        "right",
                        &format!("<repeat direction=\"backward\"{times}{after}/>"),
                    );
                } else if let Some(number) = name.strip_prefix('[') {
                    left += &bar(
                        "left",
                        &format!("<ending number=\"{number}\" type=\"start\"/>"),
                    );
                } else if let Some(number) = name.strip_suffix(']') {
                    right += &bar(
                        "right",
                        &format!("<ending number=\"{number}\" type=\"stop\"/>"),
                    );
                } else {
                    right += &direction(name);
                }
            }
        }
    }
    format!("{left}{}{right}", rest(4))
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
