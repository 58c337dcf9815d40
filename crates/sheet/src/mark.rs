//! What is known of a string, as its mark at the half: told by shape, never by colour alone.

mod shapes;

use crate::element::{Document, element};
use crate::tone::Palette;
use crate::{Drawn, Geometry, Mark, Picture, Place, Point};

/// Draws marks with one geometry in one tone.
pub(crate) struct Marker<'a> {
    pub(crate) geometry: &'a Geometry,
    pub(crate) palette: &'a Palette,
}

/// Where one mark goes, how large and with which ink.
struct Spot<'a> {
    place: &'a Place,
    /// Half the bead's width, stroke included.
    bead: f64,
    stroke: f64,
    ink: &'a str,
}

/// The last dot of a moving string's trail, as a share of the bead.
const SMALLEST: f64 = 0.15;

impl Marker<'_> {
    /// Every string's mark, the present one's on top.
    pub(crate) fn draw_all(&self, out: &mut Document, picture: &Picture) {
        for present in [false, true] {
            for (string, place) in picture.strings.iter().zip(&self.geometry.places) {
                if (picture.present == Some(string.name)) == present {
                    self.draw(out, string, place, present);
                }
            }
        }
    }

    /// The mark of a string; the present one's is larger and in its own ink.
    pub(crate) fn draw(&self, out: &mut Document, string: &Drawn, place: &Place, present: bool) {
        let (unit, bead) = (self.geometry.unit, self.geometry.bead);
        let spot = Spot {
            place,
            bead: if present {
                self.geometry.present_bead
            } else {
                bead
            },
            stroke: unit * if present { 1.5 } else { 1.0 },
            ink: if present {
                self.palette.present
            } else {
                self.palette.ink
            },
        };
        self.shape(out, &spot, &string.mark);
        if let Some(before) = string.before_cents {
            self.before(out, &spot, &string.mark, before);
        }
    }

    fn shape(&self, out: &mut Document, spot: &Spot<'_>, mark: &Mark) {
        let place = spot.place;
        match mark {
            Mark::NotYetHeard => {
                out.empty(self.across(place.half, 0.62 * spot.bead, spot.stroke, spot.ink))
            }
            Mark::Off { cents, u95_cents } => {
                self.thread(out, spot, *cents);
                self.interval(out, spot, *cents, *u95_cents);
                out.empty(self.open(spot, place.bead_at(*cents)));
            }
            Mark::InTune { u95_cents, .. } => {
                self.interval(out, spot, 0.0, *u95_cents);
                out.empty(self.dot(place.half, spot.bead, spot.ink));
            }
            Mark::Near { cents, u95_cents } => {
                self.thread(out, spot, *cents);
                self.interval(out, spot, *cents, *u95_cents);
                self.half_filled(out, spot, place.bead_at(*cents));
            }
            Mark::Moving { cents, trail_cents } => self.moving(out, spot, *cents, trail_cents),
            Mark::Skipped => self.dash(out, spot),
            Mark::Broken => {}
            Mark::New { cents } => {
                let cents = cents.unwrap_or(0.0);
                self.thread(out, spot, cents);
                out.empty(self.lozenge(spot, place.bead_at(cents)));
            }
            Mark::Again { u95_cents, .. } => {
                self.interval(out, spot, 0.0, *u95_cents);
                out.empty(self.open(spot, place.half));
                out.empty(self.dot(place.half, 0.5 * spot.bead, spot.ink));
            }
        }
    }

    /// Where it was when first heard: a small dot, left out where the bead would touch it.
    fn before(&self, out: &mut Document, spot: &Spot<'_>, mark: &Mark, before: f64) {
        let dot = spot.place.bead_at(before);
        let radius = 0.36 * self.geometry.bead;
        let bead = match mark {
            Mark::Skipped | Mark::Broken => return,
            Mark::InTune { .. } | Mark::Again { .. } => spot.place.half,
            _ => spot.place.bead_at(mark.cents().unwrap_or_default()),
        };
        if (dot.y - bead.y).abs() > spot.bead + radius {
            out.empty(self.clear_dot(dot, radius, spot.ink));
        }
    }

    /// From the middle line to the bead, along the string and clear of it.
    fn thread(&self, out: &mut Document, spot: &Spot<'_>, cents: f64) {
        let (start, end) = (spot.place.half, spot.place.bead_at(cents));
        if (end.y - start.y).abs() > spot.bead {
            let width = 1.5 * spot.stroke;
            let clear = width.max(spot.place.thickness) + 1.4 * self.geometry.unit;
            out.empty(self.line(start, end, clear, self.palette.paper));
            out.empty(self.line(start, end, width, spot.ink));
        }
        out.empty(self.across(start, 0.62 * spot.bead, spot.stroke, spot.ink));
    }

    /// The 95 % interval: a fine bar through the bead, closed at both ends; hidden by the bead
    /// where it is no longer than that.
    fn interval(&self, out: &mut Document, spot: &Spot<'_>, cents: f64, u95_cents: f64) {
        let width = 0.6 * spot.stroke;
        let bead = spot.place.bead_at(cents).y;
        let ends = [cents - u95_cents.abs(), cents + u95_cents.abs()];
        for end in ends.map(|cents| spot.place.bead_at(cents)) {
            if (end.y - bead).abs() > spot.bead + 1.5 * width {
                out.empty(self.line(Point { y: bead, ..end }, end, width, spot.ink));
                out.empty(self.across(end, 0.6 * spot.bead, width, spot.ink));
            }
        }
    }

    /// A bead in broken outline, and where it was: the longer ago, the smaller, as far as the
    /// places stand clear of each other.
    fn moving(&self, out: &mut Document, spot: &Spot<'_>, cents: f64, trail_cents: &[f64]) {
        let mut last = spot.place.bead_at(cents).y;
        let mut apart = 1.45 * spot.bead;
        let mut radius = 0.42 * spot.bead;
        for cents in trail_cents.iter().rev() {
            let place = spot.place.bead_at(*cents);
            if (place.y - last).abs() >= apart && radius >= SMALLEST * spot.bead {
                out.empty(self.clear_dot(place, radius, spot.ink));
                (last, apart) = (place.y, 2.2 * radius);
                radius -= 0.06 * spot.bead;
            }
        }
        let radius = spot.bead - 0.5 * spot.stroke;
        let sixth = radius * std::f64::consts::PI / 3.0;
        let dashes = format!("{:.3} {:.3}", 0.62 * sixth, 0.38 * sixth);
        let bead = self.open(spot, spot.place.bead_at(cents));
        out.empty(bead.set("stroke-dasharray", &dashes));
    }

    fn half_filled(&self, out: &mut Document, spot: &Spot<'_>, centre: Point) {
        out.empty(self.open(spot, centre));
        let radius = spot.bead - 0.5 * spot.stroke;
        let path = format!(
            "M{:.3} {:.3}a{radius:.3} {radius:.3} 0 0 0 {:.3} 0z",
            centre.x - radius,
            centre.y,
            2.0 * radius
        );
        out.empty(element("path").set("d", &path).set("fill", spot.ink));
    }

    /// A heavy dash, the string interrupted around it.
    fn dash(&self, out: &mut Document, spot: &Spot<'_>) {
        let half = spot.place.half;
        let gap = 1.2 * spot.bead;
        let above = Point {
            y: half.y - gap,
            ..half
        };
        let below = Point {
            y: half.y + gap,
            ..half
        };
        let clear = 2.0 * spot.place.thickness + self.geometry.unit;
        out.empty(self.line(above, below, clear, self.palette.paper));
        out.empty(self.across(half, spot.bead, 2.0 * spot.stroke, spot.ink));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Picture, Size, Tone};
    use harp::Harp;

    /// The mark as it is drawn, every colour taken away.
    fn shape(mark: Mark) -> String {
        let mut picture = Picture::of(&Harp::named("pedal47").unwrap());
        picture.strings[20].mark = mark;
        let layout = Size::Phone.layout(picture.side);
        let geometry = Geometry::of(&picture, layout.frame, layout.unit);
        let palette = Palette::of(Tone::Light, false);
        let mut document = Document::default();
        let marker = Marker {
            geometry: &geometry,
            palette: &palette,
        };
        let place = &geometry.places[20];
        marker.draw(&mut document, &picture.strings[20], place, false);
        let drawn = document.finish();
        // Ink and paper differ in shape too: one fills, the other leaves open.
        drawn
            .replace(palette.paper, "open")
            .replace(palette.ink, "ink")
    }

    #[test]
    fn every_state_has_a_shape_of_its_own() {
        let (cents, u95_cents) = (2.0, 1.0);
        let shapes = [
            Mark::NotYetHeard,
            Mark::Off { cents, u95_cents },
            Mark::InTune { cents, u95_cents },
            Mark::Near { cents, u95_cents },
            Mark::Moving {
                cents,
                trail_cents: Vec::new(),
            },
            Mark::Skipped,
            Mark::Broken,
            Mark::New { cents: Some(cents) },
            Mark::Again { cents, u95_cents },
        ]
        .map(shape);
        for (place, one) in shapes.iter().enumerate() {
            assert!(!one.contains('#'), "a colour of its own: {one}");
            assert!(!shapes[place + 1..].contains(one), "{one}");
        }
    }

    #[test]
    fn a_bead_that_is_off_is_open_and_one_in_tune_is_filled_on_the_line() {
        let (cents, u95_cents) = (2.0, 0.1);
        let off = shape(Mark::Off { cents, u95_cents });
        assert!(off.contains("<circle") && off.contains(r#"fill="open" stroke="ink""#));
        let in_tune = shape(Mark::InTune { cents, u95_cents });
        assert_eq!(
            in_tune,
            shape(Mark::InTune {
                cents: -cents,
                u95_cents
            })
        );
        assert!(in_tune.contains("<circle") && in_tune.contains(r#"fill="ink""#));
    }

    #[test]
    fn the_interval_shows_on_both_sides_of_the_bead_when_it_is_longer() {
        let bars = |u95_cents| {
            let drawn = shape(Mark::InTune {
                cents: 0.0,
                u95_cents,
            });
            drawn.matches("<line").count()
        };
        assert_eq!(bars(0.2), 0);
        assert_eq!(bars(6.0), 4);
    }
}
