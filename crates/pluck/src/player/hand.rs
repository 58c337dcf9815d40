//! A player at work: what she has done so far, and how she tunes one string.

use super::{Aside, Script, Visit};
use crate::generator::Generator;
use crate::round::{Event, Round, RoundError, RoundString, What};

/// Standard deviation of a string's falseness in cents, as in the demonstration.
const FALSE_CENTS: f64 = 0.5;
/// Keeps the players' draws apart from those of the rounds they make.
const PLAYERS: u64 = 0x70_1a_7e_55;

/// From and to, both in the same unit.
pub(super) type Span = (f64, f64);

/// How somebody tunes a string. Times in seconds, amounts in cents.
#[derive(Clone, Copy)]
pub(super) struct Manner {
    /// Against an ordinary pluck, in dB.
    pub(super) level_db: Span,
    /// A string found further off than this is turned.
    pub(super) turned_over: f64,
    /// A turned string is left once it is as near as this.
    pub(super) happy: f64,
    /// Fewest and most plucks of a visit.
    pub(super) plucks: (usize, usize),
    /// From the pluck to the turn.
    pub(super) before_turn_s: Span,
    /// The turn.
    pub(super) turn_s: Span,
    /// From the turn to the next pluck.
    pub(super) settle_s: Span,
    /// From the last pluck to the next string.
    pub(super) listen_s: Span,
    /// The whole visit takes at least this.
    pub(super) visit_s: Span,
    /// Standard deviation of where a turn ends about the target.
    pub(super) miss: f64,
    /// How often (0 to 1) a turn stops half way.
    pub(super) half_way: f64,
}

/// Used to it, in no hurry: about 4–7 s a string.
pub(super) const PRACTISED: Manner = Manner {
    level_db: (-4.0, 2.0),
    turned_over: 3.0,
    happy: 2.0,
    plucks: (1, 4),
    before_turn_s: (0.9, 1.3),
    turn_s: (0.8, 2.0),
    settle_s: (0.5, 0.9),
    listen_s: (1.3, 1.9),
    visit_s: (4.0, 5.0),
    miss: 1.3,
    half_way: 0.15,
};

/// The harp under her hands, and all that has happened to it.
pub(super) struct Hand {
    pub(super) strings: Vec<RoundString>,
    pub(super) draws: Generator,
    pub(super) now_s: f64,
    /// Where each pin stands now.
    cents: Vec<f64>,
    events: Vec<Event>,
    visits: Vec<Visit>,
    asides: Vec<Aside>,
    seed: u64,
}

impl Hand {
    /// A harp in tune, a second of silence, and the draws of player number `player`.
    pub(super) fn new(standing: &[harp::Standing], player: u64, seed: u64) -> Self {
        let mut strings = RoundString::of_harp(standing);
        strings.iter_mut().for_each(|s| s.false_cents = FALSE_CENTS);
        Self {
            cents: vec![0.0; strings.len()],
            strings,
            draws: Generator::new(&[seed, PLAYERS, player]),
            now_s: 1.0,
            events: Vec::new(),
            visits: Vec::new(),
            asides: Vec::new(),
            seed,
        }
    }

    /// The numbers of these strings.
    pub(super) fn find(&self, order: &[impl AsRef<str>]) -> Result<Vec<usize>, RoundError> {
        let index = |name: &str| {
            let found = self.strings.iter().position(|s| s.name == name);
            found.ok_or_else(|| RoundError::UnknownString {
                name: name.to_owned(),
            })
        };
        order.iter().map(|name| index(name.as_ref())).collect()
    }

    /// Sets where a string stands before anything happens.
    pub(super) fn begin(&mut self, string: usize, cents: f64) {
        self.strings[string].off_cents = cents;
        self.cents[string] = cents;
    }

    /// Sets where every string stands before anything happens.
    pub(super) fn begin_all(&mut self, mut draw: impl FnMut(&mut Generator) -> f64) {
        for string in 0..self.strings.len() {
            let cents = draw(&mut self.draws);
            self.begin(string, cents);
        }
    }

    pub(super) fn cents(&self, string: usize) -> f64 {
        self.cents[string]
    }

    pub(super) fn name(&self, string: usize) -> String {
        self.strings[string].name.clone()
    }

    pub(super) fn wait(&mut self, (low, high): Span) {
        self.now_s += self.draws.between(low, high);
    }

    pub(super) fn pluck(&mut self, string: usize, (low, high): Span) {
        let what = What::Pluck {
            string: self.name(string),
            level_db: self.draws.between(low, high),
        };
        self.happens(what);
    }

    /// Turns the pin, which takes its time.
    pub(super) fn turn(&mut self, string: usize, to_cents: f64, (low, high): Span) {
        let seconds = self.draws.between(low, high);
        self.moves(string, to_cents, self.now_s, seconds);
        self.now_s += seconds;
    }

    /// A string moves from a time on, whatever else happens meanwhile.
    pub(super) fn moves(&mut self, string: usize, to_cents: f64, at_s: f64, seconds: f64) {
        let name = self.name(string);
        self.events
            .push(Event::turn(at_s, &name, to_cents, seconds));
        self.cents[string] = to_cents;
    }

    pub(super) fn happens(&mut self, what: What) {
        self.events.push(Event {
            at_s: self.now_s,
            what,
        });
    }

    pub(super) fn aside(&mut self, aside: Aside) {
        self.asides.push(aside);
    }

    /// Tunes a string and goes on.
    pub(super) fn visit(&mut self, string: usize, manner: &Manner) {
        let from_s = self.now_s;
        let settled = self.tune(string, manner);
        self.leave(string, from_s, settled, manner);
    }

    /// Plucks a string, turns it if need be and plucks it again, until it is near enough or she has had enough of it.
    /// Whether it is near enough.
    pub(super) fn tune(&mut self, string: usize, manner: &Manner) -> bool {
        self.pluck(string, manner.level_db);
        let mut near = manner.turned_over;
        for plucks in 1..manner.plucks.1 {
            let off = self.cents[string];
            let turns = off.abs() > near;
            if !turns && plucks >= manner.plucks.0 {
                break;
            }
            self.wait(manner.before_turn_s);
            if turns {
                let half_way = self.draws.unit() < manner.half_way;
                let aim = if half_way { off / 2.0 } else { 0.0 };
                let to_cents = aim + manner.miss * self.draws.normal();
                self.turn(string, to_cents, manner.turn_s);
            }
            self.wait(manner.settle_s);
            self.pluck(string, manner.level_db);
            near = manner.happy;
        }
        self.cents[string].abs() <= near
    }

    /// Listens to the last pluck of a visit that began at `from_s`, and notes the visit.
    pub(super) fn leave(&mut self, string: usize, from_s: f64, settled: bool, manner: &Manner) {
        self.wait(manner.listen_s);
        let least = self.draws.between(manner.visit_s.0, manner.visit_s.1);
        self.now_s = self.now_s.max(from_s + least);
        self.visits.push(Visit {
            string: self.name(string),
            from_s,
            until_s: self.now_s,
            left_cents: self.cents[string],
            settled,
        });
    }

    /// The script, which ends as the last visit does and three seconds after its last event has begun.
    pub(super) fn script(mut self) -> Script {
        self.events.sort_by(|a, b| a.at_s.total_cmp(&b.at_s));
        let mut round = Round::new(self.strings, self.events, self.seed);
        round.seconds = round.seconds.max(self.now_s);
        Script {
            round,
            visits: self.visits,
            asides: self.asides,
        }
    }
}
