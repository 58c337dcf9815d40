//! Whether one note stands in a sound, near a pitch that is proposed, and roughly where.

use crate::displaced::Displaced;

/// Partials that are listened to.
pub(crate) const PARTIALS: usize = 8;
/// How far a partial may lie from its place and still be the note's: 35 cents, as a share of frequency.
const NEAR: f64 = 0.02;
/// Least share of the sound, from below the note to above its last partial, that must be the note's: an oboe's A4
/// beside a D4 as loud has 0.72, for they share partials (computed from the strengths that the checks use).
const SHARE: f64 = 0.75;
/// Largest power at the partials that only a lower note has, against the note's.
const BETWEEN: f64 = 0.3;
/// Peak power over noise of the clearest partial: in one look of a million noise alone has such a peak.
const CLEAR: f64 = 20.0;
/// Least share of partials that are no multiples of 2, of 3, of 5, of 7: else the note is that much higher.
const OTHERS: f64 = 0.02;

/// The pitch in Hz, from `low_hz` to `high_hz`, of the one note that stands in what was looked at, to some ten cents;
/// `None` where none does: silence, noise, two notes as loud as each other, a note an octave or a twelfth away.
pub(crate) fn stands(look: &Displaced, low_hz: f64, high_hz: f64) -> Option<f64> {
    let pitches = pitches(look, low_hz, high_hz);
    let best = pitches
        .iter()
        .map(|hz| (*hz, likeness(look, *hz)))
        .max_by(|a, b| a.1.total_cmp(&b.1))?
        .0;
    let own = note_power(look, best);
    let clear = places(look, best).any(|(_, hz)| {
        let half = half_width(look, hz, best);
        look.line(hz, half, half)
            .is_some_and(|line| line.over_noise > CLEAR)
    });
    if !clear || own <= 0.0 {
        return None;
    }
    let sound = look.above_noise(0.4 * best, (PARTIALS as f64 + 0.5) * best);
    let one = own >= SHARE * sound;
    (one && !is_lower(look, best, own) && !is_higher(look, best, own)).then_some(best)
}

/// Pitches to try: closer than a line is wide at the fourth partial.
fn pitches(look: &Displaced, low_hz: f64, high_hz: f64) -> Vec<f64> {
    let step = look.line_hz() / 40.0;
    let steps = ((high_hz - low_hz) / step).max(0.0) as usize;
    (0..=steps).map(|i| low_hz + step * i as f64).collect()
}

/// Number and frequency of each partial that can be heard.
fn places(look: &Displaced, hz: f64) -> impl Iterator<Item = (usize, f64)> {
    let top = look.top_hz();
    (1..=PARTIALS)
        .map(move |n| (n, n as f64 * hz))
        .take_while(move |(_, f)| *f < top)
}

/// How much a pitch looks like the note's: faint partials count too, the upper ones, which may be stretched, less.
fn likeness(look: &Displaced, hz: f64) -> f64 {
    places(look, hz)
        .map(|(n, f)| look.over_noise(f).sqrt().sqrt() / (n as f64).sqrt())
        .sum()
}

fn half_width(look: &Displaced, place_hz: f64, pitch_hz: f64) -> f64 {
    (NEAR * place_hz)
        .max(0.7 * look.line_hz())
        .min(0.3 * pitch_hz)
}

fn near(look: &Displaced, place_hz: f64, pitch_hz: f64) -> f64 {
    let half = half_width(look, place_hz, pitch_hz);
    look.above_noise(place_hz - half, place_hz + half)
}

/// Power of all partials of the note at `hz`.
fn note_power(look: &Displaced, hz: f64) -> f64 {
    places(look, hz).map(|(_, f)| near(look, f, hz)).sum()
}

/// Whether what sounds at halves, thirds or fifths of the note is enough for a note an octave, a twelfth or two octaves
/// and a third lower.
fn is_lower(look: &Displaced, hz: f64, own: f64) -> bool {
    [2usize, 3, 5].iter().any(|d| {
        let apart = hz / *d as f64;
        let half = (0.7 * look.line_hz()).min(0.3 * apart);
        let between: f64 = (1..=2 * d)
            .filter(|k| k % d != 0)
            .map(|k| k as f64 * apart)
            .map(|f| look.above_noise(f - half, f + half))
            .sum();
        between > BETWEEN * own
    })
}

/// Whether all that sounds are multiples of one partial: then the note is that partial.
fn is_higher(look: &Displaced, hz: f64, own: f64) -> bool {
    [2, 3, 5, 7].iter().any(|d| {
        let others: f64 = places(look, hz)
            .filter(|(n, _)| n % d != 0)
            .map(|(_, f)| near(look, f, hz))
            .sum();
        others < OTHERS * own
    })
}
