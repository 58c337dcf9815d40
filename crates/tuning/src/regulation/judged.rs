//! How much an error of a step weighs.

use super::StepSize;

/// Errors of a step, in cents either way. No figure for any harp is published: 3, 5 and 10 are our proposal, and hers to
/// change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Up to here a step is good.
    pub good_cents: f64,
    /// Beyond this it goes into the report.
    pub report_cents: f64,
    /// Beyond this it should not wait.
    pub urgent_cents: f64,
}

impl Default for Bounds {
    fn default() -> Self {
        Bounds {
            good_cents: 3.0,
            report_cents: 5.0,
            urgent_cents: 10.0,
        }
    }
}

/// What a step's error comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// Good, and surely enough.
    Good,
    /// Neither good nor for the report.
    Watch,
    /// Its interval is too wide to say.
    CannotSay,
    /// For the report.
    Report,
    /// For the report, and soon.
    Urgent,
}

impl Weight {
    /// The words used on screens and in JSON.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Good => "good",
            Self::Watch => "watch",
            Self::CannotSay => "cannot say",
            Self::Report => "report",
            Self::Urgent => "urgent",
        }
    }
}

impl Bounds {
    /// What a step comes to: an error counts only where its whole interval lies on one side of the bound
    /// below which it would be good.
    ///
    /// ```
    /// use tuning::regulation::{Bounds, StepSize, Weight};
    /// let step = |error_cents, u95_cents| StepSize { cents: 100.0 + error_cents, error_cents, u95_cents };
    /// let bounds = Bounds::default();
    /// assert_eq!(bounds.weigh(&step(-2.0, 1.0)), Weight::Good);
    /// assert_eq!(bounds.weigh(&step(4.0, 0.5)), Weight::Watch);
    /// assert_eq!(bounds.weigh(&step(7.0, 2.0)), Weight::Report);
    /// assert_eq!(bounds.weigh(&step(-14.0, 2.0)), Weight::Urgent);
    /// assert_eq!(bounds.weigh(&step(7.0, 9.0)), Weight::CannotSay);
    /// ```
    pub fn weigh(&self, step: &StepSize) -> Weight {
        let error = step.error_cents.abs();
        let surely_out = error - step.u95_cents > self.good_cents;
        if error > self.urgent_cents && surely_out {
            Weight::Urgent
        } else if error > self.report_cents && surely_out {
            Weight::Report
        } else if error + step.u95_cents <= self.report_cents && error <= self.good_cents {
            Weight::Good
        } else if error + step.u95_cents <= self.urgent_cents && error <= self.report_cents {
            Weight::Watch
        } else {
            Weight::CannotSay
        }
    }
}
