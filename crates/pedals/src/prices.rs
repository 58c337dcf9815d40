//! What moving each pedal costs at each moment.

use pitch::Letter;

use crate::ringing::ringing;
use crate::{Demand, Moment, Strength, Wishes};

/// A pedal that is stuck: more than any plan would pay.
pub(crate) const STUCK: i32 = 1 << 28;

/// Price by letter and by notches less one.
pub(crate) type MovePrices = [[i32; 2]; 7];

/// The price of moving a pedal for a moment, after the moment before.
pub(crate) fn move_prices(demand: &Demand, wishes: &Wishes) -> Vec<MovePrices> {
    let stuck = |letter: usize| {
        let stuck = &wishes.broken.stuck;
        stuck
            .iter()
            .any(|&(l, _): &(Letter, _)| l.index() == letter)
    };
    let all = demand.moments.iter().zip(ringing(demand));
    all.map(|(moment, ringing)| {
        std::array::from_fn(|letter| {
            if stuck(letter) {
                return [STUCK; 2];
            }
            let weights = &wishes.weights;
            let one = weights.moved
                + off_beat_price(moment, wishes)
                + ringing_price(ringing[letter], wishes);
            [one, one + weights.two_notches].map(|price| price.min(STUCK as u32) as i32)
        })
    })
    .collect()
}

/// The part of a move's price that comes from where in the measure it falls.
pub(crate) fn off_beat_price(moment: &Moment, wishes: &Wishes) -> u32 {
    if moment.strength == Strength::Off && !moment.rest {
        wishes.weights.off_beat
    } else {
        0
    }
}

/// The part that comes from strings that ring, from their share in 1024ths.
pub(crate) fn ringing_price(share: u32, wishes: &Wishes) -> u32 {
    (u64::from(wishes.weights.ringing) * u64::from(share) / 1024) as u32
}
