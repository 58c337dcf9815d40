//! Beats to be counted: two strings that are nearly in tune.

use harp::StringName;
use pitch::{Beats, Letter, ReferencePitch, beats_between};

use super::draws::Draws;

/// An interval by which harps are tuned by ear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Interval {
    /// Two strings of one pitch.
    Unison,
    /// An octave.
    Octave,
    /// A fifth.
    Fifth,
    /// A fourth.
    Fourth,
    /// A major third.
    Third,
}

/// Two strings to be heard together, and how they beat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToCount {
    /// The interval.
    pub interval: Interval,
    /// The lower string, every pedal on natural.
    pub low: StringName,
    /// The higher one; in a unison it has the same name.
    pub high: StringName,
    /// What the lower one sounds, Hz.
    pub low_hz: f64,
    /// What the higher one sounds, Hz.
    pub high_hz: f64,
    /// How they beat.
    pub beats: Beats,
    /// How the interval beats in equal temperament at this reference pitch.
    pub tempered: Beats,
}

impl Interval {
    /// All of them.
    pub const ALL: [Interval; 5] = [
        Interval::Unison,
        Interval::Octave,
        Interval::Fifth,
        Interval::Fourth,
        Interval::Third,
    ];

    fn semitones(self) -> i32 {
        match self {
            Interval::Unison => 0,
            Interval::Third => 4,
            Interval::Fourth => 5,
            Interval::Fifth => 7,
            Interval::Octave => 12,
        }
    }

    fn letters(self) -> usize {
        match self {
            Interval::Unison => 0,
            Interval::Third => 2,
            Interval::Fourth => 3,
            Interval::Fifth => 4,
            Interval::Octave => 7,
        }
    }
}

/// The slowest and fastest beats that are asked for, per second: from what a few seconds hold to what can still be tapped.
pub const SLOWEST_PER_S: f64 = 0.5;
/// See [`SLOWEST_PER_S`].
pub const FASTEST_PER_S: f64 = 6.0;

/// So far from pure an interval is at most, cents: beyond it nobody would call it that.
const FARTHEST_CENTS: f64 = 40.0;

/// Two strings between F3 and E4 (the lower one) to be counted: one time in three as equal temperament has them, where that
/// beats at all and not too fast, else off by so much that they beat at a rate that was drawn.
///
/// ```
/// use tuning::practice::{Interval, to_count};
/// let asked = to_count(Interval::Fifth, pitch::ReferencePitch::A440, 3);
/// assert!(asked.is_some_and(|asked| asked.beats.per_s >= 0.49));
/// ```
#[must_use]
pub fn to_count(interval: Interval, reference: ReferencePitch, seed: u64) -> Option<ToCount> {
    let mut draws = Draws::new(seed);
    let lows: Vec<StringName> = lows(interval).collect();
    let low = draws.pick(&lows)?;
    let high = above(low, interval.letters());
    let low_hz = reference.hz_of_key(low.key());
    let high_hz = reference.hz_of_key(high.key());
    let tempered = beats_between(low_hz, high_hz)?;
    let countable = (SLOWEST_PER_S..=FASTEST_PER_S).contains(&tempered.per_s);
    let high_hz = match countable && draws.below(3) == 0 {
        true => high_hz,
        false => {
            let meets = f64::from(tempered.low_partial) * low_hz;
            let farthest = pitch::raise(meets, FARTHEST_CENTS) - meets;
            let per_s = draws.between(SLOWEST_PER_S, FASTEST_PER_S.min(farthest));
            let wide = if draws.coin() { per_s } else { -per_s };
            (meets + wide) / f64::from(tempered.high_partial)
        }
    };
    Some(ToCount {
        interval,
        low,
        high,
        low_hz,
        high_hz,
        beats: tempered.between(low_hz, high_hz),
        tempered,
    })
}

/// The strings on which the interval is this large with every pedal on natural.
fn lows(interval: Interval) -> impl Iterator<Item = StringName> {
    let [c, d, e, f, g, a, b] = Letter::ALL;
    let octave = [(f, 3), (g, 3), (a, 3), (b, 3), (c, 4), (d, 4), (e, 4)];
    let strings = octave.map(|(letter, octave)| StringName::new(letter, octave));
    strings.into_iter().filter(move |low| {
        above(*low, interval.letters()).key() - low.key() == interval.semitones()
    })
}

fn above(low: StringName, letters: usize) -> StringName {
    (0..letters).fold(low, |at, _| at.next_letter())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    // by hand: of the seven letters a major third stands on C F G, a fourth on all but F, a fifth on all but B
    #[test]
    fn intervals_stand_where_the_letters_have_them() {
        let of = |interval| {
            lows(interval)
                .map(|s| s.letter.as_char())
                .collect::<String>()
        };
        assert_eq!(of(Interval::Third), "FGC");
        assert_eq!(of(Interval::Fourth), "GABCDE");
        assert_eq!(of(Interval::Fifth), "FGACDE");
        assert_eq!(of(Interval::Octave), "FGABCDE");
        assert_eq!(of(Interval::Unison), "FGABCDE");
    }

    // S. Teki et al., J. Neurosci. 32(35) (2012) 12251, Table 1, rounded to a tenth, at A4 = 440 Hz
    #[test]
    fn equal_temperament_beats_as_published() {
        let published = [
            (Interval::Third, "F3", 6.9),
            (Interval::Third, "C4", 10.4),
            (Interval::Fifth, "F3", 0.6),
            (Interval::Fifth, "A3", 0.7),
            (Interval::Fourth, "A3", 1.0),
        ];
        for (interval, low, per_s) in published {
            let mut met = 0;
            for seed in 0..200 {
                let asked = to_count(interval, ReferencePitch::A440, seed).unwrap();
                if asked.low.to_string() == low {
                    met += 1;
                    let found = asked.tempered.per_s;
                    assert!((found - per_s).abs() < 0.051, "{low}: {found}");
                }
            }
            assert!(met > 10, "{low} {met}");
        }
    }

    proptest! {
        #[test]
        fn beats_can_be_counted_and_are_those_of_the_two_pitches(seed: u64, a4 in 415.0..446.0f64) {
            for interval in Interval::ALL {
                let asked = to_count(interval, ReferencePitch::new(a4).unwrap(), seed).unwrap();
                let per_s = asked.beats.per_s;
                prop_assert!((0.499..=6.001).contains(&per_s), "{asked:?}");
                let (m, n) = (asked.beats.low_partial, asked.beats.high_partial);
                let off = (f64::from(m) * asked.low_hz - f64::from(n) * asked.high_hz).abs();
                prop_assert!((off - per_s).abs() < 1e-9);
                prop_assert!(beats_between(asked.low_hz.min(asked.high_hz), asked.high_hz.max(asked.low_hz)).is_some());
            }
        }
    }
}
