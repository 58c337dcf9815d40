//! What checks of the mechanism found, and whether a technician's visit mended it: before and after.

use diary::{Found, HarpKnown, Moment, Regulation, StringChecked};
use harp::StringName;
use pitch::{Alteration, Letter};

/// Whose a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whose {
    /// A pedal is out for its whole letter.
    Pedal(Letter),
    /// One disc.
    Disc(StringName),
    /// One lever.
    Lever(StringName),
}

/// What became of a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mended {
    /// Found by the last check; nobody is known to have come since.
    Open,
    /// The next check found it right.
    Mended,
    /// The next check found it again.
    Still,
    /// The next check found it, and the one before had not.
    New,
    /// It was not checked again, or the check could not say.
    CannotSay,
}

/// A pedal, a disc or a lever that is out, or was.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    /// Whose it is.
    pub whose: Whose,
    /// The position that is wrong.
    pub position: Alteration,
    /// When it was found.
    pub found: Moment,
    /// The error of the step that leads there, cents; up is above nought. Of a new finding, as it is now.
    pub cents: f64,
    /// Half of its 95 % interval, as far as the plucks tell.
    pub u95_cents: f64,
    /// The same step at the check after the visit, where it was read.
    pub after_cents: Option<f64>,
    /// What became of it.
    pub mended: Mended,
}

/// What the last check found. With the moment of a visit, what the last check before it found and the first one after it,
/// side by side; without a check after it, everything is open.
pub fn findings(known: &HarpKnown, visit: Option<Moment>) -> Vec<Finding> {
    let before = known
        .checks
        .iter()
        .rfind(|(when, _)| visit.is_none_or(|visit| *when <= visit));
    let after = visit.and_then(|visit| known.checks.iter().find(|(when, _)| *when > visit));
    let mut all: Vec<Finding> = before
        .map(|(when, check)| of_check(*when, check))
        .unwrap_or_default();
    let Some((when, after)) = after else {
        return all;
    };
    let now = of_check(*when, after);
    for one in &mut all {
        let again = now.iter().find(|n| is_same(n, one));
        one.after_cents = again.map(|n| n.cents).or_else(|| cents_now(one, after));
        one.mended = match again {
            Some(_) => Mended::Still,
            None => mended(one.whose, after),
        };
    }
    let new = now
        .into_iter()
        .filter(|n| !all.iter().any(|one| is_same(n, one)));
    let new = new.map(|n| Finding {
        mended: match before {
            Some(_) => Mended::New,
            None => Mended::Open,
        },
        ..n
    });
    let new: Vec<Finding> = new.collect();
    all.extend(new);
    all
}

fn is_same(one: &Finding, other: &Finding) -> bool {
    one.whose == other.whose && one.position == other.position
}

/// All that one check found: pedals first, then strings as they were checked.
fn of_check(when: Moment, check: &Regulation) -> Vec<Finding> {
    let finding = |whose, position, cents, u95_cents| Finding {
        whose,
        position,
        found: when,
        cents,
        u95_cents,
        after_cents: None,
        mended: Mended::Open,
    };
    let pedals = check.pedals.iter().map(|pedal| {
        let (cents, u95) = (pedal.off_cents, pedal.u95_cents);
        finding(Whose::Pedal(pedal.letter), pedal.position, cents, u95)
    });
    let strings = check.strings.iter().filter_map(|checked| {
        let whose = match checked.found {
            Found::Disc => Whose::Disc(checked.string),
            Found::Lever => Whose::Lever(checked.string),
            _ => return None,
        };
        // the worst of its steps; what its pedal is known to be out by is the pedal's
        let of_pedal = |position| {
            let pedals = check.pedals.iter();
            let mut own = pedals.filter(|p| p.letter == checked.string.letter);
            let pedal = own.find(|p| p.position == position);
            pedal.map_or(0.0, |pedal| pedal.off_cents)
        };
        let worst = steps(checked).max_by(|a, b| {
            let surely = |step: &Step| (step.cents - of_pedal(step.to)).abs() - step.u95;
            surely(a).total_cmp(&surely(b))
        })?;
        Some(finding(whose, worst.to, worst.cents, worst.u95))
    });
    pedals.chain(strings).collect()
}

struct Step {
    to: Alteration,
    cents: f64,
    u95: f64,
}

/// The steps of a string, from each position to the next that was read: its error, and what the plucks tell of it.
fn steps(checked: &StringChecked) -> impl Iterator<Item = Step> {
    let at = |position: Alteration| {
        let here = checked.positions.iter().filter(|p| p.position == position);
        let here: Vec<_> = here.map(|p| (p.off_cents, p.u95_cents)).collect();
        let count = here.len() as f64;
        let squares: f64 = here.iter().map(|(_, u95)| u95 * u95).sum();
        let sum: f64 = here.iter().map(|(off, _)| off).sum();
        (count > 0.0).then(|| (sum / count, squares.sqrt() / count))
    };
    let own = checked.own_cents.unwrap_or(0.0);
    let pairs = [
        (Alteration::Flat, Alteration::Natural),
        (Alteration::Natural, Alteration::Sharp),
    ];
    pairs.into_iter().filter_map(move |(from, to)| {
        let (from, here) = (at(from)?, at(to)?);
        Some(Step {
            to,
            cents: here.0 - from.0,
            u95: from.1.hypot(here.1).hypot(own),
        })
    })
}

/// The same step at a later check: a pedal's in the middle of its strings.
fn cents_now(finding: &Finding, check: &Regulation) -> Option<f64> {
    let is_its = |string: StringName| match finding.whose {
        Whose::Pedal(letter) => string.letter == letter,
        Whose::Disc(own) | Whose::Lever(own) => string == own,
    };
    let strings = check
        .strings
        .iter()
        .filter(|checked| is_its(checked.string));
    let cents = strings.flat_map(|checked| {
        let here = steps(checked).filter(|step| step.to == finding.position);
        here.map(|step| step.cents).collect::<Vec<_>>()
    });
    crate::spread::Spread::of(cents).map(|spread| spread.middle)
}

/// What a check that did not find it again says of it.
fn mended(whose: Whose, check: &Regulation) -> Mended {
    match whose {
        Whose::Pedal(letter) => {
            let own = check.strings.iter().filter(|c| c.string.letter == letter);
            let judged = own.filter(|c| matches!(c.found, Found::Right | Found::Disc));
            // a pedal is judged by three strings at least
            match judged.count() {
                3.. => Mended::Mended,
                _ => Mended::CannotSay,
            }
        }
        Whose::Disc(string) | Whose::Lever(string) => {
            let own = check.strings.iter().find(|c| c.string == string);
            match own.map(|c| c.found) {
                Some(Found::Right | Found::Pedal) => Mended::Mended,
                // out elsewhere: this step is right
                Some(Found::Disc | Found::Lever) => Mended::Mended,
                _ => Mended::CannotSay,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use diary::PositionRead;

    fn checked(found: Found, offs: [f64; 3]) -> StringChecked {
        let positions = [Alteration::Flat, Alteration::Natural, Alteration::Sharp];
        let read = positions
            .iter()
            .zip(offs)
            .map(|(position, off_cents)| PositionRead {
                position: *position,
                off_cents,
                u95_cents: 0.5,
            });
        StringChecked {
            string: "G4".parse().unwrap(),
            positions: read.collect(),
            own_cents: None,
            found,
        }
    }

    fn known(checks: &[StringChecked]) -> HarpKnown {
        let day = Moment::of(&"2026-01-01T00:00:00Z".parse().unwrap());
        let check = |one: &StringChecked| Regulation {
            harp: "big".to_owned(),
            a4_hz: 440.0,
            strings: vec![one.clone()],
            pedals: Vec::new(),
            note: String::new(),
        };
        let checks = checks.iter().enumerate();
        HarpKnown {
            harp: "big".to_owned(),
            toml: None,
            strings: std::collections::BTreeMap::new(),
            pedals: Vec::new(),
            checks: checks
                .map(|(at, one)| (day.plus_s(86_400.0 * at as f64), check(one)))
                .collect(),
            visits: Vec::new(),
            a4_hz: None,
            rounds: 0,
        }
    }

    // by hand: open 0, natural +3, sharp -7 against their targets are steps of +3 and -10 cents
    #[test]
    fn a_disc_is_told_by_its_worst_step_and_by_what_became_of_it() {
        let bad = checked(Found::Disc, [0.0, 3.0, -7.0]);
        let good = checked(Found::Right, [0.0, 1.0, 0.0]);
        let one = known(std::slice::from_ref(&bad));
        let found = findings(&one, None);
        assert_eq!((found.len(), found[0].mended), (1, Mended::Open));
        assert_eq!(
            (found[0].position, found[0].cents),
            (Alteration::Sharp, -10.0)
        );
        let visit = one.checks[0].0.plus_s(3600.0);
        let told = |after: StringChecked| {
            let found = findings(&known(&[bad.clone(), after]), Some(visit));
            (found[0].mended, found[0].after_cents)
        };
        assert_eq!(told(good.clone()), (Mended::Mended, Some(-1.0)));
        assert_eq!(told(bad.clone()), (Mended::Still, Some(-10.0)));
        let unsure = checked(Found::NotSure, [0.0, 1.0, 0.0]);
        assert_eq!(told(unsure).0, Mended::CannotSay);
        let new = findings(&known(&[good, bad.clone()]), Some(visit));
        assert_eq!(new[0].mended, Mended::New);
    }
}
