//! What a round is about: the strings, their targets, and what is known of them beforehand.

use harp::{Harp, HarpError, HarpKind, Mechanism, Setup, Standing, StringName};
use pitch::ReferencePitch;

use super::{Order, Tolerance};

/// Everything a round knows before the first pluck.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The strings that stand, from the bass.
    pub strings: Vec<Planned>,
    /// What moves them.
    pub kind: HarpKind,
    /// Whether every pedal is up and every lever off, the position in which a harp is tuned.
    pub open: bool,
    /// The reference pitch of the targets.
    pub reference: ReferencePitch,
    /// The order in which strings are asked for.
    pub order: Order,
    /// What is called in tune.
    pub tolerance: Tolerance,
    /// A4 in Hz to which this harp is usually tuned, where that is known.
    pub usual_a4_hz: Option<f64>,
    /// The few strings of a touch-up; `None` is a whole round.
    pub touch_up: Option<Vec<StringName>>,
}

/// One string of a plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Planned {
    /// What it should sound.
    pub standing: Standing,
    /// What moves it.
    pub mechanism: Mechanism,
    /// Whether it is a wire.
    pub wire: bool,
    /// A string without discs: whether tonight's pitch was said.
    pub pitch_was_said: bool,
    /// The highest pitch at which this string is known to have stood, Hz.
    pub highest_hz: Option<f64>,
}

impl Plan {
    /// A whole round of a harp as it is set up, in the usual order, within the usual tolerance.
    ///
    /// ```
    /// use harp::{Harp, Setup};
    /// use pitch::ReferencePitch;
    /// use tuning::round::{Plan, Round};
    /// let harp = Harp::named("pedal47")?;
    /// let plan = Plan::of(&harp, &Setup::open(ReferencePitch::A440))?;
    /// assert_eq!(Round::new(plan).next().map(|s| s.harp_number()).as_deref(), Some("4G"));
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn of(harp: &Harp, setup: &Setup) -> Result<Plan, HarpError> {
        let standing = harp.standing(setup)?;
        let open = harp.standing(&Setup {
            open: setup.open,
            discless: setup.discless.clone(),
            ..Setup::open(setup.reference)
        })?;
        let strings = harp.strings().iter().zip(&standing);
        Ok(Plan {
            open: open == standing,
            strings: strings
                .map(|(string, standing)| Planned {
                    standing: *standing,
                    mechanism: string.mechanism,
                    wire: string.wire,
                    pitch_was_said: setup.discless.iter().any(|(s, _)| *s == string.name),
                    highest_hz: None,
                })
                .collect(),
            kind: harp.kind(),
            reference: setup.reference,
            order: Order::default(),
            tolerance: Tolerance::default(),
            usual_a4_hz: None,
            touch_up: None,
        })
    }

    /// The strings asked for, in their order.
    pub(crate) fn arranged(&self) -> Vec<StringName> {
        let strings: Vec<StringName> = self.strings.iter().map(|s| s.standing.string).collect();
        let mut order = self.order.arrange(&strings);
        if let Some(few) = &self.touch_up {
            order.retain(|string| few.contains(string));
        }
        order
    }

    /// Whether a string has no discs on a harp whose others have.
    pub(crate) fn is_discless(&self, string: &Planned) -> bool {
        self.kind == HarpKind::Pedal && string.mechanism == Mechanism::Nothing
    }
}
