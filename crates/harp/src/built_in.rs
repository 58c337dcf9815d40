//! The harps that are known by name. Ranges are data: makers differ.

use pitch::Letter;

use crate::{HarpKind, StringName};

/// A harp known by name: its kind, lowest and highest string.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BuiltIn {
    /// The name by which it is asked for.
    pub name: &'static str,
    /// Its kind.
    pub kind: HarpKind,
    /// Lowest string.
    pub lowest: StringName,
    /// Highest string.
    pub highest: StringName,
}

/// Every harp known by name. The 47 and 46 strings are well attested, 44 and 40 and the lever
/// ranges are the usual ones (a single weak source or memory).
pub const BUILT_IN: [BuiltIn; 10] = [
    pedal("pedal47", (Letter::C, 1), (Letter::G, 7)),
    pedal("pedal46", (Letter::D, 1), (Letter::G, 7)),
    pedal("pedal44", (Letter::D, 1), (Letter::E, 7)),
    pedal("pedal40", (Letter::A, 1), (Letter::E, 7)),
    lever("lever38", (Letter::A, 1), (Letter::C, 7)),
    lever("lever36", (Letter::C, 2), (Letter::C, 7)),
    lever("lever34", (Letter::C, 2), (Letter::A, 6)),
    lever("lever26", (Letter::C, 3), (Letter::G, 6)),
    lever("lever22", (Letter::C, 3), (Letter::C, 6)),
    BuiltIn {
        name: "semitones",
        kind: HarpKind::Free,
        lowest: StringName {
            letter: Letter::B,
            sharp: false,
            octave: 0,
        },
        highest: StringName {
            letter: Letter::G,
            sharp: true,
            octave: 7,
        },
    },
];

const fn pedal(name: &'static str, lowest: (Letter, i8), highest: (Letter, i8)) -> BuiltIn {
    built_in(name, HarpKind::Pedal, lowest, highest)
}

const fn lever(name: &'static str, lowest: (Letter, i8), highest: (Letter, i8)) -> BuiltIn {
    built_in(name, HarpKind::Lever, lowest, highest)
}

const fn built_in(
    name: &'static str,
    kind: HarpKind,
    lowest: (Letter, i8),
    highest: (Letter, i8),
) -> BuiltIn {
    let lowest = StringName {
        letter: lowest.0,
        sharp: false,
        octave: lowest.1,
    };
    let highest = StringName {
        letter: highest.0,
        sharp: false,
        octave: highest.1,
    };
    BuiltIn {
        name,
        kind,
        lowest,
        highest,
    }
}
