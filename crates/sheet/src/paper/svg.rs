//! A page as SVG.

use std::collections::BTreeSet;

use super::base64::base64;
use super::face::Face;
use super::ink::{Dye, Item, Page};
use crate::element::{Document, element};

/// Where the letters of an SVG page come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FontsIn {
    /// From the page itself: it can be given away alone.
    ThePage,
    /// From whoever shows it: it has loaded [`Face::bytes`] under the names of [`Face::css`].
    TheViewer,
}

/// A page of its paper's size, black on nothing; text is text.
pub fn svg(page: &Page, fonts: FontsIn) -> String {
    let (width, height) = page.paper.size_pt();
    let (wide, high) = page.paper.lengths();
    let mut document = Document::default();
    let root = element("svg")
        .set("xmlns", "http://www.w3.org/2000/svg")
        .set("width", wide)
        .set("height", high)
        .set("viewBox", &format!("0 0 {width:.3} {height:.3}"));
    document.open(root);
    document.text(element("title"), &page.title);
    if fonts == FontsIn::ThePage {
        document.text(element("style"), &font_faces(page));
    }
    for item in &page.items {
        draw(item, &mut document);
    }
    document.finish()
}

fn draw(item: &Item, document: &mut Document) {
    match item {
        Item::Text {
            x,
            y,
            size,
            face,
            text,
        } => {
            let (family, style, weight) = face.css();
            let mut words = element("text")
                .num("x", *x)
                .num("y", *y)
                .num("font-size", *size);
            words = words.set("font-family", &format!("'{family}', serif"));
            if style != "normal" {
                words = words.set("font-style", style);
            }
            if weight != 400 {
                words = words.set("font-weight", &weight.to_string());
            }
            document.text(words.set("xml:space", "preserve"), text);
        }
        Item::Line {
            from,
            to,
            width,
            dye,
        } => {
            let line = element("line").num("x1", from.0).num("y1", from.1);
            let line = line.num("x2", to.0).num("y2", to.1);
            let colour = match dye {
                Dye::Black => "#000".to_owned(),
                _ => dye
                    .rgb()
                    .iter()
                    .fold("#".to_owned(), |hex, part| format!("{hex}{part:02x}")),
            };
            document.empty(line.set("stroke", &colour).num("stroke-width", *width));
        }
        Item::Ring {
            centre,
            radius,
            width,
        } => {
            let ring = element("ellipse").num("cx", centre.0).num("cy", centre.1);
            let ring = ring.num("rx", radius.0).num("ry", radius.1);
            let ring = ring.set("fill", "none").set("stroke", "#000");
            document.empty(ring.num("stroke-width", *width));
        }
    }
}

fn font_faces(page: &Page) -> String {
    let used: BTreeSet<Face> = page
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Text { face, .. } => Some(*face),
            _ => None,
        })
        .collect();
    let rules = used.into_iter().map(|face| {
        let (family, style, weight) = face.css();
        let kind = if face == Face::Signs { "otf" } else { "ttf" };
        let bytes = base64(face.bytes());
        format!(
            "@font-face{{font-family:'{family}';font-style:{style};font-weight:{weight};\
             src:url(data:font/{kind};base64,{bytes})}}"
        )
    });
    rules.collect()
}
