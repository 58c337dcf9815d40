//! Beats as players count them.

use score::Piece;

use crate::Quarters;

/// A beat as it is counted in the bar's own time signature: `1`, `4½`, `2⅓`; `measure` counts from 1, `beat`
/// in quarters from 1. Where no signature is known quarters are counted.
pub fn counted(piece: &Piece, measure: u32, beat: Quarters) -> String {
    let bar = (measure as usize).checked_sub(1);
    let bar = bar.and_then(|bar| piece.measures.get(bar));
    let unit = bar
        .and_then(|bar| bar.time)
        .map_or(4, |time| i64::from(time.unit));
    let (num, den) = (
        beat.numerator() - beat.denominator(),
        4 * beat.denominator(),
    );
    let count = Quarters::new(num.saturating_mul(unit).saturating_add(den), den);
    let (whole, rest) = (
        count.numerator() / count.denominator(),
        count.numerator() % count.denominator(),
    );
    match (rest, count.denominator()) {
        (0, _) => whole.to_string(),
        (1, 2) => format!("{whole}½"),
        (1, 3) => format!("{whole}⅓"),
        (2, 3) => format!("{whole}⅔"),
        (1, 4) => format!("{whole}¼"),
        (3, 4) => format!("{whole}¾"),
        (rest, den) => format!("{whole} {rest}/{den}"),
    }
}
