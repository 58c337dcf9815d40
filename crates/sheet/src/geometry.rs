//! Where each string of a picture lies: its ends, its half, and the way of its bead.

use harp::StringName;

use crate::length::{gauge_mm, lengths};
use crate::{Picture, Side, share_of_reach};

/// A place in the picture, in its own units, y downwards as in SVG.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

/// The box that the strings fill, without column, neck and body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Width, positive.
    pub width: f64,
    /// Height, positive.
    pub height: f64,
}

/// Where one string lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The string.
    pub name: StringName,
    /// Its end at the neck.
    pub neck: Point,
    /// Its end at the soundboard.
    pub board: Point,
    /// The half of its speaking length, where its harmonic is played and the middle line crosses.
    pub half: Point,
    /// How far a bead can stand from the half, to either side: the same for all strings long
    /// enough, less for the shortest.
    pub reach: f64,
    /// How thick it is drawn.
    pub thickness: f64,
}

/// Where everything lies that marks a string.
#[derive(Clone, Debug, PartialEq)]
pub struct Geometry {
    /// The strings in the picture's order, from the bass.
    pub places: Vec<Place>,
    /// From one string to the next.
    pub spacing: f64,
    /// Half the width of a bead, its stroke included: two neighbours never touch.
    pub bead: f64,
    /// The same for the present string's, larger: it does not touch a neighbour's either.
    pub present_bead: f64,
    /// The picture's step: what a CSS pixel is on a phone. Strokes and letters are measured in it.
    pub unit: f64,
    pub(crate) frame: Frame,
    pub(crate) side: Side,
}

/// How far the soundboard rises by from one letter to the next, in mm as the lengths are; chosen
/// so that the neck of a 47-string harp falls and rises as a harp's does (no source).
const RISE_MM: f64 = 22.5;
/// From one string to the next, in mm as the lengths are, before the picture is widened (no source).
const STEP_MM: f64 = 14.0;
/// A picture may be so many times wider than a harp, so that beads have room; no more, or it looks
/// like none.
const WIDEST: f64 = 2.2;
/// Reach of a bead as a share of the frame's height, and what it is held between, in units.
const REACH: (f64, f64, f64) = (0.085, 30.0, 64.0);

impl Geometry {
    /// The strings of a picture in a frame; strokes and beads measured in `unit`, which is what a
    /// CSS pixel is worth on a phone. The frame is filled from the bass; a small harp need not
    /// fill its width.
    ///
    /// ```
    /// use sheet::{Frame, Geometry, Picture};
    /// let picture = Picture::of(&harp::Harp::named("pedal47")?);
    /// let frame = Frame { left: 30.0, top: 20.0, width: 330.0, height: 300.0 };
    /// let geometry = Geometry::of(&picture, frame, 1.0);
    /// let c4 = &geometry.places[21];
    /// assert!((c4.half.y - (c4.neck.y + c4.board.y) / 2.0).abs() < 1e-9);
    /// assert!(geometry.bead_at(21, -14.0).y > c4.half.y);
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn of(picture: &Picture, frame: Frame, unit: f64) -> Self {
        let lengths_mm = lengths(&picture.strings).mm;
        let gaps = picture.strings.len().saturating_sub(1).max(1) as f64;
        let letters = letters_between(picture).max(1.0);
        let rise_mm = |place: usize| RISE_MM * letters * place as f64 / gaps;
        let tops = lengths_mm.iter().enumerate();
        let highest_mm = tops
            .map(|(place, mm)| mm + rise_mm(place))
            .fold(1.0, f64::max);
        let scale = frame.height / highest_mm;
        let width = frame.width.min(STEP_MM * letters * scale * WIDEST);
        let spacing = width / gaps;
        let bead = (0.43 * spacing).min(6.0 * unit);
        let reach = (REACH.0 * frame.height).clamp(REACH.1 * unit, REACH.2 * unit);
        let strings = picture.strings.iter().zip(lengths_mm).enumerate();
        let places = strings.map(|(place, (string, mm))| {
            let bass_left = frame.left + spacing * place as f64;
            let x = match picture.side {
                Side::Player => bass_left,
                Side::Other => 2.0 * frame.left + frame.width - bass_left,
            };
            let board = frame.top + frame.height - rise_mm(place) * scale;
            let neck = board - mm * scale;
            let half_length = (board - neck) / 2.0;
            Place {
                name: string.name,
                neck: Point { x, y: neck },
                board: Point { x, y: board },
                half: Point {
                    x,
                    y: neck + half_length,
                },
                reach: reach.min((half_length - bead).max(1.5 * bead)),
                thickness: unit * thickness(gauge_mm(string, mm), string.wire),
            }
        });
        Self {
            places: places.collect(),
            spacing,
            bead,
            present_bead: (0.54 * spacing).min(8.0 * unit),
            unit,
            frame,
            side: picture.side,
        }
    }

    /// How far up the string from its half (towards the neck, positive) a bead stands for so many
    /// cents; nought for a string that is not there.
    pub fn offset(&self, place: usize, cents: f64) -> f64 {
        let reach = self.places.get(place).map_or(0.0, |place| place.reach);
        reach * share_of_reach(cents)
    }

    /// Where a bead stands for so many cents: towards the neck when the string is too high.
    pub fn bead_at(&self, place: usize, cents: f64) -> Point {
        let half = self.places.get(place).map_or(
            Point {
                x: self.frame.left,
                y: self.frame.top,
            },
            |place| place.half,
        );
        Point {
            y: half.y - self.offset(place, cents),
            ..half
        }
    }

    /// The same x seen from the player's side: column, neck and body are drawn from there.
    pub(crate) fn flip(&self, x: f64) -> f64 {
        match self.side {
            Side::Player => x,
            Side::Other => 2.0 * self.frame.left + self.frame.width - x,
        }
    }
}

fn thickness(gauge_mm: f64, wire: bool) -> f64 {
    let thickness = 0.45 + 0.28 * gauge_mm;
    if wire { 1.6 * thickness } else { thickness }
}

/// Letters from the lowest string to the highest, however many strings stand between.
fn letters_between(picture: &Picture) -> f64 {
    let steps = |name: StringName| 7.0 * f64::from(name.octave) + name.letter.index() as f64;
    match (picture.strings.first(), picture.strings.last()) {
        (Some(low), Some(high)) => (steps(high.name) - steps(low.name)).abs(),
        _ => 0.0,
    }
}
