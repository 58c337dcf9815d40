//! Samples that are missing: told by a counter, or lost by a recorder that tells nobody. The strings are invented (`pluck`),
//! their truth is exact.

use crate::prompted::{RATE_HZ, harp, plan, readings, refused, sit, standing};
use pitch::cents;
use pluck::{Event, Plucked, Room, Round};
use tuning::round::{Act, Event as Happening};
use tuning::{Happened, Heard, Reason, Sitting, WarningKind};

/// When each string is plucked, and plucked again, seconds.
const PLUCKED_S: f64 = 1.0;
const AGAIN_S: f64 = 3.0;

fn name(place: usize) -> String {
    standing()[place].string.to_string()
}

/// A string 8 cents low, plucked at these seconds.
fn plucked(place: usize, at_s: &[f64], room: Room) -> (Vec<Plucked>, Vec<f32>) {
    let plucks = at_s.iter().map(|at| Event::pluck(*at, &name(place)));
    let harp: Round = harp(|_| -8.0, plucks.collect(), room, 21 + place as u64);
    let performance = harp.perform().unwrap();
    (
        performance.truth().to_vec(),
        performance.flatten().collect(),
    )
}

fn sample(s: f64) -> usize {
    (s * f64::from(RATE_HZ)) as usize
}

/// Hears a sound of which `lost` samples are missing at a second, as is told.
fn sit_told(sound: &[f32], at_s: f64, lost: usize) -> (Vec<Happened>, usize) {
    let mut sitting = Sitting::new(RATE_HZ, plan(), 0.6).unwrap();
    sitting.act(Act::Begin);
    let mut happened = sitting.push(&sound[..sample(at_s)]);
    happened.extend(sitting.lost(lost as u64));
    happened.extend(sitting.push(&sound[sample(at_s) + lost..]));
    assert_eq!(sitting.now_s(), sound.len() as f64 / f64::from(RATE_HZ));
    happened.extend(sitting.finish());
    (happened, sitting.breaks())
}

#[test]
fn the_pluck_that_a_known_gap_touches_is_refused_once_and_the_next_is_read() {
    let (mut named, mut again) = (0, 0);
    for place in 0..standing().len() {
        let room = [Room::QUIET, Room::REAL20][place % 2];
        let (truth, sound) = plucked(place, &[PLUCKED_S, AGAIN_S], room);
        let since_s = [0.02, 0.12, 0.3, 0.5][place % 4];
        let lost = [128, 480, 4_096, 48_000][(place / 4) % 4];
        let (happened, breaks) = sit_told(&sound, PLUCKED_S + since_s, lost);
        let warned = |h: &&Happened| matches!(h.event, Happening::Heard(Heard::Warning(_)));
        let warned = happened.iter().filter(warned).count();
        let refused = refused(&happened);
        assert_eq!((refused.len() + warned, breaks), (1, 1), "{happened:?}");
        // a fiftieth of a second of a high string in noise need not have been heard as a pluck
        assert!(
            warned == 0 || since_s < 0.1,
            "{}: {happened:?}",
            name(place)
        );
        for word in refused {
            assert_eq!(word.reason, Reason::AudioBroke);
            assert!((word.at_s - PLUCKED_S).abs() < 0.03, "{word:?}");
            named += usize::from(word.string.is_some());
        }
        for reading in readings(&happened) {
            let error = cents(truth[1].sounding_hz, reading.heard_hz).abs();
            assert!((reading.at_s - AGAIN_S).abs() < 0.03, "{reading:?}");
            assert!(error < 3.0 + reading.u95_cents, "{error} {reading:?}");
            again += 1;
        }
    }
    println!("of 47 plucks broken off {named} had a name; {again} of the next were read");
    assert!(named >= 25 && again >= 44, "{named} {again}");
}

#[test]
fn gaps_that_touch_no_pluck_are_told_once_and_counted() {
    let mut sitting = Sitting::new(RATE_HZ, plan(), 0.6).unwrap();
    sitting.act(Act::Begin);
    let mut happened = Vec::new();
    for _ in 0..5 {
        happened.extend(sitting.push(&vec![0.0; 30_000]));
        happened.extend(sitting.lost(128));
    }
    let [one] = &happened[..] else {
        panic!("{happened:?}");
    };
    assert!(
        matches!(&one.event, Happening::Heard(Heard::Warning(w)) if w.warning == WarningKind::AudioBroke && w.at_s == 0.625)
    );
    assert_eq!(sitting.breaks(), 5);
    assert_eq!(sitting.now_s(), 5.0 * 30_128.0 / 48_000.0);
}

#[test]
fn a_string_that_rings_through_a_known_gap_is_no_new_pluck() {
    for place in 0..standing().len() {
        let (_, sound) = plucked(place, &[PLUCKED_S], Room::QUIET);
        for lost in [480, 9_600] {
            let (happened, _) = sit_told(&sound, PLUCKED_S + 0.9, lost);
            let heard = readings(&happened).len() + refused(&happened).len();
            assert!(heard <= 1, "{} {lost}: {happened:?}", name(place));
        }
    }
}

/// Ten milliseconds cut out of every string in turn, of which nobody tells: at least so many must be found; what is read
/// all the same must be right.
fn check_untold(room: Room, least: usize) {
    let (mut found, mut counted, mut whole, mut wrong) = (0, 0, 0, Vec::new());
    for place in 0..standing().len() {
        let (truth, mut sound) = plucked(place, &[PLUCKED_S], room);
        let cut = sample(PLUCKED_S + [0.15, 0.3, 0.45][place % 3]);
        sound.drain(cut..cut + 480);
        let happened = sit(&sound, &[]);
        let refused = refused(&happened);
        let broke = refused.iter().any(|r| r.reason == Reason::AudioBroke);
        found += usize::from(broke);
        counted += refused.len();
        for reading in readings(&happened) {
            whole += usize::from(!broke);
            let error = cents(truth[0].sounding_hz, reading.heard_hz);
            let string = truth[0].string.parse().unwrap();
            let named = reading.string == Some(string) || reading.candidates.contains(&string);
            if !named || error.abs() > 3.0 + reading.u95_cents {
                wrong.push(format!("{} {error:+.1}: {reading:?}", name(place)));
            }
        }
    }
    println!("found {found} of 47 ({counted} refused); {whole} read over the gap; wrong {wrong:?}");
    assert!(found >= least, "{found} found, {least} at least");
    assert!(wrong.is_empty(), "{wrong:?}");
}

#[test]
fn ten_milliseconds_of_which_nobody_tells_are_found_in_a_quiet_room() {
    check_untold(Room::QUIET, 38);
}

#[test]
fn in_noise_half_of_them_are_found_and_the_others_falsify_no_reading() {
    check_untold(Room::REAL20, 18);
}
