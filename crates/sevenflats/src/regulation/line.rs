//! What programs read of a check: a line for each string, and a last one.

use serde::{Deserialize, Serialize};
use tuning::regulation::{Regulated, Step, StepSize};

/// One line of `sevenflats regulation --json`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub enum CheckLine {
    /// Something said while the check goes on.
    Say {
        /// Seconds of the sound.
        at_s: f64,
        /// In words.
        words: String,
    },
    /// What was found of one string.
    String(Box<StringLine>),
    /// The last line.
    Summary {
        /// The reference pitch, in hertz.
        a4_hz: f64,
        /// Strings that were checked.
        strings: usize,
        /// Plucks that were still to come.
        left: usize,
        /// Steps for the technician.
        report: usize,
    },
}

/// A string's steps, in cents; `null` where a step is not there or was not read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StringLine {
    /// The string, as files name it.
    pub string: String,
    /// The open string against its target.
    pub open_cents: Option<f64>,
    /// How far each step goes.
    pub step_cents: Steps,
    /// How much further than a semitone; both together than two.
    pub error_cents: StepsAndSum,
    /// Half of the 95 % interval of each error.
    pub u95_cents: StepsAndSum,
    /// The widest difference between readings in one position.
    pub own_cents: Option<f64>,
    /// What weighs most: whose the fault is, `new` where the string is too new to be judged, `null` where there is none.
    pub cause: Option<String>,
    /// How much each step weighs: good, watch, cannot say, report, urgent.
    pub weight: Words,
    /// The cause at each step.
    pub causes: Words,
}

/// A figure for each step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "named for where the step leads to")]
pub struct Steps {
    pub natural: Option<f64>,
    pub sharp: Option<f64>,
}

/// A figure for each step, and for both together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "named for where the step leads to")]
pub struct StepsAndSum {
    pub natural: Option<f64>,
    pub sharp: Option<f64>,
    pub sum: Option<f64>,
}

/// A word for each step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "named for where the step leads to")]
pub struct Words {
    pub natural: Option<String>,
    pub sharp: Option<String>,
}

impl From<&Regulated> for StringLine {
    fn from(one: &Regulated) -> Self {
        let of = |figure: fn(&StepSize) -> f64| StepsAndSum {
            natural: one.natural.as_ref().map(figure),
            sharp: one.sharp.as_ref().map(figure),
            sum: one.sum.as_ref().map(figure),
        };
        let found = |step| one.found.get(&step);
        let words = |word: fn(&tuning::regulation::Found) -> Option<&'static str>| Words {
            natural: found(Step::Natural).and_then(word).map(str::to_owned),
            sharp: found(Step::Sharp).and_then(word).map(str::to_owned),
        };
        let worst = one.worst().and_then(|(_, found)| found.cause);
        StringLine {
            string: one.string.to_string(),
            open_cents: one.open_cents,
            step_cents: Steps {
                natural: one.natural.as_ref().map(|step| step.cents),
                sharp: one.sharp.as_ref().map(|step| step.cents),
            },
            error_cents: of(|step| step.error_cents),
            u95_cents: of(|step| step.u95_cents),
            own_cents: one.own_cents,
            cause: match one.new {
                true => Some("new".to_owned()),
                false => worst.map(|cause| cause.as_str().to_owned()),
            },
            weight: words(|found| Some(found.weight.as_str())),
            causes: words(|found| found.cause.map(|cause| cause.as_str())),
        }
    }
}
