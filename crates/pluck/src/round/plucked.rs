//! What is exactly true of each pluck of a round.

use super::plan::{Action, Plan};
use crate::drawn::CENTS;
use crate::truth::Partial;

/// The truth of one pluck of a round. Frequencies are those of the moment of the pluck, after its glide.
#[derive(Clone, Debug, PartialEq)]
pub struct Plucked {
    /// When, in seconds of the samples delivered (what is missing from them not counted).
    pub at_s: f64,
    /// The string's name.
    pub string: String,
    /// What it should sound, in Hz.
    pub target_hz: f64,
    /// f0·√(1 + B) in Hz.
    pub f1_hz: f64,
    /// Sounding pitch in Hz, as in [`crate::Truth::sounding_hz`].
    pub sounding_hz: f64,
    /// The stiff string's f0 in Hz.
    pub f0_hz: f64,
    /// The stiff string's B.
    pub b: f64,
    /// How many cents above rest the pluck starts.
    pub glide_cents: f64,
    /// How loud, in dB against an ordinary pluck.
    pub level_db: f64,
    /// The partials; amplitudes of the first polarisation before it is shared with the second.
    pub partials: Vec<Partial>,
    /// Where the pin went while this pluck rang: (seconds delivered, cents off the target), straight between; empty if still.
    pub course: Vec<(f64, f64)>,
}

impl Plucked {
    /// How far the first partial lies off the target, in cents; positive is high.
    #[must_use]
    pub fn off_cents(&self) -> f64 {
        pitch::cents(self.target_hz, self.f1_hz)
    }
}

/// The truth of every pluck of the round, in the order of time.
pub(super) fn all(plan: &Plan) -> Vec<Plucked> {
    let mut truth = Vec::new();
    for (number, (step, action)) in plan.actions.iter().enumerate() {
        let Action::Strike {
            event,
            string,
            level_db,
        } = *action
        else {
            continue;
        };
        let (at_s, stood) = (plan.seconds(*step), &plan.strings[string]);
        let (strike, _) = plan.struck(event, string, at_s, level_db);
        let f0_hz = stood.f0_hz(at_s);
        let until = plan.actions[number + 1..]
            .iter()
            .find_map(|(step, action)| match action {
                Action::Hush { string: other } | Action::Strike { string: other, .. }
                    if *other == string =>
                {
                    Some(plan.seconds(*step))
                }
                _ => None,
            });
        let course = stood
            .pin
            .course(at_s, until.unwrap_or(plan.samples as f64 / plan.rate_hz));
        truth.push(Plucked {
            at_s: plan.delivered_s(at_s),
            string: stood.name.clone(),
            target_hz: stood.target_hz,
            f1_hz: f0_hz * (1.0 + stood.b).sqrt(),
            sounding_hz: f0_hz * strike.sounding_ratio(),
            f0_hz,
            b: stood.b,
            glide_cents: strike.glide.0 * CENTS,
            level_db,
            partials: strike.partials(f0_hz),
            course: course
                .into_iter()
                .map(|(at, cents)| (plan.delivered_s(at), cents))
                .collect(),
        });
    }
    truth
}
