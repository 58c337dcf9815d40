//! Figures of a string that the player gave, each with its unit and the range that is believed.

use std::fmt;
use std::ops::RangeInclusive;

use crate::Material;

/// One kind of figure about a string. Its name in files ends in its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Field {
    /// Speaking length with the pedal up or the lever off, mm.
    LengthMm,
    /// Outer diameter, mm.
    GaugeMm,
    /// Diameter of a wound string's core, mm.
    CoreMm,
    /// Mass per volume of a plain string, kg/m³.
    DensityKgM3,
    /// Mass per length, g/m (a wound string's only measure of mass).
    LinearDensityGM,
    /// Young's modulus at the speed of sound's vibration, GPa; a wound string's: of its core.
    ModulusGpa,
    /// Young's modulus over the minutes in which a pin is turned, GPa.
    TurningModulusGpa,
    /// Stress at which the string, or its core, breaks, MPa.
    BreakingStressMpa,
    /// Radius of the tuning pin where the string winds on, mm.
    PinRadiusMm,
    /// Whole length from the knot to the pin, mm.
    TotalLengthMm,
    /// Inharmonicity B as measured from its sound.
    MeasuredB,
}

/// What a field is called, what it means and what is believed of it.
struct Fact {
    field: Field,
    name: &'static str,
    meaning: &'static str,
    believed: RangeInclusive<f64>,
}

/// In the order of [`Field`].
const FACTS: [Fact; 11] = [
    Fact {
        field: Field::LengthMm,
        name: "length_mm",
        meaning: "speaking length, pedal up or lever off, millimetres",
        believed: 20.0..=2500.0,
    },
    Fact {
        field: Field::GaugeMm,
        name: "gauge_mm",
        meaning: "outer diameter, millimetres",
        believed: 0.1..=6.0,
    },
    Fact {
        field: Field::CoreMm,
        name: "core_mm",
        meaning: "diameter of a wound string's core, millimetres",
        believed: 0.1..=4.0,
    },
    Fact {
        field: Field::DensityKgM3,
        name: "density_kg_m3",
        meaning: "mass per volume of a plain string, kilograms per cubic metre",
        believed: 500.0..=20_000.0,
    },
    Fact {
        field: Field::LinearDensityGM,
        name: "linear_density_g_m",
        meaning: "mass per length, grams per metre",
        believed: 0.05..=300.0,
    },
    Fact {
        field: Field::ModulusGpa,
        name: "modulus_gpa",
        meaning: "Young's modulus in vibration, gigapascals (a wound string's: of its core)",
        believed: 0.5..=400.0,
    },
    Fact {
        field: Field::TurningModulusGpa,
        name: "turning_modulus_gpa",
        meaning: "Young's modulus over minutes, as a pin is turned, gigapascals",
        believed: 0.1..=400.0,
    },
    Fact {
        field: Field::BreakingStressMpa,
        name: "breaking_stress_mpa",
        meaning: "stress at which it breaks, megapascals (a wound string's: of its core)",
        believed: 20.0..=5000.0,
    },
    Fact {
        field: Field::PinRadiusMm,
        name: "pin_radius_mm",
        meaning: "radius of the tuning pin where the string winds on, millimetres",
        believed: 1.0..=12.0,
    },
    Fact {
        field: Field::TotalLengthMm,
        name: "total_length_mm",
        meaning: "whole length from the knot to the pin, millimetres",
        believed: 20.0..=4000.0,
    },
    Fact {
        field: Field::MeasuredB,
        name: "measured_b",
        meaning: "inharmonicity B measured from its sound, a small number such as 1.8e-4",
        believed: 0.0..=0.1,
    },
];

impl Field {
    /// All of them, in the order in which a file lists them.
    pub fn all() -> impl Iterator<Item = Self> {
        FACTS.iter().map(|fact| fact.field)
    }

    /// The field of a name in a file; `None` for any other.
    ///
    /// ```
    /// assert_eq!(harp::Field::from_name("gauge_mm"), Some(harp::Field::GaugeMm));
    /// ```
    pub fn from_name(name: &str) -> Option<Self> {
        Self::all().find(|field| field.name() == name)
    }

    /// Its name in files, unit last: `length_mm`.
    pub fn name(self) -> &'static str {
        self.fact().name
    }

    /// What it is and in which unit, for the comments of a file.
    pub fn meaning(self) -> &'static str {
        self.fact().meaning
    }

    /// The values that are believed; anything outside is taken for a slip of the unit.
    pub fn believed(self) -> RangeInclusive<f64> {
        self.fact().believed.clone()
    }

    /// Whether it may stand once for all strings of a material.
    pub fn is_of_material(self) -> bool {
        matches!(
            self,
            Self::DensityKgM3
                | Self::ModulusGpa
                | Self::TurningModulusGpa
                | Self::BreakingStressMpa
        )
    }

    fn fact(self) -> &'static Fact {
        &FACTS[self as usize]
    }
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// What the player gave for one string, or once for a material or for the whole harp.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Figures {
    /// The material.
    pub material: Option<Material>,
    values: [Option<f64>; FACTS.len()],
}

impl Figures {
    /// No figure yet, but a material.
    pub fn of(material: Material) -> Self {
        Self {
            material: Some(material),
            ..Self::default()
        }
    }

    /// A figure, if it was given, in the field's own unit.
    pub fn get(&self, field: Field) -> Option<f64> {
        self.values[field as usize]
    }

    /// The same figures with one more, in the field's own unit. Nothing is checked here.
    #[must_use]
    pub fn with(mut self, field: Field, value: f64) -> Self {
        self.values[field as usize] = Some(value);
        self
    }

    /// Whether nothing was given.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// These figures, and where they are silent those of `other`.
    #[must_use]
    pub fn or(mut self, other: &Self) -> Self {
        self.material = self.material.or(other.material);
        for (own, others) in self.values.iter_mut().zip(other.values) {
            *own = own.or(others);
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_stands_in_its_own_place_of_the_table() {
        for (place, fact) in FACTS.iter().enumerate() {
            assert_eq!(fact.field as usize, place, "{}", fact.name);
            assert_eq!(Field::from_name(fact.name), Some(fact.field));
        }
    }

    #[test]
    fn what_a_string_says_itself_comes_before_what_its_material_says() {
        let string = Figures::default().with(Field::DensityKgM3, 1280.0);
        let material = Figures::default()
            .with(Field::DensityKgM3, 1300.0)
            .with(Field::ModulusGpa, 6.0);
        let both = string.or(&material);
        assert_eq!(both.get(Field::DensityKgM3), Some(1280.0));
        assert_eq!(both.get(Field::ModulusGpa), Some(6.0));
        assert_eq!(both.get(Field::GaugeMm), None);
    }
}
