//! The round as it sounds: steps in the order of time, blocks of samples out.

use std::collections::VecDeque;

use super::plan::{Action, Plan};
use super::plucked::{self, Plucked};
use super::strike::ORDINARY;
use super::unending::{Source, Unending};
use super::voice::Voice;
use crate::body::body;
use crate::carrier::STEP;
use crate::generator::Generator;

/// Steps in a block: 4096 samples.
const BLOCK: usize = 128;
/// The streams of draws of the room's noise and of its pit.
const ROOM: u64 = 2;
const PIT: u64 = 3;

/// A round being played: an iterator of blocks of up to 4096 samples, each −1 to 1.
pub struct Performance {
    plan: Plan,
    truth: Vec<Plucked>,
    waiting: VecDeque<(usize, Action)>,
    voices: Vec<Voice>,
    /// Sounds already made: where in them the next step begins.
    bursts: Vec<(Vec<f64>, usize)>,
    hiss: Unending,
    pit: Unending,
    step: usize,
}

impl Performance {
    pub(super) fn new(plan: Plan) -> Self {
        let room = plan.room;
        let stream = |source, under_db: f64, number| {
            let power = ORDINARY * ORDINARY * 10f64.powf(-under_db / 10.0);
            let draws = Generator::new(&[plan.seed, number]);
            Unending::new(source, plan.rate_hz, power, draws)
        };
        let hiss = stream(Source::Pink, room.noise_under_db, ROOM);
        let corner_hz = room.bass_corner_hz;
        let pit = stream(Source::Pit { corner_hz }, room.pit_under_db, PIT);
        let (truth, waiting) = (plucked::all(&plan), plan.actions.clone().into());
        Self {
            plan,
            truth,
            waiting,
            voices: Vec::new(),
            bursts: Vec::new(),
            hiss,
            pit,
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
            Action::Hush { string } => self.hush(*string),
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

    fn hush(&mut self, string: usize) {
        let theirs = self.voices.iter_mut().filter(|v| v.string == string);
        theirs.for_each(Voice::hush);
    }

    fn strike(&mut self, event: usize, string: usize, level_db: f64) {
        // The finger has lain there already, unless two plucks come closer than that.
        self.hush(string);
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
        while self
            .waiting
            .front()
            .is_some_and(|(step, _)| *step <= self.step)
            && let Some((_, action)) = self.waiting.pop_front()
        {
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
        self.pit.add(out);
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
