//! Scores that are too much: a clear word, in little time and room.

use crate::archives::{Entry, archive};
use crate::written::{divisions, doubts, note, piece, score, sounds};
use score::{Options, ScoreError, read};

const MOST: usize = 200_000_000;

#[test]
fn more_than_200_million_bytes_are_refused() {
    let error = read(&vec![b' '; MOST + 1], &Options::default()).unwrap_err();
    assert_eq!(error, ScoreError::TooLarge { limit: MOST });
}

#[test]
fn a_zip_bomb_is_refused_by_its_size_before_it_is_unpacked() {
    let zeros = vec![0; 1000];
    let claims = Some(u32::try_from(MOST + 1).unwrap());
    let bytes = archive(&[Entry {
        name: "s.xml",
        content: &zeros,
        packed: true,
        claims,
    }]);
    let error = read(&bytes, &Options::default()).unwrap_err();
    assert_eq!(error, ScoreError::TooLarge { limit: MOST });
}

#[test]
fn a_zip_bomb_that_lies_about_its_size_is_refused_too() {
    let zeros = vec![0; 50_000_000];
    let bytes = archive(&[Entry {
        name: "s.xml",
        content: &zeros,
        packed: true,
        claims: Some(1000),
    }]);
    assert!(matches!(
        read(&bytes, &Options::default()),
        Err(ScoreError::Archive { .. })
    ));
}

#[test]
fn a_zip_bomb_that_just_fits_is_no_score() {
    let zeros = vec![0; MOST];
    let bytes = archive(&[Entry {
        name: "s.xml",
        content: &zeros,
        packed: true,
        claims: None,
    }]);
    assert!(bytes.len() < MOST / 900);
    drop(zeros);
    let error = read(&bytes, &Options::default()).unwrap_err();
    assert_eq!(error, ScoreError::Unknown);
}

#[test]
fn a_container_of_many_bytes_is_refused() {
    let long = vec![b' '; 65_537];
    let bytes = archive(&[Entry {
        name: "META-INF/container.xml",
        content: &long,
        packed: true,
        claims: None,
    }]);
    assert_eq!(
        read(&bytes, &Options::default()).unwrap_err(),
        ScoreError::TooLarge { limit: 65_536 }
    );
}

#[test]
fn an_entity_bomb_never_goes_off() {
    let mut entities = String::from("<!ENTITY a0 'ha'>");
    for step in 1..40 {
        let last = step - 1;
        entities += &format!("<!ENTITY a{step} '&a{last};&a{last};'>");
    }
    let text = score(&[
        &format!("{}<x>&a39;</x>", note("C4", 4, "")),
        &note("D4", 4, ""),
    ]);
    let text = text.replace(
        "<score-partwise",
        &format!("<!DOCTYPE score-partwise [{entities}]><score-partwise"),
    );
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "D4@2:0");
    assert!(doubts(&piece).contains("abbreviations of its own"));
    assert!(doubts(&piece).contains("bar 1: part Harp: this bar cannot be read"));
}

#[test]
fn a_million_notes_in_a_bar_cost_that_bar_only() {
    let many = note("C4", 1, "").repeat(1_000_000);
    let text = score(&[&divisions(1), &many, &note("D4", 4, "")]);
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "D4@3:0");
    assert!(doubts(&piece).contains("bar 2: part Harp: this bar cannot be read (it is too long)"));
}

#[test]
fn more_elements_than_any_bar_has_cost_that_bar_only() {
    let text = score(&[&"<a/>".repeat(1_000_000), &note("D4", 4, "")]);
    assert!(
        doubts(&piece(&text))
            .contains("bar 1: part Harp: this bar cannot be read (it has too many elements)")
    );
    assert_eq!(sounds(&piece(&text)), "D4@2:0");
}

#[test]
fn more_notes_than_any_part_has_are_left_out_and_said() {
    let bar = note("C4", 1, "").repeat(10_000);
    let bars = vec![bar.as_str(); 51];
    let piece = piece(&score(&bars));
    assert_eq!(piece.notes.len(), 500_000);
    assert!(doubts(&piece).contains("more than 500000 notes"));
}

#[test]
fn a_tag_of_many_attributes_costs_its_bar_only() {
    let attributes: String = (0..100_000).map(|n| format!(" a{n}=''")).collect();
    let text = score(&[&format!("<note{attributes}/>"), &note("D4", 4, "")]);
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "D4@2:0");
    assert!(doubts(&piece).contains("too many attributes"));
}

#[test]
fn many_tags_of_many_attributes_cost_their_bar_only() {
    let attributes: String = (0..60).map(|n| format!(" a{n}=''")).collect();
    let text = score(&[
        &format!("<a{attributes}/>").repeat(9_000),
        &note("D4", 4, ""),
    ]);
    assert!(doubts(&piece(&text)).contains("bar 1: part Harp: this bar cannot be read"));
    assert_eq!(sounds(&piece(&text)), "D4@2:0");
}

#[test]
fn a_timewise_score_whose_parts_all_begin_late_is_refused_before_it_fills_the_room() {
    let bars = "<measure><part id='a'/></measure>".repeat(200_000);
    let late: String = (0..4)
        .map(|n| format!("<measure><part id='b{n}'/></measure>"))
        .collect();
    let text = format!("<score-timewise>{bars}{late}</score-timewise>");
    let error = read(text.as_bytes(), &Options::default()).unwrap_err();
    assert!(matches!(error, ScoreError::TooMany { what: "bars", .. }));
}

#[test]
fn elements_within_elements_without_end_cost_their_bar_only() {
    let deep = format!("{}{}", "<a>".repeat(300_000), "</a>".repeat(300_000));
    let text = score(&[&deep, &note("D4", 4, "")]);
    assert_eq!(sounds(&piece(&text)), "D4@2:0");
}

#[test]
fn more_bars_than_any_score_has_are_refused() {
    let text = format!(
        "<score-partwise><part id='a'>{}</part></score-partwise>",
        "<measure/>".repeat(500_001)
    );
    let error = read(text.as_bytes(), &Options::default()).unwrap_err();
    assert!(matches!(error, ScoreError::TooMany { what: "bars", .. }));
}

#[test]
fn doubts_are_counted_when_they_are_too_many_to_list() {
    let bad = "<note><duration>1</duration></note>";
    let bars = vec![bad; 2_000];
    let piece = piece(&score(&bars));
    assert!(piece.diagnostics.len() <= 501);
    assert!(doubts(&piece).contains("more doubts"));
}

#[test]
fn durations_without_measure_are_left_out() {
    let text = score(&[&format!(
        "{}{}{}",
        divisions(1),
        note("C4", 1, "").replace("<duration>1<", "<duration>999999999999999999<"),
        note("D4", 1, "").replace("<duration>1<", "<duration>-4<")
    )]);
    let piece = piece(&text);
    assert!(doubts(&piece).contains("a duration longer than any bar"));
    assert!(doubts(&piece).contains("a note without a duration"));
}

// What each of the next four takes once grew with the square of its size.

#[test]
fn many_glissandi_beside_many_marks_take_their_time_only() {
    let words = crate::written::direction("<words>F#</words>").repeat(90_000);
    let sweep = "<note><chord/><pitch><step>C</step><octave>4</octave></pitch><duration>0</duration><notations><glissando type='start'/></notations></note>";
    let swept = piece(&score(&[&format!("{words}{}", sweep.repeat(55_000))]));
    assert_eq!(swept.glissandi.len(), 55_000);
}

#[test]
fn many_parts_beside_a_long_list_of_parts_take_their_time_only() {
    let listed: String = (0..300_000)
        .map(|n| format!("<score-part id='x{n}'/>"))
        .collect();
    let parts: String = (0..2_000)
        .map(|n| format!("<part id='y{n}'><measure/></part>"))
        .collect();
    let text = format!("<score-partwise><part-list>{listed}</part-list>{parts}</score-partwise>");
    assert_eq!(piece(&text).parts.len(), 2_000);
}

#[test]
fn many_bad_notes_in_many_bars_take_their_time_only() {
    let bars = vec!["<note/>".repeat(20_000); 400];
    let bad = piece(&score(&bars.iter().map(String::as_str).collect::<Vec<_>>()));
    assert!(doubts(&bad).contains("bar 400: part Harp: a note without a duration"));
}

#[test]
fn many_jumps_take_their_time_only() {
    let back = crate::written::direction("<words>D.C.</words>").repeat(2_000);
    let bars = vec![back.as_str(); 400];
    assert_eq!(piece(&score(&bars)).measures.len(), 400);
}

#[test]
fn a_head_or_a_bar_of_many_bytes_is_not_read() {
    let long = "a\r\n".repeat(20_000_000);
    let text = score(&[&format!("<x:y>{long}</x:y>"), &note("D4", 4, "")]);
    assert!(
        doubts(&piece(&text))
            .contains("bar 1: part Harp: this bar cannot be read (it is too long)")
    );
    assert_eq!(sounds(&piece(&text)), "D4@2:0");
    let head = score(&[&note("D4", 4, "")]).replace(
        "<part-list>",
        &format!("<credit>{long}</credit><part-list>"),
    );
    assert!(
        doubts(&piece(&head)).contains("the head of the score cannot be read (it is too long)")
    );
    assert_eq!(sounds(&piece(&head)), "D4@1:0");
}

#[test]
fn a_score_whose_text_takes_more_room_than_its_bytes_is_limited_by_both() {
    let text = format!("\u{feff}<a>{}", "漢".repeat(60_100_000));
    let bytes: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    drop(text);
    let error = read(&bytes, &Options::default()).unwrap_err();
    assert_eq!(error, ScoreError::TooLarge { limit: 300_000_000 });
}
