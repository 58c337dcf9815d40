//! One thing said in a round, as programs read it.

use harp::StringName;
use serde::Serialize;
use tuning::Direction;
use tuning::round::Say;

/// Something said: which of the things that can be said, whom it is about, and its sentence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the fields are those of tuning::round::Say")]
pub struct SayLine {
    pub at_s: f64,
    pub say: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub string: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub strings: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub way: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amount: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by_cents: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off_cents: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u95_cents: Option<f64>,
    pub words: String,
}

/// What was said at `at_s`, with its sentence.
pub(super) fn say_line(at_s: f64, say: &Say, words: String) -> SayLine {
    let (off_cents, u95_cents) = figures(say).unzip();
    let turn = match say {
        Say::Turn(turn) => Some(turn),
        _ => None,
    };
    SayLine {
        at_s,
        say: say_word(say),
        string: about(say).map(|s| s.to_string()),
        strings: about_several(say),
        way: turn.map(|t| way_word(t.way)),
        amount: turn.map(|t| t.amount.as_str()),
        by_cents: turn.map(|t| t.by_cents),
        off_cents,
        u95_cents,
        words,
    }
}

/// How far off, and half of its interval, in cents.
fn figures(say: &Say) -> Option<(f64, f64)> {
    match say {
        Say::Turn(turn) => Some((turn.off_cents, turn.u95_cents)),
        Say::Sounds {
            off_cents,
            u95_cents,
            ..
        }
        | Say::InTune {
            off_cents,
            u95_cents,
            ..
        }
        | Say::Near {
            off_cents,
            u95_cents,
            ..
        }
        | Say::ReachedForNow {
            off_cents,
            u95_cents,
            ..
        } => Some((*off_cents, *u95_cents)),
        _ => None,
    }
}

/// The one string that it is about.
fn about(say: &Say) -> Option<StringName> {
    match say {
        Say::Turn(turn) => Some(turn.string),
        Say::NotRead { string, .. } => *string,
        Say::Sounds { string, .. }
        | Say::InTune { string, .. }
        | Say::Near { string, .. }
        | Say::ReachedForNow { string, .. }
        | Say::Next { string, .. }
        | Say::PluckStill(string)
        | Say::Enough(string)
        | Say::Holds(string)
        | Say::WillStand(string, _)
        | Say::Broke(string, _)
        | Say::Pinned(string)
        | Say::Skipped(string)
        | Say::Undone(string)
        | Say::ByEar(string)
        | Say::OnPurpose(string)
        | Say::NotHere(string) => Some(*string),
        _ => None,
    }
}

/// The strings that it is about, where it is about several.
fn about_several(say: &Say) -> Vec<String> {
    match say {
        Say::AskPitch(strings) | Say::Which(strings) | Say::Again { strings, .. } => names(strings),
        Say::Offer(offered) => offered.iter().map(|(s, _)| s.to_string()).collect(),
        _ => Vec::new(),
    }
}

/// The word for each of the things that can be said.
fn say_word(say: &Say) -> &'static str {
    match say {
        Say::Begun { .. } => "begun",
        Say::SecondBest { .. } => "second best",
        Say::AskPitch(_) => "which pitch",
        Say::Next { .. } => "next",
        Say::Left { .. } => "left",
        Say::Sounds { .. } => "sounds",
        Say::Turn(_) => "turn",
        Say::InTune { .. } => "in tune",
        Say::Near { .. } => "near, cannot say",
        Say::PluckStill(_) => "pluck still",
        Say::Which(_) => "which string",
        Say::NotRead { .. } => "not read",
        Say::Sound(_) => "sound",
        Say::Moving { .. } => "moving",
        Say::Enough(_) => "enough",
        Say::Warning(_) => "warning",
        Say::ReachedForNow { .. } => "there for now",
        Say::Holds(_) => "holds",
        Say::Again { .. } => "again",
        Say::Offer(_) => "offer",
        Say::WillStand(..) => "will stand",
        Say::Broke(..) => "broke",
        Say::Pinned(_) => "this one",
        Say::LetGo => "any string",
        Say::Skipped(_) => "skipped",
        Say::Undone(_) => "undone",
        Say::ByEar(_) => "by ear",
        Say::OnPurpose(_) => "on purpose",
        Say::NotHere(_) => "not here",
        Say::Paused => "paused",
        Say::Resumed => "resumed",
        Say::TheA { .. } => "the A",
        Say::NoA(_) => "no A",
        Say::AskTechnician(_) => "ask your technician",
        Say::Uses(_) => "uses",
        Say::AllHeard => "all heard",
        Say::Finished => "finished",
    }
}

pub(super) fn way_word(way: Direction) -> &'static str {
    match way {
        Direction::Up => "up",
        Direction::Down => "down",
        Direction::There => "there",
    }
}

pub(super) fn names(strings: &[StringName]) -> Vec<String> {
    strings.iter().map(StringName::to_string).collect()
}
