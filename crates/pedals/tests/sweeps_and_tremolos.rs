//! Glissandi and tremolos of two notes, from the score to the plan. Fixtures of our own.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

use harp::Harp;
use pedals::{Demand, Spelling, Wishes, plan, replay};
use pitch::{Alteration, Letter};

/// A harp part of one bar of 4/4 in quarters, a minute each.
fn demand(notes: &[&str]) -> Demand {
    let text = format!(
        "<score-partwise><part-list><score-part id=\"P1\"><part-name>Harp</part-name></score-part></part-list>\
         <part id=\"P1\"><measure number=\"1\"><attributes><divisions>1</divisions><time><beats>4</beats>\
         <beat-type>4</beat-type></time></attributes><sound tempo=\"60\"/>{}</measure></part></score-partwise>",
        notes.concat()
    );
    let piece = score::read(text.as_bytes(), &score::Options::default()).unwrap();
    Demand::of_score(&piece, &piece.order)
}

fn note(step: &str, alter: i8, octave: i8, notations: &str) -> String {
    format!(
        "<note><pitch><step>{step}</step><alter>{alter}</alter><octave>{octave}</octave></pitch>\
         <duration>1</duration><notations>{notations}</notations></note>"
    )
}

fn tremolo(kind: &str) -> String {
    format!("<ornaments><tremolo type=\"{kind}\">3</tremolo></ornaments>")
}

#[test]
fn both_strings_of_a_tremolo_stand_from_its_beginning_to_its_end() {
    // G♮ before and after; G♯ is written a quarter after the tremolo begins
    let demand = demand(&[
        &note("G", 0, 4, ""),
        &note("F", 0, 4, &tremolo("start")),
        &note("G", 1, 4, &tremolo("stop")),
        &note("G", 0, 4, ""),
    ]);
    let told = |at: usize| demand.moments[at].tremolo.clone();
    assert_eq!(told(1), ["G#4".parse().unwrap()]);
    assert_eq!(told(2), ["F4".parse().unwrap()]);
    assert!(told(0).is_empty() && told(3).is_empty());
    let harp = Harp::named("pedal47").unwrap();
    let wishes = Wishes {
        spelling: Spelling::Written,
        ..Wishes::comfortable()
    };
    let plan = plan(&demand, &harp, &wishes);
    let g = |at: usize| plan.settings[at].get(Letter::G);
    let (natural, sharp) = (Some(Alteration::Natural), Some(Alteration::Sharp));
    assert_eq!([g(0), g(1), g(2), g(3)], [natural, sharp, sharp, natural]);
    assert_eq!(replay(&demand, &harp, &wishes, &plan), []);
    assert!(plan.optimal && plan.cannot.is_empty());
    assert_eq!(plan.cost.glissando.count, 0);
}

#[test]
fn two_names_of_one_letter_are_played_on_two_strings() {
    // C and C♯ in alternation: one of them on another string, all the while
    let demand = demand(&[
        &note("C", 0, 4, &tremolo("start")),
        &note("C", 1, 4, &tremolo("stop")),
    ]);
    let harp = Harp::named("pedal47").unwrap();
    for spelling in [Spelling::Free, Spelling::Written] {
        let wishes = Wishes {
            spelling,
            ..Wishes::comfortable()
        };
        let plan = plan(&demand, &harp, &wishes);
        assert_eq!((plan.changes.len(), plan.respelled.len()), (0, 1));
        assert_eq!(plan.cost.glissando.count, 0);
        assert_eq!(replay(&demand, &harp, &wishes, &plan), []);
    }
}

#[test]
fn a_pedal_moved_under_strings_that_were_swept_pays_for_it() {
    let swept = |notations: [&str; 2]| {
        let demand = demand(&[
            &note("C", 0, 4, notations[0]),
            &note("C", 0, 6, notations[1]),
            &note("F", 1, 5, ""),
            &note("F", 0, 5, ""),
        ]);
        let harp = Harp::named("pedal47").unwrap();
        let wishes = Wishes {
            spelling: Spelling::Written,
            ..Wishes::comfortable()
        };
        let mut first = wishes.clone();
        first.pins.push(pedals::Pin {
            moment: 0,
            letter: Letter::F,
            alteration: Alteration::Natural,
        });
        let plan = plan(&demand, &harp, &first);
        assert_eq!(replay(&demand, &harp, &first, &plan), []);
        (demand.moments[0].swept, plan.cost.ringing.price)
    };
    let (range, ringing) = swept(["<glissando type=\"start\"/>", "<glissando type=\"stop\"/>"]);
    assert_eq!(range, Some(("C4".parse().unwrap(), "C6".parse().unwrap())));
    let (none, without) = swept(["", ""]);
    assert_eq!(none, None);
    assert!(ringing > without, "{ringing} {without}");
}
