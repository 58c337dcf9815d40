//! What the diary knows of a harp's strings, and what they need: for people and for programs.

use std::collections::BTreeMap;
use std::io::Write;
use std::path::PathBuf;

use ::diary::{HarpKnown, Known, Moment, SparesKnown, StringKnown};
use harp::{Harp, StringName};
use keep::{Covered, DueString, Intervals, MixedOctave, Order, Settling, Spare, Suspicion, Use};
use pitch::ReferencePitch;
use store::Store;

use super::{needs_json, needs_page};
use crate::arguments::StringsArguments;
use crate::diary::place;
use crate::trouble::Trouble;

/// A harp and all that there is to say of it.
pub(super) struct Needs<'a> {
    pub(super) known: &'a HarpKnown,
    pub(super) harp: Harp,
    pub(super) now: Moment,
    pub(super) due: Vec<DueString>,
    pub(super) settling: BTreeMap<StringName, Settling>,
    pub(super) suspected: Vec<Suspicion>,
    pub(super) lots: Vec<&'a SparesKnown>,
    pub(super) spares: Vec<Spare>,
    pub(super) cover: Vec<Covered>,
    pub(super) orders: Vec<Order>,
    pub(super) mixed: Vec<MixedOctave>,
    pub(super) tension_n: BTreeMap<StringName, f64>,
}

/// Every harp of the diary, or the one that was named.
pub(super) fn needs(
    arguments: &StringsArguments,
    named: Option<&PathBuf>,
    out: &mut dyn Write,
) -> Result<(), Trouble> {
    let path = place::place(named)?;
    let known = Store::open_existing(&path)?.ends()?.known();
    let now = Moment::of(&place::now());
    let wanted = &arguments.harp.harp;
    let one = known.harp(wanted);
    // the usual harp's name is what stands there when nothing was said
    if one.is_none() && wanted != crate::arguments::USUAL_HARP {
        return Err(Trouble::NoHarpInDiary {
            name: wanted.clone(),
        });
    }
    let harps = known
        .harps
        .iter()
        .filter(|h| one.is_none_or(|one| one.harp == h.harp));
    for harp in harps {
        let needs = Needs::of(&known, harp, now, arguments)?;
        match arguments.shown.json {
            true => needs_json::write(&needs, out)?,
            false => needs_page::write(&needs, arguments.shown.names, out)?,
        }
    }
    if known.harps.is_empty() && !arguments.shown.json {
        writeln!(out, "No harp is in this diary yet.")?;
    }
    Ok(())
}

impl<'a> Needs<'a> {
    fn of(
        all: &'a Known,
        known: &'a HarpKnown,
        now: Moment,
        arguments: &StringsArguments,
    ) -> Result<Self, Trouble> {
        let no_file = || Trouble::NoHarpFile {
            name: known.harp.clone(),
        };
        let file = known.toml.as_deref().ok_or_else(no_file)?;
        let harp = Harp::from_toml(file).map_err(|_| no_file())?;
        let intervals = Intervals::of(match arguments.professional {
            true => Use::Professional,
            false => Use::Student,
        });
        let lots: Vec<&SparesKnown> = all.spares_of(&known.harp).collect();
        let spares: Vec<Spare> = lots.iter().map(|lot| spare(lot)).collect();
        let cover = keep::cover(&harp, &spares, now);
        Ok(Needs {
            due: keep::due(&harp, known, now, &intervals),
            settling: keep::settling(&harp, known, now),
            suspected: keep::suspected(&harp, known, now),
            orders: keep::to_order(&harp, &cover),
            mixed: keep::mixed(&harp, known, now, &intervals),
            tension_n: tension_n(&harp, known, arguments.harp.a4),
            known,
            now,
            lots,
            spares,
            cover,
            harp,
        })
    }

    /// What is known of one of its strings.
    pub(super) fn string(&self, name: StringName) -> Option<&StringKnown> {
        self.known.strings.get(&name)
    }
}

/// One of a lot: how many there are does not change what it covers.
fn spare(lot: &SparesKnown) -> Spare {
    Spare {
        string: lot.string,
        material: lot.material,
        gauge_mm: lot.gauge_mm,
        bought: lot.bought,
    }
}

/// At the pitch that was named, else the one that was tuned to last; only of strings whose figures were given.
fn tension_n(
    harp: &Harp,
    known: &HarpKnown,
    named: Option<ReferencePitch>,
) -> BTreeMap<StringName, f64> {
    let last = known.a4_hz.and_then(|(_, hz)| ReferencePitch::new(hz).ok());
    let reference = named.or(last).unwrap_or(ReferencePitch::A440);
    let sheet = keep::strung(harp, known).sheet(reference);
    let given = sheet.iter();
    given
        .filter_map(|line| Some((line.string, line.tension_n.as_ref().ok().copied()?)))
        .collect()
}
