//! What the diary teaches of a harp.

use std::collections::BTreeMap;

use diary::{Air, HarpKnown, Moment};
use harp::{Harp, StringName};

use crate::class::{Class, learn_class};
use crate::own::Own;
use crate::prior::Prior;
use crate::stretches::Stretches;

/// How the strings of a harp move, as far as its diary says.
#[derive(Clone, Debug)]
pub struct Learned {
    pub(crate) names: Vec<StringName>,
    pub(crate) wires: Vec<bool>,
    pub(crate) own: Vec<Own>,
    pub(crate) wire: Class,
    pub(crate) other: Class,
    /// Stretches from left to found that it rests on.
    pub stretches: usize,
}

/// Learns from the harp's last five hundred stretches from being left to being found. `air` is [`diary::Known::air`].
pub fn learn(harp: &Harp, known: &HarpKnown, air: &[(Moment, Air)]) -> Learned {
    let names: Vec<StringName> = harp.strings().iter().map(|s| s.name).collect();
    let wires: Vec<bool> = harp.strings().iter().map(|s| s.wire).collect();
    let stretches = Stretches::of(known, air, &names);
    let mut own = vec![crate::own::Apart::begin(&Prior::other()).own(); names.len()];
    let wire = learn_class(&Prior::wire(), &stretches, &mut own, |at| wires[at]);
    let other = learn_class(&Prior::other(), &stretches, &mut own, |at| !wires[at]);
    Learned {
        names,
        wires,
        own,
        wire,
        other,
        stretches: stretches.all.len(),
    }
}

impl Learned {
    pub(crate) fn class(&self, at: usize) -> &Class {
        if self.wires[at] {
            &self.wire
        } else {
            &self.other
        }
    }

    /// What each string does by a degree more, cents: mean and half of its 95 % interval.
    pub fn by_degree(&self) -> BTreeMap<StringName, (f64, f64)> {
        let one = |(at, name): (usize, &StringName)| {
            let class = &self.class(at).together;
            let mean = class.mean[0] + self.own[at].mean[0];
            let variance = class.covariance[(0, 0)] + self.own[at].covariance[(0, 0)];
            (*name, (mean, 1.96 * variance.sqrt()))
        };
        self.names.iter().enumerate().map(one).collect()
    }
}
