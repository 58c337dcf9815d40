//! Letters over the neck: every C and F, and the present string's name above them.

use harp::StringName;
use pitch::Letter;

use crate::body::Body;
use crate::element::{Document, Element, element};
use crate::tone::Palette;
use crate::{Geometry, Picture, Place};

/// Sizes of type, in units.
const LETTER: f64 = 10.5;
const PRESENT: f64 = 14.0;
/// Width of a letter or figure of the serif, over its size (no exact figure: fonts differ).
const ADVANCE: f64 = 0.56;
/// Height of a capital or figure, over its size.
const HEIGHT: f64 = 0.7;

pub(crate) fn letters(
    document: &mut Document,
    picture: &Picture,
    geometry: &Geometry,
    body: &Body,
    palette: &Palette,
) {
    let unit = geometry.unit;
    let is_present = |place: &&Place| picture.present == Some(place.name);
    let letter = |place: &Place, size: f64| {
        let name = picture.name_of(place.name);
        let half_width = 0.5 * ADVANCE * size * unit * name.chars().count() as f64;
        let top = body.top_between(geometry, place.neck.x, half_width + unit);
        Lettering {
            x: place.neck.x,
            baseline: top - 3.0 * unit,
            half_width,
            size: size * unit,
            name,
        }
    };
    let small: Vec<Lettering> = geometry
        .places
        .iter()
        .filter(|place| is_lettered(place.name) && !is_present(place))
        .map(|place| letter(place, LETTER))
        .collect();
    for lettering in &small {
        document.text(lettering.text(palette.ink), &lettering.name);
    }
    if let Some(place) = geometry.places.iter().find(is_present) {
        let mut large = letter(place, PRESENT);
        let beneath = small.iter().filter(|near| large.overlaps(near));
        let clear = beneath.map(|near| near.baseline - HEIGHT * near.size - 3.0 * unit);
        large.baseline = clear.fold(large.baseline, f64::min);
        let text = large.text(palette.present).set("font-weight", "600");
        document.text(text, &large.name);
    }
}

/// One name as it is set over the neck.
struct Lettering {
    x: f64,
    baseline: f64,
    half_width: f64,
    size: f64,
    name: String,
}

impl Lettering {
    /// Whether they would touch, or nearly, on one line.
    fn overlaps(&self, other: &Self) -> bool {
        let apart = 0.3 * self.size;
        (self.x - other.x).abs() < self.half_width + other.half_width + apart
    }

    fn text(&self, ink: &str) -> Element {
        element("text")
            .num("x", self.x)
            .num("y", self.baseline)
            .set("text-anchor", "middle")
            .num("font-size", self.size)
            .set("fill", ink)
    }
}

/// Whether a string carries its letter: every C and F, as on the harp they carry the colour.
fn is_lettered(name: StringName) -> bool {
    !name.sharp && matches!(name.letter, Letter::C | Letter::F)
}
