//! A round's beginning, as records hold it.

use std::collections::BTreeMap;

use harp::{OpenTuning, Position, Setting, Setup, StringName};
use pitch::{Letter, ReferencePitch, SpelledPitch};
use serde::{Deserialize, Serialize};
use tuning::round::{Order, Tolerance};

use super::RoundBegun;
use crate::figure::Figure;
use crate::text::{Text, texts, values};
use crate::twin::twin;

twin! {
    /// The open key.
    OpenBody is OpenTuning { Cb = "Cb", Eb = "Eb", C = "C", F = "F", Ab = "Ab" }
}

twin! {
    /// Where all pedals or levers stand.
    PositionBody is Position { Open = "open", Natural = "natural", Sharp = "sharp" }
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct BegunBody {
    harp: String,
    toml: String,
    a4_hz: Figure,
    open: Option<OpenBody>,
    position: PositionBody,
    setting: Option<SettingBody>,
    levers: Vec<Text<StringName>>,
    discless: Vec<DisclessBody>,
    order: OrderBody,
    tolerance: ToleranceBody,
    usual_a4_hz: Option<Figure>,
    touch_up: Option<Vec<Text<StringName>>>,
    highest: Vec<HighestBody>,
    listen_s: Figure,
}

/// Semitones of the letters that are named, in the order of the pedals.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SettingBody {
    #[serde(rename = "D", skip_serializing_if = "Option::is_none")]
    d: Option<i64>,
    #[serde(rename = "C", skip_serializing_if = "Option::is_none")]
    c: Option<i64>,
    #[serde(rename = "B", skip_serializing_if = "Option::is_none")]
    b: Option<i64>,
    #[serde(rename = "E", skip_serializing_if = "Option::is_none")]
    e: Option<i64>,
    #[serde(rename = "F", skip_serializing_if = "Option::is_none")]
    f: Option<i64>,
    #[serde(rename = "G", skip_serializing_if = "Option::is_none")]
    g: Option<i64>,
    #[serde(rename = "A", skip_serializing_if = "Option::is_none")]
    a: Option<i64>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct DisclessBody {
    string: Text<StringName>,
    pitch: Text<SpelledPitch>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct HighestBody {
    string: Text<StringName>,
    hz: Figure,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct ToleranceBody {
    middle_cents: Figure,
    outer_cents: Figure,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "by")]
enum OrderBody {
    #[serde(rename = "from_middle")]
    FromMiddle { string: Text<StringName> },
    #[serde(rename = "middle_octave")]
    MiddleOctave,
    #[serde(rename = "from_bass")]
    FromBass,
    #[serde(rename = "letters")]
    Letters,
    #[serde(rename = "octaves")]
    Octaves,
    #[serde(rename = "list")]
    List { strings: Vec<Text<StringName>> },
}

impl From<&RoundBegun> for BegunBody {
    fn from(begun: &RoundBegun) -> Self {
        let Setup {
            reference,
            open,
            position,
            setting,
            levers,
            discless,
        } = &begun.setup;
        let discless = discless.iter().map(|&(string, pitch)| DisclessBody {
            string: Text(string),
            pitch: Text(pitch),
        });
        let highest = begun.highest_hz.iter().map(|&(string, hz)| HighestBody {
            string: Text(string),
            hz: Figure(hz),
        });
        let Tolerance {
            middle_cents,
            outer_cents,
        } = begun.tolerance;
        Self {
            harp: begun.harp.clone(),
            toml: begun.toml.clone(),
            a4_hz: Figure(reference.a4_hz()),
            open: open.map(OpenBody::from),
            position: (*position).into(),
            setting: setting.as_ref().map(SettingBody::from),
            levers: texts(levers),
            discless: discless.collect(),
            order: OrderBody::from(&begun.order),
            tolerance: ToleranceBody {
                middle_cents: Figure(middle_cents),
                outer_cents: Figure(outer_cents),
            },
            usual_a4_hz: begun.usual_a4_hz.map(Figure),
            touch_up: begun.touch_up.as_deref().map(texts),
            highest: highest.collect(),
            listen_s: Figure(begun.listen_s),
        }
    }
}

/// Refused, with the reason in words, where no such A or pedal exists.
impl TryFrom<BegunBody> for RoundBegun {
    type Error = String;

    fn try_from(body: BegunBody) -> Result<Self, String> {
        let reference = ReferencePitch::new(body.a4_hz.0).map_err(|error| error.to_string())?;
        let discless = body.discless.into_iter().map(|d| (d.string.0, d.pitch.0));
        Ok(Self {
            harp: body.harp,
            toml: body.toml,
            setup: Setup {
                reference,
                open: body.open.map(OpenTuning::from),
                position: body.position.into(),
                setting: body.setting.map(Setting::try_from).transpose()?,
                levers: values(body.levers),
                discless: discless.collect(),
            },
            order: body.order.into(),
            tolerance: Tolerance {
                middle_cents: body.tolerance.middle_cents.0,
                outer_cents: body.tolerance.outer_cents.0,
            },
            usual_a4_hz: body.usual_a4_hz.map(|hz| hz.0),
            touch_up: body.touch_up.map(values),
            highest_hz: (body.highest.into_iter())
                .map(|h| (h.string.0, h.hz.0))
                .collect(),
            listen_s: body.listen_s.0,
        })
    }
}

impl From<&Setting> for SettingBody {
    fn from(setting: &Setting) -> Self {
        let named = |letter| setting.get(letter).map(|a| i64::from(a.semitones()));
        Self {
            d: named(Letter::D),
            c: named(Letter::C),
            b: named(Letter::B),
            e: named(Letter::E),
            f: named(Letter::F),
            g: named(Letter::G),
            a: named(Letter::A),
        }
    }
}

impl TryFrom<SettingBody> for Setting {
    type Error = String;

    fn try_from(body: SettingBody) -> Result<Self, String> {
        let letters = BTreeMap::from([
            (Letter::D, body.d),
            (Letter::C, body.c),
            (Letter::B, body.b),
            (Letter::E, body.e),
            (Letter::F, body.f),
            (Letter::G, body.g),
            (Letter::A, body.a),
        ]);
        let named = letters.into_iter().filter_map(|(l, s)| Some((l, s?)));
        Setting::from_pairs(&named.collect::<Vec<_>>()).map_err(|error| error.to_string())
    }
}

impl From<&Order> for OrderBody {
    fn from(order: &Order) -> Self {
        match order {
            Order::FromMiddle(string) => Self::FromMiddle {
                string: Text(*string),
            },
            Order::MiddleOctave => Self::MiddleOctave,
            Order::FromBass => Self::FromBass,
            Order::Letters => Self::Letters,
            Order::Octaves => Self::Octaves,
            Order::List(strings) => Self::List {
                strings: texts(strings),
            },
        }
    }
}

impl From<OrderBody> for Order {
    fn from(body: OrderBody) -> Self {
        match body {
            OrderBody::FromMiddle { string } => Self::FromMiddle(string.0),
            OrderBody::MiddleOctave => Self::MiddleOctave,
            OrderBody::FromBass => Self::FromBass,
            OrderBody::Letters => Self::Letters,
            OrderBody::Octaves => Self::Octaves,
            OrderBody::List { strings } => Self::List(values(strings)),
        }
    }
}
