//! Playing a plan note by note, to see whether it holds. It shares nothing with the planner but
//! the words in which a plan is told, and reckons everything anew.

mod bill;
mod feet;
mod strings;

use harp::Harp;
use pitch::{Letter, SpelledPitch};

use crate::{Demand, Plan, Wishes};

/// Something in a plan that does not hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// There are not as many settings as moments.
    Settings,
    /// The setting told for a moment is not what the changes make of the one before.
    Setting {
        /// The moment.
        moment: usize,
    },
    /// A change does not begin where the pedal stands, or goes nowhere.
    Start {
        /// The change, by its place in the plan.
        change: usize,
    },
    /// A change lies outside the time between the moment before and its own.
    Time {
        /// The change.
        change: usize,
    },
    /// A foot that may not reach that pedal.
    Foot {
        /// The change.
        change: usize,
    },
    /// A foot that moves again too soon, or is in two places.
    TooSoon {
        /// The change.
        change: usize,
    },
    /// A stuck pedal moved, or one that does not stand where it is stuck.
    Stuck {
        /// The pedal.
        letter: Letter,
    },
    /// A string without discs retuned where that is not possible.
    Retuned {
        /// Its place among [`Plan::tuned`].
        tuned: usize,
    },
    /// A note that is said to sound and does not, or the other way round.
    Note {
        /// The moment.
        moment: usize,
        /// Its place among the moment's attacks.
        attack: usize,
        /// What is written.
        written: SpelledPitch,
    },
    /// A cost item that does not add up.
    Item {
        /// Its word.
        item: &'static str,
        /// As the plan has it: how often, at what price in all.
        told: (u32, u64),
        /// As it adds up.
        found: (u32, u64),
    },
}

/// Everything in a plan that does not hold, in no other order than that of the checks; nothing if
/// it holds.
pub fn replay(demand: &Demand, harp: &Harp, wishes: &Wishes, plan: &Plan) -> Vec<Fault> {
    if plan.settings.len() != demand.moments.len() {
        return vec![Fault::Settings];
    }
    let mut faults = feet::faults(demand, wishes, plan);
    faults.extend(strings::faults(demand, harp, wishes, plan));
    faults.extend(bill::faults(demand, harp, wishes, plan));
    faults
}
