//! A disc, a lever or a pedal that does not do its work.

use harp::StringName;
use pitch::{Alteration, Letter};
use serde::{Deserialize, Serialize};

use crate::Day;
use crate::reading::side;
use crate::text::{as_text, maybe_text};

/// A part is at fault, or mended: the last record of a part holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fault {
    /// The name of the harp.
    pub harp: String,
    /// Which part.
    pub part: Part,
    /// What it does; `None`: it is mended.
    pub does: Option<Does>,
    /// The day, where it is another than that of the record.
    #[serde(with = "maybe_text")]
    pub on: Option<Day>,
    /// What she wrote beside it.
    pub note: String,
}

/// A part of the mechanism.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(tag = "part")]
pub enum Part {
    /// A disc.
    #[serde(rename = "disc")]
    Disc {
        /// The string.
        #[serde(with = "as_text")]
        string: StringName,
        /// The position that it makes: natural or sharp.
        #[serde(with = "side")]
        position: Alteration,
    },
    /// A lever.
    #[serde(rename = "lever")]
    Lever {
        /// The string.
        #[serde(with = "as_text")]
        string: StringName,
    },
    /// A pedal.
    #[serde(rename = "pedal")]
    Pedal {
        /// Its letter.
        #[serde(with = "crate::act::letter")]
        letter: Letter,
    },
}

/// What a part does that it should not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Does {
    /// It does not hold or does not move: it cannot be used.
    #[serde(rename = "fails")]
    Fails,
    /// It makes a noise.
    #[serde(rename = "buzzes")]
    Buzzes,
    /// It lets go while it is played.
    #[serde(rename = "slips")]
    Slips,
    /// It gives the wrong pitch.
    #[serde(rename = "off")]
    Off,
}

impl Part {
    /// The string that it belongs to; `None` for a pedal.
    pub fn string(&self) -> Option<StringName> {
        match self {
            Part::Disc { string, .. } | Part::Lever { string } => Some(*string),
            Part::Pedal { .. } => None,
        }
    }
}
