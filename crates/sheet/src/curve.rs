//! A smooth line through points, as SVG path data.

use crate::Point;
use crate::element::number;

/// Path data from the first point through all others: cubic pieces whose slope at each point is
/// that from the point before to the point after (Catmull and Rom 1974, uniform). Empty for no
/// point.
pub(crate) fn through(points: &[Point]) -> String {
    match points {
        [] => String::new(),
        [first, ..] => format!("M{}{}", pair(*first), onwards(points)),
    }
}

/// The same without the first move: it goes on from where a path stands.
pub(crate) fn onwards(points: &[Point]) -> String {
    let at = |place: usize| points[place.min(points.len() - 1)];
    (1..points.len())
        .map(|end| {
            let (before, from, to, after) =
                (at(end.saturating_sub(2)), at(end - 1), at(end), at(end + 1));
            let leave = along(from, before, to);
            let arrive = along(to, after, from);
            format!("C{} {} {}", pair(leave), pair(arrive), pair(to))
        })
        .collect()
}

/// Points on the same line, so many from each to the next; for pages, which know straight lines only.
pub(crate) fn walked(points: &[Point], steps: usize) -> Vec<Point> {
    let at = |place: usize| points[place.min(points.len() - 1)];
    let mut walked: Vec<Point> = points.first().copied().into_iter().collect();
    for end in 1..points.len() {
        let (before, from, to, after) =
            (at(end.saturating_sub(2)), at(end - 1), at(end), at(end + 1));
        let (leave, arrive) = (along(from, before, to), along(to, after, from));
        walked.extend((1..=steps).map(|step| {
            let t = step as f64 / steps as f64;
            let back = 1.0 - t;
            let mix = |of: fn(Point) -> f64| {
                back.powi(3) * of(from)
                    + 3.0 * back * back * t * of(leave)
                    + 3.0 * back * t * t * of(arrive)
                    + t.powi(3) * of(to)
            };
            Point {
                x: mix(|p| p.x),
                y: mix(|p| p.y),
            }
        }));
    }
    walked
}

/// A sixth of the way from `behind` to `ahead`, set on at `from`.
fn along(from: Point, behind: Point, ahead: Point) -> Point {
    Point {
        x: from.x + (ahead.x - behind.x) / 6.0,
        y: from.y + (ahead.y - behind.y) / 6.0,
    }
}

/// A point in path data.
pub(crate) fn pair(point: Point) -> String {
    format!("{} {}", number(point.x), number(point.y))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn through_points_on_a_line_it_stays_on_it() {
        let line: Vec<Point> = [0.0, 6.0, 12.0].map(|x| Point { x, y: 2.0 * x }).to_vec();
        assert_eq!(through(&line), "M0 0C1 2 4 8 6 12C8 16 11 22 12 24");
        assert_eq!(through(&[]), "");
    }

    #[test]
    fn what_is_walked_goes_through_every_point() {
        let points = [(0.0, 0.0), (4.0, 9.0), (8.0, 1.0)].map(|(x, y)| Point { x, y });
        let walked = walked(&points, 5);
        assert_eq!(walked.len(), 11);
        assert_eq!([walked[0], walked[5], walked[10]], points);
        // half way along a cubic: an eighth of its ends and three eighths of its handles
        let middle = super::walked(&points[..2], 2)[1];
        assert!((middle.x - 2.0).abs() < 1e-9 && (middle.y - 4.5).abs() < 1e-9);
    }
}
