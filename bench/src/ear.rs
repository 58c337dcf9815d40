//! Ours: one `tuning::Ear` a pluck, fed as a microphone would feed it.

use harp::Standing;
use pitch::ReferencePitch;
use tuning::{Ear, Heard, Listening, Reading, Refused};

use crate::listener::{Answer, Listener, Measured, Outcome, Task};

/// Samples handed over at a time, 1 ms at 48 kHz: how finely it is known when an answer came.
pub const BLOCK: usize = 48;
/// An event further from the true onset, in seconds, is about something else.
const SAME_PLUCK_S: f64 = 0.05;

/// The ear, with a whole harp standing as it is told.
#[derive(Clone, Debug)]
pub struct Ours {
    standing: Vec<Standing>,
    reference: ReferencePitch,
}

impl Ours {
    /// An ear for these strings.
    pub fn new(standing: Vec<Standing>, reference: ReferencePitch) -> Self {
        Self {
            standing,
            reference,
        }
    }

    /// A fresh ear that listens for `seconds`, or as long as it does by itself.
    ///
    /// # Errors
    /// What the ear refuses.
    pub fn ear(
        &self,
        rate_hz: u32,
        seconds: Option<f64>,
        guided: Option<harp::StringName>,
    ) -> Result<Ear, tuning::EarError> {
        let usual = Listening::new(self.reference);
        let listening = Listening {
            listen_s: seconds.unwrap_or(usual.listen_s),
            guided,
            ..usual
        };
        Ear::new(rate_hz, self.standing.clone(), listening)
    }
}

impl Listener for Ours {
    fn listen(&self, task: &Task<'_>) -> Outcome {
        let mut ear = match self.ear(task.rate_hz, Some(task.seconds), task.guided) {
            Ok(ear) => ear,
            Err(error) => {
                return Outcome {
                    refused: Some(error.to_string()),
                    ..Outcome::default()
                };
            }
        };
        let mut events = Vec::new();
        let mut given = 0;
        for block in task.samples.chunks(BLOCK) {
            given += block.len();
            let heard = ear.push(block);
            events.extend(heard.into_iter().map(|heard| (given, heard)));
        }
        events.extend(ear.finish().into_iter().map(|heard| (given, heard)));
        outcome(&events, task)
    }
}

/// Chooses among all that was said what is about the pluck: the last word nearest to the onset, and the first reading of
/// the same pluck. Every other last reading is about sound before it, or about a pluck that never was.
fn outcome(events: &[(usize, Heard)], task: &Task<'_>) -> Outcome {
    let rate = f64::from(task.rate_hz);
    let onset_s = task.onset as f64 / rate;
    let own = |at_s: f64| (at_s - onset_s).abs() <= SAME_PLUCK_S;
    let given_s = |given: usize| (given as f64 - task.onset as f64) / rate;
    let mut result = Outcome::default();
    let words: Vec<LastWord<'_>> = events.iter().filter_map(last_word).collect();
    let distance = |word: &LastWord<'_>| (word.at_s() - onset_s).abs();
    let nearest = (0..words.len())
        .filter(|nth| own(words[*nth].at_s()))
        .min_by(|a, b| distance(&words[*a]).total_cmp(&distance(&words[*b])));
    for (nth, word) in words.iter().enumerate() {
        match word {
            LastWord::Reading(given, reading) if Some(nth) == nearest => {
                result.last = Some(answer(reading, given_s(*given)));
            }
            LastWord::Refused(refused) if Some(nth) == nearest => {
                result.refused = Some(refused.reason.as_str().to_owned());
            }
            LastWord::Reading(_, reading) if word.at_s() < onset_s - SAME_PLUCK_S => {
                result.before.extend(reading.string);
            }
            LastWord::Reading(_, reading) => result.after.extend(reading.string),
            LastWord::Refused(_) => {}
        }
    }
    result.first = events.iter().find_map(|(given, heard)| match heard {
        Heard::Reading(reading) if own(reading.at_s) => Some(answer(reading, given_s(*given))),
        _ => None,
    });
    result
}

enum LastWord<'a> {
    Reading(usize, &'a Reading),
    Refused(&'a Refused),
}

impl LastWord<'_> {
    fn at_s(&self) -> f64 {
        match self {
            Self::Reading(_, reading) => reading.at_s,
            Self::Refused(refused) => refused.at_s,
        }
    }
}

fn last_word((given, heard): &(usize, Heard)) -> Option<LastWord<'_>> {
    match heard {
        Heard::Reading(reading) if reading.last => Some(LastWord::Reading(*given, reading)),
        Heard::Refused(refused) => Some(LastWord::Refused(refused)),
        _ => None,
    }
}

fn answer(reading: &Reading, given_s: f64) -> Answer {
    Answer {
        string: reading.string,
        heard: Measured {
            hz: reading.heard_hz,
            u95_cents: reading.u95_cents,
        },
        first_partial: Measured {
            hz: reading.f1_hz,
            u95_cents: reading.f1_u95_cents,
        },
        listened_s: reading.listened_s,
        given_s,
        last: reading.last,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use tuning::Reason;

    fn reading(at_s: f64, string: &str, last: bool) -> Heard {
        Heard::Reading(Reading {
            last,
            at_s,
            string: Some(string.parse().unwrap()),
            candidates: Vec::new(),
            position: None,
            target_hz: 440.0,
            heard_hz: 440.0,
            off_cents: 0.0,
            u95_cents: 1.0,
            shows_as: String::new(),
            shows_off_cents: 0.0,
            f1_hz: 440.0,
            f1_u95_cents: 1.0,
            f0_hz: 440.0,
            b: 0.0,
            glide_cents: 0.0,
            partials: Vec::new(),
            listened_s: 0.1,
            string_certainty: 1.0,
            direction: None,
            stiffness_cents: 0.0,
            t60_s: None,
            level_dbfs: None,
        })
    }

    fn refused(at_s: f64) -> Heard {
        Heard::Refused(Refused {
            at_s,
            string: None,
            reason: Reason::TooNoisy,
            detail: String::new(),
        })
    }

    struct Expected<'a> {
        last: Option<&'a str>,
        first: Option<&'a str>,
        refused: Option<&'a str>,
        before: &'a [&'a str],
        after: &'a [&'a str],
    }

    const NOTHING: Expected<'_> = Expected {
        last: None,
        first: None,
        refused: None,
        before: &[],
        after: &[],
    };

    /// Events that came 1 ms apart from the onset on.
    fn check(events: Vec<Heard>, expected: &Expected<'_>) {
        let task = Task {
            samples: &[],
            onset: 4_800,
            rate_hz: 48_000,
            seconds: 0.5,
            guided: None,
        };
        let events = events.into_iter().enumerate();
        let events: Vec<_> = events
            .map(|(nth, heard)| (4_848 + 48 * nth, heard))
            .collect();
        let outcome = outcome(&events, &task);
        let name = |answer: Option<Answer>| answer.and_then(|a| a.string).map(|s| s.to_string());
        let names = |strings: &[harp::StringName]| -> Vec<String> {
            strings.iter().map(ToString::to_string).collect()
        };
        assert_eq!(name(outcome.last).as_deref(), expected.last);
        assert_eq!(name(outcome.first).as_deref(), expected.first);
        assert_eq!(outcome.refused.as_deref(), expected.refused);
        assert_eq!(names(&outcome.before), expected.before);
        assert_eq!(names(&outcome.after), expected.after);
    }

    #[test]
    fn an_early_reading_is_the_first_and_not_the_last() {
        let events = vec![reading(0.1, "B4", false), reading(0.1, "A4", true)];
        let expected = Expected {
            last: Some("A4"),
            first: Some("B4"),
            ..NOTHING
        };
        check(events, &expected);
    }

    #[test]
    fn the_last_word_nearest_to_the_onset_counts() {
        let right = Expected {
            last: Some("A4"),
            first: Some("A4"),
            ..NOTHING
        };
        let around = vec![
            reading(0.0, "E4", true),
            reading(0.101, "A4", true),
            reading(0.3, "G4", true),
        ];
        check(
            around,
            &Expected {
                before: &["E4"],
                after: &["G4"],
                ..right
            },
        );
        let twice = vec![reading(0.13, "G4", true), reading(0.102, "A4", true)];
        check(
            twice,
            &Expected {
                first: Some("G4"),
                after: &["G4"],
                ..right
            },
        );
    }

    #[test]
    fn a_refusal_of_the_pluck_is_its_last_word() {
        let events = vec![refused(0.1), reading(0.4, "A4", true)];
        check(
            events,
            &Expected {
                refused: Some("too noisy"),
                after: &["A4"],
                ..NOTHING
            },
        );
    }

    #[test]
    fn a_refusal_elsewhere_says_nothing() {
        let events = vec![refused(0.0), reading(0.1, "A4", true), refused(0.4)];
        check(
            events,
            &Expected {
                last: Some("A4"),
                first: Some("A4"),
                ..NOTHING
            },
        );
    }

    #[test]
    fn sound_before_the_pluck_alone_leaves_it_unheard() {
        check(
            vec![reading(0.0, "E4", true)],
            &Expected {
                before: &["E4"],
                ..NOTHING
            },
        );
    }
}
