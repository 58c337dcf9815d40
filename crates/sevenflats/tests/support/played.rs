//! A made-up player's script, played in a room and heard by a sitting; what was said, held against what truly sounded.

use harp::{Harp, Setup, Standing, StringName};
use pitch::{ReferencePitch, cents};
use pluck::player::{Aside, Mishaps, Script, Visit, beginner};
use pluck::{Plucked, Room};
use tuning::round::{Act, Event, Order, Plan, Round, Say, Turn};
use tuning::{Happened, Heard, Sitting};

/// An onset is the pluck's if it lies this near, in seconds.
const SAME_PLUCK_S: f64 = 0.06;
/// Cents beside the tolerance, nearer than which a string is neither surely in tune nor surely off.
pub(crate) const DOUBTFUL: f64 = 1.5;
/// Seconds of each pluck that are listened to.
const LISTEN_S: f64 = 0.6;

/// One thing that happened, when it was known, and the string that its pluck was given to.
pub(crate) struct At {
    pub(crate) known_s: f64,
    pub(crate) happened: Happened,
    pub(crate) given: Option<StringName>,
}

/// A script that was played and heard.
pub(crate) struct Played {
    pub(crate) script: Script,
    pub(crate) plan: Plan,
    pub(crate) truth: Vec<Plucked>,
    pub(crate) all: Vec<At>,
    pub(crate) round: Round,
}

/// A harp with all pedals up or all levers off.
pub(crate) fn plan(harp: &str, a4_hz: f64) -> Plan {
    let setup = Setup::open(ReferencePitch::new(a4_hz).unwrap());
    Plan::of(&Harp::named(harp).unwrap(), &setup).unwrap()
}

/// The same with its middle octave first, so that a short round has its octaves.
pub(crate) fn in_the_middle(harp: &str, a4_hz: f64) -> Plan {
    Plan {
        order: Order::MiddleOctave,
        ..plan(harp, a4_hz)
    }
}

/// A beginner on some strings of a pedal harp.
pub(crate) fn a_beginner(strings: usize, mishaps: Mishaps, room: Room, seed: u64) -> Played {
    let plan = in_the_middle("pedal47", 440.0);
    let script = beginner(&standing(&plan), &first(&plan, strings), mishaps, seed).unwrap();
    play(script, &plan, room, &[])
}

/// What the strings of a plan should sound.
pub(crate) fn standing(plan: &Plan) -> Vec<Standing> {
    plan.strings.iter().map(|s| s.standing).collect()
}

/// The first strings that a plan asks for, in its order.
pub(crate) fn first(plan: &Plan, strings: usize) -> Vec<String> {
    let order = Round::new(plan.clone());
    let names = order.order().iter().map(ToString::to_string);
    names.take(strings).collect()
}

/// Plays a script in a room to a sitting that has begun; `acts` are what is done on the screen meanwhile, in the order of
/// time, each at the first block of sound after its second.
pub(crate) fn play(script: Script, plan: &Plan, room: Room, acts: &[(f64, Act)]) -> Played {
    let mut sounding = script.round.clone();
    sounding.room = room;
    let performance = sounding.perform().unwrap();
    let truth = performance.truth().to_vec();
    let mut sitting = Sitting::new(sounding.rate_hz, plan.clone(), LISTEN_S).unwrap();
    let begun = sitting.act(Act::Begin);
    let mut all = vec![known(&sitting, begun)];
    let mut acts = acts.iter().peekable();
    for block in performance {
        while let Some((_, act)) = acts.next_if(|(at_s, _)| *at_s <= sitting.now_s()) {
            let done = sitting.act(*act);
            all.push(known(&sitting, done));
        }
        let heard = sitting.push(&block);
        all.extend(heard.into_iter().map(|h| known(&sitting, h)));
    }
    let heard = sitting.finish();
    all.extend(heard.into_iter().map(|h| known(&sitting, h)));
    Played {
        script,
        plan: plan.clone(),
        truth,
        all,
        round: sitting.round().clone(),
    }
}

fn known(sitting: &Sitting, happened: Happened) -> At {
    let given = match &happened.event {
        Event::Heard(Heard::Reading(r)) if r.last => sitting.round().taken_for(r.at_s),
        _ => None,
    };
    At {
        known_s: sitting.now_s(),
        happened,
        given,
    }
}

impl Played {
    /// The only mishap that was written into the script.
    pub(crate) fn aside(&self) -> &Aside {
        let [only] = &self.script.asides[..] else {
            panic!("{:?}", self.script.asides);
        };
        only
    }

    /// The visit to a string.
    pub(crate) fn visit(&self, string: &str) -> &Visit {
        let mut visits = self.script.visits.iter();
        visits.find(|v| v.string == string).unwrap()
    }

    /// The pluck that truly sounded at a second.
    pub(crate) fn plucked_at(&self, at_s: f64) -> Option<&Plucked> {
        let here = |p: &&Plucked| (p.at_s - at_s).abs() < SAME_PLUCK_S;
        self.truth.iter().find(here)
    }

    /// What a string of the plan should sound, Hz.
    pub(crate) fn target_hz(&self, string: &str) -> f64 {
        let mut all = standing(&self.plan).into_iter();
        let own = all.find(|s| s.string.to_string() == string);
        own.unwrap().target_hz
    }

    /// How far a pluck truly sounded above what its string should sound, cents.
    pub(crate) fn off(&self, plucked: &Plucked) -> f64 {
        cents(self.target_hz(&plucked.string), plucked.sounding_hz)
    }

    /// The same at a later second: its pin may have moved since.
    pub(crate) fn off_at(&self, plucked: &Plucked, at_s: f64) -> f64 {
        let stood = cents(self.target_hz(&plucked.string), plucked.f1_hz);
        let stands = self.script.harp_cents_at(&plucked.string, at_s).unwrap();
        self.off(plucked) - stood + stands
    }

    /// How far the plucks of a visit truly sounded off, cents.
    pub(crate) fn offs(&self, visit: &Visit) -> Vec<f64> {
        let (from_s, until_s) = (visit.from_s - SAME_PLUCK_S, visit.until_s - SAME_PLUCK_S);
        let own = |p: &&Plucked| p.string == visit.string && p.at_s >= from_s && p.at_s < until_s;
        self.truth.iter().filter(own).map(|p| self.off(p)).collect()
    }

    /// Whether the last pluck of a visit lies so far inside the tolerance that any reading of it says so.
    pub(crate) fn surely_left_in_tune(&self, visit: &Visit) -> bool {
        let tolerance = self.plan.tolerance.of(visit.string.parse().unwrap());
        let left = self.offs(visit).last().copied().unwrap();
        left.abs() < tolerance - DOUBTFUL
    }

    /// Every 'up' or 'down' that names another string than was plucked, or sends it the wrong way.
    pub(crate) fn wrong_ways(&self) -> Vec<String> {
        let turns = self.all.iter().flat_map(|at| {
            let turns = at.happened.says.iter().filter_map(|say| match say {
                Say::Turn(turn) => Some(turn),
                _ => None,
            });
            turns.map(move |turn| (at, turn))
        });
        turns
            .filter_map(|(at, turn)| self.wrong_way(at, turn))
            .collect()
    }

    fn wrong_way(&self, at: &At, turn: &Turn) -> Option<String> {
        let said = format!(
            "at {:.2} s {} was told {:+.1} ± {:.1}",
            at.happened.event.at_s(),
            turn.string,
            -turn.off_cents,
            turn.u95_cents
        );
        let Some(plucked) = self.plucked_at(at.happened.event.at_s()) else {
            return Some(format!("{said}, and nothing was plucked"));
        };
        let off = self.off(plucked);
        let right =
            plucked.string == turn.string.to_string() && (off > 0.0) == (turn.off_cents > 0.0);
        (!right).then(|| format!("{said}, and {} was plucked, {off:+.1} off", plucked.string))
    }

    /// Every named last word that is no longer kept, or that is not the before or after of its string though it came
    /// first or last.
    pub(crate) fn lost(&self) -> Vec<String> {
        let named = self
            .all
            .iter()
            .filter_map(|at| Some((at.happened.event.at_s(), at.given?)));
        let named: Vec<(f64, StringName)> = named.collect();
        let mut lost = Vec::new();
        for (at_s, string) in &named {
            if !self.round.kept(*string).iter().any(|k| k.at_s == *at_s) {
                lost.push(format!("{string} at {at_s:.2} s"));
            }
        }
        for summed in self.round.summary().strings {
            let own = named.iter().filter(|(_, s)| *s == summed.string);
            if own.count() > 0 && (summed.before.is_none() || summed.after.is_none()) {
                lost.push(format!("{}: before or after", summed.string));
            }
        }
        lost
    }
}
