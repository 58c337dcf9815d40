//! Two strings of a lever harp, tried out in every way: each flip by either hand, at any time at
//! which that hand plays nothing. No way costs less than a plan says that it might.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/passage.rs"]
mod passage;

use harp::{Harp, OpenTuning};
use pedals::{Attack, Demand, Hand, LeverWishes, Moment, plan_levers};
use pitch::SpelledPitch;
use proptest::prelude::*;

const NOTES: [[&str; 2]; 2] = [["F4", "F#4"], ["G4", "G#4"]];

/// One string at the moments at which it is wanted: the moment, and whether raised.
type Wanted = Vec<(usize, bool)>;

/// A flip: not before, not after, in microseconds.
type Between = (u64, u64);

fn cheapest(demand: &Demand, wishes: &LeverWishes, strings: &[Wanted; 2]) -> u64 {
    let weights = &wishes.weights;
    let mut best = u64::MAX;
    let ways = |wanted: &Wanted| 1_u32 << wanted.len();
    for first in 0..ways(&strings[0]) {
        for second in 0..ways(&strings[1]) {
            let mut cost = 0;
            let mut flips: Vec<Between> = Vec::new();
            for (wanted, stands) in strings.iter().zip([first, second]) {
                let on = |index: usize| stands >> index & 1 == 1;
                cost += u64::from(weights.before) * u64::from(!wanted.is_empty() && on(0));
                for (index, &(moment, raised)) in wanted.iter().enumerate() {
                    cost += u64::from(weights.lost) * u64::from(on(index) != raised);
                    if index > 0 && on(index) != on(index - 1) {
                        cost += u64::from(weights.flip);
                        let at = |moment: usize| demand.moments[moment].at_us;
                        flips.push((at(wanted[index - 1].0), at(moment)));
                    }
                }
            }
            if cost >= best {
                continue;
            }
            for hands in 0..1_u32 << flips.len() {
                let of = |hand: u32| -> Vec<Between> {
                    let own = flips.iter().enumerate();
                    let own = own.filter(|(index, _)| hands >> index & 1 == hand);
                    own.map(|(_, flip)| *flip).collect()
                };
                let more = u64::from(hands.count_ones() * weights.right_hand);
                let left = can(demand, wishes, Hand::Left, &of(0), 0);
                if cost + more < best && left && can(demand, wishes, Hand::Right, &of(1), 0) {
                    best = cost + more;
                }
            }
        }
    }
    best
}

/// Whether a hand can make all of these flips from an instant on, in some order.
fn can(demand: &Demand, wishes: &LeverWishes, hand: Hand, flips: &[Between], from: u64) -> bool {
    flips.is_empty()
        || (0..flips.len()).any(|next| {
            let (after, before) = flips[next];
            let mut begins = from.max(after);
            // as early as it can: past every note of the hand that it would be in the way of
            for moment in &demand.moments {
                let plays = moment.attacks.iter().any(|note| note.hand == Some(hand));
                if plays && begins < moment.at_us && moment.at_us < begins + wishes.flip_us {
                    begins = moment.at_us;
                }
            }
            let done = begins + wishes.flip_us;
            let rest = [&flips[..next], &flips[next + 1..]].concat();
            done <= before && can(demand, wishes, hand, &rest, done)
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(passage::cases(150)))]

    #[test]
    fn no_way_costs_less_than_a_plan_says_it_might(
        moments in proptest::collection::vec((1_u64..700_000, 0_usize..2, any::<bool>(), any::<bool>()), 1..9),
    ) {
        let mut demand = Demand::default();
        let mut strings: [Wanted; 2] = Default::default();
        let mut at_us = 0;
        for (index, &(gap, string, raised, left)) in moments.iter().enumerate() {
            at_us += gap;
            let pitch: SpelledPitch = NOTES[string][usize::from(raised)].parse().unwrap();
            let hand = Some(if left { Hand::Left } else { Hand::Right });
            demand.moments.push(Moment {
                at_us,
                attacks: vec![Attack { hand, ..Attack::of(pitch) }],
                ..Moment::empty()
            });
            strings[string].push((index, raised));
        }
        let wishes = LeverWishes { open: vec![OpenTuning::C], ..LeverWishes::default() };
        let plan = plan_levers(&demand, &Harp::named("lever34").unwrap(), &wishes).unwrap();
        let cheapest = cheapest(&demand, &wishes, &strings);
        prop_assert!(cheapest <= plan.cost.total(), "{} is not to be had", plan.cost.total());
        prop_assert!(plan.cost.total() - plan.gap <= cheapest);
        prop_assert!(!plan.optimal || plan.cost.total() == cheapest);
    }
}
