//! The A from a held note.

use harp::{Harp, Position, Setup};
use pitch::{ReferencePitch, raise};
use tuning::round::{Estimate, Event, Round, Say, TakeError, strings_that_sound_a, take_the_a};

use crate::table::{plan, words};

/// A held note that swings by so many cents, five times a second, and drifts by so many in all; 30 estimates in 3 s.
fn held(hz: f64, swing: f64, drift: f64) -> Vec<Estimate> {
    let at = |k: i32| f64::from(k) / 10.0;
    let cents = |t: f64| swing * (5.3 * std::f64::consts::TAU * t).sin() + drift * t / 3.0;
    (0..30)
        .map(|k| Estimate {
            hz: raise(hz, cents(at(k))),
            u95_cents: 1.0,
        })
        .collect()
}

#[track_caller]
fn check(note: &str, estimates: &[Estimate], expected: f64) {
    let taken = take_the_a(note.parse().unwrap(), estimates).unwrap();
    assert_eq!(taken.a4_hz, expected, "{taken:?}");
    assert!(taken.u95_cents > 0.0 && taken.u95_cents <= 4.0, "{taken:?}");
}

#[test]
fn a_held_a_of_any_octave_gives_the_reference_to_half_a_hertz() {
    check("A4", &held(441.9, 0.0, 0.0), 442.0);
    check("A4", &held(440.7, 0.0, 0.0), 440.5);
    check("A4", &held(442.2, 12.0, 0.0), 442.0);
    check("A3", &held(221.0, 0.0, 0.0), 442.0);
    check("A4", &held(884.0, 0.0, 0.0), 442.0);
}

// equal temperament: B flat is 2^(1/12) above A, C five semitones below it and up an octave 2^(3/12): arithmetic
#[test]
fn another_note_that_is_named_serves_as_well() {
    check(
        "Bb3",
        &held(443.0 * 2f64.powf(1.0 / 12.0) / 2.0, 0.0, 0.0),
        443.0,
    );
    check("C5", &held(415.0 * 2f64.powf(3.0 / 12.0), 0.0, 0.0), 415.0);
}

#[test]
fn what_wanders_is_refused_as_unsteady() {
    let error = take_the_a("A4".parse().unwrap(), &held(440.0, 0.0, 25.0)).unwrap_err();
    assert!(matches!(error, TakeError::Unsteady { .. }), "{error}");
    let mut coarse = held(440.0, 0.0, 0.0);
    coarse.iter_mut().for_each(|e| e.u95_cents = 9.0);
    let error = take_the_a("A4".parse().unwrap(), &coarse).unwrap_err();
    assert!(matches!(error, TakeError::Unsteady { .. }), "{error}");
}

#[test]
fn no_a_outside_380_to_480_is_taken() {
    for hz in [375.0, 484.0, 600.0] {
        let error = take_the_a("A4".parse().unwrap(), &held(hz, 0.0, 0.0)).unwrap_err();
        assert!(
            matches!(error, TakeError::OutOfRange { .. }),
            "{hz}: {error}"
        );
    }
}

#[test]
fn a_short_or_senseless_note_is_refused() {
    let note = "A4".parse().unwrap();
    assert!(matches!(
        take_the_a(note, &held(440.0, 0.0, 0.0)[..8]),
        Err(TakeError::TooShort { .. })
    ));
    let nothing = [Estimate {
        hz: f64::NAN,
        u95_cents: 1.0,
    }; 30];
    assert!(matches!(
        take_the_a(note, &nothing),
        Err(TakeError::TooShort { .. })
    ));
}

#[test]
fn a_few_strays_do_no_harm_and_many_do() {
    let mut some = held(440.0, 0.0, 0.0);
    some.iter_mut().step_by(10).for_each(|e| e.hz *= 2.0);
    check("A4", &some, 440.0);
    let mut many = held(440.0, 0.0, 0.0);
    many.iter_mut().step_by(3).for_each(|e| e.hz *= 2.0);
    assert!(take_the_a("A4".parse().unwrap(), &many).is_err());
}

#[test]
fn a_harp_with_its_pedals_up_has_no_a_and_is_told_so() {
    let harp = Harp::named("pedal47").unwrap();
    let open = Setup::open(ReferencePitch::A440);
    assert!(strings_that_sound_a(&harp.standing(&open).unwrap()).is_empty());
    let natural = Setup {
        position: Position::Natural,
        ..open
    };
    assert_eq!(
        strings_that_sound_a(&harp.standing(&natural).unwrap()).len(),
        6
    );

    let mut round = Round::new(plan("pedal47"));
    let held = Event::NoteHeld {
        at_s: 1.0,
        note: "A4".parse().unwrap(),
        estimates: held(442.0, 0.0, 0.0),
    };
    let said = round.step(&held);
    assert!(
        matches!(said.as_slice(), [Say::TheA { strings, .. }] if strings.is_empty()),
        "{said:?}"
    );
    assert!(
        words(&said[0]).contains("no A as it stands"),
        "{}",
        words(&said[0])
    );
    // used only on confirmation
    assert_eq!(round.plan().reference.a4_hz(), 440.0);
}
