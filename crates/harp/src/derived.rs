//! What follows from given figures, and what stays blank for want of which.

use std::fmt;

use crate::mechanics::{
    bending_stiffness_n_m2, cents_per_degree_of_pin, linear_density_kg_m, stiffness_b,
    stress_from_pitch_pa, stress_pa, tension_n,
};
use crate::{Field, Figures, Material};

/// A number, or why there is none.
pub type Figure = Result<f64, Blank>;

/// Why a figure is blank: what the player has not given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Blank {
    /// The fields that are missing, at least one.
    pub missing: Vec<Field>,
}

impl fmt::Display for Blank {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let names: Vec<_> = self.missing.iter().map(|field| field.name()).collect();
        write!(f, "{} not given", names.join(", "))
    }
}

/// One string's given figures and the pitch at which it is open.
pub(crate) struct Known {
    pub(crate) figures: Figures,
    pub(crate) open_hz: f64,
}

impl Known {
    pub(crate) fn need(&self, field: Field) -> Figure {
        self.figures.get(field).ok_or_else(|| Blank {
            missing: vec![field],
        })
    }

    fn need_scaled(&self, field: Field, unit: f64) -> Figure {
        self.need(field).map(|value| value * unit)
    }

    fn is_wound(&self) -> bool {
        self.figures.material.is_some_and(Material::is_wound)
            || self.figures.get(Field::CoreMm).is_some()
    }

    /// Diameter that carries the tension and bends, in m.
    fn carrying_m(&self) -> Figure {
        self.need_scaled(
            if self.is_wound() {
                Field::CoreMm
            } else {
                Field::GaugeMm
            },
            1e-3,
        )
    }

    fn linear_density_kg_m(&self) -> Figure {
        match self.figures.get(Field::LinearDensityGM) {
            Some(given) => Ok(given * 1e-3),
            None if self.is_wound() => self.need(Field::LinearDensityGM),
            None => both(
                self.need(Field::DensityKgM3),
                self.need_scaled(Field::GaugeMm, 1e-3),
            )
            .map(|(density, diameter)| linear_density_kg_m(density, diameter)),
        }
    }

    pub(crate) fn tension_n(&self) -> Figure {
        both(
            self.linear_density_kg_m(),
            self.need_scaled(Field::LengthMm, 1e-3),
        )
        .map(|(density, length)| tension_n(density, length, self.open_hz))
    }

    pub(crate) fn stress_pa(&self) -> Figure {
        let length = self.need_scaled(Field::LengthMm, 1e-3);
        match (
            self.is_wound(),
            self.figures.get(Field::DensityKgM3),
            &length,
        ) {
            (false, Some(density), &Ok(length)) => {
                Ok(stress_from_pitch_pa(density, length, self.open_hz))
            }
            (false, Some(_), Err(_)) => length,
            _ => both(self.tension_n(), self.carrying_m())
                .map(|(tension, diameter)| stress_pa(tension, diameter)),
        }
    }

    pub(crate) fn break_share(&self) -> Figure {
        both(
            self.stress_pa(),
            self.need_scaled(Field::BreakingStressMpa, 1e6),
        )
        .map(|(stress, breaking)| stress / breaking)
    }

    pub(crate) fn b(&self) -> Figure {
        if let Some(measured) = self.figures.get(Field::MeasuredB) {
            return Ok(measured);
        }
        let stiffness = both(self.need_scaled(Field::ModulusGpa, 1e9), self.carrying_m())
            .map(|(modulus, diameter)| bending_stiffness_n_m2(modulus, diameter));
        let pulled = both(self.tension_n(), self.need_scaled(Field::LengthMm, 1e-3));
        both(stiffness, pulled)
            .map(|(stiffness, (tension, length))| stiffness_b(stiffness, tension, length))
    }

    /// The modulus of minutes; that of sound stands in for it where the material keeps it.
    fn turning_modulus_pa(&self) -> Figure {
        let given = self.need_scaled(Field::TurningModulusGpa, 1e9);
        match self.figures.material {
            Some(material) if given.is_err() && material.keeps_its_modulus() => {
                self.need_scaled(Field::ModulusGpa, 1e9)
            }
            _ => given,
        }
    }

    pub(crate) fn cents_per_degree(&self) -> Figure {
        let pin = both(
            self.need_scaled(Field::PinRadiusMm, 1e-3),
            self.need_scaled(Field::TotalLengthMm, 1e-3),
        );
        both(both(self.turning_modulus_pa(), self.stress_pa()), pin).map(
            |((modulus, stress), (radius, total))| {
                cents_per_degree_of_pin(modulus, stress, radius, total)
            },
        )
    }
}

/// Both values, or all that is missing for either.
fn both<A, B>(a: Result<A, Blank>, b: Result<B, Blank>) -> Result<(A, B), Blank> {
    match (a, b) {
        (Ok(a), Ok(b)) => Ok((a, b)),
        (Err(mut blank), Err(other)) => {
            blank.missing.extend(other.missing);
            blank.missing.sort();
            blank.missing.dedup();
            Err(blank)
        }
        (Err(blank), Ok(_)) | (Ok(_), Err(blank)) => Err(blank),
    }
}
