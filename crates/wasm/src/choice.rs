//! What the player chooses before a round: her harp, its pitch, the order of the strings.

use harp::{Harp, Setting, Setup, StringName};
use pitch::{Alteration, Letter, ReferencePitch};
use serde::{Deserialize, Serialize};
use tsify::Tsify;
use tuning::round::{Order, Plan, Tolerance};

use crate::harp_choice::{ChoiceError, HarpChoice};

/// The order in which strings are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum OrderChoice {
    /// From G3 down, then up.
    FromMiddle,
    /// The middle octave, then below, then above.
    MiddleOctave,
    /// From the bass up.
    FromBass,
    /// Letter by letter.
    Letters,
    /// Each string with its octaves.
    Octaves,
}

impl OrderChoice {
    pub(crate) fn order(self) -> Order {
        match self {
            Self::FromMiddle => Order::default(),
            Self::MiddleOctave => Order::MiddleOctave,
            Self::FromBass => Order::FromBass,
            Self::Letters => Order::Letters,
            Self::Octaves => Order::Octaves,
        }
    }
}

/// Everything a round is made of.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct RoundChoice {
    /// The harp.
    pub harp: HarpChoice,
    /// Tonight's A4, Hz, 380 to 480.
    pub a4_hz: f64,
    /// The A4 at which this harp usually stands, Hz.
    pub usual_a4_hz: Option<f64>,
    /// The order.
    pub order: OrderChoice,
    /// What is called in tune from C3 to C7, cents either way.
    pub middle_cents: f64,
    /// The same below and above.
    pub outer_cents: f64,
    /// The few strings of a touch-up; none is a whole round.
    pub touch_up: Option<Vec<String>>,
    /// The pedals as they stand, in the order D C B E F G A: −1 flat, 0 natural, 1 sharp; on a lever harp the levers of a
    /// letter. None: pedals up, levers off.
    pub setting: Option<Vec<i8>>,
    /// Strings without discs and what they sound tonight, as in `C1` and `Cb1`.
    pub discless: Vec<(String, String)>,
}

/// The order of the pedals.
pub(crate) const PEDALS: [Letter; 7] = [
    Letter::D,
    Letter::C,
    Letter::B,
    Letter::E,
    Letter::F,
    Letter::G,
    Letter::A,
];

impl RoundChoice {
    pub(crate) fn setup(&self) -> Result<Setup, ChoiceError> {
        let mut setup = Setup::open(ReferencePitch::new(self.a4_hz)?);
        setup.setting = self.setting.as_ref().map(|s| setting(s));
        for (string, pitch) in &self.discless {
            setup.discless.push((string.parse()?, pitch.parse()?));
        }
        Ok(setup)
    }

    pub(crate) fn plan(&self, harp: &Harp) -> Result<Plan, ChoiceError> {
        let mut plan = Plan::of(harp, &self.setup()?)?;
        plan.order = self.order.order();
        plan.tolerance = Tolerance {
            middle_cents: self.middle_cents,
            outer_cents: self.outer_cents,
        };
        plan.usual_a4_hz = self.usual_a4_hz;
        if let Some(few) = &self.touch_up {
            let few: Result<Vec<StringName>, _> = few.iter().map(|s| s.parse()).collect();
            plan.touch_up = Some(few?);
        }
        Ok(plan)
    }
}

/// A setting from alterations in the order of the pedals.
fn setting(alterations: &[i8]) -> Setting {
    let placed = PEDALS.into_iter().zip(alterations);
    placed.fold(Setting::default(), |setting, (letter, alter)| {
        let alteration = match alter {
            -1 => Alteration::Flat,
            0 => Alteration::Natural,
            _ => Alteration::Sharp,
        };
        setting.with(letter, alteration)
    })
}
