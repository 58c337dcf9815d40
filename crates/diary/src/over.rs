//! The end of a round: what it came to, in figures that need no replay.

use harp::StringName;
use serde::{Deserialize, Serialize};
use tuning::round::{Aside, Kept, State, Summary, Summed};

use crate::RecordId;
use crate::figure::Figure;
use crate::record_id::IdBody;
use crate::text::{Text, texts, values};
use crate::twin::twin;

/// What a round came to.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundOver {
    /// The record that began it.
    pub round: RecordId,
    /// Whether it was finished, or left.
    pub finished: bool,
    /// Minutes, pauses left out.
    pub minutes: f64,
    /// Strings asked for that were not done.
    pub left: u64,
    /// Strings that are to be heard again.
    pub again: Vec<StringName>,
    /// Every string, from the bass.
    pub strings: Vec<StringOver>,
}

/// What a round came to for one string.
#[derive(Clone, Debug, PartialEq)]
pub struct StringOver {
    /// The string.
    pub string: StringName,
    /// As it was found.
    pub before: Option<Kept>,
    /// As it was left.
    pub after: Option<Kept>,
    /// How many readings it was given.
    pub plucks: u64,
    /// How it stood in the end.
    pub state: State,
    /// Whether a new string was put on.
    pub fitted: bool,
}

impl RoundOver {
    /// Of a round's summary; its warnings are left out, as a replay gives them.
    pub fn of(round: RecordId, finished: bool, summary: &Summary) -> Self {
        Self {
            round,
            finished,
            minutes: summary.minutes,
            left: summary.left as u64,
            again: summary.again.clone(),
            strings: summary.strings.iter().map(StringOver::of).collect(),
        }
    }
}

impl StringOver {
    /// Of its part of a round's summary.
    pub(crate) fn of(summed: &Summed) -> Self {
        let &Summed {
            string,
            before,
            after,
            plucks,
            state,
            fitted,
        } = summed;
        Self {
            string,
            before,
            after,
            plucks: plucks as u64,
            state,
            fitted,
        }
    }
}

twin! {
    /// How a string stands.
    StateBody is State {
        NotYetHeard = "not_yet_heard",
        BeforeKnown = "before_known",
        Moving = "moving",
        InTune = "in_tune",
        InTuneByEar = "in_tune_by_ear",
        Near = "near",
        Skipped = "skipped",
        Broken = "broken",
        New = "new",
        Again = "again",
    }
}

twin! {
    /// Why a reading is of something else than the string in its position.
    AsideBody is Aside { Position = "position", OldString = "old_string" }
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct OverBody {
    round: IdBody,
    finished: bool,
    minutes: Figure,
    left: u64,
    again: Vec<Text<StringName>>,
    strings: Vec<StringBody>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct StringBody {
    string: Text<StringName>,
    before: Option<KeptBody>,
    after: Option<KeptBody>,
    plucks: u64,
    state: StateBody,
    fitted: bool,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct KeptBody {
    at_s: Figure,
    target_hz: Figure,
    heard_hz: Figure,
    off_cents: Figure,
    u95_cents: Figure,
    // left out by the first programs, and where the fit gave none
    #[serde(default, skip_serializing_if = "Option::is_none")]
    b: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    t60_s: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    level_dbfs: Option<Figure>,
    aside: Option<AsideBody>,
}

impl From<&RoundOver> for OverBody {
    fn from(over: &RoundOver) -> Self {
        let strings = over.strings.iter().map(|s| StringBody {
            string: Text(s.string),
            before: s.before.map(KeptBody::from),
            after: s.after.map(KeptBody::from),
            plucks: s.plucks,
            state: s.state.into(),
            fitted: s.fitted,
        });
        Self {
            round: (&over.round).into(),
            finished: over.finished,
            minutes: Figure(over.minutes),
            left: over.left,
            again: texts(&over.again),
            strings: strings.collect(),
        }
    }
}

impl From<OverBody> for RoundOver {
    fn from(body: OverBody) -> Self {
        let strings = body.strings.into_iter().map(|s| StringOver {
            string: s.string.0,
            before: s.before.map(Kept::from),
            after: s.after.map(Kept::from),
            plucks: s.plucks,
            state: s.state.into(),
            fitted: s.fitted,
        });
        Self {
            round: body.round.into(),
            finished: body.finished,
            minutes: body.minutes.0,
            left: body.left,
            again: values(body.again),
            strings: strings.collect(),
        }
    }
}

impl From<Kept> for KeptBody {
    fn from(kept: Kept) -> Self {
        let Kept {
            at_s,
            target_hz,
            heard_hz,
            off_cents,
            u95_cents,
            b,
            t60_s,
            level_dbfs,
            aside,
        } = kept;
        Self {
            at_s: Figure(at_s),
            target_hz: Figure(target_hz),
            heard_hz: Figure(heard_hz),
            off_cents: Figure(off_cents),
            u95_cents: Figure(u95_cents),
            b: b.map(Figure),
            t60_s: t60_s.map(Figure),
            level_dbfs: level_dbfs.map(Figure),
            aside: aside.map(AsideBody::from),
        }
    }
}

impl From<KeptBody> for Kept {
    fn from(body: KeptBody) -> Self {
        Self {
            at_s: body.at_s.0,
            target_hz: body.target_hz.0,
            heard_hz: body.heard_hz.0,
            off_cents: body.off_cents.0,
            u95_cents: body.u95_cents.0,
            b: body.b.map(|b| b.0),
            t60_s: body.t60_s.map(|t60_s| t60_s.0),
            level_dbfs: body.level_dbfs.map(|level| level.0),
            aside: body.aside.map(Aside::from),
        }
    }
}
