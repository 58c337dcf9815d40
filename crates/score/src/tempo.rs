//! Tempo: quarters in a minute, from a written place on.

use crate::Fraction;

/// The tempo where a score gives none, in quarters a minute (a choice of ours).
pub(crate) const UNSAID: f64 = 100.0;

/// A tempo from a written place on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tempo {
    /// Index in [`Piece::measures`](crate::Piece::measures).
    pub measure: usize,
    /// Quarters from the beginning of the measure.
    pub offset: Fraction,
    /// Quarters in a minute, positive.
    pub quarters_per_minute: f64,
}

/// The tempos of a piece, in written order. After a jump the tempo is again that of the place.
#[derive(Clone, Debug, PartialEq)]
pub struct TempoMap {
    tempos: Vec<Tempo>,
    otherwise: f64,
}

impl TempoMap {
    /// From tempos in any order; of several at one place the first counts. Before the first tempo
    /// the first holds already; where there is none, `otherwise`, in quarters a minute.
    pub(crate) fn new(mut tempos: Vec<Tempo>, otherwise: f64) -> Self {
        tempos.sort_by_key(|tempo| (tempo.measure, tempo.offset));
        tempos.dedup_by_key(|tempo| (tempo.measure, tempo.offset));
        let otherwise = tempos.first().map_or(otherwise, |t| t.quarters_per_minute);
        Self { tempos, otherwise }
    }

    /// The tempo at a written place, in quarters a minute.
    pub fn at(&self, measure: usize, offset: Fraction) -> f64 {
        let place = (measure, offset);
        let next = self
            .tempos
            .partition_point(|tempo| (tempo.measure, tempo.offset) <= place);
        let last = next.checked_sub(1).and_then(|last| self.tempos.get(last));
        last.map_or(self.otherwise, |tempo| tempo.quarters_per_minute)
    }

    /// Every tempo that the source gives, in written order.
    pub fn tempos(&self) -> &[Tempo] {
        &self.tempos
    }

    /// Seconds from the beginning of a measure to an offset in it (quarters, not negative).
    pub fn seconds(&self, measure: usize, offset: Fraction) -> f64 {
        let from = self.tempos.partition_point(|tempo| tempo.measure < measure);
        let changes = self.tempos[from..]
            .iter()
            .take_while(|tempo| tempo.measure == measure && tempo.offset < offset);
        let (mut at, mut seconds) = (0.0, 0.0);
        let mut tempo = self.at(measure, Fraction::ZERO);
        for change in changes {
            let next = change.offset.to_f64();
            seconds += (next - at) * 60.0 / tempo;
            (at, tempo) = (next, change.quarters_per_minute);
        }
        seconds + (offset.to_f64() - at) * 60.0 / tempo
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tempo(measure: usize, offset: i64, quarters_per_minute: f64) -> Tempo {
        Tempo {
            measure,
            offset: Fraction::whole(offset),
            quarters_per_minute,
        }
    }

    #[test]
    fn a_tempo_holds_until_the_next_one() {
        let map = TempoMap::new(vec![tempo(1, 2, 120.0), tempo(0, 0, 60.0)], UNSAID);
        let check = |measure, offset, expected: f64| {
            let found = map.seconds(measure, Fraction::whole(offset));
            assert!(
                (found - expected).abs() < 1e-12,
                "{measure} {offset}: {found}"
            );
        };
        check(0, 4, 4.0);
        check(1, 2, 2.0);
        check(1, 4, 3.0);
        check(2, 4, 2.0);
        check(2, 0, 0.0);
    }

    #[test]
    fn without_a_tempo_the_stated_one_is_taken() {
        let map = TempoMap::new(Vec::new(), UNSAID);
        assert!((map.seconds(3, Fraction::whole(10)) - 6.0).abs() < 1e-12);
    }
}
