//! What strings of this harp fell back by after they had been turned up, and whether more came later.

use std::collections::BTreeMap;

use diary::{Air, HarpKnown, Moment};
use harp::Harp;

use crate::learned::Learned;
use crate::own::own_drive;
use crate::stretches::{Moved, Stretches};
use crate::student::{half_95, weight};

/// Fewer stretches teach little.
const STRETCHES: usize = 5;
/// So many strings turned up, over all stretches.
const TURNED: usize = 10;
/// Turned up by about so much: from a third of it to three times.
const ABOUT: f64 = 3.0;
/// What is turned less was not turned, cents.
const STILL: f64 = 1.0;
/// Less than this is lost in what two readings say, cents.
const LEAST: f64 = 2.0;

/// A share of what strings were turned up by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// The share that they fell back, 0 for none; below nought they rose.
    pub share: f64,
    /// Half of its 95 % interval.
    pub u95: f64,
}

/// What is measured of the strings of one kind.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FellBack {
    /// How often a string was left turned up by about so much and found again.
    pub times: usize,
    /// In how many stretches from left to found.
    pub stretches: usize,
    /// What they fell back by; `None` until that is often enough.
    pub share: Option<Share>,
}

/// What is measured of both kinds, and how soon nothing more comes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Measured {
    pub(crate) wires: FellBack,
    pub(crate) others: FellBack,
    /// Days after which less than half of what is called in tune was still to come.
    pub(crate) settles_days: Option<f64>,
}

/// So many stretches, and so many strings in them, are enough.
pub(crate) const ENOUGH: (usize, usize) = (STRETCHES, TURNED);

/// A string over a stretch against what it would have done unturned.
struct Rest {
    turned: f64,
    cents: f64,
    variance: f64,
}

pub(crate) fn measured(
    harp: &Harp,
    known: &HarpKnown,
    air: &[(Moment, Air)],
    learned: &Learned,
    about_cents: f64,
) -> Measured {
    let names: Vec<_> = harp.strings().iter().map(|s| s.name).collect();
    let all = Stretches::of(known, air, &names);
    let at_once = |one: &Moved| Some(one.turned);
    let of = |wire| share_of(&all, learned, wire, about_cents, &at_once);
    Measured {
        wires: of(true),
        others: of(false),
        settles_days: settles_days(&all, learned, about_cents),
    }
}

/// Days after which what still comes is little: from strings that were found a second time, untouched since they were
/// turned up.
fn settles_days(all: &Stretches, learned: &Learned, about_cents: f64) -> Option<f64> {
    let up = |one: &&Moved| is_about(one.turned, about_cents);
    let found_first: BTreeMap<(usize, Moment), &Moved> = all
        .moved
        .iter()
        .filter(up)
        .map(|one| ((one.string, one.to), one))
        .collect();
    let first = |one: &Moved| found_first.get(&(one.string, one.from));
    let turned_before = |one: &Moved| match first(one) {
        Some(first) => Some(first.turned),
        None => (one.turned.abs() <= STILL).then_some(0.0),
    };
    let more = share_of(all, learned, false, about_cents, &turned_before).share?;
    let mut days: Vec<f64> = all
        .moved
        .iter()
        .filter_map(first)
        .filter_map(|first| Some(all.all.get(first.stretch)?.days))
        .collect();
    days.sort_by(f64::total_cmp);
    let still = (more.share.abs() + more.u95) * about_cents;
    let middle = days.get(days.len() / 2).copied()?;
    (still <= 0.5 * CALLED_IN_TUNE).then_some(middle)
}

/// Cents within which a string of the middle is called in tune.
pub(crate) const CALLED_IN_TUNE: f64 = 3.0;

fn is_about(turned: f64, about_cents: f64) -> bool {
    turned >= LEAST && turned >= about_cents / ABOUT && turned <= about_cents * ABOUT
}

/// The share of `turned_of` that strings of a kind fell back by, stretch by stretch against those that were not turned, and
/// all stretches by their weight; the more they differ among themselves, the less sure.
fn share_of(
    all: &Stretches,
    learned: &Learned,
    wire: bool,
    about_cents: f64,
    turned_of: &dyn Fn(&Moved) -> Option<f64>,
) -> FellBack {
    let mut of_stretch: Vec<Vec<Rest>> = Vec::new();
    of_stretch.resize_with(all.all.len(), Vec::new);
    for one in &all.moved {
        let (Some(stretch), Some(own)) = (all.all.get(one.stretch), learned.own.get(one.string))
        else {
            continue;
        };
        let Some(turned) = turned_of(one).filter(|_| learned.wires[one.string] == wire) else {
            continue;
        };
        if !is_about(turned, about_cents) && turned.abs() > STILL {
            continue;
        }
        let drive = stretch.drive();
        let foreseen = drive.dot(&learned.class(one.string).together.mean)
            + own_drive(&drive, 0.0, one.aged).dot(&own.mean);
        of_stretch[one.stretch].push(Rest {
            turned,
            cents: one.cents - foreseen,
            variance: own.wanders2 * one.growth + one.read,
        });
    }
    let mut shares: Vec<(f64, f64)> = Vec::new();
    let mut fell = FellBack::default();
    for (stretch, strings) in all.all.iter().zip(&of_stretch) {
        let up = |one: &&Rest| is_about(one.turned, about_cents);
        let times = strings.iter().filter(up).count();
        if times == 0 {
            continue;
        }
        fell.times += times;
        fell.stretches += 1;
        let together = match wire {
            true => &learned.wire,
            false => &learned.other,
        };
        let common = together.together.wanders2[usize::from(stretch.air.is_none())]
            * crate::growth(stretch.days);
        shares.extend(of_one(strings, common, about_cents));
    }
    if fell.stretches >= STRETCHES && fell.times >= TURNED {
        fell.share = together(&shares);
    }
    fell
}

/// The share in one stretch, and its variance: least squares for what all strings did together (near nought, within
/// `common`) and for the share, wild strings counting less.
fn of_one(strings: &[Rest], common: f64, about_cents: f64) -> Option<(f64, f64)> {
    let turned = |one: &Rest| {
        if is_about(one.turned, about_cents) {
            -one.turned
        } else {
            0.0
        }
    };
    let (mut base, mut share, mut variance) = (0.0, 0.0, f64::INFINITY);
    for _ in 0..4 {
        // the normal equations of two unknowns
        let (mut bb, mut bs, mut ss) = (1.0 / common.max(1e-6), 0.0, 0.0);
        let (mut yb, mut ys) = (0.0, 0.0);
        for one in strings {
            let t = turned(one);
            let rest = one.cents - base - share * t;
            let counts = weight(rest * rest / one.variance) / one.variance;
            bb += counts;
            bs += counts * t;
            ss += counts * t * t;
            yb += counts * one.cents;
            ys += counts * one.cents * t;
        }
        let determinant = bb * ss - bs * bs;
        if determinant <= 1e-12 {
            return None;
        }
        base = (ss * yb - bs * ys) / determinant;
        share = (bb * ys - bs * yb) / determinant;
        variance = bb / determinant;
    }
    Some((share, variance))
}

/// All stretches by their weight; where they differ more than they should, less sure (R. T. Birge, *Phys. Rev.* 40 (1932)
/// 207–227).
fn together(shares: &[(f64, f64)]) -> Option<Share> {
    if shares.len() < STRETCHES {
        return None;
    }
    let counts: f64 = shares.iter().map(|one| 1.0 / one.1).sum();
    let share = shares.iter().map(|one| one.0 / one.1).sum::<f64>() / counts;
    let strayed: f64 = shares.iter().map(|s| (s.0 - share).powi(2) / s.1).sum();
    let more = (strayed / (shares.len() - 1) as f64).max(1.0);
    Some(Share {
        share,
        u95: half_95((shares.len() - 1) as f64) * (more / counts).sqrt(),
    })
}
