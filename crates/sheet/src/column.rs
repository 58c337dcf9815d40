//! The column with its crown, and the plinth on which the harp stands.

use crate::Point;
use crate::curve::{pair, through};
use crate::element::{Document, Element, element};
use crate::tone::Palette;

/// Where the column stands, seen from the player's side.
pub(crate) struct Column {
    /// Its middle.
    pub(crate) x: f64,
    /// Upper end of the shaft; the crown stands on it.
    pub(crate) top: f64,
    /// Lower end, on the plinth.
    pub(crate) foot: f64,
    /// How far the plinth reaches under the body.
    pub(crate) plinth_end: f64,
    pub(crate) unit: f64,
}

/// Half the width of the shaft, in units.
pub(crate) const HALF_SHAFT: f64 = 3.6;
/// Half the width of the rings around it, and of the capital.
const HALF_RING: f64 = 4.8;
const HALF_CAPITAL: f64 = 6.0;

impl Column {
    pub(crate) fn draw(&self, document: &mut Document, palette: &Palette) {
        let unit = self.unit;
        document.empty(self.block(palette, HALF_SHAFT, self.top, (self.foot - self.top) / unit));
        for flute in [-1.2, 1.2] {
            let x = self.x + flute * unit;
            let ends = [self.top + 16.0 * unit, self.foot - 14.0 * unit];
            let hairline = through(&ends.map(|y| Point { x, y }));
            let hairline = element("path").set("d", &hairline);
            document.empty(hairline.num("stroke-width", 0.4 * unit));
        }
        document.empty(self.crown(palette));
        document.empty(self.block(palette, HALF_CAPITAL, self.top, 2.6));
        document.empty(self.block(palette, HALF_RING, self.top + 5.0 * unit, 1.8));
        document.empty(self.block(palette, HALF_RING, self.foot - 8.0 * unit, 1.8));
        document.empty(self.plinth(palette));
    }

    /// A block across the column: half its width and its height in units.
    fn block(&self, palette: &Palette, half: f64, from: f64, height: f64) -> Element {
        let left = self.x - half * self.unit;
        self.stone(palette, left, from, 2.0 * half * self.unit, height)
    }

    fn plinth(&self, palette: &Palette) -> Element {
        let left = self.x - 9.0 * self.unit;
        self.stone(palette, left, self.foot, self.plinth_end - left, 4.5)
    }

    fn stone(&self, palette: &Palette, x: f64, y: f64, width: f64, height: f64) -> Element {
        element("rect")
            .num("x", x)
            .num("y", y)
            .num("width", width)
            .num("height", height * self.unit)
            .set("fill", palette.paper)
            .num("stroke-width", self.unit)
    }

    /// A low dome over the capital.
    fn crown(&self, palette: &Palette) -> Element {
        let at = |x: f64, y: f64| {
            pair(Point {
                x: self.x + x * self.unit,
                y: self.top - y * self.unit,
            })
        };
        let path = format!(
            "M{}Q{} {}Q{} {}Z",
            at(-5.0, 0.0),
            at(-4.0, 6.0),
            at(0.0, 7.0),
            at(4.0, 6.0),
            at(5.0, 0.0),
        );
        element("path")
            .set("d", &path)
            .set("fill", palette.paper)
            .num("stroke-width", self.unit)
    }
}
