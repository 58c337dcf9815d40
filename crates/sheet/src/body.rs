//! Column, neck and body: the outline in which the strings hang.

use crate::column::{Column, HALF_SHAFT};
use crate::curve::{onwards, pair, through, walked};
use crate::element::{Document, Element, element};
use crate::tone::Palette;
use crate::{Geometry, Point, Side};

/// The lines of the outline, all seen from the player's side; who draws turns them round.
pub(crate) struct Body {
    /// Lower edge of the neck, from the column to the shoulder.
    lower: Vec<Point>,
    /// Its upper edge.
    upper: Vec<Point>,
    /// The soundboard, from the column to the shoulder.
    board: [Point; 2],
    /// The back of the body, from the foot to the shoulder.
    back: [Point; 2],
    column_x: f64,
    foot_y: f64,
}

/// In units: from the outermost strings to the column's middle and to the shoulder.
const TO_COLUMN: f64 = 18.0;
const TO_SHOULDER: f64 = 9.0;
/// The neck's slope from the outermost string to the column, as a share of what it was before.
const TO_COLUMN_SLOPE: f64 = 0.4;
/// From the strings' ends to the neck.
const ABOVE_STRINGS: f64 = 2.5;
/// From the neck's upper edge to the top of the column's shaft.
const ABOVE_NECK: f64 = 5.0;
/// Height of the neck.
const NECK: f64 = 11.0;
/// Depth of the body at the column and at the shoulder.
const DEPTH: (f64, f64) = (30.0, 11.0);
/// From the frame's lower edge to the floor of the foot.
const FOOT: f64 = 30.0;

impl Body {
    /// The outline around a geometry; `None` where there is no string.
    pub(crate) fn around(geometry: &Geometry) -> Option<Self> {
        let unit = geometry.unit;
        let first = geometry.places.first()?;
        let last = geometry.places.last()?;
        let left = geometry.flip(first.board.x) - TO_COLUMN * unit;
        let right = geometry.flip(last.board.x) + TO_SHOULDER * unit;
        let lower = lower_edge(geometry, left, right);
        let upper = lower.iter().map(|point| Point {
            y: point.y - NECK * unit,
            ..*point
        });
        let foot_y = geometry.frame.top + geometry.frame.height + FOOT * unit;
        let run = (geometry.flip(last.board.x) - geometry.flip(first.board.x)).max(unit);
        let slope = (first.board.y - last.board.y) / run;
        let on_board = |x: f64| Point {
            x,
            y: (first.board.y - slope * (x - geometry.flip(first.board.x))).min(foot_y),
        };
        let board = [on_board(left), on_board(right)];
        Some(Self {
            upper: upper.collect(),
            back: back(board, slope, unit, foot_y),
            lower,
            board,
            column_x: left,
            foot_y,
        })
    }

    /// Highest point of the neck's upper edge between two x, as drawn.
    pub(crate) fn top_between(&self, geometry: &Geometry, x: f64, half_width: f64) -> f64 {
        let x = geometry.flip(x);
        let inside = self
            .upper
            .iter()
            .filter(|point| (point.x - x).abs() < half_width);
        let ends = [x - half_width, x + half_width].map(|x| height_at(&self.upper, x));
        inside
            .map(|point| point.y)
            .chain(ends)
            .fold(f64::INFINITY, f64::min)
    }

    /// How low the body reaches between two x, as drawn; `None` where it does not.
    pub(crate) fn bottom_between(&self, geometry: &Geometry, x: f64, width: f64) -> Option<f64> {
        let (one, other) = (geometry.flip(x), geometry.flip(x + width));
        let [foot, top] = self.back;
        if one.max(other) < foot.x {
            return None;
        }
        let x = one.min(other).max(foot.x);
        let share = (x - foot.x) / (top.x - foot.x);
        (0.0..=1.0)
            .contains(&share)
            .then_some(foot.y + share * (top.y - foot.y))
    }

    /// Where a string's tuning pin sits: in the middle of the neck, above its end.
    pub(crate) fn pin(&self, geometry: &Geometry, x: f64) -> Point {
        let y = height_at(&self.lower, geometry.flip(x)) - 0.5 * NECK * geometry.unit;
        Point { x, y }
    }

    pub(crate) fn draw(&self, document: &mut Document, geometry: &Geometry, palette: &Palette) {
        let group = element("g")
            .set("fill", "none")
            .set("stroke", palette.ink)
            .set("stroke-linejoin", "round")
            .set("stroke-linecap", "round");
        document.open(match geometry.side {
            Side::Player => group,
            Side::Other => {
                let shift = 2.0 * geometry.frame.left + geometry.frame.width;
                group.set("transform", &format!("matrix(-1 0 0 1 {shift} 0)"))
            }
        });
        self.draw_wood(document, geometry.unit);
        let column = Column {
            x: self.column_x,
            top: self.upper[0].y - ABOVE_NECK * geometry.unit,
            foot: self.foot_y,
            plinth_end: self.back[0].x + 4.0 * geometry.unit,
            unit: geometry.unit,
        };
        column.draw(document, palette);
        document.close();
    }

    /// The wood as lines with their widths, and the column in them, for a page that knows straight lines only; seen from the
    /// player's side.
    pub(crate) fn outline(&self, unit: f64) -> Vec<(Vec<Point>, f64)> {
        let point = |x: f64, y: f64| Point { x, y };
        let [board_start, board_end] = self.board;
        let [back_foot, back_top] = self.back;
        let (Some(&upper), Some(&lower)) = (self.upper.last(), self.lower.last()) else {
            return Vec::new();
        };
        let shaft = HALF_SHAFT * unit;
        let top = self.upper[0].y - ABOVE_NECK * unit;
        let side = |x: f64| vec![point(x, top), point(x, self.foot_y)];
        let across = |y: f64, half: f64| {
            vec![
                point(self.column_x - half, y),
                point(self.column_x + half, y),
            ]
        };
        let shoulder = [upper, point(upper.x + 5.0 * unit, lower.y), back_top];
        vec![
            (walked(&self.upper, 4), 1.4 * unit),
            (walked(&self.lower, 4), 1.0 * unit),
            (walked(&shoulder, 6), 1.4 * unit),
            (vec![lower, board_end], 1.0 * unit),
            (vec![board_start, board_end], 1.1 * unit),
            (vec![back_top, back_foot], 1.4 * unit),
            (side(self.column_x - shaft), 1.4 * unit),
            (side(self.column_x + shaft), 1.4 * unit),
            (across(top, 1.7 * shaft), 2.6 * unit),
            (across(top + 5.0 * unit, 1.3 * shaft), 1.2 * unit),
            (across(self.foot_y - 8.0 * unit, 1.3 * shaft), 1.2 * unit),
            (
                vec![
                    point(self.column_x - 2.0 * shaft, self.foot_y),
                    point(back_foot.x + 4.0 * unit, self.foot_y),
                ],
                1.4 * unit,
            ),
        ]
    }

    fn draw_wood(&self, document: &mut Document, unit: f64) {
        let [board_start, board_end] = self.board;
        let [back_foot, back_top] = self.back;
        let (Some(&upper), Some(&lower)) = (self.upper.last(), self.lower.last()) else {
            return;
        };
        let towards = |from: Point, x: f64, y: f64| Point {
            x: from.x + x * unit,
            y: from.y + y * unit,
        };
        let outer = format!(
            "{}C{} {} {}L{}",
            through(&self.upper),
            pair(towards(upper, 7.0, -1.0)),
            pair(towards(back_top, 6.0, -9.0)),
            pair(back_top),
            pair(back_foot),
        );
        let inner = format!(
            "M{}{}Q{} {}L{}",
            pair(self.lower[0]),
            onwards(&self.lower),
            pair(towards(lower, 3.5, 0.5)),
            pair(board_end),
            pair(board_start),
        );
        let side = self.inside_back(0.8);
        document.empty(line(&outer, 1.5 * unit));
        document.empty(line(&inner, 1.1 * unit));
        document.empty(line(&side, 0.4 * unit));
    }

    /// A hairline along the back, as an engraver shades an edge.
    fn inside_back(&self, share: f64) -> String {
        let mix = |board: Point, back: Point| Point {
            x: board.x + share * (back.x - board.x),
            y: board.y + share * (back.y - board.y),
        };
        let foot = mix(
            Point {
                y: self.foot_y,
                ..self.board[0]
            },
            self.back[0],
        );
        format!("M{}L{}", pair(foot), pair(mix(self.board[1], self.back[1])))
    }
}

/// The neck's lower edge: a smooth line through the strings' upper ends, moved up until none
/// reaches into it, and carried on to the column and the shoulder.
fn lower_edge(geometry: &Geometry, left: f64, right: f64) -> Vec<Point> {
    let tops: Vec<f64> = geometry.places.iter().map(|place| place.neck.y).collect();
    let smooth: Vec<f64> = (0..tops.len())
        .map(|place| smoothed(&tops, place))
        .collect();
    let into = smooth.iter().zip(&tops).map(|(smooth, top)| smooth - top);
    let up = into.fold(0.0, f64::max) + ABOVE_STRINGS * geometry.unit;
    let mut edge: Vec<Point> = geometry
        .places
        .iter()
        .zip(&smooth)
        .map(|(place, y)| Point {
            x: geometry.flip(place.neck.x),
            y: y - up,
        })
        .collect();
    let beyond = |x: f64, end: Point, before: Option<&Point>, share: f64| {
        let slope = before.map_or(0.0, |before| (end.y - before.y) / (end.x - before.x));
        let slope = share * slope;
        Point {
            x,
            y: end.y + slope * (x - end.x),
        }
    };
    if let (Some(&first), Some(&last)) = (edge.first(), edge.last()) {
        let start = beyond(left, first, edge.get(1), TO_COLUMN_SLOPE);
        let end = beyond(right, last, edge.iter().rev().nth(1), 1.0);
        edge.insert(0, start);
        edge.push(end);
    }
    edge
}

/// A value as the straight line through it and three neighbours on either side has it (least
/// squares).
fn smoothed(values: &[f64], place: usize) -> f64 {
    let from = place.saturating_sub(3);
    let around = values.iter().enumerate().skip(from).take(place + 4 - from);
    let (mut n, mut x, mut y, mut xx, mut xy) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (at, value) in around {
        let dx = at as f64 - place as f64;
        n += 1.0;
        x += dx;
        y += value;
        xx += dx * dx;
        xy += dx * value;
    }
    let spread = n * xx - x * x;
    if spread > 0.0 {
        (xx * y - x * xy) / spread
    } else {
        y / n
    }
}

/// The back of the body: at its depths behind the soundboard, down to the foot.
fn back(board: [Point; 2], slope: f64, unit: f64, foot_y: f64) -> [Point; 2] {
    let length = slope.hypot(1.0);
    let behind = |point: Point, depth: f64| Point {
        x: point.x + depth * unit * slope / length,
        y: point.y + depth * unit / length,
    };
    let low = behind(board[0], DEPTH.0);
    let high = behind(board[1], DEPTH.1);
    let rise = (low.y - high.y).max(unit);
    let foot_x = low.x + (high.x - low.x) * (low.y - foot_y) / rise;
    let foot = Point {
        x: foot_x.clamp(board[0].x + 8.0 * unit, high.x.max(board[0].x + 8.0 * unit)),
        y: foot_y,
    };
    [foot, high]
}

/// Height of a line of points at an x, level beyond its ends.
fn height_at(points: &[Point], x: f64) -> f64 {
    let pieces = points.windows(2);
    let found =
        pieces.filter(|piece| piece[0].x <= x && x <= piece[1].x && piece[0].x < piece[1].x);
    let heights = found.map(|piece| {
        let share = (x - piece[0].x) / (piece[1].x - piece[0].x);
        piece[0].y + share * (piece[1].y - piece[0].y)
    });
    let end = if points.first().is_some_and(|first| x < first.x) {
        points.first()
    } else {
        points.last()
    };
    heights
        .fold(None, |lowest: Option<f64>, y| {
            Some(lowest.map_or(y, |low| low.min(y)))
        })
        .or(end.map(|end| end.y))
        .unwrap_or_default()
}

fn line(path: &str, width: f64) -> Element {
    element("path").set("d", path).num("stroke-width", width)
}
