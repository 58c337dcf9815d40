//! Two strings of a harp, tuned by ear: what was said before, and what came of it.

use pitch::{Beats, beats_between, cents};

/// What she said of a string before she turned it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guess {
    /// It is too high.
    High,
    /// It is too low.
    Low,
}

/// What became of a guess.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Said {
    /// It was so.
    Right,
    /// It was the other way.
    Wrong,
    /// It lay too near to be called either by the sound that was heard.
    TooNear,
}

/// One string to be tuned to another by ear. Pitches in Hz; the lower string need not be the one that is tuned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ByEar {
    /// What the string that stays should sound, by its place on the harp.
    pub stays_hz: f64,
    /// What the string that is tuned should sound.
    pub tuned_hz: f64,
}

/// What came of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Came {
    /// By how many cents the tuned string stands above where the other one wants it; negative when below.
    pub off_cents: f64,
    /// Half of the 95 % interval of `off_cents`: both readings' together.
    pub u95_cents: f64,
    /// The beats that could be heard; `None` where the interval has none to tune by.
    pub beats: Option<Beats>,
    /// The beats that equal temperament has there.
    pub wanted: Option<Beats>,
}

impl ByEar {
    /// The beats that equal temperament has there; `None` where the interval has none to tune by.
    pub fn wanted(&self) -> Option<Beats> {
        let (a, b) = (self.stays_hz, self.tuned_hz);
        beats_between(a.min(b), a.max(b))
    }

    /// What came of it, from the sounding pitch of both strings in Hz and half of the 95 % interval of each in cents.
    ///
    /// The tuned string is held against the one that stayed as that one stands, high or low as it may be: tuning by ear
    /// goes from string to string. Beats are counted at the partials that meet in the interval that was wanted, taken as
    /// whole multiples of what sounds.
    pub fn came(&self, stays: (f64, f64), tuned: (f64, f64)) -> Came {
        let wide = cents(stays.0, tuned.0) - cents(self.stays_hz, self.tuned_hz);
        let wanted = self.wanted();
        let heard = |wanted: Beats| {
            let (low, high) = match self.stays_hz <= self.tuned_hz {
                true => (stays.0, tuned.0),
                false => (tuned.0, stays.0),
            };
            wanted.between(low, high)
        };
        Came {
            off_cents: wide,
            u95_cents: stays.1.hypot(tuned.1),
            beats: wanted.map(heard),
            wanted,
        }
    }
}

impl Guess {
    /// What became of it, where the string lay so many cents above where it was wanted, ± half of the 95 % interval.
    pub fn became(self, off_cents: f64, u95_cents: f64) -> Said {
        if off_cents.is_nan() || off_cents.abs() <= u95_cents {
            return Said::TooNear;
        }
        match (self, off_cents > 0.0) {
            (Guess::High, true) | (Guess::Low, false) => Said::Right,
            _ => Said::Wrong,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pitch::ReferencePitch;

    fn hz(name: &str) -> Result<f64, Box<dyn std::error::Error>> {
        Ok(ReferencePitch::A440.hz(name.parse()?))
    }

    // S. Teki et al., J. Neurosci. 32(35) (2012) 12251, Table 1, rounded to a tenth: F3–A3 6.9, A3–E4 0.7, C4–E4 10.4,
    // A3–D4 1.0, F3–D4 7.9 a second
    #[test]
    fn strings_that_stand_as_they_should_beat_as_published()
    -> Result<(), Box<dyn std::error::Error>> {
        let published = [
            ("F3", "A3", 6.9),
            ("A3", "E4", 0.7),
            ("C4", "E4", 10.4),
            ("A3", "D4", 1.0),
            ("F3", "D4", 7.9),
        ];
        for (low, high, per_s) in published {
            let (low, high) = (hz(low)?, hz(high)?);
            for (stays_hz, tuned_hz) in [(low, high), (high, low)] {
                let came = ByEar { stays_hz, tuned_hz }.came((stays_hz, 0.3), (tuned_hz, 0.4));
                let heard = came.beats.ok_or("no beats")?;
                assert!((heard.per_s - per_s).abs() < 0.051, "{heard:?}");
                assert_eq!(came.beats, came.wanted);
                assert!(came.off_cents.abs() < 1e-9 && (came.u95_cents - 0.5).abs() < 1e-12);
            }
        }
        Ok(())
    }

    // an octave that is two cents wide at A4–A5: 2 × 440 against 880 × 2^(2/1200), 1.017 beats a second
    #[test]
    fn an_octave_is_held_against_the_string_that_stayed_high_or_low()
    -> Result<(), Box<dyn std::error::Error>> {
        let ear = ByEar {
            stays_hz: hz("A4")?,
            tuned_hz: hz("A5")?,
        };
        let up = |hz: f64, by: f64| hz * 2f64.powf(by / 1200.0);
        let came = ear.came((ear.stays_hz, 0.2), (up(ear.tuned_hz, 2.0), 0.2));
        assert!((came.off_cents - 2.0).abs() < 1e-9);
        assert!(
            came.beats
                .is_some_and(|beats| (beats.per_s - 1.017).abs() < 0.001),
            "{came:?}"
        );
        let both = ear.came((up(ear.stays_hz, 6.0), 0.2), (up(ear.tuned_hz, 6.0), 0.2));
        assert!(
            both.off_cents.abs() < 1e-9 && both.beats.is_some_and(|b| b.per_s < 1e-6),
            "{both:?}"
        );
        Ok(())
    }

    #[test]
    fn a_guess_is_judged_only_where_the_sound_can_tell() {
        assert_eq!(Guess::High.became(4.0, 1.0), Said::Right);
        assert_eq!(Guess::High.became(-4.0, 1.0), Said::Wrong);
        assert_eq!(Guess::Low.became(-4.0, 1.0), Said::Right);
        assert_eq!(Guess::Low.became(4.0, 1.0), Said::Wrong);
        assert_eq!(Guess::Low.became(0.9, 1.0), Said::TooNear);
        assert_eq!(Guess::Low.became(f64::NAN, 1.0), Said::TooNear);
    }
}
