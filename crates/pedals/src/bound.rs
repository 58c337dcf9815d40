//! What the rest of the piece costs at least from every way of standing: the search's sight.
//!
//! At first as if feet needed no time. Then the pedals move one by one, and the least sum is found
//! letter by letter; a letter needs to be looked at only where it is asked for, or where moving it
//! becomes cheaper than further on. Where that proves too hopeful, the feet's time is counted
//! too ([`crate::footwork`]), moment by moment. Counting more feet somewhere changes little
//! elsewhere but the sum: what stays the same is not reckoned again.

use std::rc::Rc;

use crate::Feet;
use crate::code::{Code, SETTINGS};
use crate::footwork::Footwork;
use crate::problem::Problem;
use crate::rows::{CAP, Row};
use crate::view::View;

/// For every moment the least cost of what comes after the moment before it.
pub(crate) struct Bound {
    counted: Vec<[bool; 2]>,
    /// By moment; one that is the same as the next is kept once.
    rows: Vec<Rc<Row>>,
    base: Vec<u64>,
    busy: Vec<Option<Rc<Busy>>>,
    /// Numbers of busy feet that are kept roughly are in units of this power of two.
    unit: u32,
    /// Whether they are kept exactly, or roughly and so twice as many.
    exactly: bool,
    /// So many bytes of these numbers may still be kept.
    left: usize,
    /// Rows reckoned so far.
    reckoned: u64,
    /// Rows that have changed, or whose moment has, since this was last asked.
    changed: Vec<usize>,
}

/// How much more it costs where feet are not free: for each pair of ages but (free, free) a number
/// for each setting.
#[derive(Clone, PartialEq, Eq)]
pub(crate) struct Busy {
    ages: [usize; 2],
    more: More,
}

#[derive(Clone, PartialEq, Eq)]
enum More {
    Exactly(Vec<i32>),
    /// In units of this power of two, rounded down.
    Roughly(u32, Vec<u16>),
}

/// So many bytes of these numbers are kept at most.
const MOST_KEPT: usize = 200_000_000;

impl Bound {
    /// From the last moment back to the first, no foot counted.
    pub(crate) fn of(problem: &Problem<'_>, feet: &Feet) -> Self {
        let moments = problem.asked.len();
        let end = Rc::new([0; SETTINGS]);
        let lost = problem.wishes.weights.lost.min(CAP as u64 / 4) as u32;
        let mut bound = Self {
            counted: vec![[false; 2]; moments],
            rows: vec![end; moments + 1],
            base: vec![0; moments + 1],
            busy: (0..=moments).map(|_| None).collect(),
            unit: (4 * lost / u32::from(u16::MAX)).max(1).ilog2(),
            exactly: false,
            left: MOST_KEPT,
            reckoned: 0,
            changed: Vec::new(),
        };
        let mut footwork = Footwork::new(problem, feet);
        for moment in (0..moments).rev() {
            bound.back(&mut footwork, moment);
        }
        bound.changed.clear();
        bound
    }

    /// The same, with busy feet kept exactly, as far as there is room: where little changes little
    /// is then reckoned again. Where there was no room they count as free.
    pub(crate) fn to_be_changed(problem: &Problem<'_>, feet: &Feet) -> Self {
        Self {
            exactly: true,
            ..Self::of(problem, feet)
        }
    }

    /// The feet counted at each moment.
    pub(crate) fn counted(&self) -> &[[bool; 2]] {
        &self.counted
    }

    /// Rows reckoned so far, each about as much work as some dozen steps of a search.
    pub(crate) fn reckoned(&self) -> u64 {
        self.reckoned
    }

    /// The rows that have changed since this was last asked; a row may be named more than once.
    pub(crate) fn take_changed(&mut self) -> Vec<usize> {
        std::mem::take(&mut self.changed)
    }

    /// Counts feet at more moments.
    pub(crate) fn count(&mut self, problem: &Problem<'_>, feet: &Feet, counted: Vec<[bool; 2]>) {
        // feet that need no time move any number of pedals at once: they cannot be counted
        if feet.one_notch_us == 0 {
            return;
        }
        let differs = |(before, after)| before != after;
        let anew: Vec<bool> = self.counted.iter().zip(&counted).map(differs).collect();
        self.counted = counted;
        self.again(problem, feet, &anew);
    }

    /// Reckons again after what these moments cost has changed: from each of them back to where
    /// nothing is different any more.
    pub(crate) fn again(&mut self, problem: &Problem<'_>, feet: &Feet, anew: &[bool]) {
        let mut footwork: Option<Footwork<'_>> = None;
        let mut more = 0_u64;
        let anew = self.begun(anew);
        for moment in (0..anew.len()).rev() {
            if anew[moment] && footwork.is_none() {
                footwork = Some(self.footwork_after(problem, feet, moment));
            }
            let Some(working) = &mut footwork else {
                self.base[moment] = self.base[moment].wrapping_add(more);
                continue;
            };
            let before = self.base[moment];
            let same = self.back(working, moment) && !anew[moment];
            if !same {
                self.changed.push(moment);
            }
            if same {
                // it may be less: a number that goes round
                more = self.base[moment].wrapping_sub(before);
                footwork = None;
            }
        }
    }

    /// These moments; where busy feet are not known exactly also what lies to the right of each in
    /// the same counted stretch.
    fn begun(&self, anew: &[bool]) -> Vec<bool> {
        let mut begun = anew.to_vec();
        for moment in 1..begun.len() {
            let known = self.exactly || self.counted[moment] == [false; 2];
            begun[moment] |= begun[moment - 1] && !known;
        }
        begun
    }

    /// The way back as it stands after a moment.
    fn footwork_after<'a>(
        &self,
        problem: &'a Problem<'a>,
        feet: &'a Feet,
        moment: usize,
    ) -> Footwork<'a> {
        let next = moment + 1;
        let row = &self.rows[next];
        let counted = self.counted.get(next).copied().unwrap_or_default();
        Footwork::within(
            problem,
            feet,
            next,
            counted,
            row,
            self.busy[next].as_deref(),
        )
    }

    /// One moment back; whether it is what it was.
    fn back(&mut self, footwork: &mut Footwork<'_>, moment: usize) -> bool {
        let taken_off = footwork.back(moment, self.counted[moment]);
        self.reckoned += 1 + footwork.others().len() as u64;
        self.base[moment] = self.base[moment + 1].wrapping_add(taken_off);
        let same = self.keep(moment, footwork.free());
        let before = self.busy[moment].take();
        self.left += before.as_ref().map_or(0, |busy| busy.bytes());
        let numbers = footwork.others().len() * SETTINGS;
        let bytes = if self.exactly { 4 } else { 2 } * numbers;
        if numbers > 0 && self.left >= bytes {
            let busy = Busy::of(footwork, (!self.exactly).then_some(self.unit));
            self.left -= busy.bytes();
            self.busy[moment] = Some(Rc::new(busy));
        }
        same && before == self.busy[moment]
    }

    /// Keeps a row; whether it is what it was.
    fn keep(&mut self, moment: usize, row: &Row) -> bool {
        if *self.rows[moment] == *row {
            return true;
        }
        if *self.rows[moment + 1] == *row {
            self.rows[moment] = Rc::clone(&self.rows[moment + 1]);
        } else if let Some(own) = Rc::get_mut(&mut self.rows[moment]) {
            own.copy_from_slice(row);
        } else {
            self.rows[moment] = Rc::new(*row);
        }
        false
    }

    /// What is to come at least, standing in this setting after the notes of the moment before:
    /// moves for this moment, its notes, and all later. An age says how many moments ago a foot
    /// moved, 0 is now.
    pub(crate) fn from(&self, moment: usize, code: Code, ages: [usize; 2]) -> u64 {
        let free = self.base[moment] + self.rows[moment][usize::from(code)] as u64;
        let busy = self.busy[moment].as_ref();
        free + busy.map_or(0, |busy| busy.more(code, ages) as u64)
    }

    /// What the whole piece costs at least.
    pub(crate) fn least(&self, problem: &Problem<'_>) -> u64 {
        let opening = |code: Code| {
            let first = problem.asked.first();
            first.map_or(0, |first| {
                first.price(code) + self.from(1, code, [usize::MAX; 2])
            })
        };
        (0..SETTINGS as Code).map(opening).min().unwrap_or(0)
    }

    /// All of what is to come from a moment on.
    pub(crate) fn view(&self, moment: usize) -> View {
        View {
            base: self.base[moment],
            free: Rc::clone(&self.rows[moment]),
            busy: self.busy[moment].clone(),
        }
    }
}

impl Busy {
    fn of(footwork: &Footwork<'_>, unit: Option<u32>) -> Self {
        let free = footwork.free();
        let rows = footwork.others().iter();
        let more = rows.flat_map(|row| row.iter().zip(free).map(|(cost, free)| cost - free));
        let roughly = |more: i32, unit: u32| (more >> unit).min(i32::from(u16::MAX)) as u16;
        let numbers = footwork.others().len() * SETTINGS;
        Self {
            ages: footwork.told_apart(),
            more: match unit {
                None => {
                    // its length is known: it is not to grow step by step
                    let mut all = Vec::with_capacity(numbers);
                    for row in footwork.others() {
                        all.extend(row.iter().zip(free).map(|(cost, free)| cost - free));
                    }
                    More::Exactly(all)
                }
                Some(unit) => {
                    let mut all = Vec::with_capacity(numbers);
                    all.extend(more.map(|more| roughly(more, unit)));
                    More::Roughly(unit, all)
                }
            },
        }
    }

    fn bytes(&self) -> usize {
        match &self.more {
            More::Exactly(more) => 4 * more.len(),
            More::Roughly(_, more) => 2 * more.len(),
        }
    }

    /// How many ages of each foot are told apart.
    pub(crate) fn told_apart(&self) -> [usize; 2] {
        self.ages
    }

    /// Adds what is more in a row of the table, at least.
    pub(crate) fn add(&self, row: usize, costs: &mut [i32]) {
        let from = row * SETTINGS;
        match &self.more {
            More::Exactly(more) => {
                let more = more.get(from..).unwrap_or_default();
                costs
                    .iter_mut()
                    .zip(more)
                    .for_each(|(cost, more)| *cost += more);
            }
            More::Roughly(..) => {
                for (code, cost) in costs.iter_mut().enumerate() {
                    *cost += self.at(from + code);
                }
            }
        }
    }

    /// What is more at a place of the table, at least.
    fn at(&self, place: usize) -> i32 {
        match &self.more {
            More::Exactly(more) => more.get(place).copied().unwrap_or(0),
            More::Roughly(unit, more) => more.get(place).map_or(0, |&more| i32::from(more) << unit),
        }
    }

    /// How much more it is in a setting, feet of these ages.
    pub(crate) fn more(&self, code: Code, ages: [usize; 2]) -> i32 {
        // a foot that moved just now is no freer than one that moved a moment ago
        let row = |foot: usize| ages[foot].saturating_sub(1).min(self.ages[foot]);
        let row = row(0) * (self.ages[1] + 1) + row(1);
        self.at(row * SETTINGS + usize::from(code))
    }
}
