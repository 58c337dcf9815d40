//! A score of our own, planned and put on paper.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot prepare its case should stop"
)]

use std::fmt::Write;

use harp::Harp;
use pedals::{Demand, Plan, Wishes};
use pitch::{Alteration, Letter, ReferencePitch};
use score::Piece;
use sheet::{Head, PieceSheet, RemarkKind, Style, piece_pages};

/// One bar of four quarters: step, alteration, octave.
type Bar<'a> = [(&'a str, i8, i8); 4];

/// A bar in MusicXML; what stands before its notes and after them is given.
fn measure(number: &str, before: &str, notes: Bar<'_>, after: &str) -> String {
    let mut text = format!("<measure number=\"{number}\">{before}");
    for (step, alter, octave) in notes {
        let _ = write!(
            text,
            "<note><pitch><step>{step}</step><alter>{alter}</alter><octave>{octave}</octave></pitch>\
             <duration>1</duration><voice>1</voice><type>quarter</type></note>"
        );
    }
    text + after + "</measure>"
}

fn mark(text: &str) -> String {
    format!("<direction><direction-type><rehearsal>{text}</rehearsal></direction-type></direction>")
}

fn read(measures: &[String]) -> (Piece, Demand, Plan) {
    let text = format!(
        "<score-partwise version=\"4.0\"><work><work-title>Low Tide</work-title></work><identification>\
         <creator type=\"composer\">O. Brisk</creator></identification><part-list><score-part id=\"P1\"><part-name>Harp\
         </part-name></score-part></part-list><part id=\"P1\">{}</part></score-partwise>",
        measures.concat()
    );
    let piece = score::read(text.as_bytes(), &score::Options::default()).unwrap();
    let demand = Demand::of_score(&piece, &piece.order);
    let harp = Harp::named("pedal47").unwrap();
    let plan = pedals::plan(&demand, &harp, &Wishes::comfortable());
    (piece, demand, plan)
}

fn sheet(measures: &[String]) -> PieceSheet {
    let (piece, demand, plan) = read(measures);
    let head = Head {
        reference: ReferencePitch::new(442.0).unwrap(),
        harp: "Concert harp".to_owned(),
        ..Head::default()
    };
    PieceSheet::of_plan(&piece, &demand, &plan, head)
}

const BEGIN: &str = "<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time>\
                     </attributes><direction><sound tempo=\"60\"/></direction>";
const PLAIN: Bar<'_> = [("C", 0, 4), ("D", 0, 4), ("G", 0, 4), ("A", 0, 4)];
/// F natural and F sharp beside each other, and strings that leave no other name for them.
const SHARP: Bar<'_> = [("F", 1, 4), ("G", 0, 4), ("D", 0, 4), ("G", -1, 5)];
const NATURAL: Bar<'_> = [("F", 0, 4), ("E", 0, 4), ("D", 0, 4), ("A", 0, 4)];

#[test]
fn changes_marks_and_strings_by_key_come_from_the_plan() {
    let low: Bar<'_> = [("C", 1, 1), ("D", 0, 4), ("G", 0, 4), ("A", 0, 4)];
    let measures = [
        measure("1", BEGIN, low, ""),
        measure("2", "", NATURAL, ""),
        measure("3", &mark("A"), SHARP, ""),
        measure("4", "", NATURAL, ""),
        measure("5", &mark("B"), PLAIN, ""),
    ];
    let (piece, demand, plan) = read(&measures);
    let sheet = sheet(&measures);
    assert_eq!(
        (sheet.title.as_str(), sheet.composer.as_str()),
        ("Low Tide", "O. Brisk")
    );
    let [movement] = sheet.movements.as_slice() else {
        panic!("{} movements", sheet.movements.len());
    };
    assert_eq!(Some(movement.opening), plan.opening());
    let keyed = |string: &str| {
        let found = movement
            .by_key
            .iter()
            .find(|keyed| keyed.string.to_string() == string);
        found.unwrap().pitch.to_string()
    };
    assert_eq!(keyed("C1"), "C#1");
    let labels: Vec<&str> = movement
        .landmarks
        .iter()
        .map(|mark| mark.bar.label.as_str())
        .collect();
    assert_eq!(labels, ["3", "5"]);
    for mark in &movement.landmarks {
        let first = demand
            .moments
            .iter()
            .position(|moment| moment.measure == mark.bar.order);
        assert_eq!(mark.setting, plan.settings[first.unwrap()]);
        assert!(mark.times.is_empty());
    }
    // every pedal the plan moves is on the sheet, in its foot's line
    let beats = movement.bars.iter().flat_map(|bar| &bar.beats);
    let (right, left): (Vec<_>, Vec<_>) = beats.map(|beat| (&beat.right, &beat.left)).unzip();
    let printed = right
        .iter()
        .chain(&left)
        .map(|line| line.len())
        .sum::<usize>();
    assert_eq!(printed, plan.changes.len());
    assert!(printed > 0, "{piece:?}");
    let at_left = left
        .into_iter()
        .flatten()
        .all(|change| matches!(change.letter, Letter::D | Letter::C | Letter::B));
    assert!(at_left);
}

#[test]
fn played_from_the_sheet_the_pedals_stand_as_planned() {
    let measures = [
        measure("1", BEGIN, NATURAL, ""),
        measure("2", "", SHARP, ""),
        measure("3", &mark("A"), NATURAL, ""),
        measure("4", "", SHARP, ""),
    ];
    let (_, demand, plan) = read(&measures);
    let sheet = sheet(&measures);
    let movement = &sheet.movements[0];
    let mut stands = movement.opening;
    let mut last: Option<(u32, pedals::Quarters)> = None;
    for (moment, planned) in demand.moments.iter().zip(&plan.settings) {
        let here = (moment.measure, moment.beat);
        if last != Some(here) {
            let beat = pedals::counted_in(moment.beat, 4);
            let bars = movement
                .bars
                .iter()
                .filter(|bar| bar.bar.order == moment.measure);
            let beats = bars
                .flat_map(|bar| &bar.beats)
                .filter(|found| found.beat == beat);
            for change in beats.flat_map(|beat| beat.right.iter().chain(&beat.left)) {
                stands = stands.with(change.letter, change.to);
            }
        }
        last = Some(here);
        assert_eq!(
            stands, *planned,
            "bar {} beat {}",
            moment.measure, moment.beat
        );
    }
}

#[test]
fn movements_have_openings_of_their_own() {
    let measures = [
        measure("1", BEGIN, NATURAL, ""),
        measure(
            "2",
            "",
            NATURAL,
            "<barline location=\"right\"><bar-style>light-heavy</bar-style></barline>",
        ),
        measure("1", "", SHARP, ""),
        measure("2", "", SHARP, ""),
    ];
    let (_, demand, plan) = read(&measures);
    assert_eq!(demand.movements.len(), 1);
    let sheet = sheet(&measures);
    let openings: Vec<_> = sheet
        .movements
        .iter()
        .map(|movement| movement.opening)
        .collect();
    assert_eq!(
        openings,
        [plan.settings[0], plan.settings[demand.movements[0]]]
    );
    assert_eq!(openings[1].get(Letter::F), Some(Alteration::Sharp));
    // what is set between the movements is in the second's diagram and no change of its first bar
    let first = sheet.movements[1].bars.first();
    let at_once = first.is_some_and(|bar| bar.bar.label == "1" && bar.beats[0].beat == "1");
    assert!(!at_once, "{first:?}");
}

#[test]
fn a_note_that_no_string_has_is_told_with_its_bar() {
    let high: Bar<'_> = [("C", 0, 9), ("D", 0, 4), ("G", 0, 4), ("A", 0, 4)];
    let sheet = sheet(&[measure("7", BEGIN, high, "")]);
    let lost = sheet
        .remarks
        .iter()
        .find(|remark| matches!(remark.what, RemarkKind::Lost { .. }));
    let lost = lost.unwrap();
    assert_eq!(lost.bar.as_ref().map(|bar| bar.label.as_str()), Some("7"));
    assert_eq!(lost.beat, "1");
    assert_eq!(piece_pages(&sheet, &Style::default()).len(), 1);
}
