//! What came out of the ear, as records hold it.

use harp::StringName;
use pitch::Alteration;
use serde::{Deserialize, Serialize};
use tuning::{Direction, Partial, Reading, Reason, Refused, Warning, WarningKind};

use crate::figure::Figure;
use crate::text::{Text, texts, values};
use crate::twin::{twin, with_twin};

twin! {
    /// Where a string stands against its letter.
    Side is Alteration { Flat = "flat", Natural = "natural", Sharp = "sharp" }
}

with_twin! {
    /// For fields of other records.
    side: Side as Alteration
}

twin! {
    /// Which way a string has to go.
    Way is Direction { Up = "up", Down = "down", There = "there" }
}

twin! {
    /// Why a pluck was refused.
    WhyRefused is Reason {
        TooShort = "too_short",
        TwoStrings = "two_strings",
        TooNoisy = "too_noisy",
        AudioBroke = "audio_broke",
        NoString = "no_string",
        NotSure = "not_sure",
    }
}

twin! {
    /// What is wrong with the sound.
    SoundTrouble is WarningKind { AudioBroke = "audio_broke", Clipped = "clipped" }
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct ReadingBody {
    last: bool,
    at_s: Figure,
    string: Option<Text<StringName>>,
    candidates: Vec<Text<StringName>>,
    position: Option<Side>,
    target_hz: Figure,
    heard_hz: Figure,
    off_cents: Figure,
    u95_cents: Figure,
    shows_as: String,
    shows_off_cents: Figure,
    f1_hz: Figure,
    f1_u95_cents: Figure,
    f0_hz: Figure,
    b: Figure,
    glide_cents: Figure,
    partials: Vec<PartialBody>,
    listened_s: Figure,
    string_certainty: Figure,
    direction: Option<Way>,
    stiffness_cents: Figure,
    // left out by the first programs
    #[serde(default, skip_serializing_if = "Option::is_none")]
    t60_s: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    level_dbfs: Option<Figure>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct PartialBody {
    n: u32,
    hz: Figure,
    u95_cents: Figure,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct RefusedBody {
    at_s: Figure,
    string: Option<Text<StringName>>,
    reason: WhyRefused,
    detail: String,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct WarningBody {
    at_s: Figure,
    string: Option<Text<StringName>>,
    warning: SoundTrouble,
    detail: String,
}

// taken apart by name, so that a field that is added there cannot be forgotten here
impl From<&Reading> for ReadingBody {
    fn from(reading: &Reading) -> Self {
        let Reading {
            last,
            at_s,
            string,
            candidates,
            position,
            target_hz,
            heard_hz,
            off_cents,
            u95_cents,
            shows_as,
            shows_off_cents,
            f1_hz,
            f1_u95_cents,
            f0_hz,
            b,
            glide_cents,
            partials,
            listened_s,
            string_certainty,
            direction,
            stiffness_cents,
            t60_s,
            level_dbfs,
        } = reading;
        Self {
            last: *last,
            at_s: Figure(*at_s),
            string: string.map(Text),
            candidates: texts(candidates),
            position: position.map(Side::from),
            target_hz: Figure(*target_hz),
            heard_hz: Figure(*heard_hz),
            off_cents: Figure(*off_cents),
            u95_cents: Figure(*u95_cents),
            shows_as: shows_as.clone(),
            shows_off_cents: Figure(*shows_off_cents),
            f1_hz: Figure(*f1_hz),
            f1_u95_cents: Figure(*f1_u95_cents),
            f0_hz: Figure(*f0_hz),
            b: Figure(*b),
            glide_cents: Figure(*glide_cents),
            partials: partials.iter().map(PartialBody::from).collect(),
            listened_s: Figure(*listened_s),
            string_certainty: Figure(*string_certainty),
            direction: direction.map(Way::from),
            stiffness_cents: Figure(*stiffness_cents),
            t60_s: t60_s.map(Figure),
            level_dbfs: level_dbfs.map(Figure),
        }
    }
}

impl From<ReadingBody> for Reading {
    fn from(body: ReadingBody) -> Self {
        Self {
            last: body.last,
            at_s: body.at_s.0,
            string: body.string.map(|string| string.0),
            candidates: values(body.candidates),
            position: body.position.map(Alteration::from),
            target_hz: body.target_hz.0,
            heard_hz: body.heard_hz.0,
            off_cents: body.off_cents.0,
            u95_cents: body.u95_cents.0,
            shows_as: body.shows_as,
            shows_off_cents: body.shows_off_cents.0,
            f1_hz: body.f1_hz.0,
            f1_u95_cents: body.f1_u95_cents.0,
            f0_hz: body.f0_hz.0,
            b: body.b.0,
            glide_cents: body.glide_cents.0,
            partials: body.partials.into_iter().map(Partial::from).collect(),
            listened_s: body.listened_s.0,
            string_certainty: body.string_certainty.0,
            direction: body.direction.map(Direction::from),
            stiffness_cents: body.stiffness_cents.0,
            t60_s: body.t60_s.map(|t60_s| t60_s.0),
            level_dbfs: body.level_dbfs.map(|level| level.0),
        }
    }
}

impl From<&Partial> for PartialBody {
    fn from(&Partial { n, hz, u95_cents }: &Partial) -> Self {
        Self {
            n,
            hz: Figure(hz),
            u95_cents: Figure(u95_cents),
        }
    }
}

impl From<PartialBody> for Partial {
    fn from(body: PartialBody) -> Self {
        Self {
            n: body.n,
            hz: body.hz.0,
            u95_cents: body.u95_cents.0,
        }
    }
}

impl From<&Refused> for RefusedBody {
    fn from(refused: &Refused) -> Self {
        let Refused {
            at_s,
            string,
            reason,
            detail,
        } = refused;
        Self {
            at_s: Figure(*at_s),
            string: string.map(Text),
            reason: WhyRefused::from(*reason),
            detail: detail.clone(),
        }
    }
}

impl From<RefusedBody> for Refused {
    fn from(body: RefusedBody) -> Self {
        Self {
            at_s: body.at_s.0,
            string: body.string.map(|string| string.0),
            reason: body.reason.into(),
            detail: body.detail,
        }
    }
}

impl From<&Warning> for WarningBody {
    fn from(told: &Warning) -> Self {
        let Warning {
            at_s,
            string,
            warning,
            detail,
        } = told;
        Self {
            at_s: Figure(*at_s),
            string: string.map(Text),
            warning: SoundTrouble::from(*warning),
            detail: detail.clone(),
        }
    }
}

impl From<WarningBody> for Warning {
    fn from(body: WarningBody) -> Self {
        Self {
            at_s: body.at_s.0,
            string: body.string.map(|string| string.0),
            warning: body.warning.into(),
            detail: body.detail,
        }
    }
}
