//! Where the beats lie.

use score::{Fraction, Measure, Piece};

use crate::Strength;

/// Most beats of one measure that are looked at: none has more.
const MOST: usize = 128;

/// The beats of every written measure.
pub(crate) struct Beats {
    /// For each measure how far a beat is from the next, and where its first quarter would lie in a
    /// full one: an upbeat begins late.
    measures: Vec<(Fraction, Fraction, Fraction)>,
}

impl Beats {
    pub(crate) fn of(piece: &Piece) -> Self {
        let measures = piece.measures.iter().enumerate();
        let measures = measures.map(|(index, measure)| {
            (
                beat_of(measure),
                begins_late(measure, index == 0),
                measure.length,
            )
        });
        Self {
            measures: measures.collect(),
        }
    }

    /// Every beat of a measure, in quarters from its beginning.
    pub(crate) fn of_measure(&self, measure: usize) -> Vec<Fraction> {
        let Some(&(beat, late, length)) = self.measures.get(measure) else {
            return Vec::new();
        };
        let mut beats = Vec::new();
        let mut at = Some(Fraction::ZERO);
        while let Some(here) = at.filter(|here| *here < late.plus(length).unwrap_or(length)) {
            beats.extend(here.minus(late).filter(|offset| *offset >= Fraction::ZERO));
            if beats.len() > MOST || beat == Fraction::ZERO {
                break;
            }
            at = here.plus(beat);
        }
        beats
    }

    /// How heavily a place lies.
    pub(crate) fn strength(&self, measure: usize, offset: Fraction) -> Strength {
        let Some(&(beat, late, _)) = self.measures.get(measure) else {
            return Strength::Off;
        };
        let place = offset.plus(late).unwrap_or(offset);
        if place == Fraction::ZERO {
            Strength::Bar
        } else if place
            .over(beat)
            .is_some_and(|beats| beats.denominator() == 1)
        {
            Strength::Beat
        } else {
            Strength::Off
        }
    }
}

/// One beat in quarters: the unit of the time signature, three of them in 6/8, 9/8 and 12/8.
fn beat_of(measure: &Measure) -> Fraction {
    let Some(time) = measure.time else {
        return Fraction::ONE;
    };
    let compound = time.unit >= 8 && time.beats > 3 && time.beats.is_multiple_of(3);
    let units = if compound { 3 } else { 1 };
    let beat = Fraction::new(4 * units, i64::from(time.unit));
    beat.filter(|beat| *beat > Fraction::ZERO)
        .unwrap_or(Fraction::ONE)
}

/// How late in a full measure a first one begins that is shorter.
fn begins_late(measure: &Measure, first: bool) -> Fraction {
    let full = measure.time.and_then(score::TimeSignature::quarters);
    let missing = full.and_then(|full| full.minus(measure.length));
    let upbeat = first && measure.length > Fraction::ZERO;
    missing
        .filter(|missing| upbeat && *missing > Fraction::ZERO)
        .unwrap_or(Fraction::ZERO)
}
