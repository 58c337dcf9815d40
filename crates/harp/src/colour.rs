//! The colours by which a player finds her strings.

use pitch::Letter;

use crate::{HarpKind, StringName};

/// Colour of a string as the player sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Colour {
    /// Red: every C, a wire too (tinted).
    Red,
    /// Black or dark blue: every F, a wire too (tinted).
    Dark,
    /// A bare or wound wire that is neither C nor F.
    Metallic,
    /// White or clear.
    Plain,
}

impl Colour {
    /// The word used in files: `red`, `dark`, `metallic`, `plain`.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Red => "red",
            Self::Dark => "dark",
            Self::Metallic => "metallic",
            Self::Plain => "plain",
        }
    }

    /// The colour of a string: C red, F dark, wires metallic, others plain (common practice,
    /// several sources). An instrument that is not a harp has no colours.
    pub(crate) fn of(kind: HarpKind, name: StringName, wire: bool) -> Self {
        match name.letter {
            _ if kind == HarpKind::Free => Self::Plain,
            Letter::C => Self::Red,
            Letter::F => Self::Dark,
            _ if wire => Self::Metallic,
            _ => Self::Plain,
        }
    }
}
