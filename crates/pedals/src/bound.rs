//! What the rest of the piece costs at least from every way of standing: the search's sight.
//!
//! At first as if feet needed no time. Then the pedals move one by one, and the least sum is found
//! letter by letter; a letter needs to be looked at only where it is asked for, or where moving it
//! becomes cheaper than further on. Where that proves too hopeful, the feet's time is counted
//! too ([`crate::footwork`]), moment by moment. Counting more feet somewhere changes little
//! elsewhere but the sum: what stays the same is not reckoned again.

use crate::Feet;
use crate::code::{Code, SETTINGS};
use crate::footwork::Footwork;
use crate::rows::CAP;
use crate::search::Problem;

/// For every moment the least cost of what comes after the moment before it.
pub(crate) struct Bound {
    counted: Vec<[bool; 2]>,
    rows: Vec<i32>,
    base: Vec<u64>,
    busy: Vec<Option<Busy>>,
    /// Numbers of busy feet are kept in units of this power of two, rounded down.
    unit: u32,
    /// So many of these numbers may still be kept.
    left: usize,
}

/// How much more it costs where feet are not free: for each pair of ages but (free, free) a number
/// for each setting.
struct Busy {
    ages: [usize; 2],
    more: Vec<u16>,
}

/// So many of these numbers are kept at most, 200 megabytes.
const MOST_KEPT: usize = 100_000_000;

impl Bound {
    /// From the last moment back to the first, no foot counted.
    pub(crate) fn of(problem: &Problem<'_>, feet: &Feet) -> Self {
        let moments = problem.asked.len();
        let lost = problem.wishes.weights.lost.min(CAP as u64 / 4) as u32;
        let mut bound = Self {
            counted: vec![[false; 2]; moments],
            rows: vec![0; (moments + 1) * SETTINGS],
            base: vec![0; moments + 1],
            busy: (0..=moments).map(|_| None).collect(),
            unit: (4 * lost / u32::from(u16::MAX)).max(1).ilog2(),
            left: MOST_KEPT,
        };
        let mut footwork = Footwork::new(problem, feet);
        for moment in (0..moments).rev() {
            bound.back(&mut footwork, moment);
        }
        bound
    }

    /// The feet counted at each moment.
    pub(crate) fn counted(&self) -> &[[bool; 2]] {
        &self.counted
    }

    /// Counts feet at more moments.
    pub(crate) fn count(&mut self, problem: &Problem<'_>, feet: &Feet, counted: Vec<[bool; 2]>) {
        // feet that need no time move any number of pedals at once: they cannot be counted
        if feet.one_notch_us == 0 {
            return;
        }
        let differs = |(before, after)| before != after;
        let anew = self.counted.iter().zip(&counted).map(differs).collect();
        self.counted = counted;
        self.again(problem, feet, anew);
    }

    /// Reckons again after what these moments cost has changed.
    pub(crate) fn again(&mut self, problem: &Problem<'_>, feet: &Feet, mut anew: Vec<bool>) {
        // what lies to the right of a change in the same counted stretch
        for moment in 1..anew.len() {
            anew[moment] |= anew[moment - 1] && self.counted[moment] != [false; 2];
        }
        let mut footwork: Option<Footwork<'_>> = None;
        let mut more = 0_u64;
        for moment in (0..anew.len()).rev() {
            if anew[moment] && footwork.is_none() {
                let row = &self.rows[(moment + 1) * SETTINGS..][..SETTINGS];
                footwork = Some(Footwork::from_row(problem, feet, row));
            }
            let Some(working) = &mut footwork else {
                self.base[moment] = self.base[moment].wrapping_add(more);
                continue;
            };
            let before = self.base[moment];
            let same = self.back(working, moment);
            if same && !anew[moment] && self.counted[moment] == [false; 2] {
                // it may be less: a number that goes round
                more = self.base[moment].wrapping_sub(before);
                footwork = None;
            }
        }
    }

    /// One moment back; whether its row is what it was.
    fn back(&mut self, footwork: &mut Footwork<'_>, moment: usize) -> bool {
        let taken_off = footwork.back(moment, self.counted[moment]);
        self.base[moment] = self.base[moment + 1] + taken_off;
        let row = &mut self.rows[moment * SETTINGS..][..SETTINGS];
        let same = row == footwork.free();
        row.copy_from_slice(footwork.free());
        if let Some(busy) = self.busy[moment].take() {
            self.left += busy.more.len();
        }
        let numbers = footwork.others().len() * SETTINGS;
        if numbers > 0 && numbers <= self.left {
            self.left -= numbers;
            self.busy[moment] = Some(Busy::of(footwork, self.unit));
        }
        same
    }

    /// What is to come at least, standing in this setting after the notes of the moment before:
    /// moves for this moment, its notes, and all later. An age says how many moments ago a foot
    /// moved, 0 is now.
    pub(crate) fn from(&self, moment: usize, code: Code, ages: [usize; 2]) -> u64 {
        let free = self.base[moment] + self.rows[moment * SETTINGS + usize::from(code)] as u64;
        let busy = self.busy[moment].as_ref();
        free + busy.map_or(0, |busy| u64::from(busy.more(code, ages)) << self.unit)
    }
}

impl Busy {
    fn of(footwork: &Footwork<'_>, unit: u32) -> Self {
        let free = footwork.free();
        let others = footwork.others();
        let mut more = vec![0; others.len() * SETTINGS];
        for (row, more) in others.iter().zip(more.chunks_exact_mut(SETTINGS)) {
            for ((cost, free), more) in row.iter().zip(free).zip(more) {
                *more = ((cost - free) >> unit).min(i32::from(u16::MAX)) as u16;
            }
        }
        Self {
            ages: footwork.told_apart(),
            more,
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
