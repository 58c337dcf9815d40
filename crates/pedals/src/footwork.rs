//! Going back through a piece one moment at a time: what the rest costs at least from each setting,
//! feet taking their time as far as they are counted.
//!
//! For a foot that is counted there is a row of settings for every age of its last movement, in
//! moments, as long as it is too young for the foot to move freely. A foot that is not counted
//! moves as much as it likes.

use pitch::Letter;

use crate::Feet;
use crate::bound::Busy;
use crate::code::SETTINGS;
use crate::feet::{Foot, Reach};
use crate::prices::MovePrices;
use crate::problem::Problem;
use crate::rows::{CAP, Row, add, least, let_move, lower, moving, prices_row, reduce};

/// More ages than this are not told apart: older ones count as free to move, which can only make
/// the rest look cheaper.
const AGES: usize = 6;

/// How old a foot's last movement must be at a moment so as not to hinder it.
#[derive(Clone, Copy, Debug, Default)]
struct Ages {
    /// Up to this age, in moments, it cannot move.
    blocked: usize,
    /// Up to this age it can move over one notch only.
    hindered: usize,
}

/// Where the way back stands: rows by the ages of both feet before they act at a moment.
pub(crate) struct Footwork<'a> {
    problem: &'a Problem<'a>,
    feet: &'a Feet,
    reaches: [Vec<Reach>; 2],
    ages: [Ages; 2],
    /// By (left, right), each age 1, 2, … and last, free; (free, free) is the last and lowest.
    rows: Vec<Box<Row>>,
    /// Rows that are not in use.
    spare: Vec<Box<Row>>,
    /// The lowest price of each letter since it was last asked for, where its foot is not counted.
    cheapest: MovePrices,
    /// The letters of such feet that are to be looked at, a bit for each index.
    worth_moving: u8,
    asked: Box<Row>,
}

impl<'a> Footwork<'a> {
    /// At the end of the piece.
    pub(crate) fn new(problem: &'a Problem<'a>, feet: &'a Feet) -> Self {
        Self {
            problem,
            feet,
            reaches: Foot::BOTH.map(|foot| feet.reaches(foot)),
            ages: [Ages::default(); 2],
            rows: vec![Box::new([0; SETTINGS])],
            spare: Vec::new(),
            cheapest: [[0; 2]; 7],
            worth_moving: 0,
            asked: Box::new([0; SETTINGS]),
        }
    }

    /// Somewhere within, before the feet act at a moment: from what was kept of it. Where busy
    /// feet were not kept they count as free.
    pub(crate) fn within(
        problem: &'a Problem<'a>,
        feet: &'a Feet,
        moment: usize,
        counted: [bool; 2],
        free: &Row,
        busy: Option<&Busy>,
    ) -> Self {
        let mut footwork = Self::new(problem, feet);
        footwork.cheapest = [[i32::MAX; 2]; 7];
        footwork.ages = counted.map(|counted| {
            if counted {
                Ages::at(&problem.at_us, moment, feet)
            } else {
                Ages::default()
            }
        });
        let [left, right] = footwork.told_apart();
        let rows = (left + 1) * (right + 1);
        footwork.rows.clear();
        for row in 0..rows {
            let mut all = Box::new([0; SETTINGS]);
            all.copy_from_slice(free);
            let more = busy.filter(|_| row + 1 < rows);
            if let Some(busy) = more {
                busy.add(row, &mut all[..]);
            }
            footwork.rows.push(all);
        }
        footwork
    }

    /// Both feet free.
    pub(crate) fn free(&self) -> &Row {
        &self.rows[self.rows.len() - 1]
    }

    /// All rows but that one.
    pub(crate) fn others(&self) -> &[Box<Row>] {
        &self.rows[..self.rows.len() - 1]
    }

    /// How many ages of each foot are told apart.
    pub(crate) fn told_apart(&self) -> [usize; 2] {
        self.ages.map(|ages| ages.hindered)
    }

    /// One moment back: its notes, and before them what the feet may do. Gives what was taken off
    /// all rows, and what the moment costs in any setting.
    pub(crate) fn back(&mut self, moment: usize, counted: [bool; 2]) -> u64 {
        let ages = counted.map(|counted| {
            if counted {
                Ages::at(&self.problem.at_us, moment, self.feet)
            } else {
                Ages::default()
            }
        });
        self.worth_moving = self.worth_moving(moment, counted);
        let mut after = self.after(moment, counted, ages);
        let widths = [0, 1].map(|foot| ages[foot].hindered + 1 + usize::from(counted[foot]));
        for right in 0..widths[1] {
            let line: Vec<usize> = (0..widths[0])
                .map(|left| left * widths[1] + right)
                .collect();
            self.act(Foot::Left, moment, &mut after, &line, counted, ages);
        }
        for left in usize::from(counted[0])..widths[0] {
            let line: Vec<usize> = (0..widths[1])
                .map(|right| left * widths[1] + right)
                .collect();
            self.act(Foot::Right, moment, &mut after, &line, counted, ages);
        }
        self.spare.append(&mut self.rows);
        for (place, row) in after.into_iter().enumerate() {
            let now = |foot: usize, place: usize| counted[foot] && place == 0;
            if now(0, place / widths[1]) || now(1, place % widths[1]) {
                self.spare.push(row);
            } else {
                self.rows.push(row);
            }
        }
        self.ages = ages;
        let taken_off = least(self.free());
        for row in &mut self.rows {
            reduce(row, taken_off);
        }
        taken_off as u64 + self.problem.asked[moment].constant
    }

    /// The notes of a moment and all that follows, by what the feet have done up to and at it: for
    /// a foot that is counted, place 0 is 'moved just now'; then the ages, then free.
    fn after(&mut self, moment: usize, counted: [bool; 2], ages: [Ages; 2]) -> Vec<Box<Row>> {
        let asked = &self.problem.asked[moment];
        let notes = !asked.pairs.is_empty();
        if notes {
            prices_row(&asked.pairs, &mut self.asked);
        }
        let places = |foot: usize| {
            let free = self.ages[foot].hindered;
            let now_and_ages = if counted[foot] {
                ages[foot].hindered + 1
            } else {
                0
            };
            let next = (0..now_and_ages).map(move |place| place.min(free));
            next.chain([free]).collect::<Vec<usize>>()
        };
        let (left, right) = (places(0), places(1));
        let width = self.ages[1].hindered + 1;
        let mut after = Vec::with_capacity(left.len() * right.len());
        for &left in &left {
            for &right in &right {
                let mut row = self.spare.pop().unwrap_or_else(|| Box::new([0; SETTINGS]));
                let from = &self.rows[left * width + right];
                if notes {
                    add(&mut row, from, &self.asked);
                } else {
                    row.copy_from_slice(&from[..]);
                }
                after.push(row);
            }
        }
        after
    }

    /// Lets a foot act in a line of rows that differ in its age only.
    fn act(
        &mut self,
        foot: Foot,
        moment: usize,
        after: &mut [Box<Row>],
        line: &[usize],
        counted: [bool; 2],
        ages: [Ages; 2],
    ) {
        let index = foot as usize;
        if counted[index] {
            let moved = self.moves(foot, moment, &after[line[0]]);
            for (age, &place) in line.iter().enumerate().skip(1) {
                moved.lower(&mut after[place], age, ages[index]);
            }
            self.spare.extend([moved.one, moved.two]);
            return;
        }
        for letter in foot.pedals().iter().map(|letter| letter.index()) {
            if self.worth_moving & 1 << letter != 0 {
                let [one, two] = self.problem.prices[moment][letter];
                // feet that need no time may move a pedal twice for one moment
                let twice = self.feet.one_notch_us == 0;
                let two = if twice { two.min(2 * one) } else { two };
                let_move(&mut after[line[0]], letter, [one, two]);
            }
        }
        // the other foot's own pedals are moved with it only where it is counted: this one, which
        // is not, may help it at any time
        if self.feet.crossing && counted[1 - index] {
            let over = foot.crosses_to().index();
            let crossing = self.problem.wishes.weights.crossing.min(CAP as u32) as i32;
            let price = self.problem.prices[moment][over].map(|price| price + crossing);
            let_move(&mut after[line[0]], over, price);
        }
    }

    /// The letters of feet that are not counted which are to be looked at here: those asked for,
    /// and those which it costs less to move here than further on.
    fn worth_moving(&mut self, moment: usize, counted: [bool; 2]) -> u8 {
        let weights = &self.problem.wishes.weights;
        if weights.two_notches > weights.moved {
            // two moves of a notch may be cheaper than one of two: any place may be worth the first
            let own = |letter: &&Letter| !counted[Foot::of(**letter) as usize];
            let all = Letter::ALL.iter().filter(own);
            return all.fold(0, |letters, letter| letters | 1 << letter.index());
        }
        let mut letters = 0;
        for letter in Letter::ALL {
            let (letter, foot) = (letter.index(), Foot::of(letter) as usize);
            let price = self.problem.prices[moment][letter];
            let best = &mut self.cheapest[letter];
            if counted[foot] {
                *best = [i32::MAX; 2];
            } else if self.problem.asked[moment].uses(letter) {
                *best = price;
                letters |= 1 << letter;
            } else if price[0] < best[0] || price[1] < best[1] {
                *best = [best[0].min(price[0]), best[1].min(price[1])];
                letters |= 1 << letter;
            }
        }
        letters
    }

    /// What a movement of a foot and then `row` would cost.
    fn moves(&mut self, foot: Foot, moment: usize, row: &Row) -> Moved {
        let mut cap = || {
            let mut row = self.spare.pop().unwrap_or_else(|| Box::new([0; SETTINGS]));
            row.fill(CAP);
            row
        };
        let (mut one, mut two) = (cap(), cap());
        let weights = &self.problem.wishes.weights;
        let [crossing, together] =
            [weights.crossing, weights.together].map(|price| price.min(CAP as u32) as i32);
        let prices = &self.problem.prices[moment];
        let price = |letter: usize, more: i32| prices[letter].map(|price| price + more);
        for reach in &self.reaches[foot as usize] {
            let Some(second) = reach.second else {
                let more = if reach.crossed { crossing } else { 0 };
                moving(
                    row,
                    &mut one,
                    &mut two,
                    reach.first,
                    price(reach.first, more),
                );
                continue;
            };
            let (mut near, mut far, mut both) = (cap(), cap(), cap());
            let together = price(second, together);
            moving(row, &mut near, &mut far, second, together);
            moving(
                &near,
                &mut one,
                &mut two,
                reach.first,
                price(reach.first, 0),
            );
            moving(
                &far,
                &mut both,
                &mut two,
                reach.first,
                price(reach.first, 0),
            );
            lower(&mut two, &both);
        }
        Moved { one, two }
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

impl Ages {
    /// The ages at a moment.
    fn at(at_us: &[i64], moment: usize, feet: &Feet) -> Self {
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
