//! What is in the drawer once all that was written of it is added up.

use harp::{Material, StringName};

use crate::{Moment, Spares};

/// Spares of one kind that were bought on one day.
#[derive(Clone, Debug, PartialEq)]
pub struct SparesKnown {
    /// The name of the harp; `None` for strings that are kept for any.
    pub harp: Option<String>,
    /// The string that they are for.
    pub string: Option<StringName>,
    /// What they are made of.
    pub material: Option<Material>,
    /// Their outer diameter, millimetres.
    pub gauge_mm: Option<f64>,
    /// When they were bought.
    pub bought: Option<Moment>,
    /// How many there are, 1 or more.
    pub count: u32,
}

/// All changes so far.
#[derive(Default)]
pub(super) struct Drawer {
    /// each kind and day, its `change` the sum
    lots: Vec<Spares>,
}

impl Drawer {
    pub(super) fn tell(&mut self, told: Spares) {
        let same = |lot: &&mut Spares| lot.bought == told.bought && is_alike(lot, &told);
        match self.lots.iter_mut().find(same) {
            Some(lot) => lot.change = lot.change.saturating_add(told.change),
            None => self.lots.push(told),
        }
    }

    /// What there is, the oldest of a kind first. More taken out of one day's packets than there were came from another's of
    /// the same kind; more than there were of all is forgotten.
    pub(super) fn into_spares(mut self) -> Vec<SparesKnown> {
        self.lots
            .sort_by(|one, other| one.bought.cmp(&other.bought));
        let taken: Vec<Spares> = self.lots.iter().filter(|l| l.change < 0).cloned().collect();
        for lot in taken {
            let mut missing = lot.change.saturating_neg();
            let alike = self.lots.iter_mut().filter(|l| is_alike(l, &lot));
            for other in alike.filter(|l| l.change > 0) {
                let some = missing.min(other.change);
                other.change -= some;
                missing -= some;
            }
        }
        let there = self.lots.into_iter().filter(|lot| lot.change > 0);
        let known = there.map(|lot| SparesKnown {
            bought: (lot.bought.and_then(|day| day.begins())).map(|at| Moment::of(&at)),
            count: u32::try_from(lot.change).unwrap_or(u32::MAX),
            harp: lot.harp,
            string: lot.string,
            material: lot.material,
            gauge_mm: lot.gauge_mm,
        });
        known.collect()
    }
}

fn is_alike(one: &Spares, other: &Spares) -> bool {
    (&one.harp, one.string) == (&other.harp, other.string)
        && (one.material, one.gauge_mm) == (other.material, other.gauge_mm)
}
