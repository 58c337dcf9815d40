//! Every language says the same: the same strings and figures, in no other language's words.

use harp::{HarpKind, Position};
use pitch::Tongue;
use tuning::regulation::{
    Cause, Found, Say, Step, StepSize, Weight, finding, how_to_leave, sentence, too_new, whose_work,
};
use tuning::round::Names;

use super::name;

const TONGUES: [Tongue; 3] = [Tongue::English, Tongue::German, Tongue::French];

fn check(of: impl Fn(Tongue) -> String, holds: &[(&str, [&str; 3])]) {
    let all = TONGUES.map(of);
    for (at, words) in all.iter().enumerate() {
        for (what, said) in holds {
            assert!(
                words.contains(said[at]),
                "{what}: no '{}' in '{words}'",
                said[at]
            );
        }
        assert!(
            all.iter().filter(|other| *other == words).count() == 1,
            "{all:?}"
        );
    }
}

fn said(say: Say, kind: HarpKind) -> impl Fn(Tongue) -> String {
    move |tongue| {
        let names = Names {
            string: &|string| string.harp_number(),
            letter: &|letter| format!("<{letter}>"),
            pitch: &|pitch| pitch.to_string(),
        };
        sentence(&say, kind, &names, tongue).unwrap()
    }
}

#[test]
fn every_sentence_names_its_string_and_its_figure() {
    let string = ("string", ["4G"; 3]);
    for kind in [HarpKind::Pedal, HarpKind::Lever] {
        for position in Position::ALL {
            check(said(Say::Set(position), kind), &[]);
        }
        let far = ("figure", ["+81.5", "+81,5", "+81,5"]);
        check(said(Say::Far(name("G3"), 81.5), kind), &[string, far]);
        check(said(Say::NotAsked(name("G3")), kind), &[string]);
        check(said(Say::Done, kind), &[]);
    }
    let letter = ("letter", ["<G>"; 3]);
    check(
        said(Say::AsBefore(name("G3")), HarpKind::Pedal),
        &[string, letter],
    );
    check(said(Say::AsBefore(name("G3")), HarpKind::Lever), &[string]);
}

#[test]
fn every_finding_is_told_and_what_is_an_error_with_its_figure() {
    let size = StepSize {
        cents: 93.5,
        error_cents: -6.5,
        u95_cents: 1.0,
    };
    let told = |cause, tongue| {
        let found = Found {
            weight: Weight::Report,
            cause: Some(cause),
        };
        finding(Step::Sharp, &size, &found, tongue).unwrap()
    };
    let figure = ("figure", ["−6.5", "−6,5", "−6,5"]);
    for cause in [Cause::Pedal, Cause::Disc, Cause::Lever] {
        check(|tongue| told(cause, tongue), &[figure]);
    }
    for cause in [Cause::Own, Cause::PedalNotMoved, Cause::NoStep] {
        check(|tongue| told(cause, tongue), &[]);
    }
    check(|tongue| too_new(tongue).to_owned(), &[]);
    check(|tongue| how_to_leave(tongue).to_owned(), &[]);
    check(
        |tongue| whose_work(tongue).join(" "),
        &[("bounds", ["10"; 3])],
    );
}
