//! A round made ready to play: names resolved, pins laid out, everything in the order of time.

use std::ops::Range;

use super::event::{Event, What};
use super::prompt::{chirp, speech, tone};
use super::strike::{ORDINARY, Stood, Strike};
use super::{Room, Round, RoundError};
use crate::carrier::STEP;
use crate::generator::Generator;

/// The finger touches a ringing string this long before it plucks it again.
const TOUCH_S: f64 = 0.03;
/// The streams of draws: one for each string, one for each event.
const STRINGS: u64 = 0;
const EVENTS: u64 = 1;

/// A round, made ready: names resolved, pins laid out, everything in order of time.
pub(super) struct Plan {
    pub(super) rate_hz: f64,
    pub(super) seed: u64,
    pub(super) room: Room,
    pub(super) samples: usize,
    pub(super) strings: Vec<Stood>,
    pub(super) actions: Vec<(usize, Action)>,
    missing: Vec<Range<usize>>,
    muted: Vec<Range<usize>>,
}

/// What is done at a step.
#[derive(Clone)]
pub(super) enum Action {
    Hush {
        string: usize,
    },
    Strike {
        event: usize,
        string: usize,
        level_db: f64,
    },
    Prompt {
        event: usize,
        what: What,
    },
}

impl Plan {
    pub(super) fn of(round: &Round) -> Result<Self, RoundError> {
        let strings = round.strings.iter().enumerate();
        let draws = |i: usize| Generator::new(&[round.seed, STRINGS, i as u64]);
        let mut plan = Self {
            rate_hz: f64::from(round.rate_hz),
            seed: round.seed,
            room: round.room,
            samples: (round.seconds * f64::from(round.rate_hz)).round() as usize,
            strings: strings.map(|(i, s)| Stood::new(s, draws(i))).collect(),
            actions: Vec::new(),
            missing: Vec::new(),
            muted: Vec::new(),
        };
        let mut events: Vec<(usize, &Event)> = round.events.iter().enumerate().collect();
        events.sort_by(|a, b| a.1.at_s.total_cmp(&b.1.at_s));
        for (number, event) in events {
            plan.enter(round, number, event)?;
        }
        plan.actions.sort_by_key(|a| a.0);
        Ok(plan)
    }

    fn enter(
        &mut self,
        round: &Round,
        event: usize,
        Event { at_s, what }: &Event,
    ) -> Result<(), RoundError> {
        let step = self.step_at(*at_s);
        match what {
            What::Pluck { string, level_db } => {
                let string = round.index_of(string)?;
                self.actions.push((
                    self.step_at((at_s - TOUCH_S).max(0.0)),
                    Action::Hush { string },
                ));
                self.actions.push((
                    step,
                    Action::Strike {
                        event,
                        string,
                        level_db: *level_db,
                    },
                ));
            }
            What::Damp { string } => {
                self.actions.push((
                    step,
                    Action::Hush {
                        string: round.index_of(string)?,
                    },
                ));
            }
            What::Turn {
                string,
                to_cents,
                seconds,
            } => {
                self.strings[round.index_of(string)?]
                    .pin
                    .turn(*at_s, *to_cents, *seconds);
            }
            What::Missing { seconds } => self.missing.push(self.stretch(*at_s, *seconds)),
            What::Muted { seconds } => self.muted.push(self.stretch(*at_s, *seconds)),
            What::Tone { .. } | What::Chirp { .. } | What::Speech { .. } => {
                self.actions.push((
                    step,
                    Action::Prompt {
                        event,
                        what: what.clone(),
                    },
                ));
            }
        }
        Ok(())
    }

    fn step_at(&self, at_s: f64) -> usize {
        (at_s * self.rate_hz / STEP as f64).round() as usize
    }

    pub(super) fn seconds(&self, step: usize) -> f64 {
        (step * STEP) as f64 / self.rate_hz
    }

    fn stretch(&self, at_s: f64, seconds: f64) -> Range<usize> {
        (at_s * self.rate_hz).round() as usize..((at_s + seconds) * self.rate_hz).round() as usize
    }

    /// A pluck and the stream that goes on to draw its noise.
    pub(super) fn struck(
        &self,
        event: usize,
        string: usize,
        at_s: f64,
        level_db: f64,
    ) -> (Strike, Generator) {
        let mut draws = Generator::new(&[self.seed, EVENTS, event as u64]);
        let strike =
            self.strings[string].strike(at_s, level_db, (self.room, self.rate_hz), &mut draws);
        (strike, draws)
    }

    pub(super) fn prompt(&self, event: usize, what: &What) -> Vec<f64> {
        let loud = |db: f64| ORDINARY * 10f64.powf(db / 20.0);
        match *what {
            What::Tone {
                hz,
                seconds,
                level_db,
            } => tone(hz, seconds, loud(level_db), self.rate_hz),
            What::Chirp {
                from_hz,
                to_hz,
                seconds,
                level_db,
            } => chirp(from_hz, to_hz, seconds, loud(level_db), self.rate_hz),
            What::Speech { seconds, level_db } => {
                let mut draws = Generator::new(&[self.seed, EVENTS, event as u64]);
                speech(seconds, loud(level_db), self.rate_hz, &mut draws)
            }
            _ => Vec::new(),
        }
    }

    /// From the room's time to the delivered samples' time.
    pub(super) fn delivered_s(&self, at_s: f64) -> f64 {
        let sample = (at_s * self.rate_hz).round() as usize;
        let lost = self.lost_before(sample);
        at_s - lost as f64 / self.rate_hz
    }

    fn lost_before(&self, sample: usize) -> usize {
        let mut lost = 0;
        let mut reached = 0;
        // Stretches are in the order of their beginnings and may overlap.
        for stretch in &self.missing {
            let (from, to) = (stretch.start.max(reached), stretch.end.min(sample));
            lost += to.saturating_sub(from);
            reached = reached.max(stretch.end);
        }
        lost
    }

    /// What arrives of a block that begins at sample `first`.
    pub(super) fn deliver(&self, first: usize, block: &[f64]) -> Vec<f32> {
        let lies_in =
            |stretches: &[Range<usize>], at: usize| stretches.iter().any(|s| s.contains(&at));
        let heard = (first..self.samples)
            .zip(block)
            .filter(|(at, _)| !lies_in(&self.missing, *at));
        let converted = heard.map(|(at, y)| {
            let open = if lies_in(&self.muted, at) {
                0.0
            } else {
                self.room.gain
            };
            (y * open).clamp(-1.0, 1.0) as f32
        });
        converted.collect()
    }
}
