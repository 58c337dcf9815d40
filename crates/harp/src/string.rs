//! One string of a harp.

use crate::{Colour, Figures, StringName};

/// What moves a string's pitch while playing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mechanism {
    /// Two discs, turned by the letter's pedal.
    Discs,
    /// Its own lever.
    Lever,
    /// Nothing: the tuning key alone sets it.
    Nothing,
}

/// A string, as far as it is known.
#[derive(Clone, Debug, PartialEq)]
pub struct HarpString {
    /// Its name.
    pub name: StringName,
    /// What moves it.
    pub mechanism: Mechanism,
    /// Its colour.
    pub colour: Colour,
    /// Whether it is a wire, bare or wound: by its material if that was given; otherwise, on a
    /// pedal harp, G2 (5G) and below (the usual twelve lowest).
    pub wire: bool,
    /// What the player gave for this string alone.
    pub figures: Figures,
}
