//! A whole instrument: its kind and its strings from the bass to the treble.

mod given;

use std::collections::BTreeMap;
use std::fmt;

use pitch::Letter;

use crate::discless::DISCLESS_BY_DEFAULT;
use crate::{
    BUILT_IN, Colour, Figures, HarpError, HarpString, Material, Mechanism, OpenTuning, StringName,
};

/// What the player changes the pitch with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum HarpKind {
    /// Seven pedals and two discs a string.
    Pedal,
    /// A lever a string.
    Lever,
    /// Neither: any instrument, a string for every semitone.
    Free,
}

impl HarpKind {
    /// The word used in files: `pedal`, `lever`, `free`.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Pedal => "pedal",
            Self::Lever => "lever",
            Self::Free => "free",
        }
    }
}

impl fmt::Display for HarpKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Pedal => "pedal harp",
            Self::Lever => "lever harp",
            Self::Free => "free instrument",
        })
    }
}

/// A harp: its strings from the bass to the treble and how they are moved.
///
/// ```
/// use harp::{Harp, HarpKind};
/// let harp = Harp::between(HarpKind::Lever, "C2".parse()?, "A6".parse()?)?;
/// assert_eq!(harp.strings().len(), 34);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Harp {
    name: Option<String>,
    kind: HarpKind,
    open: Option<OpenTuning>,
    strings: Vec<HarpString>,
    materials: BTreeMap<Material, Figures>,
    pin_radius_mm: Option<f64>,
}

impl Harp {
    /// A harp known by name: one of [`BUILT_IN`].
    ///
    /// ```
    /// assert_eq!(harp::Harp::named("semitones")?.strings().len(), 82);
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn named(name: &str) -> Result<Self, HarpError> {
        let unknown = || HarpError::UnknownHarp {
            name: name.to_owned(),
        };
        let found = BUILT_IN
            .iter()
            .find(|built_in| built_in.name == name)
            .ok_or_else(unknown)?;
        Self::between(found.kind, found.lowest, found.highest)
    }

    /// A harp from its lowest to its highest string, a string for every letter; an instrument of
    /// kind [`HarpKind::Free`] has one for every semitone. A pedal harp lacks discs on
    /// [`DISCLESS_BY_DEFAULT`], a lever harp has every lever and stands open in E flat.
    pub fn between(
        kind: HarpKind,
        lowest: StringName,
        highest: StringName,
    ) -> Result<Self, HarpError> {
        if lowest > highest {
            return Err(HarpError::UpsideDown { lowest, highest });
        }
        let semitones = kind == HarpKind::Free;
        let mut names = Vec::new();
        let mut name = lowest;
        while name <= highest {
            names.push(name);
            name = if semitones {
                next_semitone(name)
            } else {
                name.next_letter()
            };
        }
        if !semitones && let Some(&string) = [lowest, highest].iter().find(|name| name.sharp) {
            return Err(HarpError::Semitone { string });
        }
        Self::of_strings(kind, names)
    }

    /// A harp of exactly these strings, in any order, each once.
    pub fn of_strings(kind: HarpKind, given: Vec<StringName>) -> Result<Self, HarpError> {
        let mut names: Vec<StringName> = Vec::with_capacity(given.len());
        for name in given {
            names.insert(names.partition_point(|other| *other <= name), name);
        }
        if let Some(pair) = names.windows(2).find(|pair| pair[0] == pair[1]) {
            return Err(HarpError::Duplicate { string: pair[0] });
        }
        if kind != HarpKind::Free
            && let Some(&string) = names.iter().find(|name| name.sharp)
        {
            return Err(HarpError::Semitone { string });
        }
        let strings = names
            .into_iter()
            .map(|name| new_string(kind, name))
            .collect();
        let open = match kind {
            HarpKind::Pedal => Some(OpenTuning::Cb),
            HarpKind::Lever => Some(OpenTuning::Eb),
            HarpKind::Free => None,
        };
        Ok(Self {
            name: None,
            kind,
            open,
            strings,
            materials: BTreeMap::new(),
            pin_radius_mm: None,
        })
    }

    /// The strings from the bass to the treble.
    pub fn strings(&self) -> &[HarpString] {
        &self.strings
    }

    /// What moves its pitch.
    pub fn kind(&self) -> HarpKind {
        self.kind
    }

    /// The key in which it stands open, unless a [`crate::Setup`] says another.
    pub fn open_tuning(&self) -> Option<OpenTuning> {
        self.open
    }

    /// The string of a name, if this harp has it.
    pub fn string(&self, name: StringName) -> Option<&HarpString> {
        self.strings.iter().find(|string| string.name == name)
    }

    /// The same harp standing open in another key: a pedal harp only in C flat, a lever harp in
    /// any but that.
    pub fn with_open(mut self, open: OpenTuning) -> Result<Self, HarpError> {
        self.check_open(open)?;
        self.open = Some(open);
        Ok(self)
    }

    /// The same harp with exactly these strings moved by nothing: without discs on a pedal harp,
    /// without a lever on a lever harp; every other string has its mechanism. An instrument of
    /// kind [`HarpKind::Free`] has none to begin with and stays as it is.
    pub fn with_unmoved(mut self, unmoved: &[StringName]) -> Result<Self, HarpError> {
        if let Some(&string) = unmoved.iter().find(|&&name| self.string(name).is_none()) {
            return Err(HarpError::NoSuchString { string });
        }
        for string in &mut self.strings {
            let moved = !unmoved.contains(&string.name);
            string.mechanism = if moved {
                mechanism(self.kind)
            } else {
                Mechanism::Nothing
            };
        }
        Ok(self)
    }

    /// The same harp with these strings missing.
    ///
    /// ```
    /// let string = harp::StringName::new(pitch::Letter::A, 2);
    /// let harp = harp::Harp::named("pedal47")?.without(&[string])?;
    /// assert_eq!((harp.strings().len(), harp.string(string)), (46, None));
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn without(&self, missing: &[StringName]) -> Result<Self, HarpError> {
        if let Some(&string) = missing.iter().find(|&&name| self.string(name).is_none()) {
            return Err(HarpError::NoSuchString { string });
        }
        let mut left = self.clone();
        left.strings
            .retain(|string| !missing.contains(&string.name));
        Ok(left)
    }

    pub(crate) fn check_open(&self, open: OpenTuning) -> Result<(), HarpError> {
        let fits = match self.kind {
            HarpKind::Pedal => open == OpenTuning::Cb,
            HarpKind::Lever => open != OpenTuning::Cb,
            HarpKind::Free => false,
        };
        if fits {
            Ok(())
        } else {
            Err(HarpError::OpenTuning {
                kind: self.kind,
                open,
            })
        }
    }
}

/// The highest of the usual twelve wires of a pedal harp.
const HIGHEST_WIRE: StringName = StringName {
    letter: Letter::G,
    sharp: false,
    octave: 2,
};

fn new_string(kind: HarpKind, name: StringName) -> HarpString {
    let wire = is_usual_wire(kind, name);
    let discless = kind == HarpKind::Pedal && DISCLESS_BY_DEFAULT.contains(&name);
    HarpString {
        name,
        mechanism: if discless {
            Mechanism::Nothing
        } else {
            mechanism(kind)
        },
        colour: Colour::of(kind, name, wire),
        wire,
        figures: Figures::default(),
    }
}

fn is_usual_wire(kind: HarpKind, name: StringName) -> bool {
    kind == HarpKind::Pedal && name <= HIGHEST_WIRE
}

fn mechanism(kind: HarpKind) -> Mechanism {
    match kind {
        HarpKind::Pedal => Mechanism::Discs,
        HarpKind::Lever => Mechanism::Lever,
        HarpKind::Free => Mechanism::Nothing,
    }
}

fn next_semitone(name: StringName) -> StringName {
    if name.sharp || matches!(name.letter, Letter::E | Letter::B) {
        name.next_letter()
    } else {
        StringName {
            sharp: true,
            ..name
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(name: &str, strings: usize, lowest: &str, highest: &str, discless: &[&str]) {
        let harp = Harp::named(name).unwrap();
        let names: Vec<_> = harp.strings().iter().map(|s| s.name.to_string()).collect();
        assert_eq!(names.len(), strings, "{name}");
        assert_eq!(names.first().map(String::as_str), Some(lowest), "{name}");
        assert_eq!(names.last().map(String::as_str), Some(highest), "{name}");
        let unmoved = harp
            .strings()
            .iter()
            .filter(|s| s.mechanism == Mechanism::Nothing);
        let unmoved: Vec<_> = unmoved.map(|s| s.name.to_string()).collect();
        if harp.kind() != HarpKind::Free {
            assert_eq!(unmoved, discless, "{name}");
        }
    }

    #[test]
    fn every_harp_known_by_name_has_its_strings() {
        check("pedal47", 47, "C1", "G7", &["C1", "D1", "G7"]);
        check("pedal46", 46, "D1", "G7", &["D1", "G7"]);
        check("pedal44", 44, "D1", "E7", &["D1"]);
        check("pedal40", 40, "A1", "E7", &[]);
        check("lever38", 38, "A1", "C7", &[]);
        check("lever36", 36, "C2", "C7", &[]);
        check("lever34", 34, "C2", "A6", &[]);
        check("lever26", 26, "C3", "G6", &[]);
        check("lever22", 22, "C3", "C6", &[]);
        check("semitones", 82, "B0", "G#7", &[]);
    }

    #[test]
    fn the_colours_are_those_of_a_harp() {
        let harp = Harp::named("pedal47").unwrap();
        let colour = |name: &str| harp.string(name.parse().unwrap()).unwrap().colour;
        assert_eq!(colour("C4"), Colour::Red);
        assert_eq!(colour("C1"), Colour::Red);
        assert_eq!(colour("F5"), Colour::Dark);
        assert_eq!(colour("G2"), Colour::Metallic);
        assert_eq!(colour("A2"), Colour::Plain);
        assert_eq!(
            harp.strings().iter().filter(|string| string.wire).count(),
            12
        );
    }

    #[test]
    fn a_harp_that_cannot_be_is_refused_and_says_why() {
        let name = |text: &str| text.parse::<StringName>().unwrap();
        let error = Harp::named("pedal48").unwrap_err().to_string();
        assert!(
            error.contains("'pedal48'") && error.contains("pedal47"),
            "{error}"
        );
        assert!(Harp::between(HarpKind::Pedal, name("C4"), name("C3")).is_err());
        assert!(Harp::between(HarpKind::Lever, name("C3"), name("F#5")).is_err());
        let twice = Harp::of_strings(HarpKind::Lever, vec![name("C4"), name("4C")]);
        assert_eq!(twice, Err(HarpError::Duplicate { string: name("C4") }));
    }
}
