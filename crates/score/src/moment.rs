//! All that is plucked or held on at one time of playing.

use crate::{Fraction, Note, Piece, Played};

/// Seconds that a grace note takes from what comes before it, at most; shorter where there is less
/// room (a choice of ours; players differ).
const GRACE_S: f64 = 0.1;

/// One moment of playing. Grace notes have moments of their own before their main note's.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Index in [`Piece::measures`](crate::Piece::measures).
    pub measure: usize,
    /// At which playing of that measure, from 1.
    pub pass: u32,
    /// Quarters from the beginning of the measure.
    pub offset: Fraction,
    /// For a moment of grace notes: how many such moments before the main note, 1 for the last.
    pub grace: Option<u32>,
    /// Quarters of playing since the beginning; grace notes stand where their main note does.
    pub at: Fraction,
    /// Seconds of playing since the beginning; grace notes come before their main note, at most
    /// 0.1 s each and never before half of the time since the moment before.
    pub at_s: f64,
    /// Indices in [`Piece::notes`](crate::Piece::notes), ends of ties among them.
    pub notes: Vec<usize>,
}

impl Moment {
    /// Where it stands in its measure, in quarters counted from 1, as people count beats.
    pub fn beat(&self) -> Fraction {
        self.offset.plus(Fraction::ONE).unwrap_or(self.offset)
    }
}

/// The moments of an order of measures.
pub(crate) fn moments(piece: &Piece, order: &[Played]) -> Vec<Moment> {
    let mut moments = Vec::new();
    let (mut start, mut start_s) = (Fraction::ZERO, 0.0);
    for &Played { measure, pass } in order {
        let Some(written) = piece.measures.get(measure) else {
            continue;
        };
        let from = piece.notes.partition_point(|note| note.measure < measure);
        let until = piece.notes.partition_point(|note| note.measure <= measure);
        let mut at = from;
        while at < until {
            let place = place(&piece.notes[at]);
            let same = piece.notes[at..until]
                .iter()
                .take_while(|note| self::place(note) == place);
            let end = at + same.count();
            moments.push(Moment {
                measure,
                pass,
                offset: place.0,
                grace: place.1,
                at: start.plus(place.0).unwrap_or(start),
                at_s: start_s + piece.tempos.seconds(measure, place.0),
                notes: (at..end).collect(),
            });
            at = end;
        }
        start = start.plus(written.length).unwrap_or(start);
        start_s += piece.tempos.seconds(measure, written.length);
    }
    spread_graces(&mut moments);
    moments
}

fn place(note: &Note) -> (Fraction, Option<u32>) {
    (note.offset, note.grace)
}

/// Puts grace moments before their main note's time. A piece that begins with one begins with it.
fn spread_graces(moments: &mut [Moment]) {
    let mut before: Option<f64> = None;
    let mut first = 0;
    while first < moments.len() {
        let graces = moments[first..]
            .iter()
            .take_while(|moment| moment.grace.is_some());
        let count = graces.count();
        if count == 0 {
            before = Some(moments[first].at_s);
            first += 1;
            continue;
        }
        // grace notes at the end of a bar and at the beginning of the next form one run
        let main_s = moments[first + count - 1].at_s;
        let room = before.map_or(f64::INFINITY, |before| (main_s - before).max(0.0) / 2.0);
        let step = GRACE_S.min(room / count as f64);
        for (place, moment) in moments[first..first + count].iter_mut().enumerate() {
            moment.at_s = main_s - step * (count - place) as f64;
        }
        first += count;
    }
    let lead = moments.first().map_or(0.0, |moment| -moment.at_s).max(0.0);
    for moment in moments {
        moment.at_s += lead;
    }
}
