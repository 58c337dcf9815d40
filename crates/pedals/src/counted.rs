//! Beats as players count them.

use score::Piece;

use crate::Quarters;

/// A beat as it is counted in the bar's own time signature: `1`, `4½`, `2⅓`; `measure` counts from 1, `beat`
/// in quarters from 1. Where no signature is known quarters are counted.
pub fn counted(piece: &Piece, measure: u32, beat: Quarters) -> String {
    let unit = piece
        .measure(measure)
        .and_then(|bar| bar.time)
        .map_or(4, |time| time.unit);
    counted_in(beat, unit)
}

/// The same in units of 1/`unit` of a whole note.
///
/// ```
/// use pedals::{Quarters, counted_in};
/// assert_eq!(counted_in(Quarters::new(5, 2), 4), "2½");
/// assert_eq!(counted_in(Quarters::new(5, 2), 8), "4");
/// ```
pub fn counted_in(beat: Quarters, unit: u32) -> String {
    let (num, den) = (
        beat.numerator() - beat.denominator(),
        4 * beat.denominator(),
    );
    let count = num.saturating_mul(i64::from(unit)).saturating_add(den);
    let count = Quarters::new(count, den);
    let den = count.denominator();
    let (whole, rest) = (
        count.numerator().div_euclid(den),
        count.numerator().rem_euclid(den),
    );
    match (rest, den) {
        (0, _) => whole.to_string(),
        (1, 2) => format!("{whole}½"),
        (1, 3) => format!("{whole}⅓"),
        (2, 3) => format!("{whole}⅔"),
        (1, 4) => format!("{whole}¼"),
        (3, 4) => format!("{whole}¾"),
        (rest, den) => format!("{whole} {rest}/{den}"),
    }
}
