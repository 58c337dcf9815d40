//! The beginning of a round: all that is needed to make its plan again, however much later.

mod body;

use harp::{Harp, HarpError, HarpFileError, Setup, StringName};
use tuning::round::{Order, Plan, Planned, Tolerance};

pub(crate) use body::BegunBody;

/// What a round was begun with.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundBegun {
    /// The name by which the diary knows the harp.
    pub harp: String,
    /// The harp's file as it was then; the round never looks at a later one.
    pub toml: String,
    /// Reference pitch, open tuning, pedals, levers, strings set by key.
    pub setup: Setup,
    /// The order in which strings are asked for.
    pub order: Order,
    /// What is called in tune.
    pub tolerance: Tolerance,
    /// A4 in Hz to which the harp is usually tuned, where that is known.
    pub usual_a4_hz: Option<f64>,
    /// The few strings of a touch-up; `None` is a whole round.
    pub touch_up: Option<Vec<StringName>>,
    /// The highest pitch at which a string is known to have stood, Hz, for those of which one is known.
    pub highest_hz: Vec<(StringName, f64)>,
    /// Seconds of each pluck that are listened to.
    pub listen_s: f64,
}

/// Why no plan could be made of a round's beginning.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// The harp's file cannot be read.
    #[error("the harp's file in the round's record cannot be read: {0}")]
    File(#[from] HarpFileError),
    /// The harp cannot stand so.
    #[error("the harp of the round's record cannot stand so: {0}")]
    Harp(#[from] HarpError),
}

impl RoundBegun {
    /// The beginning of the round that `plan` is: a plan made by [`Plan::of`] of this harp in this setup, whatever was
    /// changed in it since but its strings and their targets.
    ///
    /// ```
    /// use diary::RoundBegun;
    /// use harp::{Harp, Setup};
    /// use pitch::ReferencePitch;
    /// use tuning::round::Plan;
    /// let (harp, setup) = (Harp::named("lever34")?, Setup::open(ReferencePitch::A440));
    /// let plan = Plan::of(&harp, &setup)?;
    /// let begun = RoundBegun::of("little", &harp, &setup, &plan, 0.6);
    /// assert_eq!(begun.plan(), Ok(plan));
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn of(name: &str, harp: &Harp, setup: &Setup, plan: &Plan, listen_s: f64) -> Self {
        let highest = |s: &Planned| Some((s.standing.string, s.highest_hz?));
        Self {
            harp: name.to_owned(),
            toml: harp.to_toml(),
            setup: setup.clone(),
            order: plan.order.clone(),
            tolerance: plan.tolerance,
            usual_a4_hz: plan.usual_a4_hz,
            touch_up: plan.touch_up.clone(),
            highest_hz: plan.strings.iter().filter_map(highest).collect(),
            listen_s,
        }
    }

    /// The plan, the same as the round had.
    pub fn plan(&self) -> Result<Plan, PlanError> {
        let harp = Harp::from_toml(&self.toml)?;
        let mut plan = Plan::of(&harp, &self.setup)?;
        plan.order = self.order.clone();
        plan.tolerance = self.tolerance;
        plan.usual_a4_hz = self.usual_a4_hz;
        plan.touch_up = self.touch_up.clone();
        for planned in &mut plan.strings {
            let own = |(string, _): &&(StringName, f64)| *string == planned.standing.string;
            planned.highest_hz = self.highest_hz.iter().find(own).map(|(_, hz)| *hz);
        }
        Ok(plan)
    }
}
