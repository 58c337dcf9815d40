//! Where steps cost more than their beginning had promised.

use crate::Feet;
use crate::bound::Bound;
use crate::frontier::NEVER;
use crate::problem::{Problem, ages, step_price};
use crate::search::Step;

/// How far around a disappointment feet are counted, at first: backwards and forwards.
const AROUND_US: (i64, i64) = (2_500_000, 600_000);

/// The feet to be counted: also where the steps found last cost more than sight had promised, those
/// that were busy there, or both if that is nothing new.
pub(crate) fn keener(
    problem: &Problem<'_>,
    feet: Feet,
    bound: &Bound,
    steps: Option<&[Step]>,
    round: u32,
) -> Vec<[bool; 2]> {
    let mut counted = bound.counted().to_vec();
    let Some(steps) = steps else {
        counted
            .iter_mut()
            .skip(1)
            .for_each(|feet| *feet = [true; 2]);
        return counted;
    };
    let at_us = &problem.at_us;
    for (moment, busy) in disappointed(problem, feet, bound, steps) {
        let known = [0, 1].map(|foot| bound.counted()[moment][foot] || !busy[foot]);
        let more = if known == [true; 2] { [true; 2] } else { busy };
        let from = at_us[moment] - (AROUND_US.0 << round);
        let to = at_us[moment] + (AROUND_US.1 << round);
        // nothing comes before the opening
        let first = at_us.partition_point(|&at| at < from).max(1);
        let last = at_us.partition_point(|&at| at <= to);
        for counted in &mut counted[first.min(last)..last] {
            for foot in [0, 1] {
                counted[foot] |= more[foot];
            }
        }
    }
    counted
}

/// The moments at which, along these steps, what the whole must cost at least went up, and which
/// feet had just been busy there.
fn disappointed(
    problem: &Problem<'_>,
    feet: Feet,
    bound: &Bound,
    steps: &[Step],
) -> Vec<(usize, [bool; 2])> {
    let Some(opening) = steps.first() else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let mut later = steps[1..].iter().peekable();
    let mut code = opening.code;
    let mut home = [NEVER; 2];
    let mut cost = 0;
    let mut promised = u64::MAX;
    for (moment, asked) in problem.asked.iter().enumerate() {
        while let Some(step) = later.next_if(|step| step.moment as usize == moment) {
            cost += step_price(problem, moment, code, step.code, step.foot).0;
            code = step.code;
            home[step.foot as usize] = moment as i32;
        }
        cost += asked.price(code);
        home = home.map(|home| {
            let free = problem.is_free(home, moment, feet.least_us(2));
            if free { NEVER } else { home }
        });
        let least = cost + bound.from(moment + 1, code, ages(home, moment + 1));
        if least > promised {
            found.push((moment, home.map(|home| home != NEVER)));
        }
        promised = least;
    }
    found
}
