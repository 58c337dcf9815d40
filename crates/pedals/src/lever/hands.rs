//! When a hand is free to flip a lever.

use super::line::WantedFlip;
use super::{Flip, LeverWishes};
use crate::{Demand, Hand};

/// The stretches of time in which each hand plays nothing, as far as they are not taken.
#[derive(Clone, Debug)]
pub(super) struct Hands {
    /// From and until, in microseconds, ascending.
    free: Vec<(Hand, Vec<(u64, u64)>)>,
    flip_us: u64,
}

impl Hands {
    /// The hands of a piece, the left first. A note whose hand is not known counts as the right's.
    pub(super) fn of(demand: &Demand, wishes: &LeverWishes) -> Self {
        let mut hands = vec![Hand::Left];
        if wishes.right_hand {
            hands.push(Hand::Right);
        }
        let free = |hand: Hand| {
            let plays = demand.moments.iter().filter(|moment| {
                let own = |attack: &crate::Attack| attack.hand.unwrap_or(Hand::Right) == hand;
                wishes.hands && moment.attacks.iter().any(own)
            });
            let mut free = Vec::new();
            let mut from = 0;
            for moment in plays {
                free.push((from, moment.at_us));
                from = moment.at_us;
            }
            free.push((from, u64::MAX));
            (hand, free)
        };
        Self {
            free: hands.into_iter().map(free).collect(),
            flip_us: if wishes.hands { wishes.flip_us } else { 0 },
        }
    }

    /// The hand that could flip a lever between two moments, the left if both could.
    pub(super) fn first_free(&self, demand: &Demand, after: usize, moment: usize) -> Option<Hand> {
        let between = (demand.moments[after].at_us, demand.moments[moment].at_us);
        let place = (after < moment).then(|| self.place(between))?;
        place.map(|(hand, ..)| self.free[hand].0)
    }

    /// Gives a hand's time to a flip: the left hand's if it has any, as late as it can be, so that
    /// the string has rung.
    pub(super) fn take(&mut self, demand: &Demand, wanted: &WantedFlip) -> Option<Flip> {
        let at = |moment: usize| demand.moments[moment].at_us;
        let between = (at(wanted.after), at(wanted.moment));
        let (hand, stretch, until) = self.place(between)?;
        let flip_us = self.flip_us;
        let (name, free) = &mut self.free[hand];
        let name = *name;
        let (from, end) = free[stretch];
        let begins = until - flip_us;
        free.splice(stretch..=stretch, [(from, begins), (until, end)]);
        let ready = |moment: &usize| at(*moment) >= until;
        Some(Flip {
            moment: (wanted.after + 1..=wanted.moment).find(ready)?,
            at_us: until,
            hand: name,
            string: wanted.string,
            on: wanted.on,
        })
    }

    /// The first hand, and its last stretch, with time between two instants; and when it is done.
    fn place(&self, (after, before): (u64, u64)) -> Option<(usize, usize, u64)> {
        for (hand, (_, free)) in self.free.iter().enumerate() {
            let last = free.partition_point(|&(from, _)| from < before);
            for stretch in (0..last).rev() {
                let (from, until) = free[stretch];
                let (from, until) = (from.max(after), until.min(before));
                if until < after {
                    break;
                }
                if until >= from && until - from >= self.flip_us {
                    return Some((hand, stretch, until));
                }
            }
        }
        None
    }
}
