//! Where a string was heard, over the years.

use crate::{HeardKept, Moment};

/// One reading of a string's history.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// When.
    pub when: Moment,
    /// What it sounded, Hz.
    pub heard_hz: f64,
    /// What it should have sounded, Hz.
    pub target_hz: f64,
    /// The one against the other, cents.
    pub off_cents: f64,
    /// Half of the 95 % interval, cents.
    pub u95_cents: f64,
    /// Its stiffness B as it stood, disc or lever included, where that is known.
    pub b: Option<f64>,
    /// How long it would ring, seconds to −60 dB, where that is known.
    pub t60_s: Option<f64>,
    /// How loud it was, decibels against full scale, where that is known.
    pub level_dbfs: Option<f64>,
    /// By how many semitones a disc or a lever raised it.
    pub raised: u8,
    /// Whether it was found so when a round began.
    pub found: bool,
    /// Whether a round left it so.
    pub left: bool,
    /// How many strings had been put on in this place before this one.
    pub string: u32,
}

impl Point {
    /// Heard while a string was tuned by ear, which goes by pitch alone.
    pub(super) fn by_ear(when: Moment, target_hz: f64, heard: HeardKept) -> Point {
        Point {
            when,
            heard_hz: heard.heard_hz,
            target_hz,
            off_cents: pitch::cents(target_hz, heard.heard_hz),
            u95_cents: heard.u95_cents,
            b: None,
            t60_s: None,
            level_dbfs: None,
            raised: 0,
            found: false,
            left: false,
            string: 0,
        }
    }

    /// The pitch without disc or lever, Hz, as if each raised it by an exact semitone.
    pub fn open_hz(&self) -> f64 {
        self.heard_hz / (f64::from(self.raised) / 12.0).exp2()
    }
}

/// How far a string moved while nobody is known to have turned its pin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// When it was left.
    pub from: Moment,
    /// When it was found.
    pub to: Moment,
    /// How far it had moved, cents; up is above nought.
    pub cents: f64,
    /// Half of the 95 % interval, cents, of both readings together.
    pub u95_cents: f64,
}

/// From each left to the found that follows it. Where another string was put on, or a disc stood elsewhere, nothing is told.
pub(super) fn moves(history: &[Point]) -> Vec<Move> {
    let mut moves = Vec::new();
    let mut left: Option<&Point> = None;
    for point in history {
        let same = left.filter(|l| l.string == point.string && l.raised == point.raised);
        if let (Some(from), true) = (same, point.found) {
            moves.push(Move {
                from: from.when,
                to: point.when,
                cents: pitch::cents(from.heard_hz, point.heard_hz),
                u95_cents: from.u95_cents.hypot(point.u95_cents),
            });
        }
        if point.found || point.left {
            left = Some(point).filter(|point| point.left);
        }
    }
    moves
}

pub(super) fn thinned(history: &[Point], most: usize) -> Vec<Point> {
    let (Some(first), Some(last)) = (history.first(), history.last()) else {
        return Vec::new();
    };
    if history.len() <= most.max(4) {
        return history.to_vec();
    }
    let stretches = (most.max(4) - 2) / 2;
    let length_s = last.when.since_s(first.when).max(1e-9) / stretches as f64;
    let stretch = |point: &Point| {
        let at = point.when.since_s(first.when) / length_s;
        (at as usize).min(stretches - 1)
    };
    let inner = history.get(1..history.len() - 1).unwrap_or_default();
    let mut thinned = vec![*first];
    for points in inner.chunk_by(|a, b| stretch(a) == stretch(b)) {
        let ends = points.iter().enumerate();
        let by_off =
            |a: &(usize, &Point), b: &(usize, &Point)| a.1.off_cents.total_cmp(&b.1.off_cents);
        let (lowest, highest) = (ends.clone().min_by(by_off), ends.max_by(by_off));
        let mut kept: Vec<_> = lowest.into_iter().chain(highest).collect();
        kept.sort_by_key(|(at, _)| *at);
        kept.dedup_by_key(|(at, _)| *at);
        thinned.extend(kept.into_iter().map(|(_, point)| *point));
    }
    thinned.push(*last);
    thinned
}

#[cfg(test)]
mod tests {
    use super::*;

    fn point(second: u32, off_cents: f64) -> Point {
        let epoch = Moment::of(&"2026-11-26T18:00:00Z".parse().unwrap());
        Point {
            when: epoch.plus_s(f64::from(second)),
            heard_hz: 440.0 * (off_cents / 1200.0).exp2(),
            target_hz: 440.0,
            off_cents,
            u95_cents: 0.3,
            b: None,
            t60_s: None,
            level_dbfs: None,
            raised: 0,
            found: true,
            left: false,
            string: 0,
        }
    }

    #[test]
    fn a_move_goes_from_left_to_found_of_the_same_string() {
        let left = |second, off| Point {
            found: false,
            left: true,
            ..point(second, off)
        };
        let mut history = vec![
            point(0, -9.0),
            left(1, 0.0),
            point(10, -4.0),
            left(11, 1.0),
            point(20, 3.0),
            point(30, 5.0),
        ];
        let cents = |history: &[Point]| -> Vec<i64> {
            let moves = moves(history).into_iter();
            moves.map(|m| m.cents.round() as i64).collect()
        };
        assert_eq!(cents(&history), [-4, 2]);
        assert!((moves(&history)[0].u95_cents - 0.3 * 2f64.sqrt()).abs() < 1e-12);
        for point in &mut history[4..] {
            point.string = 1;
        }
        assert_eq!(cents(&history), [-4], "another string");
        history[2].raised = 1;
        assert!(cents(&history).is_empty(), "a disc stood elsewhere");
    }

    #[test]
    fn what_is_thinned_keeps_its_ends_and_its_extremes() {
        let history: Vec<Point> = (0..1000)
            .map(|second| {
                point(
                    second,
                    if second == 500 {
                        40.0
                    } else {
                        f64::from(second % 7)
                    },
                )
            })
            .collect();
        let thin = thinned(&history, 60);
        assert!(thin.len() <= 60 && thin.len() > 40, "{}", thin.len());
        assert_eq!(
            (thin.first(), thin.last()),
            (history.first(), history.last())
        );
        assert!(thin.iter().any(|point| point.off_cents == 40.0));
        assert!(thin.is_sorted_by_key(|point| point.when));
        assert_eq!(thinned(&history[..4], 1), history[..4]);
        assert_eq!(thinned(&[], 60), []);
    }
}
