//! What the diary teaches of a harp.

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
}
