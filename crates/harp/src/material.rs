//! What a string is made of.

use std::fmt;

/// The material of a string as its packet says. The name says nothing of its density or strength:
/// those are the player's to give.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Material {
    /// Gut.
    Gut,
    /// Nylon (polyamide).
    Nylon,
    /// Fluorocarbon (PVDF).
    Fluorocarbon,
    /// Plain steel wire.
    Steel,
    /// Plain bronze wire.
    Bronze,
    /// Plain brass wire.
    Brass,
    /// A steel core wound with metal: the usual bass wire.
    Wound,
    /// A nylon core wound with metal or nylon.
    WoundNylon,
    /// A gut core wound with metal.
    WoundGut,
}

impl Material {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::Gut,
        Self::Nylon,
        Self::Fluorocarbon,
        Self::Steel,
        Self::Bronze,
        Self::Brass,
        Self::Wound,
        Self::WoundNylon,
        Self::WoundGut,
    ];

    /// The word used in files.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Gut => "gut",
            Self::Nylon => "nylon",
            Self::Fluorocarbon => "fluorocarbon",
            Self::Steel => "steel",
            Self::Bronze => "bronze",
            Self::Brass => "brass",
            Self::Wound => "wound",
            Self::WoundNylon => "wound_nylon",
            Self::WoundGut => "wound_gut",
        }
    }

    /// The material of a word as [`Material::as_str`] writes it; `None` for any other.
    ///
    /// ```
    /// assert_eq!(harp::Material::from_name("gut"), Some(harp::Material::Gut));
    /// assert_eq!(harp::Material::from_name("silk"), None);
    /// ```
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|material| material.as_str() == name)
    }

    /// Whether its mass is a winding's and only its core carries tension.
    pub fn is_wound(self) -> bool {
        matches!(self, Self::Wound | Self::WoundNylon | Self::WoundGut)
    }

    /// Whether a player would call it a wire: metal to look at.
    pub fn is_wire(self) -> bool {
        !matches!(self, Self::Gut | Self::Nylon | Self::Fluorocarbon)
    }

    /// Whether the modulus of sound also holds for the minutes of turning a pin: gut (constant at
    /// every speed and stress: Lynch-Aird & Woodhouse, Materials 11 (2018) 2160) and metal, not
    /// the plastics.
    pub fn keeps_its_modulus(self) -> bool {
        !matches!(self, Self::Nylon | Self::Fluorocarbon | Self::WoundNylon)
    }
}

impl fmt::Display for Material {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}
