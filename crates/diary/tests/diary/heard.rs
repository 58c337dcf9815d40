//! A round as it is truly heard, from sound: kept thin, taken up, the same. Strings, player and room are invented.

use diary::{Diary, Entry, RoundBegun, Thinning};
use harp::{Harp, Setup};
use pitch::ReferencePitch;
use pluck::Room;
use pluck::player::{Mishaps, beginner};
use tuning::Sitting;
use tuning::round::{Act, Event, Order, Plan, Round};

use crate::samples::append;

/// Strings that the beginner tunes.
const STRINGS: usize = 6;

#[test]
fn a_round_from_sound_is_kept_thin_and_taken_up_as_it_was() {
    let (harp, setup) = (
        Harp::named("pedal47").unwrap(),
        Setup::open(ReferencePitch::A440),
    );
    let mut plan = Plan::of(&harp, &setup).unwrap();
    plan.order = Order::MiddleOctave;
    let standing: Vec<_> = plan.strings.iter().map(|s| s.standing).collect();
    let order = Round::new(plan.clone());
    let strings: Vec<String> = order
        .order()
        .iter()
        .take(STRINGS)
        .map(|s| s.to_string())
        .collect();
    let mut sounding = beginner(&standing, &strings, Mishaps::default(), 1)
        .unwrap()
        .round;
    sounding.room = Room::QUIET;
    let mut sitting = Sitting::new(sounding.rate_hz, plan.clone(), 0.6).unwrap();

    let mut diary = Diary::default();
    let begun = RoundBegun::of("big", &harp, &setup, &plan, 0.6);
    let round = append(&mut diary, "phone", 0, &Entry::Round(begun));
    let mut thinning = Thinning::new(Round::new(plan));
    let (mut first, mut happened, mut live) = (0, 0, 0);
    let mut keep = |events: Vec<Event>| {
        for entry in Entry::round_events(&round, first, &events) {
            append(&mut diary, "phone", 1, &entry);
        }
        first += events.len() as u64;
    };
    thinning.push(&sitting.act(Act::Begin).event);
    for block in sounding.perform().unwrap() {
        for one in sitting.push(&block) {
            happened += 1;
            live += usize::from(matches!(one.event, Event::Moving(_)));
            thinning.push(&one.event);
            keep(thinning.settled());
        }
    }
    for one in sitting.finish() {
        thinning.push(&one.event);
    }
    keep(thinning.rest());

    let kept = diary.unfinished().unwrap().unwrap();
    assert!(kept.replayed() == *sitting.round());
    let left = kept
        .events
        .iter()
        .filter(|e| matches!(e, Event::Moving(_)))
        .count();
    let bytes = diary.export().len();
    println!("{happened} events, {live} of them live, {left} live kept, {bytes} bytes");
    assert!(live > 100 && 2 * left < live, "{left} of {live}");
}
