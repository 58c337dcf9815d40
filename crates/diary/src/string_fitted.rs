//! A string is put on, breaks, or is taken off.

use harp::{Material, StringName};
use serde::{Deserialize, Serialize};

use crate::Day;
use crate::figure::maybe_figure;
use crate::text::{as_text, maybe_text};
use crate::twin::twin;

/// A string was put on. Written of a string that a round of the same day put on already, it says more of that one.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StringFitted {
    /// The name of the harp.
    pub harp: String,
    /// The string.
    #[serde(with = "as_text")]
    pub string: StringName,
    /// The day, where it is another than that of the record.
    #[serde(with = "maybe_text")]
    pub on: Option<Day>,
    /// What it is made of.
    #[serde(with = "maybe_material")]
    pub material: Option<Material>,
    /// Its outer diameter, millimetres.
    #[serde(with = "maybe_figure")]
    pub gauge_mm: Option<f64>,
    /// Whether it was played on before, so that its age is not known.
    pub used: bool,
    /// Who put it on; empty where that was not said.
    pub by: String,
}

/// A string broke.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StringBroken {
    /// The name of the harp.
    pub harp: String,
    /// The string.
    #[serde(with = "as_text")]
    pub string: StringName,
    /// The day, where it is another than that of the record.
    #[serde(with = "maybe_text")]
    pub on: Option<Day>,
    /// Where it broke, in her words: at the pin, at the disc, at the knot.
    pub place: String,
}

/// A string was taken off whole, and none put in its place yet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StringRemoved {
    /// The name of the harp.
    pub harp: String,
    /// The string.
    #[serde(with = "as_text")]
    pub string: StringName,
    /// The day, where it is another than that of the record.
    #[serde(with = "maybe_text")]
    pub on: Option<Day>,
}

twin! {
    /// What a string is made of.
    MaterialBody is Material {
        Gut = "gut",
        Nylon = "nylon",
        Fluorocarbon = "fluorocarbon",
        Steel = "steel",
        Bronze = "bronze",
        Brass = "brass",
        Wound = "wound",
        WoundNylon = "wound_nylon",
        WoundGut = "wound_gut",
    }
}

pub(crate) mod maybe_material {
    use serde::{Deserializer, Serializer};

    use super::*;

    pub(crate) fn serialize<S: Serializer>(
        material: &Option<Material>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        material.map(MaterialBody::from).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<Material>, D::Error> {
        Ok(Option::<MaterialBody>::deserialize(deserializer)?.map(Material::from))
    }
}
