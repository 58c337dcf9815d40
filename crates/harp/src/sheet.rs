//! The sheet of strings: what each string is, should sound and bears, from given figures alone.

use pitch::{Alteration, ReferencePitch, SpelledPitch};

use crate::derived::Known;
use crate::mechanics::octave_stretch_cents;
use crate::standing::raised;
use crate::{
    Colour, Field, Figure, Harp, HarpKind, HarpString, Material, Mechanism, Setup, StringName,
};

/// What a string should sound in each alteration it can take, in Hz; a string without discs: what
/// it would sound set there by key.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Targets {
    /// Flat.
    pub flat: Option<f64>,
    /// Natural.
    pub natural: Option<f64>,
    /// Sharp.
    pub sharp: Option<f64>,
}

/// One string's line of the sheet. Tension, stress and B are those of the open position (a
/// string without discs taken at flat, as the open position says).
#[derive(Clone, Debug, PartialEq)]
pub struct StringSheet {
    /// The string.
    pub string: StringName,
    /// The harp's own number, octave first.
    pub harp_number: String,
    /// Its colour.
    pub colour: Colour,
    /// Whether it is a wire.
    pub wire: bool,
    /// Whether it is a pedal harp's string without discs.
    pub discless: bool,
    /// Whether it has a lever.
    pub lever: bool,
    /// What it should sound.
    pub target_hz: Targets,
    /// The material, if given.
    pub material: Option<Material>,
    /// Speaking length, mm.
    pub length_mm: Figure,
    /// Outer diameter, mm.
    pub gauge_mm: Figure,
    /// Tension, N.
    pub tension_n: Figure,
    /// Stress of the string or of its core, MPa.
    pub stress_mpa: Figure,
    /// Stress over breaking stress, 0 to 1 (above it has broken).
    pub break_share: Figure,
    /// Inharmonicity B.
    pub b: Figure,
    /// Whether `b` was measured from its sound, not computed.
    pub b_is_measured: bool,
    /// Cents by which its octave stands above 2:1 when its second partial is tuned to.
    pub stretch_cents: Figure,
    /// Cents that a degree of pin is worth.
    pub cents_per_degree: Figure,
}

/// What the strings pull together, as far as it can be had.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// Sum of the known tensions, N.
    pub known_n: f64,
    /// Strings of unknown tension, from the bass; the sum is the harp's only when there is none.
    pub unknown: Vec<StringName>,
}

impl Harp {
    /// A line for each string from the bass, at a reference pitch, the harp open in its own key.
    ///
    /// Nothing is guessed: without the player's figures every [`Figure`] says what is missing.
    ///
    /// ```
    /// use harp::{Field, Harp};
    /// let sheet = Harp::named("pedal47")?.sheet(pitch::ReferencePitch::A440);
    /// let blank = sheet[20].length_mm.as_ref().unwrap_err();
    /// assert_eq!(blank.missing, [Field::LengthMm]);
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn sheet(&self, reference: ReferencePitch) -> Vec<StringSheet> {
        // The open position asks nothing that a harp could refuse: it has a line for each string.
        let standing = self.standing(&Setup::open(reference)).unwrap_or_default();
        let strings = self.strings().iter().zip(standing);
        strings
            .map(|(string, open)| self.line(string, reference, open.target_hz))
            .collect()
    }

    /// The pull of all strings together at a reference pitch, the harp open.
    pub fn load(&self, reference: ReferencePitch) -> Load {
        let mut load = Load {
            known_n: 0.0,
            unknown: Vec::new(),
        };
        for line in self.sheet(reference) {
            match line.tension_n {
                Ok(tension_n) => load.known_n += tension_n,
                Err(_) => load.unknown.push(line.string),
            }
        }
        load
    }

    fn line(&self, string: &HarpString, reference: ReferencePitch, open_hz: f64) -> StringSheet {
        let known = Known {
            figures: self.figures(string),
            open_hz,
        };
        let b = known.b();
        StringSheet {
            string: string.name,
            harp_number: string.name.harp_number(),
            colour: string.colour,
            wire: string.wire,
            discless: self.kind() == HarpKind::Pedal && string.mechanism == Mechanism::Nothing,
            lever: string.mechanism == Mechanism::Lever,
            target_hz: self.targets(string, reference),
            material: known.figures.material,
            length_mm: known.need(Field::LengthMm),
            gauge_mm: known.need(Field::GaugeMm),
            tension_n: known.tension_n(),
            stress_mpa: known.stress_pa().map(|stress| stress / 1e6),
            break_share: known.break_share(),
            stretch_cents: b.clone().map(|b| octave_stretch_cents(b, b, (2, 1))),
            b,
            b_is_measured: known.figures.get(Field::MeasuredB).is_some(),
            cents_per_degree: known.cents_per_degree(),
        }
    }

    fn targets(&self, string: &HarpString, reference: ReferencePitch) -> Targets {
        let name = string.name;
        let open = self.open_tuning().map(|open| open.alteration(name.letter));
        let reaches = |alteration| match (self.kind(), open) {
            (HarpKind::Pedal, _) => true,
            (HarpKind::Lever, Some(open)) => {
                let lever = string.mechanism == Mechanism::Lever;
                alteration == open || (lever && alteration == raised(open))
            }
            _ => {
                alteration
                    == if name.sharp {
                        Alteration::Sharp
                    } else {
                        Alteration::Natural
                    }
            }
        };
        let target = |alteration| {
            reaches(alteration)
                .then(|| reference.hz(SpelledPitch::new(name.letter, alteration, name.octave)))
        };
        Targets {
            flat: target(Alteration::Flat),
            natural: target(Alteration::Natural),
            sharp: target(Alteration::Sharp),
        }
    }
}
