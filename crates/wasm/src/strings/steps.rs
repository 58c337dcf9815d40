//! The steps of putting a string on, in the reader's words.

use harp::HarpString;
use keep::{caution, mark_words, restringing, step_words};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use crate::shown::Voice;

/// A step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StepView {
    /// What is done.
    pub words: String,
    /// What can hurt, or break.
    pub cautions: Vec<String>,
    /// Minutes to wait afterwards.
    pub wait_minutes: f64,
    /// What the pitch to stop at and the wait are worth, where there is one.
    pub worth: Option<String>,
    /// Whether the string is on after it, and is written.
    pub writes: bool,
}

pub(super) fn of(string: &HarpString, voice: &Voice) -> Vec<StepView> {
    let steps = restringing(string).into_iter().map(|step| StepView {
        words: step_words(step.kind, voice.tongue).to_owned(),
        cautions: (step.cautions.iter())
            .map(|one| caution(*one, voice.tongue).to_owned())
            .collect(),
        wait_minutes: step.wait_minutes,
        worth: (step.stop_semitones).map(|_| mark_words(step.mark, voice.tongue).to_owned()),
        writes: step.kind == keep::StepKind::Write,
    });
    steps.collect()
}
