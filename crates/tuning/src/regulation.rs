//! The regulation check: what each disc or lever makes of its string, and whose the fault is.
//!
//! Every string is plucked open, natural, sharp and open once more. What counts is the size of the
//! step from one to the next: a semitone is 100 cents, and the tuning of the open string cancels. How
//! far the string came back elsewhere (the return test: common practice of technicians) is its own
//! unrest, and makes every figure that much less sure. A step that is out on most strings of a
//! letter is the pedal's; on one string alone, its disc's.
//!
//! [`regulated`] judges plucks, [`Check`] asks for them, and [`Hearing`] joins a check to an ear. There is no clock and no
//! screen in it, as in the round.

mod cause;
mod check;
mod chosen;
mod hearing;
mod judged;
mod own;
mod step;
mod words;

use std::collections::BTreeMap;

use harp::{Harp, Mechanism, StringName};
use pitch::Alteration;

use own::Unrest;

pub use cause::{Cause, Found};
pub use check::{Check, Say};
pub use chosen::{PLUCKS_OF_A_LEVER, PLUCKS_OF_DISCS, Pace, seconds, within_time};
pub use hearing::{Happened, Hearing};
pub use judged::{Bounds, Weight};
pub use step::{Step, StepSize};
pub use words::{finding, how_to_leave, sentence, too_new, whose_work};

/// A new string's age in days from which on its steps are judged: common practice is to string two weeks
/// before a regulation.
pub const SETTLED_DAYS: u32 = 14;

/// One pluck of the check that was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pluck {
    /// The string.
    pub string: StringName,
    /// What its disc or lever makes of it.
    pub stands: Alteration,
    /// The sounding pitch against what the string should sound so, in cents, all at one reference pitch.
    pub off_cents: f64,
    /// Half of the 95 % interval of `off_cents`.
    pub u95_cents: f64,
}

/// What the check says of one string.
#[derive(Clone, Debug, PartialEq)]
pub struct Regulated {
    /// The string.
    pub string: StringName,
    /// The open string against its target, in cents; `None` if it was not read open.
    pub open_cents: Option<f64>,
    /// From flat to natural; `None` where the string has no such step or it was not read.
    pub natural: Option<StepSize>,
    /// From natural to sharp.
    pub sharp: Option<StepSize>,
    /// Both together, against 200 cents, where both are there.
    pub sum: Option<StepSize>,
    /// The widest difference between readings of the string in one and the same position, in cents: its
    /// own unrest and that of the reading. `None` without a return test.
    pub own_cents: Option<f64>,
    /// Whether the string was fitted so lately that its steps are shown and not judged.
    pub new: bool,
    /// Whose each step's fault is, if it has one.
    pub found: BTreeMap<Step, Found>,
}

/// What a harp's check says: each string that was read and has a disc or a lever, from the bass up.
///
/// `plucks` in the order in which they came; those of strings that nothing moves are left out, and a
/// figure that is not finite too. `age_days` tells, where it is known, how long ago a string was fitted.
///
/// ```
/// use harp::Harp;
/// use pitch::Alteration::{Flat, Natural, Sharp};
/// use tuning::regulation::{Bounds, Pluck, Step, regulated};
/// let pluck = |stands, off_cents| Pluck {
///     string: "G4".parse().unwrap(), stands, off_cents, u95_cents: 0.5,
/// };
/// let plucks = [pluck(Flat, 0.0), pluck(Natural, 3.0), pluck(Sharp, -2.0), pluck(Flat, 0.0)];
/// let found = regulated(&Harp::named("pedal47")?, &plucks, &Bounds::default(), |_| None);
/// let errors = [&found[0].natural, &found[0].sharp, &found[0].sum]
///     .map(|step| step.as_ref().unwrap().error_cents);
/// assert_eq!(errors, [3.0, -5.0, -2.0]);
/// # Ok::<(), harp::HarpError>(())
/// ```
pub fn regulated(
    harp: &Harp,
    plucks: &[Pluck],
    bounds: &Bounds,
    age_days: impl Fn(StringName) -> Option<u32>,
) -> Vec<Regulated> {
    let mut by_string: BTreeMap<StringName, Vec<Pluck>> = BTreeMap::new();
    for pluck in plucks {
        let moves = harp
            .string(pluck.string)
            .is_some_and(|string| string.mechanism != Mechanism::Nothing);
        let measured = pluck.off_cents.is_finite() && pluck.u95_cents.is_finite();
        if moves && measured && pluck.u95_cents >= 0.0 {
            by_string.entry(pluck.string).or_default().push(*pluck);
        }
    }
    let unrest = Unrest::of(&by_string);
    let mut all: Vec<Regulated> = by_string
        .iter()
        .map(|(&string, plucks)| {
            let new = age_days(string).is_some_and(|days| days < SETTLED_DAYS);
            of_string(string, plucks, &unrest, new)
        })
        .collect();
    cause::find(harp, &mut all, bounds);
    all
}

fn of_string(string: StringName, plucks: &[Pluck], unrest: &Unrest, new: bool) -> Regulated {
    let at = |stands| step::mean(plucks, stands, unrest.of_string(string));
    let between = |from, to| Some(step::between(&at(from)?, &at(to)?));
    Regulated {
        string,
        open_cents: open(plucks).and_then(at).map(|mean| mean.cents),
        natural: between(Alteration::Flat, Alteration::Natural),
        sharp: between(Alteration::Natural, Alteration::Sharp),
        sum: between(Alteration::Flat, Alteration::Sharp),
        own_cents: own::widest(plucks),
        new,
        found: BTreeMap::new(),
    }
}

/// The lowest position in which a string was read: open, unless that was left out.
fn open(plucks: &[Pluck]) -> Option<Alteration> {
    plucks
        .iter()
        .map(|pluck| pluck.stands)
        .min_by_key(|stands| stands.semitones())
}
