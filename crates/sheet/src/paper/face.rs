//! The letters of a sheet: how wide they run, how pairs of them are kerned.

use ttf_parser::gpos::{PairAdjustment, PositioningSubtable};
use ttf_parser::{GlyphId, Tag};

/// The letters that sheets are set in; `fonts/SOURCE.toml` says where they come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// The serif of all text.
    Text,
    /// Its italic.
    Italic,
    /// Heavier, for bar numbers and marks.
    Semibold,
    /// The signs of the pedal diagram, U+E680 to U+E683 (SMuFL).
    Signs,
}

/// One letter of a line: its glyph, how far the next one stands, and its bytes in the text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Placed {
    pub(crate) glyph: u16,
    /// In parts of the letters' size.
    pub(crate) advance: f64,
    pub(crate) bytes: std::ops::Range<usize>,
}

impl Face {
    /// All faces.
    pub const ALL: [Self; 4] = [Self::Text, Self::Italic, Self::Semibold, Self::Signs];

    /// The font file: TrueType, or OpenType for the signs. Under the OFL 1.1.
    pub fn bytes(self) -> &'static [u8] {
        match self {
            Self::Text => include_bytes!("../../fonts/text.ttf"),
            Self::Italic => include_bytes!("../../fonts/text-italic.ttf"),
            Self::Semibold => include_bytes!("../../fonts/text-semibold.ttf"),
            Self::Signs => include_bytes!("../../fonts/signs.otf"),
        }
    }

    /// Family, style and weight as CSS names them.
    pub fn css(self) -> (&'static str, &'static str, u32) {
        match self {
            Self::Text => ("Sevenflats Text", "normal", 400),
            Self::Italic => ("Sevenflats Text", "italic", 400),
            Self::Semibold => ("Sevenflats Text", "normal", 600),
            Self::Signs => ("Sevenflats Signs", "normal", 400),
        }
    }

    /// The width of a line of text, in the unit of `size`.
    pub fn width(self, text: &str, size: f64) -> f64 {
        let advances = self.placed(text).into_iter().map(|placed| placed.advance);
        size * advances.sum::<f64>()
    }

    /// Whether it has a letter for every sign of a text.
    pub fn has_all(self, text: &str) -> bool {
        self.placed(text).iter().all(|placed| placed.glyph != 0)
    }

    /// Every letter with its kerning; a sign that the font lacks is its empty box.
    pub(crate) fn placed(self, text: &str) -> Vec<Placed> {
        let Ok(font) = ttf_parser::Face::parse(self.bytes(), 0) else {
            return Vec::new();
        };
        let em = f64::from(font.units_per_em());
        let kern = Kern::of(&font);
        let mut placed: Vec<Placed> = Vec::new();
        for (at, sign) in text.char_indices() {
            let glyph = font.glyph_index(sign).unwrap_or(GlyphId(0));
            if let Some(before) = placed.last_mut() {
                before.advance += f64::from(kern.between(GlyphId(before.glyph), glyph)) / em;
            }
            placed.push(Placed {
                glyph: glyph.0,
                advance: f64::from(font.glyph_hor_advance(glyph).unwrap_or(0)) / em,
                bytes: at..at + sign.len_utf8(),
            });
        }
        placed
    }
}

/// The pairs that a font kerns (OpenType, table GPOS, feature `kern`).
struct Kern<'a> {
    pairs: Vec<PairAdjustment<'a>>,
}

impl<'a> Kern<'a> {
    fn of(font: &ttf_parser::Face<'a>) -> Self {
        let mut pairs = Vec::new();
        if let Some(gpos) = font.tables().gpos {
            let kern = gpos.features.find(Tag::from_bytes(b"kern"));
            for index in kern.into_iter().flat_map(|kern| kern.lookup_indices) {
                let Some(lookup) = gpos.lookups.get(index) else {
                    continue;
                };
                for table in lookup.subtables.into_iter::<PositioningSubtable<'_>>() {
                    if let PositioningSubtable::Pair(pair) = table {
                        pairs.push(pair);
                    }
                }
            }
        }
        Self { pairs }
    }

    /// What is added between two letters, in units of the font; the first table that knows the first letter decides.
    fn between(&self, first: GlyphId, second: GlyphId) -> i16 {
        for pair in &self.pairs {
            let Some(at) = pair.coverage().get(first) else {
                continue;
            };
            match pair {
                PairAdjustment::Format1 { sets, .. } => {
                    let found = sets.get(at).and_then(|set| set.get(second));
                    if let Some((value, _)) = found {
                        return value.x_advance;
                    }
                }
                PairAdjustment::Format2 {
                    classes, matrix, ..
                } => {
                    let classes = (classes.0.get(first), classes.1.get(second));
                    return matrix.get(classes).map_or(0, |(value, _)| value.x_advance);
                }
            }
        }
        0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_face_has_its_signs() {
        for face in [Face::Text, Face::Italic, Face::Semibold] {
            assert!(
                face.has_all("C♭ D♮ F♯ Česká ½ ⅓ ⅔ ¼ ¾ „ß“ «œ»\u{202f}–"),
                "{face:?}"
            );
        }
        assert!(Face::Text.has_all("Рахманинов Σκαλκώτας"));
        assert!(Face::Signs.has_all("\u{e680}\u{e681}\u{e682}\u{e683}"));
        assert!(!Face::Text.has_all("漢"));
    }

    #[test]
    fn pairs_are_kerned_and_widths_follow_the_size() {
        let apart = Face::Text.width("A", 10.0) + Face::Text.width("V", 10.0);
        let together = Face::Text.width("AV", 10.0);
        assert!(together < apart - 0.2, "{together} {apart}");
        assert!((Face::Text.width("AV", 20.0) - 2.0 * together).abs() < 1e-9);
        assert_eq!(Face::Text.width("", 10.0), 0.0);
    }
}
