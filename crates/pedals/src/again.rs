//! A plan that is made again after she has chosen where a pedal stands: only as far back as that
//! changes anything.

use std::collections::BTreeMap;

use harp::Harp;

use crate::asked::{Asked, PIN};
use crate::bound::Bound;
use crate::code::place;
use crate::movements::{Movement, joined, movements};
use crate::planner::{in_one, told};
use crate::playings::Playings;
use crate::ready::{Known, Ready};
use crate::repeats::{Held, under_the_same_rules, with_rules};
use crate::solve::{Solved, seek};
use crate::{Demand, Pin, Plan, Wishes};

/// A piece on a harp, its plan, and what is needed to plan it again soon.
///
/// It holds a row of all settings for every place at which a foot may act: some nine kilobytes each.
///
/// ```
/// use pedals::{Attack, Demand, Moment, Pin, Planner, Wishes};
/// use pitch::{Alteration, Letter};
/// let mut moments = Vec::new();
/// for second in 0..3 {
///     let attacks = vec![Attack::of("D4".parse()?)];
///     moments.push(Moment { at_us: 1_000_000 * second, attacks, ..Moment::empty() });
/// }
/// let demand = Demand { moments, ..Demand::default() };
/// let harp = harp::Harp::named("pedal47")?;
/// let mut planner = Planner::new(demand, harp, Wishes::comfortable());
/// let pin = Pin { moment: 2, letter: Letter::F, alteration: Alteration::Sharp };
/// let plan = planner.choose(&[pin]);
/// assert_eq!(plan.settings[2].get(Letter::F), Some(Alteration::Sharp));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub struct Planner {
    demand: Demand,
    harp: Harp,
    parts: Vec<Part>,
}

/// A movement, its plan, and what is known of it.
struct Part {
    movement: Movement,
    plan: Plan,
    kept: Option<Kept>,
}

/// What planning it again begins with.
struct Kept {
    known: Known,
    bound: Bound,
    /// What marks were held to, so that they are the same at every pass.
    held: Held,
    /// No plan costs less, whatever she chooses.
    least: u64,
    /// Where pins stand, what is asked there without them.
    plain: BTreeMap<usize, Asked>,
}

impl Planner {
    /// Plans a piece; the pins among the wishes are the first choice.
    pub fn new(demand: Demand, harp: Harp, wishes: Wishes) -> Self {
        let mut parts = movements(&demand, &wishes);
        if parts.is_empty() {
            parts.push(Movement {
                first: 0,
                demand: demand.clone(),
                wishes: wishes.clone(),
            });
        }
        let mut work = wishes.work_limit;
        let parts = parts.into_iter().map(|mut movement| {
            movement.wishes.pins.clear();
            movement.wishes.work_limit = work;
            let part = Part::planned(movement, &harp);
            work = work.saturating_sub(part.plan.work);
            part
        });
        let mut planner = Self {
            parts: parts.collect(),
            demand,
            harp,
        };
        if !wishes.pins.is_empty() {
            planner.choose(&wishes.pins);
        }
        planner
    }

    /// The plan as it was chosen last.
    pub fn plan(&self) -> Plan {
        let plans = self.parts.iter();
        let plans = plans.map(|part| (part.movement.first, part.plan.clone()));
        joined(&self.demand, plans.collect())
    }

    /// The plan with these pins and no others.
    ///
    /// Without repeats it is exact as any. With the same marks wanted at every pass, marks are held to what
    /// the first plan had held them to; where another way of marking might be cheaper now, `gap` says by how
    /// much at most.
    pub fn choose(&mut self, pins: &[Pin]) -> Plan {
        for part in &mut self.parts {
            let first = part.movement.first;
            let within = first..first + part.movement.demand.moments.len();
            let own = pins.iter().filter(|pin| within.contains(&pin.moment));
            let own = own.map(|pin| Pin {
                moment: pin.moment - first,
                ..*pin
            });
            part.choose(own.collect(), &self.harp);
        }
        self.plan()
    }
}

impl Part {
    fn planned(movement: Movement, harp: &Harp) -> Self {
        let (demand, wishes) = (&movement.demand, &movement.wishes);
        let mut choices = Ready::choices(demand, harp, wishes);
        // where strings without discs can be tuned in several ways all must be weighed again
        if choices.len() > 1 {
            return Self {
                plan: in_one(demand, harp, wishes),
                movement,
                kept: None,
            };
        }
        let ready = Ready::new(demand, harp, wishes, choices.pop().unwrap_or_default());
        let (solved, bound, held) = if wants_same_marks(demand, wishes) {
            let playings = Playings::of(demand);
            with_rules(&ready, &playings, u64::MAX, wishes.work_limit)
        } else {
            let mut bound = Bound::to_be_changed(&ready.problem, &wishes.feet);
            let work = wishes.work_limit;
            let mut held = Held::default();
            let (problem, feet, trail) = (&ready.problem, wishes.feet, &mut held.trail);
            let sought = seek(problem, feet, &mut bound, trail, u64::MAX, work);
            (sought.solved(), bound, held)
        };
        let plan = told(&ready, &solved);
        let kept = Kept {
            known: ready.known(),
            bound,
            held,
            least: solved.least,
            plain: BTreeMap::new(),
        };
        Self {
            plan,
            movement,
            kept: Some(kept),
        }
    }

    fn choose(&mut self, pins: Vec<Pin>, harp: &Harp) {
        if self.movement.wishes.pins == pins {
            return;
        }
        self.movement.wishes.pins = pins;
        let (demand, wishes) = (&self.movement.demand, &self.movement.wishes);
        let kept = self.kept.take();
        let Some((plan, kept)) = kept.and_then(|kept| again(demand, wishes, kept)) else {
            self.plan = in_one(demand, harp, wishes);
            return;
        };
        (self.plan, self.kept) = (plan, Some(kept));
    }
}

fn wants_same_marks(demand: &Demand, wishes: &Wishes) -> bool {
    wishes.same_marks && demand.moments.iter().any(|moment| moment.pass > 1)
}

/// The plan with the pins among the wishes; `None` where nothing was found.
fn again(demand: &Demand, wishes: &Wishes, mut kept: Kept) -> Option<(Plan, Kept)> {
    let mut ready = Ready::again(demand, wishes, kept.known);
    let asked = &mut ready.problem.asked;
    let mut changed: Vec<usize> = kept.plain.keys().copied().collect();
    for (place, plain) in std::mem::take(&mut kept.plain) {
        asked[place] = plain;
    }
    for pin in &wishes.pins {
        let Some(&at) = ready.filled.place.get(pin.moment) else {
            continue;
        };
        let plain = asked[at].clone();
        asked[at] = plain.held(pin.letter.index(), place(pin.alteration), PIN);
        kept.plain.entry(at).or_insert(plain);
        changed.push(at);
    }
    let solved = if wants_same_marks(demand, wishes) {
        let playings = Playings::of(demand);
        let solved;
        (solved, kept.bound) =
            under_the_same_rules(&ready, &playings, kept.bound, &mut kept.held, changed)?;
        Solved {
            least: solved.least.max(kept.least).min(solved.cost),
            ..solved
        }
    } else {
        let mut anew = vec![false; ready.problem.asked.len()];
        changed.iter().for_each(|&place| anew[place] = true);
        let (problem, feet) = (&ready.problem, wishes.feet);
        kept.bound.again(problem, &feet, &anew);
        let (bound, trail) = (&mut kept.bound, &mut kept.held.trail);
        let sought = seek(problem, feet, bound, trail, u64::MAX, wishes.work_limit);
        sought.best.as_ref()?;
        sought.solved()
    };
    let plan = told(&ready, &solved);
    kept.known = ready.known();
    Some((plan, kept))
}
