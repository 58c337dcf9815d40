//! What the rest of the piece costs at least from every way of standing: the search's sight.
//!
//! At first as if feet needed no time. Then the pedals move one by one, and the least sum is found
//! letter by letter; a letter needs to be looked at only where it is asked for, or where moving it
//! becomes cheaper than further on. Where that proves too hopeful, the feet's time is counted
//! too ([`crate::footwork`]), moment by moment.

use crate::Feet;
use crate::code::{Code, SETTINGS};
use crate::footwork::Footwork;
use crate::rows::CAP;
use crate::search::Problem;

/// For every moment the least cost of what comes after the moment before it.
pub(crate) struct Bound {
    rows: Vec<u32>,
    base: Vec<u64>,
    busy: Vec<Option<Busy>>,
    unit: u32,
}

/// How much more it costs where feet are not free, in units, rounded down: for each pair of ages
/// but (free, free) a number for each setting.
struct Busy {
    ages: [usize; 2],
    more: Vec<u16>,
}

/// So many of these numbers are kept at most, 200 megabytes.
const MOST_KEPT: usize = 100_000_000;

impl Bound {
    /// From the last moment back to the first, counting the feet marked at each moment.
    pub(crate) fn of(problem: &Problem<'_>, feet: &Feet, counted: &[[bool; 2]]) -> Self {
        let moments = problem.asked.len();
        let lost = problem.wishes.weights.lost.min(u64::from(CAP / 4)) as u32;
        let mut bound = Self {
            rows: vec![0; (moments + 1) * SETTINGS],
            base: vec![0; moments + 1],
            busy: (0..=moments).map(|_| None).collect(),
            unit: (4 * lost / u32::from(u16::MAX)).max(1),
        };
        let mut footwork = Footwork::new(problem, feet);
        let mut left = MOST_KEPT;
        for moment in (0..moments).rev() {
            // feet that need no time move any number of pedals at once: they cannot be counted
            let timed = feet.one_notch_us > 0 && moment > 0;
            let counted = counted.get(moment).filter(|_| timed);
            let taken_off = footwork.back(moment, counted.copied().unwrap_or_default());
            bound.base[moment] =
                bound.base[moment + 1] + u64::from(taken_off) + problem.asked[moment].constant;
            bound.rows[moment * SETTINGS..][..SETTINGS].copy_from_slice(footwork.free());
            let numbers = footwork.others().len() * SETTINGS;
            if numbers > 0 && numbers <= left {
                left -= numbers;
                bound.busy[moment] = Some(Busy::of(&footwork, bound.unit));
            }
        }
        bound
    }

    /// What is to come at least, standing in this setting after the notes of the moment before:
    /// moves for this moment, its notes, and all later. An age says how many moments ago a foot
    /// moved, 0 is now.
    pub(crate) fn from(&self, moment: usize, code: Code, ages: [usize; 2]) -> u64 {
        let free = self.base[moment] + u64::from(self.rows[moment * SETTINGS + usize::from(code)]);
        let busy = self.busy[moment].as_ref();
        free + busy.map_or(0, |busy| {
            u64::from(busy.more(code, ages)) * u64::from(self.unit)
        })
    }
}

impl Busy {
    fn of(footwork: &Footwork<'_>, unit: u32) -> Self {
        let free = footwork.free();
        let more = footwork.others().iter().flat_map(|row| {
            let pairs = row.iter().zip(free);
            pairs.map(|(cost, free)| ((cost - free) / unit).min(u32::from(u16::MAX)) as u16)
        });
        Self {
            ages: footwork.told_apart(),
            more: more.collect(),
        }
    }

    fn more(&self, code: Code, ages: [usize; 2]) -> u16 {
        // a foot that moved just now is no freer than one that moved a moment ago
        let row = |foot: usize| ages[foot].saturating_sub(1).min(self.ages[foot]);
        let row = row(0) * (self.ages[1] + 1) + row(1);
        let cell = self.more.get(row * SETTINGS + usize::from(code));
        cell.copied().unwrap_or(0)
    }
}
