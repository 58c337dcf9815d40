//! What the rest of the piece costs at least from each setting: the cost if feet needed no time.
//!
//! Without time the pedals move one by one, and what follows a moment is a least sum over seven
//! letters in turn. A letter's pass is needed only where the letter is asked for, or where moving
//! it becomes cheaper than it was further on.

use crate::asked::{Asked, Pair};
use crate::code::{Code, SETTINGS, STRIDE};
use crate::prices::MovePrices;

/// Prices above this count as this: it is more than moving all pedals.
const CAP: u32 = 1 << 28;

/// For every moment the least cost of all that comes after the moment before it, by setting.
pub(crate) struct Untimed {
    rows: Vec<u32>,
    base: Vec<u64>,
}

impl Untimed {
    /// From the last moment back to the first.
    pub(crate) fn of(asked: &[Asked], prices: &[MovePrices]) -> Self {
        let moments = asked.len();
        let mut untimed = Self {
            rows: vec![0; (moments + 1) * SETTINGS],
            base: vec![0; moments + 1],
        };
        let mut cheapest = [[0; 2]; 7];
        for moment in (0..moments).rev() {
            let (rows, later) = untimed.rows.split_at_mut((moment + 1) * SETTINGS);
            let row = &mut rows[moment * SETTINGS..];
            row.copy_from_slice(&later[..SETTINGS]);
            add_prices(row, &asked[moment].pairs);
            for letter in 0..7 {
                let price = prices[moment][letter];
                let best = &mut cheapest[letter];
                if asked[moment].uses(letter) {
                    *best = price;
                } else if price[0] < best[0] || price[1] < best[1] {
                    *best = [best[0].min(price[0]), best[1].min(price[1])];
                } else {
                    continue;
                }
                pass(row, letter, price);
            }
            let least = row.iter().copied().min().unwrap_or(0);
            for cost in row.iter_mut() {
                *cost = (*cost - least).min(CAP);
            }
            untimed.base[moment] =
                untimed.base[moment + 1] + u64::from(least) + asked[moment].constant;
        }
        untimed
    }

    /// What is to come at least, standing in this setting after the notes of the moment before:
    /// moves for this moment, its notes, and all later.
    pub(crate) fn from(&self, moment: usize, code: Code) -> u64 {
        self.base[moment] + u64::from(self.rows[moment * SETTINGS + usize::from(code)])
    }
}

/// The cheapest of staying, moving one notch and moving two, for one letter.
fn pass(row: &mut [u32], letter: usize, price: [u32; 2]) {
    match STRIDE[letter] {
        1 => pass_by::<1>(row, price),
        3 => pass_by::<3>(row, price),
        9 => pass_by::<9>(row, price),
        27 => pass_by::<27>(row, price),
        81 => pass_by::<81>(row, price),
        243 => pass_by::<243>(row, price),
        _ => pass_by::<729>(row, price),
    }
}

fn pass_by<const STRIDE: usize>(row: &mut [u32], [one, two]: [u32; 2]) {
    for block in row.chunks_exact_mut(3 * STRIDE) {
        let (flat, rest) = block.split_at_mut(STRIDE);
        let (natural, sharp) = rest.split_at_mut(STRIDE);
        for ((f, n), s) in flat.iter_mut().zip(natural).zip(sharp) {
            let (flat, natural, sharp) = (*f, *n, *s);
            *f = flat.min(natural + one).min(sharp + two);
            *n = natural.min(flat + one).min(sharp + one);
            *s = sharp.min(natural + one).min(flat + two);
        }
    }
}

/// Adds a moment's prices to a row: the right foot's letters make a row of 81, the left foot's a
/// column of 27, and the pairs D E and A B lie across.
fn add_prices(row: &mut [u32], pairs: &[Pair]) {
    if pairs.is_empty() {
        return;
    }
    let mut right = [0; 81];
    let mut left = [0; 27];
    let mut across = [[0; 9]; 2];
    for pair in pairs {
        let price = pair.price.map(|price| price.min(u64::from(CAP)) as u32);
        match pair.first {
            0 => add_across(&mut left, &price, STRIDE[0] / 81, STRIDE[1] / 81),
            6 => add_across(&mut left, &price, STRIDE[6] / 81, STRIDE[0] / 81),
            1 => across[0] = price,
            5 => across[1] = price,
            first => add_across(&mut right, &price, STRIDE[first], STRIDE[first + 1]),
        }
    }
    let plain = across.iter().flatten().all(|&price| price == 0);
    let mut line = right;
    for (column, part) in row.chunks_exact_mut(81).enumerate() {
        if !plain {
            let (d, b) = (column / 9, column % 3);
            for (cell, sum) in line.iter_mut().enumerate() {
                // E is the right foot's first digit, A its last
                *sum = right[cell] + across[0][3 * d + cell / 27] + across[1][3 * (cell % 3) + b];
            }
        }
        for (cost, sum) in part.iter_mut().zip(&line) {
            *cost = (*cost + sum).saturating_add(left[column]);
        }
    }
}

fn add_across(cells: &mut [u32], price: &[u32; 9], first: usize, second: usize) {
    for (index, cell) in cells.iter_mut().enumerate() {
        *cell += price[3 * (index / first % 3) + index / second % 3];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_of_prices_is_the_price_of_each_setting() {
        let pairs: Vec<Pair> = (0..7)
            .map(|first| Pair {
                first,
                price: std::array::from_fn(|place| (place * place + 7 * first) as u64),
            })
            .collect();
        let asked = Asked {
            pairs: pairs.clone(),
            ..Asked::default()
        };
        let mut row = vec![0; SETTINGS];
        add_prices(&mut row, &pairs);
        for (code, &sum) in row.iter().enumerate() {
            assert_eq!(u64::from(sum), asked.price(code as Code));
        }
    }
}
