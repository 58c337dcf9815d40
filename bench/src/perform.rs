//! Plucks are rendered once and heard as often as the plan asks, on two threads.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use harp::{Harp, Position, Setup, Standing, StringName};
use pitch::ReferencePitch;
use pluck::Set;

use crate::listener::Listener;
use crate::plan::Plan;
use crate::trial::{Place, Trial, hold_trial};
use crate::trouble::Trouble;

/// Threads at most.
const THREADS: usize = 2;
/// With more items than this, how far it has got is said.
const MANY: usize = 400;

/// The harp of the sets: 47 strings standing at natural, A4 = 440 Hz.
///
/// # Errors
/// None, as long as the harp is built in.
pub fn standing() -> Result<Vec<Standing>, Trouble> {
    let natural = Setup {
        position: Position::Natural,
        ..Setup::open(ReferencePitch::A440)
    };
    Ok(Harp::named("pedal47")?.standing(&natural)?)
}

/// Every trial of the plan, in the order set, string, take, span, unguided before guided.
pub fn hold_trials<L: Listener + Sync>(
    plan: &Plan,
    strings: &[StringName],
    listener: &L,
) -> Vec<Trial> {
    let places: Vec<(Set, Place)> = plan.places().collect();
    let trials = each_on_two_threads(&places, |&(set, place)| {
        let pluck = set.pluck(place.index, place.take, plan.seed);
        let heard = plan.cells(set, place).map(|cell| {
            let string = strings[place.index % strings.len()];
            hold_trial(listener, &pluck, string, cell, place)
        });
        heard.collect::<Vec<_>>()
    });
    trials.into_iter().flatten().collect()
}

/// The function of each item, in the items' order; of many items, a word on the way every tenth.
pub fn each_on_two_threads<T: Sync, R: Send>(items: &[T], f: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::with_capacity(items.len()));
    let tenth = items.len().div_ceil(10).max(1);
    thread::scope(|scope| {
        for _ in 0..THREADS {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some(item) = items.get(at) else { return };
                    if items.len() > MANY && at > 0 && at.is_multiple_of(tenth) {
                        eprintln!("  {at} of {}", items.len());
                    }
                    let result = f(item);
                    if let Ok(mut done) = done.lock() {
                        done.push((at, result));
                    }
                }
            });
        }
    });
    let mut done = done.into_inner().unwrap_or_default();
    done.sort_by_key(|(at, _)| *at);
    done.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_harp_of_the_sets_has_their_strings() {
        let standing = standing().unwrap();
        let plucked = pluck::strings();
        assert_eq!(standing.len(), plucked.len());
        for (mine, (name, hz)) in standing.iter().zip(plucked) {
            assert_eq!(mine.string.to_string(), name);
            assert!((mine.target_hz / hz - 1.0).abs() < 1e-9, "{name}");
        }
    }

    #[test]
    fn results_keep_the_order_of_their_items() {
        let items: Vec<usize> = (0..1000).collect();
        let doubled = each_on_two_threads(&items, |n| 2 * n);
        assert_eq!(doubled, items.iter().map(|n| 2 * n).collect::<Vec<_>>());
    }
}
