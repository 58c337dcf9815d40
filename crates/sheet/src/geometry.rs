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

impl Place {
    /// How far up the string from its half (towards the neck, positive) a bead stands for so many
    /// cents: [`share_of_reach`] of its reach.
    pub fn offset(&self, cents: f64) -> f64 {
        self.reach * share_of_reach(cents)
    }

    /// Where a bead stands for so many cents: towards the neck when the string is too high.
    pub fn bead_at(&self, cents: f64) -> Point {
        Point {
            y: self.half.y - self.offset(cents),
            ..self.half
        }
    }
}

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
    /// assert!(c4.bead_at(-14.0).y > c4.half.y);
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn of(picture: &Picture, frame: Frame, unit: f64) -> Self {
        Self::widened(picture, frame, unit, WIDEST)
    }

    /// The same, so many times wider than a harp at most.
    pub(crate) fn widened(picture: &Picture, frame: Frame, unit: f64, widest: f64) -> Self {
        let lengths_mm = lengths(&picture.strings).mm;
        let gaps = picture.strings.len().saturating_sub(1).max(1) as f64;
        let letters = letters_between(picture).max(1.0);
        let rise_mm = |place: usize| RISE_MM * letters * place as f64 / gaps;
        let tops = lengths_mm.iter().enumerate();
        let highest_mm = tops
            .map(|(place, mm)| mm + rise_mm(place))
            .fold(1.0, f64::max);
        let scale = frame.height / highest_mm;
        let width = frame.width.min(STEP_MM * letters * scale * widest);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Mark, Size};
    use harp::{BUILT_IN, Harp};

    /// Every built-in harp in every size from both sides, with its canvas.
    fn all(check: impl Fn(&str, &Picture, &Geometry, (f64, f64))) {
        for built_in in &BUILT_IN {
            let mut picture = Picture::of(&Harp::named(built_in.name).unwrap());
            for size in Size::ALL {
                for side in [Side::Player, Side::Other] {
                    picture.side = side;
                    let layout = size.layout(side);
                    let geometry = Geometry::of(&picture, layout.frame, layout.unit);
                    check(built_in.name, &picture, &geometry, size.extent());
                }
            }
        }
    }

    #[test]
    fn strings_stand_in_their_order_upright_between_neck_and_soundboard() {
        all(|name, picture, geometry, _| {
            assert_eq!(geometry.places.len(), picture.strings.len());
            for pair in geometry.places.windows(2) {
                let step = geometry.flip(pair[1].half.x) - geometry.flip(pair[0].half.x);
                assert!((step - geometry.spacing).abs() < 1e-9, "{name}");
                assert!(pair[1].board.y < pair[0].board.y, "{name}");
            }
            let ends = [
                &geometry.places[0],
                &geometry.places[geometry.places.len() - 1],
            ];
            let bass_left = ends[0].half.x < ends[1].half.x;
            assert_eq!(bass_left, picture.side == Side::Player);
        });
    }

    #[test]
    fn drawn_lengths_are_in_the_ratio_of_the_real_ones() {
        all(|name, picture, geometry, _| {
            let real = lengths(&picture.strings).mm;
            let drawn = |place: &Place| place.board.y - place.neck.y;
            let scale = drawn(&geometry.places[0]) / real[0];
            for (place, real) in geometry.places.iter().zip(real) {
                assert!((drawn(place) - scale * real).abs() < 1e-6, "{name}");
            }
        });
    }

    #[test]
    fn the_half_is_at_half_the_speaking_length() {
        all(|name, _, geometry, _| {
            for place in &geometry.places {
                let (up, down) = (place.half.y - place.neck.y, place.board.y - place.half.y);
                assert!((up - down).abs() < 1e-9 && up > 0.0, "{name}");
                assert!(place.half.x == place.neck.x && place.half.x == place.board.x);
            }
        });
    }

    #[test]
    fn beads_stay_on_the_canvas_and_on_their_strings() {
        all(|name, _, geometry, (width, height)| {
            for place in &geometry.places {
                for cents in [-500.0, -60.0, 0.0, 60.0, 500.0] {
                    let (bead, half) = (place.bead_at(cents), geometry.present_bead);
                    assert!(half < bead.x && bead.x < width - half, "{name}");
                    assert!(half < bead.y && bead.y < height - half, "{name}");
                    assert!(place.neck.y < bead.y && bead.y < place.board.y, "{name}");
                }
                assert!(place.bead_at(3.0).y < place.half.y - 0.1 * place.reach);
            }
        });
    }

    #[test]
    fn neighbouring_beads_never_touch_however_far_off_their_strings() {
        all(|name, _, geometry, _| {
            assert!(2.0 * geometry.bead < geometry.spacing, "{name}");
            assert!(
                geometry.present_bead + geometry.bead < geometry.spacing,
                "{name}"
            );
            assert!(geometry.present_bead > geometry.bead, "{name}");
        });
    }

    #[test]
    fn on_a_phone_47_strings_stand_at_least_5_px_apart_with_beads_of_5_px() {
        let picture = Picture::of(&Harp::named("pedal47").unwrap());
        let layout = Size::Phone.layout(picture.side);
        let geometry = Geometry::of(&picture, layout.frame, layout.unit);
        assert!(geometry.spacing >= 5.0, "{}", geometry.spacing);
        assert!(2.0 * geometry.bead >= 5.0, "{}", geometry.bead);
    }

    #[test]
    fn what_is_known_of_the_strings_does_not_move_them() {
        let picture = Picture::of(&Harp::named("lever36").unwrap());
        let mut other = picture.clone();
        other.strings[3].mark = Mark::Broken;
        other.strings[9].mark = Mark::New {
            cents: Some(-400.0),
        };
        let layout = Size::Tablet.layout(picture.side);
        let of = |picture| Geometry::of(picture, layout.frame, layout.unit);
        assert_eq!(of(&picture), of(&other));
    }

    #[test]
    fn a_harp_of_one_string_or_none_has_a_place_for_each() {
        let mut picture = Picture::of(&Harp::named("lever22").unwrap());
        picture.strings.truncate(1);
        let layout = Size::Phone.layout(picture.side);
        let of = |picture: &Picture| Geometry::of(picture, layout.frame, layout.unit);
        assert!(of(&picture).places[0].half.y.is_finite());
        picture.strings.clear();
        assert!(of(&picture).places.is_empty());
    }
}
