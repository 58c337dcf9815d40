//! Letters over the neck: every C and F, and the present string's name above them.

use harp::StringName;
use pitch::Letter;

use crate::body::Body;
use crate::element::{Document, element};
use crate::tone::Palette;
use crate::{Geometry, Picture, Place};

/// Sizes of type, in units.
const LETTER: f64 = 10.5;
const PRESENT: f64 = 14.0;
/// Width of a letter or figure of the serif, over its size (no exact figure: fonts differ).
const ADVANCE: f64 = 0.56;

pub(crate) fn letters(
    document: &mut Document,
    picture: &Picture,
    geometry: &Geometry,
    body: &Body,
    palette: &Palette,
) {
    let unit = geometry.unit;
    let over = |place: &Place, size: f64| {
        let name = picture.names.of(place.name);
        let half_width = 0.5 * ADVANCE * size * unit * name.chars().count() as f64;
        let text = element("text")
            .num("x", place.neck.x)
            .set("text-anchor", "middle")
            .num("font-size", size * unit);
        (
            text,
            name,
            body.top_between(geometry, place.neck.x, half_width),
        )
    };
    for place in geometry
        .places
        .iter()
        .filter(|place| is_lettered(place.name))
    {
        let (text, name, top) = over(place, LETTER);
        document.text(
            text.num("y", top - 3.0 * unit).set("fill", palette.ink),
            &name,
        );
    }
    let present = geometry
        .places
        .iter()
        .find(|place| picture.present == Some(place.name));
    if let Some(place) = present {
        let (text, name, top) = over(place, PRESENT);
        let y = top - (5.0 + LETTER) * unit;
        let text = text.num("y", y).set("fill", palette.present);
        document.text(text.set("font-weight", "600"), &name);
    }
}

/// Whether a string carries its letter: every C and F, as on the harp they carry the colour.
fn is_lettered(name: StringName) -> bool {
    !name.sharp && matches!(name.letter, Letter::C | Letter::F)
}
