//! What the player gave about her harp: its name and the figures of its strings.

use super::{Harp, is_usual_wire};
use crate::{Colour, Field, Figures, HarpError, HarpString, Material, StringName};

impl Harp {
    /// What the player calls it, if anything.
    pub fn name(&self) -> Option<&str> {
        self.name.as_deref()
    }

    /// The same harp under a name.
    #[must_use]
    pub fn with_name(mut self, name: &str) -> Self {
        self.name = Some(name.to_owned());
        self
    }

    /// All that the player gave about a string: its own figures, and where those are silent its
    /// material's and the harp's pin radius.
    pub fn figures(&self, string: &HarpString) -> Figures {
        let material = string
            .figures
            .material
            .and_then(|material| self.materials.get(&material));
        let figures = material.map_or(string.figures, |figures| string.figures.or(figures));
        match self.pin_radius_mm {
            Some(mm) if figures.get(Field::PinRadiusMm).is_none() => {
                figures.with(Field::PinRadiusMm, mm)
            }
            _ => figures,
        }
    }

    /// The same harp with these figures for one string, in place of any before; its material, if
    /// given, decides whether it is a wire.
    pub fn with_figures(mut self, name: StringName, figures: Figures) -> Result<Self, HarpError> {
        let kind = self.kind;
        let found = self.strings.iter_mut().find(|string| string.name == name);
        let string = found.ok_or(HarpError::NoSuchString { string: name })?;
        string.wire = figures
            .material
            .map_or(is_usual_wire(kind, name), Material::is_wire);
        string.colour = Colour::of(kind, name, string.wire);
        string.figures = figures;
        Ok(self)
    }

    /// The same harp with figures that hold for every string of a material.
    #[must_use]
    pub fn with_material(mut self, material: Material, mut figures: Figures) -> Self {
        figures.material = None;
        self.materials.insert(material, figures);
        self
    }

    /// What the player gave for every string of a material.
    pub fn materials(&self) -> impl Iterator<Item = (Material, &Figures)> {
        self.materials
            .iter()
            .map(|(&material, figures)| (material, figures))
    }

    /// The same harp with tuning pins of this radius in mm, but where a string says its own.
    #[must_use]
    pub fn with_pin_radius_mm(mut self, mm: f64) -> Self {
        self.pin_radius_mm = Some(mm);
        self
    }

    /// Radius of the tuning pins in mm, if given.
    pub fn pin_radius_mm(&self) -> Option<f64> {
        self.pin_radius_mm
    }
}
