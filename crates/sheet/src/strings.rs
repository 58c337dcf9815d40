//! The strings themselves, and the middle line through their halves.

use harp::Colour;

use crate::body::Body;
use crate::curve::{pair, through};
use crate::element::{Document, element};
use crate::tone::Palette;
use crate::{Drawn, Geometry, Mark, Picture, Place, Point};

/// All strings from the bass, each with its pin, the present one thicker.
pub(crate) fn strings(
    document: &mut Document,
    picture: &Picture,
    geometry: &Geometry,
    body: &Body,
    palette: &Palette,
) {
    for (string, place) in picture.strings.iter().zip(&geometry.places) {
        let unit = geometry.unit;
        let pin = body.pin(geometry, place.neck.x);
        if string.mark != Mark::Broken {
            let to_pin = through(&[place.neck, pin]);
            let hairline = element("path")
                .set("d", &to_pin)
                .set("stroke", palette.ink)
                .num("stroke-width", 0.35 * unit);
            document.empty(hairline);
        }
        let head = element("circle")
            .num("cx", pin.x)
            .num("cy", pin.y)
            .num("r", (0.16 * geometry.spacing).min(1.2 * unit))
            .set("fill", palette.ink);
        document.empty(head);
        let present = picture.present == Some(string.name);
        one(document, string, place, geometry, present, palette);
    }
}

/// One string from the soundboard to the neck, or what is left of it.
pub(crate) fn one(
    document: &mut Document,
    string: &Drawn,
    place: &Place,
    geometry: &Geometry,
    present: bool,
    palette: &Palette,
) {
    let path = match string.mark {
        Mark::Broken => two_ends(place, geometry.spacing),
        _ => through(&[place.board, place.neck]),
    };
    let lettered = string.colour != Colour::Plain && !string.wire;
    let usual = place.thickness * if lettered { 1.35 } else { 1.0 };
    let thickness = usual * if present { 2.0 } else { 1.0 };
    let stroke = |colour: &str, width: f64| {
        element("path")
            .set("d", &path)
            .set("fill", "none")
            .set("stroke", colour)
            .num("stroke-width", width)
    };
    // What is left of a string is a mark, and needs a mark's contrast.
    let colour = match (&string.mark, string.colour) {
        (Mark::Broken, Colour::Plain) => palette.faint_ink,
        _ => palette.string(string.colour),
    };
    document.empty(stroke(colour, thickness));
    if string.wire {
        let share = if string.colour == Colour::Metallic {
            0.22
        } else {
            0.14
        };
        // no wider on the present string, which would look like two
        document.empty(stroke(palette.gleam, share * usual));
    }
}

/// A broken string: one end from the soundboard, one from the neck, each curling, and nothing
/// where the half was.
fn two_ends(place: &Place, spacing: f64) -> String {
    let length = place.board.y - place.neck.y;
    let curl = (0.42 * spacing).min(0.14 * length);
    let end = |from: Point, to: f64, out: f64| {
        let sign = (to - from.y).signum();
        let at = |x: f64, y: f64| {
            pair(Point {
                x: from.x + x * out,
                y: to + y * sign * curl,
            })
        };
        format!(
            "M{}L{}C{} {} {}",
            pair(from),
            at(0.0, 0.0),
            at(0.0, 1.6),
            at(curl, 1.6),
            at(curl, 0.2),
        )
    };
    let lower = end(place.board, place.half.y + 0.2 * length, 1.0);
    let upper = end(place.neck, place.half.y - 0.2 * length, -1.0);
    lower + &upper
}

/// The middle line: dotted, through the half of every string.
pub(crate) fn middle_line(document: &mut Document, geometry: &Geometry, palette: &Palette) {
    let halves: Vec<Point> = geometry.places.iter().map(|place| place.half).collect();
    let dots = format!("{} {}", 0.1 * geometry.unit, 2.2 * geometry.unit);
    let line = element("path")
        .set("d", &through(&halves))
        .set("fill", "none")
        .set("stroke", palette.ink)
        .num("stroke-width", 0.7 * geometry.unit)
        .set("stroke-linecap", "round")
        .set("stroke-dasharray", &dots);
    document.empty(line);
}
