//! One string tuned by ear, step by step, while nothing is told: what is asked for next, and at the end what came of it.

use harp::StringName;

use super::{Came, Guess, Pair, Said};
use crate::{Heard, Reading, Reason};

/// Which of the two strings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The one that stays.
    Stays,
    /// The one that is tuned.
    Tuned,
}

/// What is to be done next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Pluck a string, before anything is turned.
    Before(Which),
    /// Say whether the string is high or low.
    Say,
    /// Tune it by ear, and say when it is there.
    Tune,
    /// Pluck a string once more, as it was left.
    After(Which),
    /// All is known.
    Known,
}

/// What there is to say while nothing is told of where a string stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// It was taken: there is nothing to say.
    Taken,
    /// It was another string than the one that is asked for.
    Another(StringName),
    /// A pluck was not read.
    NotRead(Reason),
    /// The string that is tuned, if it was that one, stands far above its pitch: it is to be eased down. The one thing that
    /// is said before the end.
    FarUp,
}

/// Cents above its pitch from which a string that is being tuned is warned of, whatever is hidden: as in a round.
pub const FAR_UP_CENTS: f64 = 30.0;
/// Cents about its pitch within which a string is believed to be the one that was asked for.
const ROOM_CENTS: f64 = 350.0;
/// Cents above its pitch up to which a string is taken to be the one that is tuned.
const ABOVE_CENTS: f64 = 250.0;

/// How both strings stood: the sounding pitch in Hz, and half of its 95 % interval in cents.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Stood {
    stays: Option<(f64, f64)>,
    tuned: Option<(f64, f64)>,
}

/// What came of an attempt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// What she said; `None` where she could not tell.
    pub guess: Option<Guess>,
    /// What became of that; `None` without a guess, or where the string was not measured before.
    pub said: Option<Said>,
    /// How the string stood before; `None` where it was not measured.
    pub before: Option<Came>,
    /// How she left it; `None` where it was not measured.
    pub after: Option<Came>,
    /// What the string itself sounded before, Hz, and half of its 95 % interval, cents.
    pub found: Option<(f64, f64)>,
    /// The same as she left it.
    pub left: Option<(f64, f64)>,
}

/// One string that is tuned by ear.
#[derive(Clone, Debug, PartialEq)]
pub struct Attempt {
    pair: Pair,
    stage: Stage,
    before: Stood,
    after: Stood,
    guess: Option<Guess>,
}

impl Attempt {
    /// Begins with the string that stays.
    pub fn new(pair: Pair) -> Attempt {
        Attempt {
            pair,
            stage: Stage::Before(Which::Stays),
            before: Stood::default(),
            after: Stood::default(),
            guess: None,
        }
    }

    /// The two strings.
    pub fn pair(&self) -> &Pair {
        &self.pair
    }

    /// What is to be done next.
    pub fn stage(&self) -> Stage {
        self.stage
    }

    /// The string that is plucked now, as far as that is known; and between which pitches it is taken for that one, Hz.
    pub fn expected(&self) -> Option<(StringName, (f64, f64))> {
        let about = |hz: f64, up: f64| (hz * ratio(-ROOM_CENTS), hz * ratio(up));
        match self.stage {
            Stage::Before(which) | Stage::After(which) => {
                let (string, hz) = self.of(which);
                Some((string, about(hz, ROOM_CENTS)))
            }
            Stage::Tune => {
                let (string, hz) = self.of(Which::Tuned);
                Some((string, about(hz, ABOVE_CENTS)))
            }
            Stage::Say | Stage::Known => None,
        }
    }

    /// Takes in what was heard.
    pub fn heard(&mut self, heard: &Heard) -> Option<Told> {
        match heard {
            Heard::Reading(reading) if reading.last => self.read(reading),
            Heard::Refused(refused) if self.asks() => Some(Told::NotRead(refused.reason)),
            _ => None,
        }
    }

    /// The string that is asked for cannot be read: on without it.
    pub fn pass(&mut self) {
        if self.asks() {
            self.step();
        }
    }

    /// What she says of the string before she turns; `None`: she cannot tell.
    pub fn say(&mut self, guess: Option<Guess>) {
        if self.stage == Stage::Say {
            self.guess = guess;
            self.stage = Stage::Tune;
        }
    }

    /// She says that it is there.
    pub fn there(&mut self) {
        if self.stage == Stage::Tune {
            self.stage = Stage::After(Which::Stays);
        }
    }

    /// What came of it, so far as it is known.
    pub fn outcome(&self) -> Outcome {
        let came = |of: Stood| Some(self.pair.by_ear.came(of.stays?, of.tuned?));
        let before = came(self.before);
        let said = |guess: Guess| before.map(|at| guess.became(at.off_cents, at.u95_cents));
        Outcome {
            guess: self.guess,
            said: self.guess.and_then(said),
            before,
            after: came(self.after),
            found: self.before.tuned,
            left: self.after.tuned,
        }
    }

    fn asks(&self) -> bool {
        matches!(self.stage, Stage::Before(_) | Stage::After(_))
    }

    fn of(&self, which: Which) -> (StringName, f64) {
        match which {
            Which::Stays => (self.pair.stays, self.pair.by_ear.stays_hz),
            Which::Tuned => (self.pair.tuned, self.pair.by_ear.tuned_hz),
        }
    }

    fn read(&mut self, reading: &Reading) -> Option<Told> {
        let which = match self.stage {
            Stage::Before(which) | Stage::After(which) => which,
            Stage::Tune => return self.while_tuned(reading),
            Stage::Say | Stage::Known => return None,
        };
        let asked = self.of(which).0;
        if let Some(another) = reading.string.filter(|string| *string != asked) {
            return Some(Told::Another(another));
        }
        let of = match self.stage {
            Stage::Before(_) => &mut self.before,
            _ => &mut self.after,
        };
        match which {
            Which::Stays => of.stays = Some((reading.heard_hz, reading.u95_cents)),
            Which::Tuned => of.tuned = Some((reading.heard_hz, reading.u95_cents)),
        }
        self.step();
        Some(Told::Taken)
    }

    /// Whether the string that is tuned seems to stand far above its pitch; nothing of any other string. A unison's other
    /// string sounds where it should.
    fn while_tuned(&self, reading: &Reading) -> Option<Told> {
        let (string, hz) = self.of(Which::Tuned);
        if reading.string.is_some_and(|read| read != string) {
            return None;
        }
        let surely = pitch::cents(hz, reading.heard_hz) - reading.u95_cents;
        let far = (FAR_UP_CENTS..=ABOVE_CENTS).contains(&surely);
        Some(if far { Told::FarUp } else { Told::Taken })
    }

    fn step(&mut self) {
        self.stage = match self.stage {
            Stage::Before(Which::Stays) => Stage::Before(Which::Tuned),
            Stage::Before(Which::Tuned) => Stage::Say,
            Stage::After(Which::Stays) => Stage::After(Which::Tuned),
            Stage::After(Which::Tuned) => Stage::Known,
            other => other,
        };
    }
}

fn ratio(cents: f64) -> f64 {
    (cents / 1200.0).exp2()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Refused;
    use crate::practice::{Drill, pairs};
    use harp::{Harp, Setup};
    use pitch::ReferencePitch;

    fn attempt() -> Attempt {
        let harp = Harp::named("pedal47").unwrap();
        let setup = Setup::open(ReferencePitch::A440);
        let pairs = pairs(&harp, &setup, Drill::Octave(5)).unwrap();
        let pair = pairs.into_iter().find(|pair| pair.tuned.octave == 3);
        Attempt::new(pair.unwrap()) // E3 to E4
    }

    /// A reading of a string, so many cents above a pitch.
    fn reading(string: Option<&str>, hz: f64, off: f64, u95: f64) -> Heard {
        let string = string.map(|name| name.parse().unwrap());
        Heard::Reading(Reading {
            last: true,
            at_s: 0.0,
            string,
            candidates: string.into_iter().collect(),
            position: None,
            target_hz: hz,
            heard_hz: hz * ratio(off),
            off_cents: off,
            u95_cents: u95,
            shows_as: String::new(),
            shows_off_cents: 0.0,
            f1_hz: hz,
            f1_u95_cents: u95,
            f0_hz: hz,
            b: 0.0,
            glide_cents: 0.0,
            partials: Vec::new(),
            listened_s: 0.6,
            string_certainty: 1.0,
            direction: None,
            stiffness_cents: 0.0,
            t60_s: None,
            level_dbfs: None,
        })
    }

    #[test]
    fn it_asks_hides_and_tells_at_the_end() {
        let mut attempt = attempt();
        let (stays, tuned) = (
            attempt.pair().by_ear.stays_hz,
            attempt.pair().by_ear.tuned_hz,
        );
        let asked = |attempt: &Attempt| attempt.expected().map(|(string, _)| string.to_string());
        assert_eq!(asked(&attempt).as_deref(), Some("E4"));
        // the other string first: it is asked for again
        let told = attempt.heard(&reading(Some("E3"), tuned, 0.0, 0.5));
        assert!(matches!(told, Some(Told::Another(_))), "{told:?}");
        let told = attempt.heard(&reading(Some("E4"), stays, 2.0, 0.5));
        assert_eq!(told, Some(Told::Taken));
        assert_eq!(asked(&attempt).as_deref(), Some("E3"));
        attempt.heard(&reading(Some("E3"), tuned, -10.0, 0.5));
        assert_eq!(attempt.stage(), Stage::Say);
        assert_eq!(attempt.heard(&reading(Some("E3"), tuned, 40.0, 0.5)), None);
        attempt.say(Some(Guess::Low));
        // while it is tuned nothing is told but that it is far up
        for (off, expected) in [
            (-12.0, Told::Taken),
            (36.0, Told::FarUp),
            (25.0, Told::Taken),
        ] {
            let told = attempt.heard(&reading(Some("E3"), tuned, off, 0.5));
            assert_eq!(told, Some(expected), "{off}");
        }
        assert_eq!(attempt.heard(&reading(Some("E4"), stays, 40.0, 0.5)), None);
        attempt.there();
        assert_eq!(asked(&attempt).as_deref(), Some("E4"));
        attempt.heard(&reading(Some("E4"), stays, 2.5, 0.3));
        attempt.heard(&reading(Some("E3"), tuned, 1.0, 0.4));
        assert_eq!(attempt.stage(), Stage::Known);
        let outcome = attempt.outcome();
        let (before, after) = (outcome.before.unwrap(), outcome.after.unwrap());
        assert!((before.off_cents + 12.0).abs() < 1e-9, "against the other");
        assert!((after.off_cents + 1.5).abs() < 1e-9 && (after.u95_cents - 0.5).abs() < 1e-9);
        assert_eq!(outcome.said, Some(Said::Right));
        // the first partial of E4 against the second of E3: 1.5 cents of E flat 4, 311.13 Hz (ISO 16: A at 440 Hz)
        let beats = after.beats.unwrap();
        assert!((beats.per_s - 0.27).abs() < 0.005, "{beats:?}");
    }

    #[test]
    fn what_cannot_be_read_is_gone_without() {
        let mut attempt = attempt();
        let refused = Heard::Refused(Refused {
            at_s: 1.0,
            string: None,
            reason: Reason::TooNoisy,
            detail: String::new(),
        });
        assert_eq!(
            attempt.heard(&refused),
            Some(Told::NotRead(Reason::TooNoisy))
        );
        attempt.pass();
        attempt.pass();
        assert_eq!(attempt.heard(&refused), None, "nothing is asked for");
        attempt.say(Some(Guess::High));
        attempt.there();
        attempt.pass();
        attempt.pass();
        let outcome = attempt.outcome();
        assert_eq!(attempt.stage(), Stage::Known);
        assert_eq!(
            (outcome.before, outcome.after, outcome.said),
            (None, None, None)
        );
    }
}
