//! A sitting that hears a harp and the tool's own prompts, which it is told of.

use harp::{Harp, Setup, Standing};
use pitch::ReferencePitch;
use pluck::{Event, Room, Round, RoundString, What};
use tuning::round::{Act, Event as Happening, Plan};
use tuning::{Happened, Heard, Reading, Refused, Sitting};

pub(crate) const RATE_HZ: u32 = 48_000;
/// RMS of an ordinary pluck over its first half second, of full scale.
const ORDINARY: f64 = 0.03;
/// Seconds of a tone's rise and fall.
const RAMP_S: f64 = 0.005;

/// What the tool lets sound.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Prompt {
    /// Hz; 120 ms.
    Tone(f64),
    /// Seconds of invented syllables, and their seed.
    Word(f64, u64),
}

/// A prompt in the sound: when it begins, and how loud it is, dB against an ordinary pluck.
#[derive(Clone, Copy, Debug)]
pub(crate) struct At {
    pub(crate) at_s: f64,
    pub(crate) prompt: Prompt,
    pub(crate) db: f64,
}

impl Prompt {
    pub(crate) fn seconds(self) -> f64 {
        match self {
            Prompt::Tone(_) => 0.12,
            Prompt::Word(seconds, _) => seconds,
        }
    }

    fn samples(self, db: f64) -> Vec<f32> {
        let rate = f64::from(RATE_HZ);
        let level = ORDINARY * 10f64.powf(db / 20.0);
        match self {
            Prompt::Tone(hz) => {
                let n = (self.seconds() * rate) as usize;
                let ramp = RAMP_S * rate;
                let sample = |k: usize| {
                    let edge = (k.min(n - k) as f64 / ramp).min(1.0);
                    let wave = (std::f64::consts::TAU * hz * k as f64 / rate).sin();
                    (level * 2f64.sqrt() * edge * wave) as f32
                };
                (0..n).map(sample).collect()
            }
            Prompt::Word(seconds, seed) => {
                let what = What::Speech {
                    seconds,
                    level_db: db,
                };
                let spoken = Round {
                    seconds,
                    room: SILENT,
                    ..Round::new(Vec::new(), vec![Event { at_s: 0.0, what }], seed)
                };
                spoken.samples().unwrap()
            }
        }
    }
}

/// No room at all.
const SILENT: Room = Room {
    noise_under_db: f64::INFINITY,
    bass_corner_hz: 0.0,
    sympathy_under_db: f64::INFINITY,
    pit_under_db: f64::INFINITY,
    gain: 1.0,
};

pub(crate) fn plan() -> Plan {
    let setup = Setup::open(ReferencePitch::A440);
    Plan::of(&Harp::named("pedal47").unwrap(), &setup).unwrap()
}

pub(crate) fn standing() -> Vec<Standing> {
    plan().strings.iter().map(|s| s.standing).collect()
}

/// The whole harp, so far off as `off` has it by the place of each string, with what happens to it.
pub(crate) fn harp(off: impl Fn(usize) -> f64, events: Vec<Event>, room: Room, seed: u64) -> Round {
    let mut strings = RoundString::of_harp(&standing());
    for (place, string) in strings.iter_mut().enumerate() {
        string.off_cents = off(place);
    }
    Round {
        room,
        ..Round::new(strings, events, seed)
    }
}

/// The sound of a harp with the prompts mixed in.
pub(crate) fn mixed(harp: &Round, prompts: &[At]) -> Vec<f32> {
    let mut sound = harp.samples().unwrap();
    for at in prompts {
        let from = (at.at_s * f64::from(RATE_HZ)) as usize;
        for (into, y) in sound[from..].iter_mut().zip(at.prompt.samples(at.db)) {
            *into += y;
        }
    }
    sound
}

/// What a sitting makes of a sound in which it is told of the prompts, by blocks as a page has them.
pub(crate) fn sit(sound: &[f32], told: &[At]) -> Vec<Happened> {
    let mut sitting = Sitting::new(RATE_HZ, plan(), 0.6).unwrap();
    sitting.act(Act::Begin);
    let sample = |s: f64| (s * f64::from(RATE_HZ)) as usize;
    let edges = told.iter().flat_map(|at| {
        let end = sample(at.at_s + at.prompt.seconds()) + 1;
        [(sample(at.at_s), true), (end, false)]
    });
    let mut happened = Vec::new();
    let mut from = 0;
    for (to, sounds) in edges.chain([(sound.len(), false)]) {
        for block in sound[from..to].chunks(128) {
            happened.extend(sitting.push(block));
        }
        sitting.own_sound(sounds);
        from = to;
    }
    happened.extend(sitting.finish());
    happened
}

/// The last readings.
pub(crate) fn readings(happened: &[Happened]) -> Vec<&Reading> {
    let readings = happened.iter().filter_map(|h| match &h.event {
        Happening::Heard(Heard::Reading(r)) if r.last => Some(r),
        _ => None,
    });
    readings.collect()
}

/// The refusals.
pub(crate) fn refused(happened: &[Happened]) -> Vec<&Refused> {
    let refused = happened.iter().filter_map(|h| match &h.event {
        Happening::Heard(Heard::Refused(r)) => Some(r),
        _ => None,
    });
    refused.collect()
}
