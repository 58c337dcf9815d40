//! Work on a whole row at once: one number for each of the 2,187 settings.

use crate::asked::Pair;
use crate::code::{SETTINGS, STRIDE};

/// Numbers above this count as this: it is more than all pedals moved and a good few notes lost.
///
/// Signed numbers, since the plainest machines find the lesser of these sooner.
pub(crate) const CAP: i32 = 1 << 29;

/// A number for each setting.
pub(crate) type Row = [i32; SETTINGS];

/// Lets one letter move freely: the cheapest of staying and moving, at the price of one notch or
/// of two.
pub(crate) fn let_move(row: &mut Row, letter: usize, price: [i32; 2]) {
    match STRIDE[letter] {
        1 => let_move_by::<1>(row, price),
        3 => let_move_by::<3>(row, price),
        9 => let_move_by::<9>(row, price),
        27 => let_move_by::<27>(row, price),
        81 => let_move_by::<81>(row, price),
        243 => let_move_by::<243>(row, price),
        _ => let_move_by::<729>(row, price),
    }
}

/// What moving one letter, which must move, and then `row` would cost, where that is lower than
/// what stands in `one` (over one notch) and in `two` (over two).
pub(crate) fn moving(row: &Row, one: &mut Row, two: &mut Row, letter: usize, price: [i32; 2]) {
    match STRIDE[letter] {
        1 => moving_by::<1>(row, one, two, price),
        3 => moving_by::<3>(row, one, two, price),
        9 => moving_by::<9>(row, one, two, price),
        27 => moving_by::<27>(row, one, two, price),
        81 => moving_by::<81>(row, one, two, price),
        243 => moving_by::<243>(row, one, two, price),
        _ => moving_by::<729>(row, one, two, price),
    }
}

/// A row and a row of prices, added up.
pub(crate) fn add(sum: &mut Row, row: &Row, prices: &Row) {
    for ((sum, cost), price) in sum.iter_mut().zip(row).zip(prices) {
        *sum = cost + price;
    }
}

/// Lowers a row to another wherever that is lower.
pub(crate) fn lower(row: &mut Row, other: &Row) {
    for (cost, other) in row.iter_mut().zip(other) {
        *cost = (*cost).min(*other);
    }
}

/// Takes a number off, and caps.
pub(crate) fn reduce(row: &mut Row, by: i32) {
    for cost in row {
        *cost = (*cost - by).min(CAP);
    }
}

/// The least of a row.
pub(crate) fn least(row: &Row) -> i32 {
    row.iter().copied().min().unwrap_or(0)
}

/// A moment's prices as a row: the right foot's letters make a line of 81, the left foot's a
/// column of 27, and the pairs D E and A B lie across.
pub(crate) fn prices_row(pairs: &[Pair], row: &mut Row) {
    let mut right = [0_i32; 81];
    let mut left = [0; 27];
    let mut across = [[0; 9]; 2];
    for pair in pairs {
        // seven halves of the cap still are a number
        let price = pair.price.map(|price| price.min(CAP as u64 / 2) as i32);
        match pair.first {
            0 => spread(&mut left, &price, STRIDE[0] / 81, STRIDE[1] / 81),
            6 => spread(&mut left, &price, STRIDE[6] / 81, STRIDE[0] / 81),
            1 => across[0] = price,
            5 => across[1] = price,
            first => spread(&mut right, &price, STRIDE[first], STRIDE[first + 1]),
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
            *cost = (sum + left[column]).min(CAP);
        }
    }
}

fn spread(cells: &mut [i32], price: &[i32; 9], first: usize, second: usize) {
    for (index, cell) in cells.iter_mut().enumerate() {
        *cell += price[3 * (index / first % 3) + index / second % 3];
    }
}

fn let_move_by<const STRIDE: usize>(row: &mut Row, [one, two]: [i32; 2]) {
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

fn moving_by<const STRIDE: usize>(
    row: &Row,
    one: &mut Row,
    two: &mut Row,
    [price_one, price_two]: [i32; 2],
) {
    let size = 3 * STRIDE;
    let outs = one.chunks_exact_mut(size).zip(two.chunks_exact_mut(size));
    for (from, (one, two)) in row.chunks_exact(size).zip(outs) {
        let (flat, rest) = from.split_at(STRIDE);
        let (natural, sharp) = rest.split_at(STRIDE);
        let (one_flat, rest) = one.split_at_mut(STRIDE);
        let (one_natural, one_sharp) = rest.split_at_mut(STRIDE);
        let (two_flat, rest) = two.split_at_mut(STRIDE);
        let two_sharp = &mut rest[STRIDE..];
        for cell in 0..STRIDE {
            let (f, n, s) = (flat[cell], natural[cell], sharp[cell]);
            one_flat[cell] = one_flat[cell].min(n + price_one);
            one_natural[cell] = one_natural[cell].min(f.min(s) + price_one);
            one_sharp[cell] = one_sharp[cell].min(n + price_one);
            two_flat[cell] = two_flat[cell].min(s + price_two);
            two_sharp[cell] = two_sharp[cell].min(f + price_two);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::asked::Asked;
    use crate::code::{Code, places_of, with};

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
        let mut row = [0; SETTINGS];
        prices_row(&pairs, &mut row);
        for (code, &sum) in row.iter().enumerate() {
            assert_eq!(sum as u64, asked.price(code as Code));
        }
    }

    #[test]
    fn a_letter_moves_by_one_notch_or_by_two() {
        let row: Row = std::array::from_fn(|code| (code * 7919 % 1000) as i32);
        for letter in 0..7 {
            let (mut one, mut two) = ([CAP; SETTINGS], [CAP; SETTINGS]);
            moving(&row, &mut one, &mut two, letter, [10, 13]);
            let mut free = row;
            let_move(&mut free, letter, [10, 13]);
            for code in 0..SETTINGS as Code {
                let place = places_of(code)[letter];
                let others = (0..3).filter(|&other| other != place);
                let costs = others.map(|other| {
                    let notches = other.abs_diff(place);
                    row[usize::from(with(code, letter, other))] + if notches == 1 { 10 } else { 13 }
                });
                let least = costs.min().unwrap();
                let index = usize::from(code);
                assert_eq!(one[index].min(two[index]), least);
                assert_eq!(free[index], least.min(row[index]));
            }
        }
    }
}
