//! A whole picture: the harp, its marks and its words, as one SVG document.

use crate::body::Body;
use crate::element::{Document, Element, element};
use crate::letters::letters;
use crate::mark::Marker;
use crate::said::origin_of_lengths;
use crate::size::Layout;
use crate::strings::{middle_line, strings};
use crate::tone::Palette;
use crate::words::Words;
use crate::{Geometry, Picture, Size, Tone, said};

/// An open serif (SIL Open Font License) where it is at hand, any serif elsewhere; the picture
/// carries no font.
const SERIF: &str = "'Source Serif 4', 'Source Serif Pro', serif";

/// The picture of a harp as an SVG document, which stands by itself: no script, no link, nothing
/// fetched. A screen reader reads [`said()`] and where the lengths are from. On [`Size::Paper`] the
/// tone is always light, on white.
///
/// ```
/// use sheet::{Picture, Size, Tone, draw};
/// let picture = Picture::of(&harp::Harp::named("lever34")?);
/// let svg = draw(&picture, Size::Paper, Tone::Light);
/// assert!(svg.contains(r#"width="210mm""#));
/// # Ok::<(), harp::HarpError>(())
/// ```
pub fn draw(picture: &Picture, size: Size, tone: Tone) -> String {
    let layout = size.layout(picture.side);
    let palette = Palette::of(tone, size == Size::Paper);
    let geometry = Geometry::of(picture, layout.frame, layout.unit);
    let mut document = Document::default();
    let title = if picture.title.is_empty() {
        picture.words().harp()
    } else {
        &picture.title
    };
    document.open(root(&layout, &palette, picture, title));
    // the first children, for readers that go by SVG 1.1; no ids, which two pictures in one page would share
    document.text(element("title"), title);
    let account = format!("{} {}", said(picture), origin_of_lengths(picture));
    document.text(element("desc"), &account);
    let paper = element("rect")
        .num("width", layout.width)
        .num("height", layout.height)
        .set("fill", palette.paper);
    document.empty(paper);
    let body = Body::around(&geometry);
    if let Some(body) = &body {
        harp(&mut document, picture, &geometry, body, &palette);
    }
    let words = Words {
        picture,
        layout: &layout,
        palette: &palette,
    };
    words.head(&mut document);
    let foot = layout.foot;
    let covered = body.and_then(|body| body.bottom_between(&geometry, foot.left, foot.width));
    words.foot(&mut document, covered);
    document.finish()
}

fn root(layout: &Layout, palette: &Palette, picture: &Picture, title: &str) -> Element {
    let (width, height, measure) = (layout.width, layout.height, layout.measure);
    element("svg")
        .set("xmlns", "http://www.w3.org/2000/svg")
        .set("width", &format!("{width}{measure}"))
        .set("height", &format!("{height}{measure}"))
        .set("viewBox", &format!("0 0 {width} {height}"))
        .set("role", "img")
        .set("lang", picture.tongue.code())
        .set("aria-label", title)
        .set("font-family", SERIF)
        .set("fill", palette.ink)
        .set("style", "font-variant-numeric: lining-nums tabular-nums")
}

/// Wood first, then strings, then marks; the present string's mark lies on top.
fn harp(
    document: &mut Document,
    picture: &Picture,
    geometry: &Geometry,
    body: &Body,
    palette: &Palette,
) {
    body.draw(document, geometry, palette);
    middle_line(document, geometry, palette);
    strings(document, picture, geometry, body, palette);
    Marker { geometry, palette }.draw_all(document, picture);
    letters(document, picture, geometry, body, palette);
}
