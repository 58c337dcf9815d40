//! The simple shapes that marks are made of.

use super::{Marker, Spot};
use crate::Point;
use crate::element::{Element, element};

impl Marker<'_> {
    pub(super) fn lozenge(&self, spot: &Spot<'_>, centre: Point) -> Element {
        let reach = spot.bead - 0.5 * spot.stroke;
        let path = format!(
            "M{:.3} {:.3}l{reach:.3} {reach:.3} {reach:.3} -{reach:.3} -{reach:.3} -{reach:.3}z",
            centre.x - reach,
            centre.y
        );
        element("path")
            .set("d", &path)
            .set("fill", self.palette.paper)
            .set("stroke", spot.ink)
            .num("stroke-width", spot.stroke)
    }

    pub(super) fn open(&self, spot: &Spot<'_>, centre: Point) -> Element {
        self.dot(centre, spot.bead - 0.5 * spot.stroke, self.palette.paper)
            .set("stroke", spot.ink)
            .num("stroke-width", spot.stroke)
    }

    pub(super) fn dot(&self, centre: Point, radius: f64, ink: &str) -> Element {
        element("circle")
            .num("cx", centre.x)
            .num("cy", centre.y)
            .num("r", radius)
            .set("fill", ink)
    }

    /// A small dot with paper around it, so that no string's colour meets its own.
    pub(super) fn clear_dot(&self, centre: Point, radius: f64, ink: &str) -> Element {
        let clear = 0.7 * self.geometry.unit;
        self.dot(centre, radius + 0.5 * clear, ink)
            .set("stroke", self.palette.paper)
            .num("stroke-width", clear)
    }

    pub(super) fn across(&self, centre: Point, reach: f64, width: f64, ink: &str) -> Element {
        let left = Point {
            x: centre.x - reach,
            ..centre
        };
        let right = Point {
            x: centre.x + reach,
            ..centre
        };
        self.line(left, right, width, ink)
    }

    pub(super) fn line(&self, from: Point, to: Point, width: f64, ink: &str) -> Element {
        element("line")
            .num("x1", from.x)
            .num("y1", from.y)
            .num("x2", to.x)
            .num("y2", to.y)
            .set("stroke", ink)
            .num("stroke-width", width)
    }
}
