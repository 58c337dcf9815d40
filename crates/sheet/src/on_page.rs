//! The harp's picture for a page: any size, colours from the page, and where each string lies so that it can be pointed at.

use crate::body::Body;
use crate::element::{Document, element};
use crate::letters::letters;
use crate::mark::Marker;
use crate::size::framed;
use crate::strings::{middle_line, strings};
use crate::tone::Palette;
use crate::{Geometry, Picture, Place, Side};

/// A picture in a page.
#[derive(Clone, Debug, PartialEq)]
pub struct OnPage {
    /// Elements of SVG, without a root, in units of the box; colours are custom properties of the page: `--ink`, `--paper`,
    /// `--faint-ink`, `--present`, `--red`, `--dark`, `--metal`, `--plain`, `--gleam`.
    pub svg: String,
    /// Where each string lies in the box.
    pub places: Vec<Place>,
}

/// In a page the harp shares the height with what stands large: it may be drawn so many times wider than it is, so that each
/// string can be found and touched.
const WIDEST: f64 = 5.0;

/// The harp alone, without words, in a box of a width and height in CSS pixels, both at least 120; `unit` is the size of
/// letters and strokes against those on a phone, 0.5 to 4.
///
/// ```
/// use sheet::{Picture, on_page};
/// let picture = Picture::of(&harp::Harp::named("pedal47")?);
/// let drawn = on_page(&picture, 390.0, 360.0, 1.0);
/// assert_eq!(drawn.places.len(), 47);
/// assert!(drawn.svg.contains("var(--red)") && !drawn.svg.contains("<svg"));
/// # Ok::<(), harp::HarpError>(())
/// ```
pub fn on_page(picture: &Picture, width: f64, height: f64, unit: f64) -> OnPage {
    let palette = Palette::of_page();
    let unit = unit.clamp(0.5, 4.0);
    let (width, height) = (width.max(120.0), height.max(120.0));
    let frame = framed(width, height, unit, picture.side == Side::Player);
    let geometry = Geometry::widened(picture, frame, unit, WIDEST);
    let mut document = Document::default();
    document.open(element("g").set("fill", palette.ink));
    if let Some(body) = Body::around(&geometry) {
        body.draw(&mut document, &geometry, &palette);
        middle_line(&mut document, &geometry, &palette);
        strings(&mut document, picture, &geometry, &body, &palette);
        Marker {
            geometry: &geometry,
            palette: &palette,
        }
        .draw_all(&mut document, picture);
        letters(&mut document, picture, &geometry, &body, &palette);
    }
    OnPage {
        svg: document.finish(),
        places: geometry.places,
    }
}
