//! The planner for pedal harps.

use harp::Harp;
use pitch::Letter;

use crate::account::account;
use crate::asked::Asked;
use crate::bound::Bound;
use crate::code::{Code, alteration, places_of, setting_of};
use crate::contradicted::contradicted;
use crate::movements::{joined, movements};
use crate::plan::{Change, Plan};
use crate::playings::Playings;
use crate::problem::{Problem, step_price};
use crate::ready::Ready;
use crate::repeats::with_same_marks;
use crate::search::Step;
use crate::solve::Solved;
use crate::ways::By;
use crate::{Demand, Item, Wishes};

/// The cheapest plan for a piece on a pedal harp, by the prices given.
///
/// Movements are planned each for itself: between them the pedals are set as they must stand, which
/// is no change and has no price.
///
/// Exact: `optimal` says that no plan costs less. Where the work allowed ran out it is false, and
/// `gap` says by how much a plan could cost less at most.
///
/// ```
/// use pedals::{Attack, Demand, Moment, Wishes, plan};
/// let mut moments = Vec::new();
/// for (second, note) in ["C4", "C#4", "C4"].iter().enumerate() {
///     let at_us = 1_000_000 * second as u64;
///     let attacks = vec![Attack::of(note.parse()?)];
///     moments.push(Moment { at_us, attacks, ..Moment::empty() });
/// }
/// let demand = Demand { moments, ..Demand::default() };
/// let plan = plan(&demand, &harp::Harp::named("pedal47")?, &Wishes::fewest(&demand));
/// assert_eq!((plan.changes.len(), plan.respelled.len()), (0, 1)); // D flat for C sharp
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn plan(demand: &Demand, harp: &Harp, wishes: &Wishes) -> Plan {
    let movements = movements(demand, wishes);
    if movements.is_empty() {
        return in_one(demand, harp, wishes);
    }
    let mut work = wishes.work_limit;
    let plans = movements.into_iter().map(|mut movement| {
        movement.wishes.work_limit = work;
        let plan = in_one(&movement.demand, harp, &movement.wishes);
        work = work.saturating_sub(plan.work);
        (movement.first, plan)
    });
    joined(demand, plans.collect())
}

/// The plan of a piece that is one movement.
pub(crate) fn in_one(demand: &Demand, harp: &Harp, wishes: &Wishes) -> Plan {
    let played_again = demand.moments.iter().any(|moment| moment.pass > 1);
    let (ready, solved) = if wishes.same_marks && played_again {
        let playings = Playings::of(demand);
        over_tunings(demand, harp, wishes, |ready, below, work| {
            with_same_marks(ready, &playings, below, work)
        })
    } else {
        cheapest(demand, harp, wishes)
    };
    told(&ready, &solved)
}

/// The cheapest steps, over all tunings of the strings without discs.
pub(crate) fn cheapest<'a>(
    demand: &'a Demand,
    harp: &Harp,
    wishes: &'a Wishes,
) -> (Ready<'a>, Solved) {
    over_tunings(demand, harp, wishes, |ready, _, work| ready.solve(work))
}

/// The cheapest of what is found for each tuning of the strings without discs; the finding is told
/// the cost found before and the work left.
fn over_tunings<'a>(
    demand: &'a Demand,
    harp: &Harp,
    wishes: &'a Wishes,
    find: impl Fn(&Ready<'a>, u64, u64) -> Solved,
) -> (Ready<'a>, Solved) {
    let mut choices = Ready::choices(demand, harp, wishes).into_iter();
    let first = choices.next().unwrap_or_default();
    let mut ready = Ready::new(demand, harp, wishes, first);
    let mut solved = find(&ready, u64::MAX, wishes.work_limit);
    let mut others = None;
    for choice in choices {
        let others = *others.get_or_insert_with(|| least_of_others(&ready));
        if choice.least + others >= solved.cost {
            break;
        }
        let spent = solved.work;
        if spent > wishes.work_limit {
            solved.least = solved.least.min(choice.least + others);
            break;
        }
        let other = Ready::new(demand, harp, wishes, choice);
        let also = find(&other, solved.cost, wishes.work_limit - spent);
        let least = solved.least.min(also.least);
        let work = spent + also.work;
        if also.cost < solved.cost {
            (ready, solved) = (other, also);
        }
        (solved.least, solved.work) = (least, work);
    }
    (ready, solved)
}

/// A plan from the steps found.
pub(crate) fn told(ready: &Ready<'_>, solved: &Solved) -> Plan {
    let codes = ready.codes(&solved.steps);
    let mut plan = Plan {
        settings: codes.iter().map(|&code| setting_of(code)).collect(),
        changes: changes(ready, &solved.steps),
        respelled: Vec::new(),
        cannot: Vec::new(),
        contradicted: Vec::new(),
        tuned: ready.by_key.told(&ready.strings),
        cost: crate::Cost::default(),
        optimal: false,
        gap: 0,
        work: solved.work,
    };
    account(ready, &codes, &mut plan);
    if ready.wishes.same_marks {
        let count = Playings::of(ready.demand).only_then(&codes).len() as u32;
        let price = u64::from(count) * u64::from(ready.wishes.weights.passes_differ);
        plan.cost.passes_differ = Item { count, price };
    }
    plan.contradicted = contradicted(ready, &codes);
    let retuned = plan.cost.retuned.price;
    plan.gap = solved.cost.saturating_sub(solved.least);
    if ready.by_key.in_doubt {
        let least = ready.by_key.least + least_of_others(ready);
        let surely = (solved.cost + retuned).saturating_sub(least);
        plan.gap = plan.gap.max(surely);
    }
    plan.optimal = plan.gap == 0;
    plan
}

/// The steps as changes. One that falls between two moments is put off to the second where the
/// foot's next one lets it and it costs the same.
fn changes(ready: &Ready<'_>, steps: &[Step]) -> Vec<Change> {
    let at_us = &ready.problem.at_us;
    let mut changes = Vec::new();
    let mut next: [i64; 2] = [i64::MAX; 2];
    for pair in steps.windows(2).rev() {
        let (before, step) = (places_of(pair[0].code), &pair[1]);
        let after = places_of(step.code);
        let mut at = step.moment as usize;
        let moment = ready.filled.origin[at];
        let whole = ready.filled.place[moment];
        let price = |at| step_price(&ready.problem, at, pair[0].code, step.code, step.foot);
        let foot = step.foot as usize;
        if at_us[whole] <= next[foot] && price(whole) == price(at) {
            at = whole;
        }
        next[foot] = at_us[at] - ready.wishes.feet.least_us(price(at).1) as i64;
        let moved: Vec<Letter> = Letter::ALL
            .into_iter()
            .filter(|letter| before[letter.index()] != after[letter.index()])
            .collect();
        changes.extend(moved.iter().rev().map(|&letter| Change {
            moment,
            at_us: at_us[at] as u64,
            foot: step.foot,
            letter,
            from: alteration(before[letter.index()]),
            to: alteration(after[letter.index()]),
            together: moved.len() > 1,
        }));
    }
    changes.reverse();
    changes.sort_by_key(|change: &Change| (change.moment, change.at_us, change.foot));
    changes
}

/// What the other notes cost at least that no string without discs can play.
fn least_of_others(ready: &Ready<'_>) -> u64 {
    let mut others = ready.demand.clone();
    for (moment, full) in others.moments.iter_mut().zip(&ready.demand.moments) {
        moment.attacks.retain(|attack| {
            let ways = crate::asked::allowed_ways(full, attack.pitch, &ready.strings, ready.wishes);
            !ways.iter().any(|way| matches!(way.by, By::Key { .. }))
        });
    }
    let mut asked = vec![Asked::default(); ready.filled.origin.len()];
    let others = crate::asked::asked(&others, &ready.strings, ready.wishes, |_, _| None);
    for (other, &place) in others.into_iter().zip(&ready.filled.place) {
        asked[place] = other;
    }
    let problem = Problem {
        at_us: ready.problem.at_us.clone(),
        asked,
        prices: ready.problem.prices.clone(),
        wishes: ready.wishes,
    };
    let bound = Bound::of(&problem, &ready.wishes.feet);
    let free = [usize::MAX; 2];
    let first = |code: Code| {
        let asked = problem.asked.first();
        asked.map_or(0, |first| first.price(code) + bound.from(1, code, free))
    };
    (0..crate::SETTINGS as Code).map(first).min().unwrap_or(0)
}
