//! What the rest of the piece costs at least from every way of standing: the search's sight.
//!
//! At first as if feet needed no time. Then the pedals move one by one, and the least sum is found
//! letter by letter; a letter needs to be looked at only where it is asked for, or where moving it
//! becomes cheaper than further on. Where that proves too hopeful, the feet's time is counted
//! too ([`crate::footwork`]), moment by moment.

use crate::code::{Code, SETTINGS};
use crate::feet::Reach;
use crate::footwork::{Ages, Back, Rows};
use crate::prices::MovePrices;
use crate::rows::{CAP, Row, add, least, let_move, prices_row, reduce};
use crate::search::Problem;
use crate::{Feet, Foot};

/// For every moment the least cost of what comes after the moment before it.
pub(crate) struct Bound {
    rows: Vec<u32>,
    base: Vec<u64>,
    busy: Vec<Option<Busy>>,
    unit: u32,
}

/// How much more it costs where feet cannot move, in units, rounded down: for each pair of ages but
/// (free, free) a number for each setting. A foot that is only hindered counts as free here, to
/// keep less.
struct Busy {
    ages: usize,
    more: Vec<u16>,
}

/// So many of these numbers are kept at most, 200 megabytes.
const MOST_KEPT: usize = 100_000_000;

impl Bound {
    /// From the last moment back to the first, counting the feet's time at the moments marked.
    pub(crate) fn of(problem: &Problem<'_>, feet: &Feet, closely: &[bool]) -> Self {
        let moments = problem.asked.len();
        let lost = problem.wishes.weights.lost.min(u64::from(CAP / 4)) as u32;
        let mut bound = Self {
            rows: vec![0; (moments + 1) * SETTINGS],
            base: vec![0; moments + 1],
            busy: (0..=moments).map(|_| None).collect(),
            unit: (4 * lost / u32::from(u16::MAX)).max(1),
        };
        let mut sweep = Sweep::new(problem, feet);
        let mut left = MOST_KEPT;
        for moment in (0..moments).rev() {
            let close = closely.get(moment) == Some(&true) && feet.one_notch_us > 0 && moment > 0;
            let taken_off = if close {
                sweep.closely(moment)
            } else {
                sweep.freely(moment)
            };
            bound.base[moment] =
                bound.base[moment + 1] + u64::from(taken_off) + problem.asked[moment].constant;
            bound.rows[moment * SETTINGS..][..SETTINGS].copy_from_slice(sweep.row());
            if let Some(rows) = sweep.rows.as_ref().filter(|rows| rows.cells() <= left) {
                left -= rows.cells();
                bound.busy[moment] = Some(Busy::of(rows, bound.unit));
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
    fn of(rows: &Rows, unit: u32) -> Self {
        let free = rows.free();
        let others = rows.blocked();
        let more = others.flat_map(|row| {
            let pairs = row.iter().zip(free);
            pairs.map(|(cost, free)| ((cost - free) / unit).min(u32::from(u16::MAX)) as u16)
        });
        Self {
            ages: rows.ages.blocked,
            more: more.collect(),
        }
    }

    fn more(&self, code: Code, ages: [usize; 2]) -> u16 {
        // a foot that moved just now is no freer than one that moved a moment ago
        let [left, right] = ages.map(|age| age.saturating_sub(1).min(self.ages));
        let row = left * (self.ages + 1) + right;
        let cell = self.more.get(row * SETTINGS + usize::from(code));
        cell.copied().unwrap_or(0)
    }
}

/// Where the sweep stands.
struct Sweep<'a> {
    problem: &'a Problem<'a>,
    feet: &'a Feet,
    reaches: [Vec<Reach>; 2],
    /// The lowest price of each letter since it was last asked for.
    cheapest: MovePrices,
    row: Box<Row>,
    asked: Box<Row>,
    /// Instead of the row, where the feet's time is counted.
    rows: Option<Rows>,
}

impl<'a> Sweep<'a> {
    fn new(problem: &'a Problem<'a>, feet: &'a Feet) -> Self {
        Self {
            problem,
            feet,
            reaches: Foot::BOTH.map(|foot| feet.reaches(foot)),
            cheapest: [[0; 2]; 7],
            row: Box::new([0; SETTINGS]),
            asked: Box::new([0; SETTINGS]),
            rows: None,
        }
    }

    fn row(&self) -> &Row {
        self.rows.as_ref().map_or(&*self.row, Rows::free)
    }

    /// One moment back as if feet needed no time; what was taken off the row.
    fn freely(&mut self, moment: usize) -> u32 {
        if let Some(rows) = self.rows.take() {
            *self.row = *rows.free();
            self.cheapest = [[u32::MAX; 2]; 7];
        }
        let asked = &self.problem.asked[moment];
        if !asked.pairs.is_empty() {
            prices_row(&asked.pairs, &mut self.asked);
            add(&mut self.row, &self.asked);
        }
        for letter in 0..7 {
            let price = self.problem.prices[moment][letter];
            let best = &mut self.cheapest[letter];
            if asked.uses(letter) {
                *best = price;
            } else if price[0] < best[0] || price[1] < best[1] {
                *best = [best[0].min(price[0]), best[1].min(price[1])];
            } else {
                continue;
            }
            let_move(&mut self.row, letter, price);
        }
        let taken_off = least(&self.row);
        reduce(&mut self.row, taken_off);
        taken_off
    }

    /// One moment back with feet that take their time.
    fn closely(&mut self, moment: usize) -> u32 {
        let rows = self.rows.take();
        let rows = rows.unwrap_or_else(|| Rows::all(&self.row));
        prices_row(&self.problem.asked[moment].pairs, &mut self.asked);
        let weights = &self.problem.wishes.weights;
        let mut rows = rows.back(
            Ages::at(&self.problem.at_us, moment, self.feet),
            &Back {
                reaches: &self.reaches,
                prices: &self.problem.prices[moment],
                asked: &self.asked,
                crossing: weights.crossing,
                together: weights.together,
            },
        );
        let taken_off = least(rows.free());
        rows.reduce(taken_off);
        self.rows = Some(rows);
        taken_off
    }
}
