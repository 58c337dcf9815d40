//! The planner for lever harps: which open tuning, which levers before the piece, each flip in it.
//!
//! A lever raises its own string only, so strings are planned each for itself; what they share is
//! the hands, one of which must be free for a flip.

mod hands;
mod line;
mod remedies;
mod together;

use harp::{Harp, OpenTuning, StringName};
use pitch::SpelledPitch;

use crate::plan::Remedy;
use crate::{Demand, Hand, Item};
use hands::Hands;
use line::{Line, lines};
use remedies::Strings;
pub use together::plan_levers_together;

/// Prices of a plan for a lever harp; nothing here has a source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeverWeights {
    /// A note head that does not sound.
    pub lost: u32,
    /// A note head on another string than the written one.
    pub respelled: u32,
    /// A flip in the piece.
    pub flip: u32,
    /// More, where the right hand makes it.
    pub right_hand: u32,
    /// A lever that is on at the beginning.
    pub before: u32,
}

/// How she wants it planned.
#[derive(Clone, Debug, PartialEq)]
pub struct LeverWishes {
    /// Open tunings that she allows.
    pub open: Vec<OpenTuning>,
    /// Prices.
    pub weights: LeverWeights,
    /// How long a hand is away for a flip, in microseconds (default 500,000; a guess).
    pub flip_us: u64,
    /// Whether the right hand may flip levers too.
    pub right_hand: bool,
    /// Whether hands are asked at all.
    pub hands: bool,
}

/// One lever flipped in the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Flip {
    /// The moment for whose notes it holds already, by its place in the demand.
    pub moment: usize,
    /// When the hand is done, in microseconds.
    pub at_us: u64,
    /// The hand.
    pub hand: Hand,
    /// The string.
    pub string: StringName,
    /// Whether the lever goes on.
    pub on: bool,
}

/// Why a note cannot be had on a lever harp.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeverReason {
    /// The harp has no string for it.
    OutsideTheHarp,
    /// Its string cannot be raised or lowered to it in this open tuning.
    OutOfReach,
    /// The string is wanted in both positions at once, or too soon after the other.
    LeverElsewhere,
    /// No hand is free to flip it.
    HandsBusy,
}

impl LeverReason {
    /// The word used in files.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::OutsideTheHarp => "outside_the_harp",
            Self::OutOfReach => "out_of_reach",
            Self::LeverElsewhere => "lever_elsewhere",
            Self::HandsBusy => "hands_busy",
        }
    }
}

/// A note head that does not sound.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeverCannot {
    /// The moment.
    pub moment: usize,
    /// Its place among the moment's attacks.
    pub attack: usize,
    /// What is written.
    pub pitch: SpelledPitch,
    /// Why.
    pub reason: LeverReason,
    /// What could be done, the nearest first: another string that stands so there or that the piece
    /// does not play, the same in another octave, or to leave it out.
    pub remedies: Vec<Remedy>,
}

/// A note head on another string than the written one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeverRespelled {
    /// The moment.
    pub moment: usize,
    /// Its place among the moment's attacks.
    pub attack: usize,
    /// What she reads.
    pub written: SpelledPitch,
    /// What she plays.
    pub played: SpelledPitch,
}

/// What it costs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LeverCost {
    /// Note heads that do not sound.
    pub lost: Item,
    /// Note heads respelled.
    pub respelled: Item,
    /// Flips.
    pub flips: Item,
    /// Of these by the right hand.
    pub right_hand: Item,
    /// Levers on at the beginning.
    pub before: Item,
}

/// A plan for a lever harp.
#[derive(Clone, Debug, PartialEq)]
pub struct LeverPlan {
    /// The open tuning.
    pub open: OpenTuning,
    /// Levers that are on at the beginning, from the bass.
    pub levers: Vec<StringName>,
    /// Every flip, in order.
    pub flips: Vec<Flip>,
    /// Notes on another string than the written one.
    pub respelled: Vec<LeverRespelled>,
    /// Notes that do not sound.
    pub cannot: Vec<LeverCannot>,
    /// The cost.
    pub cost: LeverCost,
    /// Whether no plan costs less that keeps written names where their strings have them. Strings
    /// are planned each for itself and then share the hands: where they cannot, or the right hand
    /// must help where the left alone would have done for each, that is not proven.
    pub optimal: bool,
    /// By how much a plan could cost less at most.
    pub gap: u64,
}

impl LeverCost {
    /// Every item with the word used in files.
    pub fn items(&self) -> [(&'static str, Item); 5] {
        [
            ("lost", self.lost),
            ("respelled", self.respelled),
            ("flips", self.flips),
            ("right_hand", self.right_hand),
            ("before", self.before),
        ]
    }

    /// The sum of all prices.
    pub fn total(&self) -> u64 {
        self.items().iter().map(|(_, item)| item.price).sum()
    }
}

impl Default for LeverWishes {
    fn default() -> Self {
        Self {
            open: vec![OpenTuning::Eb, OpenTuning::C, OpenTuning::F, OpenTuning::Ab],
            weights: LeverWeights {
                lost: 100_000,
                respelled: 300,
                flip: 1_000,
                right_hand: 1_500,
                before: 1,
            },
            flip_us: 500_000,
            right_hand: true,
            hands: true,
        }
    }
}

/// The best plan for a piece on a lever harp, over the open tunings allowed (of two that cost the
/// same, the one named first); `None` if none is allowed.
///
/// A note is taken where it is written; another string is taken only where the written one cannot
/// have it.
pub fn plan_levers(demand: &Demand, harp: &Harp, wishes: &LeverWishes) -> Option<LeverPlan> {
    let tunings = wishes.open.iter();
    let plans = tunings.map(|&open| in_tuning(demand, harp, wishes, open));
    let plans: Vec<(LeverPlan, u64)> = plans.collect();
    let least = plans.iter().map(|(_, least)| *least).min()?;
    let (mut best, _) = plans
        .into_iter()
        .min_by_key(|(plan, _)| plan.cost.total())?;
    best.gap = best.cost.total().saturating_sub(least);
    best.optimal = best.gap == 0;
    Some(best)
}

/// A plan in an open tuning, and what none there costs less than.
fn in_tuning(
    demand: &Demand,
    harp: &Harp,
    wishes: &LeverWishes,
    open: OpenTuning,
) -> (LeverPlan, u64) {
    let mut plan = LeverPlan {
        open,
        levers: Vec::new(),
        flips: Vec::new(),
        respelled: Vec::new(),
        cannot: Vec::new(),
        cost: LeverCost::default(),
        optimal: true,
        gap: 0,
    };
    let mut hands = Hands::of(demand, wishes);
    let (mut lines, respelled, cannot) = lines(demand, harp, open);
    plan.respelled = respelled;
    plan.cannot = cannot;
    let weights = &wishes.weights;
    let mut least = plan.respelled.len() as u64 * u64::from(weights.respelled)
        + plan.cannot.len() as u64 * u64::from(weights.lost);
    let mut flips = Vec::new();
    for line in &mut lines {
        least += line.plan(demand, wishes, &hands);
        if line.on_at_first() {
            plan.levers.push(line.string);
        }
        flips.extend(line.flips());
    }
    // the most pressing first: what no hand can do any more then is lost
    flips.sort_by_key(|wanted| (wanted.moment, wanted.after, wanted.string));
    for wanted in flips {
        let Some(line) = lines.iter_mut().find(|line| line.string == wanted.string) else {
            continue;
        };
        // one that was given up before may have taken this one with it
        if !line.flips().iter().any(|flip| flip.moment == wanted.moment) {
            continue;
        }
        match hands.take(demand, &wanted) {
            Some(flip) => plan.flips.push(flip),
            None => line.give_up(wanted.moment),
        }
    }
    plan.flips.sort_by_key(|flip| (flip.at_us, flip.string));
    silent(demand, &lines, &mut plan);
    let strings = Strings {
        harp,
        played: lines.iter().map(|line| line.string).collect(),
    };
    let mut cannot = std::mem::take(&mut plan.cannot);
    for lost in &mut cannot {
        lost.remedies = strings.remedies(&plan, lost.moment, lost.pitch);
    }
    plan.cannot = cannot;
    bill(&mut plan, wishes);
    (plan, least)
}

/// The notes of lines that stand in the other position.
fn silent(demand: &Demand, lines: &[Line], plan: &mut LeverPlan) {
    for line in lines {
        for wanted in line.silent() {
            for &attack in &wanted.attacks {
                plan.cannot.push(LeverCannot {
                    moment: wanted.moment,
                    attack,
                    pitch: demand.moments[wanted.moment].attacks[attack].pitch,
                    reason: wanted.reason,
                    remedies: Vec::new(),
                });
            }
        }
    }
    plan.cannot
        .sort_by_key(|cannot| (cannot.moment, cannot.attack));
}

fn bill(plan: &mut LeverPlan, wishes: &LeverWishes) {
    let weights = &wishes.weights;
    let item = |count: usize, price: u32| Item {
        count: count as u32,
        price: count as u64 * u64::from(price),
    };
    let right = plan.flips.iter().filter(|flip| flip.hand == Hand::Right);
    plan.cost = LeverCost {
        lost: item(plan.cannot.len(), weights.lost),
        respelled: item(plan.respelled.len(), weights.respelled),
        flips: item(plan.flips.len(), weights.flip),
        right_hand: item(right.count(), weights.right_hand),
        before: item(plan.levers.len(), weights.before),
    };
}
