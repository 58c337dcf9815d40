//! The sizes a picture comes in, and where harp and words stand in each.

use crate::{Frame, Side};

/// A size of picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// 390 × 844 px.
    Phone,
    /// 834 × 1194 px.
    Tablet,
    /// 1280 × 800 px.
    Desk,
    /// A4 upright, 210 × 297 mm; always light, on white.
    Paper,
}

/// Where things stand, in the units of the SVG.
pub(crate) struct Layout {
    pub(crate) width: f64,
    pub(crate) height: f64,
    /// What follows width and height: `mm` on paper.
    pub(crate) measure: &'static str,
    pub(crate) unit: f64,
    pub(crate) frame: Frame,
    /// Title and present string: first baseline, and whether the text ends at x.
    pub(crate) head: Corner,
    /// List and key: their box, of which the harp's body may cover the upper part.
    pub(crate) foot: Frame,
}

/// Where words begin.
#[derive(Clone, Copy)]
pub(crate) struct Corner {
    pub(crate) x: f64,
    pub(crate) y: f64,
    pub(crate) ends: bool,
}

impl Size {
    /// Every size.
    pub const ALL: [Self; 4] = [Self::Phone, Self::Tablet, Self::Desk, Self::Paper];

    /// Width and height, in px, on paper in mm.
    pub fn extent(self) -> (f64, f64) {
        match self {
            Self::Phone => (390.0, 844.0),
            Self::Tablet => (834.0, 1194.0),
            Self::Desk => (1280.0, 800.0),
            Self::Paper => (210.0, 297.0),
        }
    }

    pub(crate) fn layout(self, side: Side) -> Layout {
        match self {
            Self::Phone => self.upright(side, 1.0),
            Self::Tablet => self.upright(side, 1.4),
            Self::Desk => self.wide(side, 1.1),
            Self::Paper => self.upright(side, 0.36),
        }
    }

    /// Words in the two corners that a harp leaves free: above the treble and below the soundboard.
    fn upright(self, side: Side, unit: f64) -> Layout {
        let (width, height) = self.extent();
        let margin = 14.0 * unit;
        let foot_width = (0.44 * width).max(156.0 * unit);
        let player = side == Side::Player;
        let outer = |inner: f64| {
            if player {
                width - margin - inner
            } else {
                margin
            }
        };
        Layout {
            head: Corner {
                x: outer(0.0),
                y: margin + 18.0 * unit,
                ends: player,
            },
            foot: Frame {
                left: outer(foot_width),
                top: 0.5 * height,
                width: foot_width,
                height: 0.5 * height - 16.0 * unit,
            },
            ..self.blank(unit, framed(width, height, unit, player))
        }
    }

    /// Words beside the harp.
    fn wide(self, side: Side, unit: f64) -> Layout {
        let (width, height) = self.extent();
        let (inset, harp) = (26.0 * unit, 0.64 * width);
        let frame = framed(harp - inset, height, unit, side == Side::Player);
        let (x, top) = (harp + 40.0 * unit, 190.0 * unit);
        Layout {
            head: Corner {
                x,
                y: 50.0 * unit,
                ends: false,
            },
            foot: Frame {
                left: x,
                top,
                width: width - x - 20.0 * unit,
                height: height - top - 24.0 * unit,
            },
            ..self.blank(
                unit,
                Frame {
                    left: inset + frame.left,
                    ..frame
                },
            )
        }
    }

    fn blank(self, unit: f64, frame: Frame) -> Layout {
        let (width, height) = self.extent();
        let corner = Corner {
            x: 0.0,
            y: 0.0,
            ends: false,
        };
        Layout {
            width,
            height,
            measure: if self == Self::Paper { "mm" } else { "" },
            unit,
            frame,
            head: corner,
            foot: frame,
        }
    }
}

/// The strings' box inside a harp's `width` × `height`: room for the column on the bass side, the
/// shoulder on the other, the neck with its letters above and the foot below.
pub(crate) fn framed(width: f64, height: f64, unit: f64, player: bool) -> Frame {
    let (column, shoulder) = (38.0 * unit, 30.0 * unit);
    let (top, foot) = (56.0 * unit, 50.0 * unit);
    Frame {
        left: if player { column } else { shoulder },
        top,
        width: width - column - shoulder,
        height: height - top - foot,
    }
}
