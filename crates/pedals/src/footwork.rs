//! What the rest of a piece costs at least, feet taking their time.
//!
//! Beside the setting counts how many moments ago each foot last moved, as long as it is too soon
//! for it to move freely; so there is a row of settings for each such pair of ages.

use crate::Feet;
use crate::code::SETTINGS;
use crate::feet::{Foot, Reach};
use crate::prices::MovePrices;
use crate::rows::{CAP, Row, add, lower, moving, reduce};

/// More ages than this are not told apart: older ones count as free to move, which can only make
/// the rest look cheaper.
const AGES: usize = 6;

/// How old a foot's last movement must be at a moment so as not to hinder it.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Ages {
    /// Up to this age, in moments, it cannot move.
    pub(crate) blocked: usize,
    /// Up to this age it can move over one notch only.
    hindered: usize,
}

impl Ages {
    /// The ages at a moment.
    pub(crate) fn at(at_us: &[i64], moment: usize, feet: &Feet) -> Self {
        let younger = |least_us: u64| {
            let back = 1..=AGES.min(moment);
            let young = |back: &usize| at_us[moment] - at_us[moment - back] < least_us as i64;
            back.take_while(young).count()
        };
        Self {
            blocked: younger(feet.least_us(1)),
            hindered: younger(feet.least_us(2)),
        }
    }
}

/// Rows by the ages of both feet before they act at a moment: age 1, 2, … and last, free.
pub(crate) struct Rows {
    pub(crate) ages: Ages,
    /// By (left, right), left first; (free, free) is the last and the lowest.
    rows: Vec<Box<Row>>,
}

/// What a step back in time needs to know.
pub(crate) struct Back<'a> {
    pub(crate) reaches: &'a [Vec<Reach>; 2],
    pub(crate) prices: &'a MovePrices,
    pub(crate) asked: &'a Row,
    pub(crate) crossing: u32,
    pub(crate) together: u32,
}

impl Rows {
    /// Whatever the feet did, it costs the same.
    pub(crate) fn all(row: &Row) -> Self {
        Self {
            ages: Ages::default(),
            rows: vec![Box::new(*row)],
        }
    }

    /// Both feet free.
    pub(crate) fn free(&self) -> &Row {
        &self.rows[self.rows.len() - 1]
    }

    fn get(&self, left: usize, right: usize) -> &Row {
        &self.rows[left * (self.ages.hindered + 1) + right]
    }

    /// The rows in which a foot is blocked, by (left, right): each blocked age, then free; without
    /// the last, (free, free).
    pub(crate) fn blocked(&self) -> impl Iterator<Item = &Row> {
        let free = self.ages.hindered;
        let places = (0..self.ages.blocked).chain([free]);
        let pairs = places
            .clone()
            .flat_map(move |left| places.clone().map(move |right| (left, right)));
        pairs
            .filter(move |&pair| pair != (free, free))
            .map(|(left, right)| self.get(left, right))
    }

    /// Numbers in these.
    pub(crate) fn cells(&self) -> usize {
        ((self.ages.blocked + 1).pow(2) - 1) * SETTINGS
    }

    /// The rows of the moment before, from those of this one: the notes of that moment, and before
    /// them what the feet may do.
    pub(crate) fn back(&self, ages: Ages, back: &Back<'_>) -> Self {
        let mut after = self.after(ages.hindered, back.asked);
        // after acting, place 0 is 'moved just now', then the ages, then free
        let width = ages.hindered + 2;
        for right in 0..width {
            let moved = back.moves(Foot::Left, &after[right]);
            for left in 1..width {
                moved.lower(&mut after[left * width + right], left, ages);
            }
        }
        let mut rows = Vec::with_capacity((ages.hindered + 1) * (ages.hindered + 1));
        for line in after.chunks_exact_mut(width).skip(1) {
            let moved = back.moves(Foot::Right, &line[0]);
            for (right, row) in line.iter_mut().enumerate().skip(1) {
                moved.lower(row, right, ages);
            }
            rows.extend(line[1..].iter().cloned());
        }
        Self {
            ages,
            rows,
        }
    }

    /// Takes a number off all.
    pub(crate) fn reduce(&mut self, by: u32) {
        for row in &mut self.rows {
            reduce(row, by);
        }
    }

    /// The notes of a moment and all that follows, by what the feet have done up to and at it.
    fn after(&self, ages: usize, asked: &Row) -> Vec<Box<Row>> {
        let next = |place: usize| {
            let free = self.ages.hindered;
            if place > ages { free } else { place.min(free) }
        };
        let places = 0..ages + 2;
        let pairs = places
            .clone()
            .flat_map(|left| places.clone().map(move |right| (left, right)));
        pairs
            .map(|(left, right)| {
                let mut row = Box::new(*self.get(next(left), next(right)));
                add(&mut row, asked);
                row
            })
            .collect()
    }
}

/// What moving a foot now would cost, over one notch and over two.
struct Moved {
    one: Box<Row>,
    two: Box<Row>,
}

impl Moved {
    /// Lets a foot of an age move, as far as it can.
    fn lower(&self, row: &mut Row, age: usize, ages: Ages) {
        if age > ages.blocked {
            lower(row, &self.one);
        }
        if age > ages.hindered {
            lower(row, &self.two);
        }
    }
}

impl Back<'_> {
    /// What a movement of a foot and then `row` would cost.
    fn moves(&self, foot: Foot, row: &Row) -> Moved {
        let mut moved = Moved {
            one: Box::new([CAP; SETTINGS]),
            two: Box::new([CAP; SETTINGS]),
        };
        let (one, two) = (&mut *moved.one, &mut *moved.two);
        for reach in &self.reaches[foot as usize] {
            let price = |letter: usize, more: u32| self.prices[letter].map(|price| price + more);
            match reach.second {
                None => {
                    let more = if reach.crossed { self.crossing } else { 0 };
                    moving(row, one, two, reach.first, price(reach.first, more));
                }
                Some(second) => {
                    let (mut near, mut far) = ([CAP; SETTINGS], [CAP; SETTINGS]);
                    moving(row, &mut near, &mut far, second, price(second, self.together));
                    let mut unused = [CAP; SETTINGS];
                    moving(&near, one, two, reach.first, price(reach.first, 0));
                    let far_one = &mut unused;
                    moving(&far, far_one, two, reach.first, price(reach.first, 0));
                    lower(two, far_one);
                }
            }
        }
        moved
    }
}
