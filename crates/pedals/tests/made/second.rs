//! A second way to the cheapest sum, by a plain table: every setting × when each foot last moved,
//! moment after moment, nothing left out and nothing looked ahead. It shares nothing with the
//! planner but what is asked ([`Demand`], [`Harp`], [`Wishes`]) and what the prices mean, and knows
//! no repeats, pins, breakages or retuning on the way.
#![allow(dead_code, reason = "each test takes what it needs")]

#[path = "second/heads.rs"]
mod heads;
#[path = "second/places.rs"]
mod places;
#[path = "second/played.rs"]
mod played;

use harp::Harp;
use pedals::{Broken, Demand, Foot, Wishes};
use pitch::Letter;

use heads::{head_prices, tunings};
use places::{Place, places};
#[allow(unused_imports, reason = "each test takes what it needs")]
pub(crate) use played::{Played, changed};

/// Settings: three places for each of seven letters, C first, the least digit's.
pub(crate) const ALL: usize = 2187;
const WORTH: [usize; 7] = [1, 3, 9, 27, 81, 243, 729];
const NEVER: u64 = u64::MAX / 2;

/// 0 flat, 1 natural, 2 sharp.
pub(crate) fn place_of(code: usize, letter: usize) -> usize {
    code / WORTH[letter] % 3
}

/// The least that any plan of the piece costs, over all tunings of the strings without discs.
pub(crate) fn cheapest(demand: &Demand, harp: &Harp, wishes: &Wishes) -> u64 {
    assert!(demand.movements.is_empty() && wishes.retune_rest_us.is_none());
    assert!(wishes.pins.is_empty() && wishes.broken == Broken::default());
    assert!(Letter::ALL.iter().all(|&l| wishes.opening.get(l).is_none()));
    let places = places(demand, wishes);
    let tunings = tunings(demand, harp, wishes);
    let costs = tunings.iter().map(|tuned| {
        let heads = head_prices(demand, harp, wishes, tuned);
        table(&places, &heads, wishes)
    });
    costs.min().unwrap()
}

/// A movement of a foot: from a setting to another, the letters and notches it takes.
struct Movement {
    foot: usize,
    letters: Vec<usize>,
    more: u64,
}

fn movements(wishes: &Wishes) -> Vec<Movement> {
    let left = [Letter::D, Letter::C, Letter::B].map(Letter::index);
    let right = [Letter::E, Letter::F, Letter::G, Letter::A].map(Letter::index);
    let mut all = Vec::new();
    for (foot, own) in [(0, &left[..]), (1, &right[..])] {
        let mut add = |letters: &[usize], more: u32| {
            all.push(Movement {
                foot,
                letters: letters.to_vec(),
                more: u64::from(more),
            });
        };
        own.iter().for_each(|&letter| add(&[letter], 0));
        if wishes.feet.crossing {
            let other = if foot == 0 { Letter::E } else { Letter::B };
            add(&[other.index()], wishes.weights.crossing);
        }
        if wishes.feet.together {
            let pairs = own.windows(2);
            pairs.for_each(|pair| add(pair, wishes.weights.together));
        }
    }
    all
}

/// The table at one place: for each foot the places at which it may have moved last and is still
/// hindered by that; then the costs by (left, right, setting), one more each for 'free'.
struct Table {
    last: [Vec<usize>; 2],
    cost: Vec<u64>,
}

impl Table {
    fn empty(last: [Vec<usize>; 2]) -> Self {
        let size = (last[0].len() + 1) * (last[1].len() + 1) * ALL;
        Self {
            last,
            cost: vec![NEVER; size],
        }
    }

    fn at(&self, left: usize, right: usize) -> usize {
        (left * (self.last[1].len() + 1) + right) * ALL
    }

    fn row_of(&self, foot: usize, place: Option<usize>) -> usize {
        let found = self.last[foot].iter().position(|&last| Some(last) == place);
        found.unwrap_or(self.last[foot].len())
    }
}

fn table(places: &[Place], heads: &[Vec<u64>], wishes: &Wishes) -> u64 {
    let movements = movements(wishes);
    let mut table = Table::empty([Vec::new(), Vec::new()]);
    table.cost.copy_from_slice(&heads[0]);
    for now in 1..places.len() {
        if wishes.feet.least_us(1) == 0 {
            let_all_move(&mut table.cost, &places[now]);
        } else {
            table = go_on(&table, places, now, wishes);
            for foot in Foot::BOTH {
                let own = movements.iter().filter(|m| m.foot == foot as usize);
                own.for_each(|movement| act(&mut table, movement, places, now, wishes));
            }
        }
        if let Some(moment) = places[now].moment {
            for row in table.cost.chunks_exact_mut(ALL) {
                row.iter_mut()
                    .zip(&heads[moment])
                    .for_each(|(c, p)| *c += p);
            }
        }
    }
    table.cost.into_iter().min().unwrap()
}

/// Feet that need no time: every letter moves as it likes.
fn let_all_move(cost: &mut [u64], place: &Place) {
    for (letter, worth) in WORTH.into_iter().enumerate() {
        let [one, two] = place.price[letter];
        let two = two.min(2 * one);
        let before = cost.to_vec();
        for (code, cost) in cost.iter_mut().enumerate() {
            let here = place_of(code, letter);
            for from in (0..3).filter(|&from| from != here) {
                let price = if from.abs_diff(here) == 2 { two } else { one };
                let other = code + from * worth - here * worth;
                *cost = (*cost).min(before[other] + price);
            }
        }
    }
}

/// What no longer hinders a foot is forgotten.
fn go_on(before: &Table, places: &[Place], now: usize, wishes: &Wishes) -> Table {
    let hinders = |&last: &usize| places[now].at_us - places[last].at_us < wishes.feet.least_us(2);
    let last = [0, 1].map(|foot| {
        let still = before.last[foot].iter().copied().filter(hinders);
        still.chain([now]).collect::<Vec<usize>>()
    });
    let mut table = Table::empty(last);
    for left in 0..=before.last[0].len() {
        for right in 0..=before.last[1].len() {
            let to = table.at(
                table.row_of(0, before.last[0].get(left).copied()),
                table.row_of(1, before.last[1].get(right).copied()),
            );
            let from = before.at(left, right);
            for code in 0..ALL {
                table.cost[to + code] = table.cost[to + code].min(before.cost[from + code]);
            }
        }
    }
    table
}

/// Lets a foot make one movement, from every way of standing in which it has not moved here.
fn act(table: &mut Table, movement: &Movement, places: &[Place], now: usize, wishes: &Wishes) {
    let foot = movement.foot;
    let here = table.row_of(foot, Some(now));
    for own in (0..=table.last[foot].len()).filter(|&own| own != here) {
        let since = table.last[foot]
            .get(own)
            .map_or(u64::MAX, |&last| places[now].at_us - places[last].at_us);
        for other in 0..=table.last[1 - foot].len() {
            let at = |own: usize| {
                if foot == 0 {
                    table.at(own, other)
                } else {
                    table.at(other, own)
                }
            };
            let allowed = |notches: usize| since >= wishes.feet.least_us(notches as u8);
            let (from, to) = (at(own), at(here));
            match movement.letters[..] {
                [letter] => one(table, movement, &places[now], letter, (from, to), allowed),
                _ => both(table, movement, &places[now], (from, to), allowed),
            }
        }
    }
}

/// One pedal, from everywhere to everywhere else.
fn one(
    table: &mut Table,
    movement: &Movement,
    place: &Place,
    letter: usize,
    (from, to): (usize, usize),
    allowed: impl Fn(usize) -> bool,
) {
    let worth = WORTH[letter];
    for code in (0..ALL).filter(|&code| place_of(code, letter) == 0) {
        for (before, after) in [(0, 1), (1, 0), (1, 2), (2, 1), (0, 2), (2, 0)] {
            let notches = usize::abs_diff(before, after);
            if allowed(notches) {
                let price = place.price[letter][notches - 1] + movement.more;
                let cost = table.cost[from + code + before * worth] + price;
                let there = &mut table.cost[to + code + after * worth];
                *there = (*there).min(cost);
            }
        }
    }
}

/// Two neighbouring pedals at once, both of them.
fn both(
    table: &mut Table,
    movement: &Movement,
    place: &Place,
    (from, to): (usize, usize),
    allowed: impl Fn(usize) -> bool,
) {
    let (first, second) = (movement.letters[0], movement.letters[1]);
    for before in 0..ALL {
        for after in 0..9 {
            let notches = [
                usize::abs_diff(place_of(before, first), after / 3),
                usize::abs_diff(place_of(before, second), after % 3),
            ];
            if notches.contains(&0) || !allowed(notches[0].max(notches[1])) {
                continue;
            }
            let next = before + after / 3 * WORTH[first] + after % 3 * WORTH[second]
                - place_of(before, first) * WORTH[first]
                - place_of(before, second) * WORTH[second];
            let price = place.price[first][notches[0] - 1] + place.price[second][notches[1] - 1];
            let cost = table.cost[from + before] + price + movement.more;
            let there = &mut table.cost[to + next];
            *there = (*there).min(cost);
        }
    }
}
