//! Pages as PDF. Text stays text; of each font only the letters that occur are put in.

use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Data, Document};
use pitch::Tongue;

use super::face::Face;
use super::ink::{Dye, Item, Page};

/// A PDF that could not be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the pages cannot be made into a PDF: {why}")]
pub struct PdfError {
    /// What the library says.
    pub why: String,
}

/// All pages as one file. It holds no date: the same pages give the same bytes.
///
/// # Errors
/// Where a page is past what PDF can hold, or the library finds the fonts unfit.
pub fn pdf(pages: &[Page], title: &str, tongue: Tongue) -> Result<Vec<u8>, PdfError> {
    let fonts = Fonts::read()?;
    let mut document = Document::new();
    let metadata = Metadata::new().title(title.to_owned());
    document.set_metadata(metadata.language(tongue.code().to_owned()));
    for page in pages {
        let (width, height) = page.paper.size_pt();
        let settings = PageSettings::from_wh(width as f32, height as f32);
        let mut sheet = document.start_page_with(settings.ok_or_else(|| error("its size"))?);
        let mut surface = sheet.surface();
        for item in &page.items {
            draw(item, &fonts, &mut surface);
        }
        surface.finish();
        sheet.finish();
    }
    document
        .finish()
        .map_err(|reason| error(&format!("{reason:?}")))
}

/// The faces, each read once.
struct Fonts(Vec<(Face, Font)>);

impl Fonts {
    fn read() -> Result<Self, PdfError> {
        let read = |face: Face| {
            let font = Font::new(Data::from(face.bytes()), 0);
            Ok((face, font.ok_or_else(|| error("a font"))?))
        };
        Face::ALL
            .into_iter()
            .map(read)
            .collect::<Result<_, _>>()
            .map(Self)
    }

    fn get(&self, face: Face) -> Option<Font> {
        let found = self.0.iter().find(|(other, _)| *other == face);
        found.map(|(_, font)| font.clone())
    }
}

fn draw(item: &Item, fonts: &Fonts, surface: &mut Surface<'_>) {
    match item {
        Item::Text {
            x,
            y,
            size,
            face,
            text,
        } => {
            let Some(font) = fonts.get(*face) else { return };
            let glyphs = glyphs(*face, text);
            surface.set_stroke(None);
            surface.set_fill(Some(Fill::default()));
            surface.draw_glyphs(point((*x, *y)), &glyphs, font, text, *size as f32, false);
        }
        Item::Line {
            from,
            to,
            width,
            dye,
        } => {
            let mut path = PathBuilder::new();
            path.move_to(from.0 as f32, from.1 as f32);
            path.line_to(to.0 as f32, to.1 as f32);
            stroke(path.finish(), *width, *dye, surface);
        }
        Item::Ring {
            centre,
            radius,
            width,
        } => stroke(ring(*centre, *radius), *width, Dye::Black, surface),
    }
}

fn glyphs(face: Face, text: &str) -> Vec<KrillaGlyph> {
    let placed = face.placed(text).into_iter();
    let glyphs = placed.map(|placed| {
        let id = GlyphId::new(u32::from(placed.glyph));
        KrillaGlyph::new(id, placed.advance as f32, 0.0, 0.0, 0.0, placed.bytes, None)
    });
    glyphs.collect()
}

fn stroke(path: Option<Path>, width: f64, dye: Dye, surface: &mut Surface<'_>) {
    let Some(path) = path else { return };
    surface.set_fill(None);
    let mut stroke = Stroke {
        width: width as f32,
        ..Stroke::default()
    };
    if dye != Dye::Black {
        let [red, green, blue] = dye.rgb();
        stroke.paint = rgb::Color::new(red, green, blue).into();
    }
    surface.set_stroke(Some(stroke));
    surface.draw_path(&path);
}

/// Four cubic curves; with this handle none is off its quarter of a circle by more than 0.03 % (a known figure).
fn ring((x, y): (f64, f64), (rx, ry): (f64, f64)) -> Option<Path> {
    const HANDLE: f64 = 0.552_284_75;
    let at = |dx: f64, dy: f64| ((x + dx * rx) as f32, (y + dy * ry) as f32);
    let mut path = PathBuilder::new();
    let start = at(1.0, 0.0);
    path.move_to(start.0, start.1);
    let mut from = (1.0, 0.0);
    for to in [(0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)] {
        let one = at(from.0 + HANDLE * to.0, from.1 + HANDLE * to.1);
        let two = at(to.0 + HANDLE * from.0, to.1 + HANDLE * from.1);
        let end = at(to.0, to.1);
        path.cubic_to(one.0, one.1, two.0, two.1, end.0, end.1);
        from = to;
    }
    path.close();
    path.finish()
}

fn point((x, y): (f64, f64)) -> Point {
    Point::from_xy(x as f32, y as f32)
}

fn error(why: &str) -> PdfError {
    PdfError {
        why: why.to_owned(),
    }
}
