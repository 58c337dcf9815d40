//! The round as it sounds: steps in the order of time, blocks of samples out.

use std::collections::VecDeque;
use std::ops::Range;

use super::hiss::Hiss;
use super::prompt::{chirp, speech, tone};
use super::strike::{ORDINARY, Stood, Strike};
use super::voice::Voice;
use super::{Event, Room, Round, RoundError, What};
use crate::body::body;
use crate::carrier::STEP;
use crate::generator::Generator;
use crate::truth::Partial;

/// Steps in a block: 4096 samples.
const BLOCK: usize = 128;
/// The finger touches a ringing string this long before it plucks it again.
const TOUCH_S: f64 = 0.03;
/// The streams of draws: of strings, of events, of the room.
const STRINGS: u64 = 0;
const EVENTS: u64 = 1;
const ROOM: u64 = 2;

/// The truth of one pluck of a round. Frequencies are those of the moment of the pluck, after its glide.
#[derive(Clone, Debug, PartialEq)]
pub struct Plucked {
    /// When, in seconds of the samples delivered (what is missing from them not counted).
    pub at_s: f64,
    /// The string's name.
    pub string: String,
    /// What it should sound, in Hz.
    pub target_hz: f64,
    /// f0·√(1 + B) in Hz.
    pub f1_hz: f64,
    /// Sounding pitch in Hz, as in [`crate::Truth::sounding_hz`].
    pub sounding_hz: f64,
    /// The stiff string's f0 in Hz.
    pub f0_hz: f64,
    /// The stiff string's B.
    pub b: f64,
    /// How many cents above rest the pluck starts.
    pub glide_cents: f64,
    /// How loud, in dB against an ordinary pluck.
    pub level_db: f64,
    /// The partials; amplitudes of the first polarisation before it is shared with the second.
    pub partials: Vec<Partial>,
    /// Where the pin went while this pluck rang: (seconds delivered, cents off the target), straight between; empty if still.
    pub course: Vec<(f64, f64)>,
}

impl Plucked {
    /// How far the first partial lies off the target, in cents; positive is high.
    #[must_use]
    pub fn off_cents(&self) -> f64 {
        pitch::cents(self.target_hz, self.f1_hz)
    }
}

/// A round being played: an iterator of blocks of up to 4096 samples, each −1 to 1.
pub struct Performance {
    plan: Plan,
    truth: Vec<Plucked>,
    waiting: VecDeque<(usize, Action)>,
    voices: Vec<Voice>,
    /// Sounds already made: where in them the next step begins.
    bursts: Vec<(Vec<f64>, usize)>,
    hiss: Hiss,
    step: usize,
}

/// A round, made ready: names resolved, pins laid out, everything in order of time.
pub(super) struct Plan {
    rate_hz: f64,
    seed: u64,
    room: Room,
    samples: usize,
    strings: Vec<Stood>,
    actions: Vec<(usize, Action)>,
    missing: Vec<Range<usize>>,
    muted: Vec<Range<usize>>,
}

#[derive(Clone)]
enum Action {
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

impl Performance {
    pub(super) fn new(plan: Plan) -> Self {
        let power = ORDINARY * ORDINARY * 10f64.powf(-plan.room.noise_under_db / 10.0);
        let hiss = Hiss::new(plan.rate_hz, power, Generator::new(&[plan.seed, ROOM]));
        let (truth, waiting) = (plan.truth(), plan.actions.clone().into());
        Self {
            plan,
            truth,
            waiting,
            voices: Vec::new(),
            bursts: Vec::new(),
            hiss,
            step: 0,
        }
    }

    /// The truth of every pluck, in the order of time.
    #[must_use]
    pub fn truth(&self) -> &[Plucked] {
        &self.truth
    }

    /// Samples per second.
    #[must_use]
    pub fn rate_hz(&self) -> u32 {
        self.plan.rate_hz as u32
    }

    fn act(&mut self, action: &Action) {
        match action {
            Action::Hush { string } => {
                let theirs = self.voices.iter_mut().filter(|v| v.string == *string);
                theirs.for_each(Voice::hush);
            }
            Action::Strike {
                event,
                string,
                level_db,
            } => self.strike(*event, *string, *level_db),
            Action::Prompt { event, what } => {
                let sound = self.plan.prompt(*event, what);
                self.bursts.push((sound, 0));
            }
        }
    }

    fn strike(&mut self, event: usize, string: usize, level_db: f64) {
        let plan = &self.plan;
        let (at_s, place) = (plan.seconds(self.step), (plan.room, plan.rate_hz));
        let (strike, mut draws) = plan.struck(event, string, at_s, level_db);
        let f0_hz = plan.strings[string].f0_hz(at_s);
        self.voices.push(Voice::new(
            string,
            &strike.tones,
            strike.glide,
            f0_hz,
            plan.rate_hz,
        ));
        let half_second = (0.5 * plan.rate_hz) as usize;
        let noise = body(
            strike.start,
            half_second,
            plan.rate_hz,
            plan.room.bass_corner_hz,
            &mut draws,
        );
        self.bursts.push((noise, 0));
        if plan.room.sympathy_under_db.is_finite() {
            for (other, stood) in plan
                .strings
                .iter()
                .enumerate()
                .filter(|(i, _)| *i != string)
            {
                let along = stood.sympathy((at_s, f0_hz, strike.level), place, &mut draws);
                let rest = (0.0, 1.0);
                self.voices.push(Voice::new(
                    other,
                    &along,
                    rest,
                    stood.f0_hz(at_s),
                    plan.rate_hz,
                ));
            }
        }
    }

    fn add_step(&mut self, out: &mut [f64; STEP]) {
        while let Some((_, action)) = self.waiting.pop_front_if(|(step, _)| *step <= self.step) {
            self.act(&action);
        }
        let at_s = self.plan.seconds(self.step);
        for voice in &mut self.voices {
            voice.add(&self.plan.strings[voice.string], at_s, out);
        }
        self.voices.retain(Voice::sounds);
        for (sound, at) in &mut self.bursts {
            for (sum, y) in out.iter_mut().zip(sound.iter().skip(*at)) {
                *sum += y;
            }
            *at += STEP;
        }
        self.bursts.retain(|(sound, at)| *at < sound.len());
        self.hiss.add(out);
        self.step += 1;
    }
}

impl Iterator for Performance {
    type Item = Vec<f32>;

    fn next(&mut self) -> Option<Vec<f32>> {
        while self.step * STEP < self.plan.samples {
            let first = self.step * STEP;
            let mut block = Vec::with_capacity(BLOCK * STEP);
            for _ in 0..BLOCK {
                let mut step = [0.0; STEP];
                self.add_step(&mut step);
                block.extend(step);
            }
            let delivered = self.plan.deliver(first, &block);
            if !delivered.is_empty() {
                return Some(delivered);
            }
        }
        None
    }
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

    fn seconds(&self, step: usize) -> f64 {
        (step * STEP) as f64 / self.rate_hz
    }

    fn stretch(&self, at_s: f64, seconds: f64) -> Range<usize> {
        (at_s * self.rate_hz).round() as usize..((at_s + seconds) * self.rate_hz).round() as usize
    }

    /// A pluck and the stream that goes on to draw its noise.
    fn struck(&self, event: usize, string: usize, at_s: f64, level_db: f64) -> (Strike, Generator) {
        let mut draws = Generator::new(&[self.seed, EVENTS, event as u64]);
        let strike =
            self.strings[string].strike(at_s, level_db, (self.room, self.rate_hz), &mut draws);
        (strike, draws)
    }

    fn prompt(&self, event: usize, what: &What) -> Vec<f64> {
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

    fn truth(&self) -> Vec<Plucked> {
        let mut truth = Vec::new();
        for (number, (step, action)) in self.actions.iter().enumerate() {
            let Action::Strike {
                event,
                string,
                level_db,
            } = *action
            else {
                continue;
            };
            let (at_s, stood) = (self.seconds(*step), &self.strings[string]);
            let (strike, _) = self.struck(event, string, at_s, level_db);
            let f0_hz = stood.f0_hz(at_s);
            let until = self.actions[number + 1..]
                .iter()
                .find_map(|(step, action)| match action {
                    Action::Hush { string: other } if *other == string => Some(self.seconds(*step)),
                    _ => None,
                });
            let course = stood
                .pin
                .course(at_s, until.unwrap_or(self.samples as f64 / self.rate_hz));
            truth.push(Plucked {
                at_s: self.delivered_s(at_s),
                string: stood.name.clone(),
                target_hz: stood.target_hz,
                f1_hz: f0_hz * (1.0 + stood.b).sqrt(),
                sounding_hz: f0_hz * strike.sounding_ratio(),
                f0_hz,
                b: stood.b,
                glide_cents: strike.glide.0 * crate::drawn::CENTS,
                level_db,
                partials: strike.partials(f0_hz),
                course: course
                    .into_iter()
                    .map(|(at, cents)| (self.delivered_s(at), cents))
                    .collect(),
            });
        }
        truth
    }

    /// From the room's time to the delivered samples' time.
    fn delivered_s(&self, at_s: f64) -> f64 {
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
    fn deliver(&self, first: usize, block: &[f64]) -> Vec<f32> {
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
