//! What lies on a page: text, lines and rings, each at its place. In points from the top left corner. All of it is black but
//! the lines that stand for a harp's coloured strings.

use super::face::Face;
use crate::Paper;

/// One page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// The sheet.
    pub paper: Paper,
    /// Whose page it is.
    pub title: String,
    /// What lies on it.
    pub items: Vec<Item>,
}

/// Something on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// One line of text.
    Text {
        /// Its left edge.
        x: f64,
        /// Its baseline.
        y: f64,
        /// The size of the letters.
        size: f64,
        /// The letters.
        face: Face,
        /// The text.
        text: String,
    },
    /// A straight line.
    Line {
        /// From here.
        from: (f64, f64),
        /// To there.
        to: (f64, f64),
        /// How thick.
        width: f64,
        /// Its colour.
        dye: Dye,
    },
    /// A ring.
    Ring {
        /// Its middle.
        centre: (f64, f64),
        /// Half its width and half its height.
        radius: (f64, f64),
        /// How thick its line is.
        width: f64,
    },
}

/// The colour of a line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Dye {
    /// Black.
    #[default]
    Black,
    /// Red, as a C string is.
    Red,
    /// Dark blue, as an F string is.
    Blue,
}

impl Dye {
    /// Red, green and blue, each 0 to 255; on white paper those of the harp's picture, the red lighter than the blue where a
    /// printer has no colours.
    pub fn rgb(self) -> [u8; 3] {
        match self {
            Self::Black => [0, 0, 0],
            Self::Red => [0xb3, 0x24, 0x1c],
            Self::Blue => [0x1d, 0x3c, 0x78],
        }
    }
}

/// A drawing under way, from its own left and top.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Ink {
    pub(crate) items: Vec<Item>,
}

impl Ink {
    /// Text from its left edge; gives its width.
    pub(crate) fn text(&mut self, (x, y): (f64, f64), size: f64, face: Face, text: &str) -> f64 {
        if text.is_empty() {
            return 0.0;
        }
        let text = text.to_owned();
        let width = face.width(&text, size);
        self.items.push(Item::Text {
            x,
            y,
            size,
            face,
            text,
        });
        width
    }

    pub(crate) fn centred(&mut self, (x, y): (f64, f64), size: f64, face: Face, text: &str) {
        let half = face.width(text, size) / 2.0;
        self.text((x - half, y), size, face, text);
    }

    /// Text to its right edge.
    pub(crate) fn ending(&mut self, (x, y): (f64, f64), size: f64, face: Face, text: &str) {
        let width = face.width(text, size);
        self.text((x - width, y), size, face, text);
    }

    pub(crate) fn line(&mut self, from: (f64, f64), to: (f64, f64), width: f64) {
        self.string((from, to), width, Dye::Black);
    }

    /// A line of a colour.
    pub(crate) fn string(&mut self, (from, to): ((f64, f64), (f64, f64)), width: f64, dye: Dye) {
        self.items.push(Item::Line {
            from,
            to,
            width,
            dye,
        });
    }

    pub(crate) fn ring(&mut self, centre: (f64, f64), radius: (f64, f64), width: f64) {
        self.items.push(Item::Ring {
            centre,
            radius,
            width,
        });
    }

    /// The frame round a rehearsal mark.
    pub(crate) fn frame(&mut self, (x, y): (f64, f64), (w, h): (f64, f64), width: f64) {
        let half = width / 2.0;
        for (from, to) in [
            ((x - half, y), (x + w + half, y)),
            ((x - half, y + h), (x + w + half, y + h)),
            ((x, y), (x, y + h)),
            ((x + w, y), (x + w, y + h)),
        ] {
            self.line(from, to, width);
        }
    }

    /// Another drawing, moved.
    pub(crate) fn put(&mut self, other: Ink, by: (f64, f64)) {
        self.items
            .extend(other.items.into_iter().map(|item| item.moved(by)));
    }
}

impl Item {
    fn moved(self, (dx, dy): (f64, f64)) -> Self {
        let shift = |(x, y): (f64, f64)| (x + dx, y + dy);
        match self {
            Self::Text {
                x,
                y,
                size,
                face,
                text,
            } => Self::Text {
                x: x + dx,
                y: y + dy,
                size,
                face,
                text,
            },
            Self::Line {
                from,
                to,
                width,
                dye,
            } => Self::Line {
                from: shift(from),
                to: shift(to),
                width,
                dye,
            },
            Self::Ring {
                centre,
                radius,
                width,
            } => Self::Ring {
                centre: shift(centre),
                radius,
                width,
            },
        }
    }
}
