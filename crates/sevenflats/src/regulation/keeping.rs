//! What the diary has to do with a check: what it knows before, and the check that is kept in it.

use std::collections::BTreeMap;
use std::path::PathBuf;

use ::diary::{Entry, HarpKept, HarpKnown, Moment, Regulation};
use harp::{Harp, StringName};
use pitch::ReferencePitch;
use store::Store;
use tuning::regulation::{Bounds, Pluck, Regulated, SETTLED_DAYS, StepSize};

use super::arguments::RegulationArguments;
use crate::diary::place::{now, place};
use crate::trouble::Trouble;

/// The errors of a check's strings, natural and sharp, in cents.
pub(super) type Errors = BTreeMap<StringName, [Option<f64>; 2]>;

/// The diary in which a check is kept.
pub(super) struct Keeping {
    store: Store,
    path: PathBuf,
    /// the harp's name in it
    name: String,
    known: Option<HarpKnown>,
}

impl Keeping {
    /// Where that is asked for; opened before anything is plucked, so that nothing is plucked in vain.
    pub(super) fn open(
        arguments: &RegulationArguments,
        harp: &Harp,
    ) -> Result<Option<Self>, Trouble> {
        let Some(named) = &arguments.diary else {
            return Ok(None);
        };
        let path = place(named.as_ref())?;
        if arguments.how_long && !path.exists() {
            return Ok(None);
        }
        let store = Store::open(&path)?;
        let called = arguments.called.clone();
        let name = called.unwrap_or_else(|| HarpKept::usual_name(harp));
        let known = store.ends()?.known().harp(&name).cloned();
        Ok(Some(Keeping {
            store,
            path,
            name,
            known,
        }))
    }

    /// Whole days since a string was put on, where that is known.
    pub(super) fn days_on(&self, string: StringName) -> Option<u32> {
        self.known.as_ref()?.days_on(string, Moment::of(&now()))
    }

    /// Those of these strings that were put on less than two weeks ago, with their days.
    pub(super) fn fresh(&self, strings: &[StringName]) -> Vec<(StringName, u32)> {
        let days = strings
            .iter()
            .filter_map(|&string| Some((string, self.days_on(string)?)));
        days.filter(|(_, days)| *days < SETTLED_DAYS).collect()
    }

    /// What the last check was off by.
    pub(super) fn errors_before(&self, harp: &Harp) -> Errors {
        let error = |step: &Option<StepSize>| step.as_ref().map(|step| step.error_cents);
        let last = self.known.iter().filter_map(|known| known.checks.last());
        let judged = last.flat_map(|(_, kept)| kept.judged(harp, &Bounds::default()));
        judged
            .map(|one| (one.string, [error(&one.natural), error(&one.sharp)]))
            .collect()
    }

    /// Keeps a check; what there is to say of it, or nothing where nothing was read.
    pub(super) fn keep(
        &mut self,
        harp: &Harp,
        reference: ReferencePitch,
        plucks: &[Pluck],
        found: &[Regulated],
    ) -> Result<Option<String>, Trouble> {
        if found.is_empty() {
            return Ok(None);
        }
        let kept = Regulation::of(&self.name, harp, reference, plucks, found);
        self.store.append(&now(), &[Entry::Regulation(kept)])?;
        let (name, path) = (&self.name, self.path.display());
        Ok(Some(format!(
            "Kept in the diary as a check of '{name}': {path}"
        )))
    }
}
