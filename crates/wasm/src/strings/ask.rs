//! What the page says with every question: which harp, now, and her intervals.

use std::borrow::Cow;

use diary::{At, HarpKnown, Known, Moment};
use harp::Harp;
use keep::{Interval, Intervals, Mark, Use};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use super::nothing_known;
use crate::harp_choice::{ChoiceError, HarpChoice};
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// How the harp is played.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum UseChoice {
    /// Every day, for a living.
    Professional,
    /// Less.
    Student,
}

/// An interval as she set it, years.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct HerInterval {
    /// From this age on it may be time.
    pub from_years: f64,
    /// At this age it is.
    pub to_years: f64,
}

/// Her intervals; where she set none, those of her use.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct HerIntervals {
    /// How the harp is played.
    pub used: UseChoice,
    /// Octaves 0 to 2.
    pub top: Option<HerInterval>,
    /// Below, but no wire.
    pub middle: Option<HerInterval>,
    /// Wires.
    pub wire: Option<HerInterval>,
}

/// What comes with every question.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StringsAsk {
    /// The harp's name in the diary; none: the chosen harp's.
    pub name: Option<String>,
    /// The harp that was chosen.
    pub choice: HarpChoice,
    /// Now, RFC 3339, UTC.
    pub now: String,
    /// Her intervals.
    pub intervals: HerIntervals,
    /// How it is shown.
    pub shown: ShownChoice,
}

/// Why it cannot be answered.
#[derive(Debug, thiserror::Error)]
pub(super) enum AskError {
    #[error(transparent)]
    Choice(#[from] ChoiceError),
    #[error(transparent)]
    At(#[from] diary::AtError),
    #[error(transparent)]
    Harp(#[from] harp::HarpError),
    #[error(transparent)]
    String(#[from] harp::StringNameError),
    #[error(transparent)]
    Pitch(#[from] pitch::ReferenceError),
}

/// The same with what is known.
pub(super) struct Asked<'a> {
    pub(super) known: &'a Known,
    pub(super) own: Cow<'a, HarpKnown>,
    pub(super) harp: Harp,
    pub(super) now: Moment,
    pub(super) intervals: Intervals,
    pub(super) voice: Voice,
}

impl<'a> Asked<'a> {
    pub(super) fn of(ask: &StringsAsk, known: &'a Known) -> Result<Asked<'a>, AskError> {
        let at: At = ask.now.parse()?;
        let name = ask.name.clone().unwrap_or_else(|| ask.choice.name());
        let kept = known.harp(&name);
        let file = kept.and_then(|own| own.toml.as_deref());
        let harp = match file.and_then(|file| Harp::from_toml(file).ok()) {
            Some(harp) => harp,
            None => ask.choice.harp()?,
        };
        let own = match kept {
            Some(kept) => Cow::Borrowed(kept),
            None => Cow::Owned(nothing_known(&name, &harp)),
        };
        Ok(Asked {
            known,
            own,
            harp,
            now: Moment::of(&at),
            intervals: ask.intervals.intervals(),
            voice: Voice::of(&ask.shown),
        })
    }
}

impl HerIntervals {
    fn intervals(&self) -> Intervals {
        let usual = Intervals::of(match self.used {
            UseChoice::Professional => Use::Professional,
            UseChoice::Student => Use::Student,
        });
        let or = |own: Option<HerInterval>, usual: Interval| {
            let own = own.filter(|own| own.from_years > 0.0 && own.to_years.is_finite());
            own.map_or(usual, |own| Interval {
                from_years: own.from_years,
                to_years: own.to_years.max(own.from_years),
                mark: Mark::Hers,
            })
        };
        Intervals {
            top: or(self.top, usual.top),
            middle: or(self.middle, usual.middle),
            wire: or(self.wire, usual.wire),
        }
    }
}
