//! Where steps cost more than their beginning had promised.

use crate::Feet;
use crate::bound::Bound;
use crate::frontier::NEVER;
use crate::search::{Problem, Step, ages, step_price};

/// The moments at which, along these steps, what the whole must cost at least went up, and which
/// feet had just been busy there.
pub(crate) fn disappointed(
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
