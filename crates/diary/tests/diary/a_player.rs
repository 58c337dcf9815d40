//! A made-up player at a made-up harp, with an ear that is a formula: what happens in her round, as events.

use std::collections::BTreeMap;

use harp::{Harp, Setup, StringName};
use pitch::{ReferencePitch, cents, raise};
use tuning::round::{Act, Event, Moving, Plan, Round, Say, Then, Turn};
use tuning::{Direction, Heard, Reading, Reason, Refused};

/// Seconds between two live pitches, as the follower gives them.
const LIVE_S: f64 = 0.043;

/// Chance from a seed: Knuth's linear congruential generator (MMIX).
struct Chance(u64);

impl Chance {
    fn unit(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.unit()
    }

    fn is(&mut self, likely: f64) -> bool {
        self.unit() < likely
    }
}

pub(crate) struct Played {
    pub(crate) round: Round,
    pub(crate) events: Vec<Event>,
    off: BTreeMap<StringName, f64>,
    chance: Chance,
    at_s: f64,
}

pub(crate) fn plan(kind: &str) -> Plan {
    let harp = Harp::named(kind).unwrap();
    Plan::of(&harp, &Setup::open(ReferencePitch::A440)).unwrap()
}

/// A round in which `wild` of the plucks go otherwise than they should, 0 to 1.
pub(crate) fn play(kind: &str, seed: u64, wild: f64, plucks: usize) -> Played {
    let mut played = Played::new(plan(kind), seed);
    played.act(Act::Begin);
    for _ in 0..plucks {
        let Some(asked) = played.round.next() else {
            break;
        };
        let string = if played.chance.is(0.5 * wild) {
            played.any_string()
        } else {
            asked
        };
        if let Some(turn) = played.pluck(string) {
            played.turn(string, turn, wild);
        }
        if played.chance.is(wild) {
            played.something_else(string);
        }
    }
    played
}

impl Played {
    fn new(plan: Plan, seed: u64) -> Played {
        let mut chance = Chance(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15));
        let common = chance.between(-25.0, 5.0);
        let strings = plan.strings.iter().map(|s| s.standing.string);
        let off = strings.map(|s| (s, common)).collect();
        let mut played = Played {
            round: Round::new(plan),
            events: Vec::new(),
            off,
            chance,
            at_s: 1.0,
        };
        let own: Vec<StringName> = played.off.keys().copied().collect();
        for string in own {
            let by = played.chance.between(-6.0, 6.0);
            *played.off.get_mut(&string).unwrap() += by;
        }
        played
    }

    fn step(&mut self, event: Event) -> Vec<Say> {
        self.events.push(event.clone());
        self.round.step(&event)
    }

    fn act(&mut self, act: Act) {
        let at_s = self.at_s;
        self.step(Event::Act { at_s, act });
    }

    fn any_string(&mut self) -> StringName {
        let at = (self.chance.unit() * self.off.len() as f64) as usize;
        *self.off.keys().nth(at).unwrap()
    }

    /// An early reading and a last one; gives what was told.
    fn pluck(&mut self, string: StringName) -> Option<Turn> {
        self.at_s += self.chance.between(1.0, 4.0);
        let onset_s = self.at_s;
        let off = self.off[&string] + self.chance.between(-0.4, 0.4);
        let early = self.reading(string, onset_s, off, false);
        self.step(Event::Heard(Heard::Reading(early)));
        // it is followed from its early word on
        for k in 0..6 {
            let off = off + self.chance.between(-0.3, 0.3);
            self.moving(string, onset_s + 0.3 + LIVE_S * f64::from(k), off);
        }
        let last = self.reading(string, onset_s, off, true);
        self.at_s = onset_s + 0.65;
        let says = self.step(Event::Heard(Heard::Reading(last)));
        says.into_iter().find_map(|say| match say {
            Say::Turn(turn) => Some(turn),
            _ => None,
        })
    }

    fn turn(&mut self, string: StringName, turn: Turn, wild: f64) {
        let sign = if turn.way == Direction::Down {
            -1.0
        } else {
            1.0
        };
        let from = self.off[&string];
        let far = if self.chance.is(0.3 * wild) { 6.0 } else { 1.0 };
        let to = from + sign * turn.by_cents * far * self.chance.between(0.7, 1.3);
        // now and then the key is on another pin
        let moved = if self.chance.is(0.2 * wild) {
            self.any_string()
        } else {
            string
        };
        let steps = self.chance.between(20.0, 160.0) as u32;
        let stood = self.off[&moved];
        for k in 1..=steps {
            let way = f64::from(k) / f64::from(steps);
            let wavers = self.chance.between(-0.8, 0.8);
            self.at_s += LIVE_S;
            self.moving(moved, self.at_s, stood + (to - from) * way + wavers);
        }
        self.off.insert(moved, stood + to - from);
    }

    fn something_else(&mut self, string: StringName) {
        let other = self.any_string();
        let acts = [
            Act::Next,
            Act::Skip(other),
            Act::Again(other),
            Act::ThisOne(string),
            Act::LetGo,
            Act::Pause,
            Act::Resume,
            Act::Broke(other, Then::FittedNow),
            Act::MovedOnPurpose(other),
            Act::InTuneByEar(string),
            Act::AsSaid(string.letter),
            Act::UseA {
                a4_hz: 441.0,
                technician_asked: true,
            },
        ];
        let at = (self.chance.unit() * (acts.len() + 1) as f64) as usize;
        match acts.get(at) {
            Some(Act::Pause) => {
                self.act(Act::Pause);
                self.at_s += 20.0;
                self.moving(string, self.at_s, 3.0);
                self.act(Act::Resume);
            }
            Some(act) => self.act(*act),
            None => {
                let refused = Refused {
                    at_s: self.at_s,
                    string: None,
                    reason: Reason::TooNoisy,
                    detail: String::new(),
                };
                self.step(Event::Heard(Heard::Refused(refused)));
            }
        }
    }

    fn moving(&mut self, string: StringName, at_s: f64, off: f64) {
        let hz = raise(self.target(string), off);
        self.step(Event::Moving(Moving {
            at_s,
            string,
            hz,
            u95_cents: 1.5,
        }));
    }

    fn target(&self, string: StringName) -> f64 {
        let mut all = self.round.plan().strings.iter();
        let own = all.find(|s| s.standing.string == string);
        own.unwrap().standing.target_hz
    }

    fn reading(&self, string: StringName, at_s: f64, off: f64, last: bool) -> Reading {
        let target_hz = self.target(string);
        let heard_hz = raise(target_hz, off);
        Reading {
            last,
            at_s,
            string: Some(string),
            candidates: vec![string],
            position: None,
            target_hz,
            heard_hz,
            off_cents: cents(target_hz, heard_hz),
            u95_cents: if last { 0.6 } else { 2.0 },
            shows_as: String::new(),
            shows_off_cents: 0.0,
            f1_hz: heard_hz,
            f1_u95_cents: 0.6,
            f0_hz: heard_hz,
            b: 1e-4,
            glide_cents: 0.5,
            partials: Vec::new(),
            listened_s: if last { 0.6 } else { 0.25 },
            string_certainty: 0.98,
            direction: Some(if off < 0.0 {
                Direction::Up
            } else {
                Direction::Down
            }),
            stiffness_cents: 0.0,
            t60_s: None,
            level_dbfs: None,
        }
    }
}
