//! A round, told to its strings.

use harp::{Harp, Mechanism, Setup, StringName};
use tuning::round::{Aside, Kept, State};

use super::{HarpKnown, Point};
use crate::{Moment, RoundBegun, StringOver};

/// By how many semitones discs and levers raise strings, for the last harp and setup that was asked for: most rounds of a
/// harp are begun alike.
#[derive(Default)]
pub(super) struct Raised {
    toml: String,
    setup: Option<Setup>,
    by: Vec<(StringName, u8)>,
}

impl Raised {
    fn of(&mut self, begun: &RoundBegun) -> &[(StringName, u8)] {
        if self.toml != begun.toml || self.setup.as_ref() != Some(&begun.setup) {
            self.by = raised(&begun.toml, &begun.setup).unwrap_or_default();
            begun.toml.clone_into(&mut self.toml);
            self.setup = Some(begun.setup.clone());
        }
        &self.by
    }
}

/// The strings that are raised. A string without disc or lever is what it is tuned to.
fn raised(toml: &str, setup: &Setup) -> Option<Vec<(StringName, u8)>> {
    let harp = Harp::from_toml(toml).ok()?;
    let open = Setup {
        open: setup.open,
        ..Setup::open(setup.reference)
    };
    let (stands, open) = (harp.standing(setup).ok()?, harp.standing(&open).ok()?);
    let moved = harp.strings().iter().zip(stands.iter().zip(&open));
    let moved = moved.filter(|(string, _)| string.mechanism != Mechanism::Nothing);
    let by = moved.filter_map(|(string, (stands, open))| {
        let by = stands.alteration.semitones() - open.alteration.semitones();
        Some((string.name, u8::try_from(by).ok().filter(|by| *by > 0)?))
    });
    Some(by.collect())
}

impl HarpKnown {
    /// What a round came to. `began` and `over`: the moments of its first and last record.
    pub(super) fn round(
        &mut self,
        begun: &RoundBegun,
        (began, over): (Moment, Moment),
        strings: &[StringOver],
        raised: &mut Raised,
    ) {
        let raised = raised.of(begun);
        for told in strings {
            let by = raised.iter().find(|(string, _)| *string == told.string);
            let times = Times {
                began,
                over,
                raised: by.map_or(0, |(_, by)| *by),
            };
            self.string_of_round(told, &times);
        }
    }

    fn string_of_round(&mut self, told: &StringOver, times: &Times) {
        let string = self.strings.entry(told.string).or_default();
        let (before, after) = (told.before.as_ref(), told.after.as_ref());
        let is_old = |kept: &&Kept| kept.aside == Some(Aside::OldString);
        let is_own = |kept: &&Kept| kept.aside.is_none();
        if let Some(old) = before.filter(is_old) {
            string.heard(times.point(old, true, false));
        }
        if told.fitted {
            // it came after the last of the old string, and before the first of the new one
            let new = before.filter(is_own).or(after.filter(is_own));
            let when = before.filter(is_old).or(new).map(|kept| times.of(kept));
            string.fitted_in_round(when.unwrap_or(times.over));
        }
        let (before, after) = (before.filter(is_own), after.filter(is_own));
        let once = before == after;
        if let Some(kept) = before {
            string.heard(times.point(kept, !told.fitted, once));
        }
        if let Some(kept) = after.filter(|_| !once) {
            string.heard(times.point(kept, false, true));
        }
        if told.state.is_in_tune() {
            string.in_tune(after.map_or(times.over, |kept| times.of(kept)));
        }
        if told.state == State::Broken {
            string.broke(times.over);
        }
    }
}

/// When things were in a round, and how high the string stood.
struct Times {
    began: Moment,
    over: Moment,
    raised: u8,
}

impl Times {
    fn of(&self, kept: &Kept) -> Moment {
        self.began.plus_s(kept.at_s)
    }

    fn point(&self, kept: &Kept, found: bool, left: bool) -> Point {
        Point {
            when: self.of(kept),
            heard_hz: kept.heard_hz,
            target_hz: kept.target_hz,
            off_cents: kept.off_cents,
            u95_cents: kept.u95_cents,
            b: kept.b,
            t60_s: kept.t60_s,
            level_dbfs: kept.level_dbfs,
            raised: self.raised,
            found,
            left,
            string: 0,
        }
    }
}
