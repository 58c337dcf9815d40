//! The harp, drawn from the player's side: its strings in their colours, the C strings named.

use pitch::Letter;

use super::Handout;
use super::grid::drawn;
use crate::Style;
use crate::body::Body;
use crate::paper::face::Face;
use crate::paper::ink::{Dye, Ink};
use crate::{Frame, Geometry, Point};

/// The size of the strings' names.
const SIZE: f64 = 9.0;
/// A step of the drawing, in points.
const UNIT: f64 = 0.62;
/// How much finer strings are drawn in it than over the table.
const FINER: f64 = 0.75;
/// Where names may begin, from the lowest string.
const BESIDE: f64 = -4.5;
/// What neck, names and foot take of the height, in points.
const AROUND: f64 = 54.0;

/// The harp in a box of its own.
pub(super) fn strings(handout: &Handout, (width, height): (f64, f64), style: &Style) -> Ink {
    let frame = Frame {
        left: 0.0,
        top: 0.0,
        width: width - 46.0 * UNIT,
        height: (height - AROUND).max(60.0),
    };
    let geometry = Geometry::of(&handout.picture, frame, UNIT);
    let mut ink = Ink::default();
    let Some(body) = Body::around(&geometry) else {
        return ink;
    };
    let outline = body.outline(UNIT);
    for (place, string) in geometry.places.iter().zip(&handout.strings) {
        let (thick, dye) = drawn(string.colour);
        let ends = (pair(place.neck), pair(place.board));
        ink.string(ends, thick * FINER, dye);
        if string.name.letter == Letter::C {
            let top = body.top_between(&geometry, place.neck.x, 0.6 * SIZE);
            let name = style.naming.string(string.name);
            // clear of the column's capital
            let left = place.neck.x - 0.5 * Face::Text.width(&name, SIZE);
            ink.text((left.max(BESIDE), top - 4.0), SIZE, Face::Text, &name);
        }
    }
    for (points, thick) in &outline {
        for ends in points.windows(2) {
            ink.string((pair(ends[0]), pair(ends[1])), *thick, Dye::Black);
        }
    }
    // a small harp does not fill its box
    let all = outline.iter().flat_map(|(points, _)| points);
    let (least, most) = all.fold(
        (f64::INFINITY, f64::NEG_INFINITY),
        |(least, most), point| (least.min(point.x), most.max(point.x)),
    );
    let top = outline.iter().flat_map(|(points, _)| points);
    let top = top.map(|point| point.y).fold(f64::INFINITY, f64::min);
    let mut placed = Ink::default();
    placed.put(
        ink,
        (
            0.5 * (width - (most - least)) - least,
            2.0 + 1.4 * SIZE - top,
        ),
    );
    placed
}

fn pair(point: Point) -> (f64, f64) {
    (point.x, point.y)
}
