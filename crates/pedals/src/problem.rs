//! What is to be solved: what each moment asks, what moves cost there, when it is.

use pitch::Letter;

use crate::Wishes;
use crate::asked::Asked;
use crate::code::{Code, places_of};
use crate::feet::Foot;
use crate::prices::MovePrices;

/// All that the search reads.
#[derive(Clone)]
pub(crate) struct Problem<'a> {
    pub(crate) at_us: Vec<i64>,
    pub(crate) asked: Vec<Asked>,
    pub(crate) prices: Vec<MovePrices>,
    pub(crate) wishes: &'a Wishes,
}

impl Problem<'_> {
    /// Whether a foot that last moved at one moment may have moved again by another.
    pub(crate) fn is_free(&self, home: i32, moment: usize, least_us: u64) -> bool {
        let since = |home: usize| self.at_us[moment] - self.at_us[home];
        usize::try_from(home).map_or(true, |home| since(home) >= least_us as i64)
    }
}

/// How many moments ago each foot moved.
pub(crate) fn ages(home: [i32; 2], moment: usize) -> [usize; 2] {
    home.map(|home| usize::try_from(home).map_or(usize::MAX, |home| moment.saturating_sub(home)))
}

/// The price of a foot's movement and the notches of its longer pedal.
pub(crate) fn step_price(
    problem: &Problem<'_>,
    moment: usize,
    from: Code,
    to: Code,
    foot: Foot,
) -> (u64, u8) {
    let weights = &problem.wishes.weights;
    let (from, to) = (places_of(from), places_of(to));
    let (mut price, mut longest, mut pedals) = (0, 0, 0);
    for letter in (0..7).filter(|&letter| from[letter] != to[letter]) {
        let notches = from[letter].abs_diff(to[letter]);
        price += problem.prices[moment][letter][usize::from(notches - 1)] as u64;
        if Foot::of(Letter::ALL[letter]) != foot {
            price += u64::from(weights.crossing);
        }
        longest = longest.max(notches);
        pedals += 1;
    }
    if pedals > 1 {
        price += u64::from(weights.together);
    }
    (price, longest)
}
