//! What a round itself costs: one event into it, and all of them run again, as an interrupted round is taken up.
//!
//! The events are those that a [`Sitting`] made of ten minutes of an invented beginner; the ear's own time is in
//! [`crate::speed`].

use std::hint::black_box;
use std::time::Instant;

use harp::{Harp, Setup};
use pitch::ReferencePitch;
use pluck::RATE_HZ;
use pluck::player::{Mishaps, beginner};
use tuning::Sitting;
use tuning::round::{Act, Event, Plan, Round};

use crate::cpu_clock::CpuClock;
use crate::speed::{Load, RUNS, load};
use crate::statistics::median;
use crate::trouble::Trouble;

/// Length of the round in seconds: ten minutes.
pub const ROUND_S: f64 = 600.0;
/// Seconds of each pluck that are listened to.
const LISTEN_S: f64 = 0.6;
/// What goes wrong in it, so that questions and stops are asked too.
const MISHAPS: Mishaps = Mishaps {
    pedal_down: None,
    wrong_octave: true,
    other_pin: true,
    passed: true,
    interrupted: true,
};

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundTime {
    /// The round's length in seconds.
    pub round_s: f64,
    /// Events in it, the plucks' and those of strings that were followed.
    pub events: usize,
    /// One event, in milliseconds: the median of all.
    pub event_ms: f64,
    /// The slowest of all, in milliseconds.
    pub slowest_ms: f64,
    /// All events run again, in seconds.
    pub again_s: Load,
}

/// Records the round's events, then runs them again.
///
/// One event takes less than the processor's clock can tell: it is timed by the wall clock in every run and the middle run
/// counts, so that other work on the machine is left out. All events together are timed on the processor.
///
/// # Errors
/// None, as long as the harp is built in.
pub fn measure(seed: u64) -> Result<RoundTime, Trouble> {
    let plan = Plan::of(&Harp::named("pedal47")?, &Setup::open(ReferencePitch::A440))?;
    let events = recorded(&plan, ROUND_S, seed)?;
    let singly: Vec<Vec<f64>> = (0..RUNS).map(|_| one_by_one(&plan, &events)).collect();
    let each_ms: Vec<f64> = (0..events.len())
        .filter_map(|nth| median(&singly.iter().map(|run| run[nth]).collect::<Vec<_>>()))
        .collect();
    let again_s: Vec<f64> = (0..RUNS).map(|_| run_again(&plan, &events)).collect();
    Ok(RoundTime {
        round_s: ROUND_S,
        events: events.len(),
        event_ms: median(&each_ms).unwrap_or(f64::NAN),
        slowest_ms: each_ms.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        again_s: load(&again_s),
    })
}

/// What happens in so many seconds of a round, from its beginning.
fn recorded(plan: &Plan, seconds: f64, seed: u64) -> Result<Vec<Event>, Trouble> {
    let standing: Vec<_> = plan.strings.iter().map(|s| s.standing).collect();
    let order = Round::new(plan.clone());
    let order: Vec<String> = order.order().iter().map(ToString::to_string).collect();
    let mut sounding = beginner(&standing, &order, MISHAPS, seed)?.round;
    sounding.events.retain(|event| event.at_s < seconds);
    sounding.seconds = seconds;
    let mut sitting = Sitting::new(RATE_HZ, plan.clone(), LISTEN_S)?;
    let mut events = vec![sitting.act(Act::Begin).event];
    for block in sounding.perform()? {
        events.extend(sitting.push(&block).into_iter().map(|h| h.event));
    }
    events.extend(sitting.finish().into_iter().map(|h| h.event));
    Ok(events)
}

/// Milliseconds of each event.
fn one_by_one(plan: &Plan, events: &[Event]) -> Vec<f64> {
    let mut round = Round::new(plan.clone());
    let timed = events.iter().map(|event| {
        let clock = Instant::now();
        black_box(round.step(event));
        clock.elapsed().as_secs_f64() * 1000.0
    });
    timed.collect()
}

/// Seconds on the processor of all of them.
fn run_again(plan: &Plan, events: &[Event]) -> f64 {
    let clock = CpuClock::start();
    let mut round = Round::new(plan.clone());
    for event in events {
        black_box(round.step(event));
    }
    black_box(&round);
    clock.seconds()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recorded_round_begins_and_is_played() {
        let setup = Setup::open(ReferencePitch::A440);
        let plan = Plan::of(&Harp::named("pedal47").unwrap(), &setup).unwrap();
        let events = recorded(&plan, 20.0, 1).unwrap();
        let begins = matches!(
            events.first(),
            Some(Event::Act {
                act: Act::Begin,
                ..
            })
        );
        assert!(begins);
        let heard = events.iter().filter(|e| matches!(e, Event::Heard(_)));
        assert!(heard.count() >= 4);
        let mut round = Round::new(plan.clone());
        let said: usize = events.iter().map(|e| round.step(e).len()).sum();
        assert!(said >= 4, "{said}");
        assert_eq!(one_by_one(&plan, &events).len(), events.len());
        assert!(run_again(&plan, &events) < 1.0);
    }
}
