//! The round: one pass over the strings, step by step: a round and an event give a round and what to say.
//!
//! It holds no clock, no sound and no screen: every event carries its second, and what is said are values, of which
//! [`sentence`] makes words. Run again from the same events it gives the same answers; so a round that was
//! interrupted is taken up by running its events again.
//!
//! Three rules stand above all others. Every reading that got a name is kept. A direction is said only for a string
//! whose name has a second ground beside its pitch, for a wrong name breaks strings. And nothing needs a touch once the
//! round has begun.

mod acts;
mod again;
mod amount;
mod another_pin;
mod common_offset;
mod event;
mod gap;
mod grounds;
mod hear_a;
mod identity;
mod judge;
mod keep;
mod live;
mod next;
mod octave_high;
mod order;
mod over_pull;
mod pace;
mod plan;
mod position;
mod record;
mod retarget;
mod say;
mod summary;
mod take_the_a;
mod tolerance;
mod warning;
mod words;

use std::collections::BTreeMap;

use harp::{Standing, StringName};

use crate::{Heard, Reading};
use pace::Pace;
use record::Record;

pub use amount::{Amount, FAR_CENTS};
pub use event::{Act, Event, Moving, Then};
pub use hear_a::{HOLD_S, HearError, HeardNote, HeldEar};
pub use order::Order;
pub use plan::{Plan, Planned};
pub use position::HIGH_CENTS;
pub use record::{Aside, Kept, State};
pub use say::{Say, Turn, Why};
pub use summary::{Summary, Summed};
pub use take_the_a::{
    ASK_ABOVE_CENTS, Estimate, Raise, TakeError, TakenA, strings_that_sound_a, take_the_a,
};
pub use tolerance::{Tolerance, Verdict};
pub use warning::{Limit, Warned, Warning};
pub use words::{
    Names, a_tuner_shows, advice, amount_words, care, colour_words, enough_words, how_far,
    reason_words, sentence, state_words, then, way_words, which_way_the_key_turns,
};

/// A round under way.
#[derive(Clone, Debug, PartialEq)]
pub struct Round {
    plan: Plan,
    order: Vec<StringName>,
    /// whether the order was given from outside
    order_was_given: bool,
    records: BTreeMap<StringName, Record>,
    phase: Phase,
    /// the string that every pluck is, whatever it sounds
    pin: Option<StringName>,
    /// the string last plucked, until it is left
    hand: Option<StringName>,
    /// the string that was asked for by name, until it is heard
    asked: Option<StringName>,
    /// the string last heard or left, from which the order goes on
    last: Option<StringName>,
    /// the last pluck that got no name because several strings were possible
    unnamed: Option<(Reading, Vec<StringName>)>,
    pace: Pace,
    /// how far strings moved under the key: when, which, cents
    moves: Vec<(f64, StringName, f64)>,
    position: position::Doubts,
    reference_was_asked: bool,
    octave: octave_high::Heard,
    /// whether the strings tuned first were called up again
    again_was_said: bool,
    all_heard_was_said: bool,
    /// what was asked for last
    said_next: Option<StringName>,
    warned: Vec<Warned>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Phase {
    NotBegun,
    Running,
    Paused,
    Finished,
}

impl Round {
    /// A round that has not begun.
    pub fn new(plan: Plan) -> Round {
        let mut records = BTreeMap::new();
        for planned in &plan.strings {
            records.insert(planned.standing.string, Record::new(*planned));
        }
        Round {
            order: plan.arranged(),
            order_was_given: false,
            records,
            plan,
            phase: Phase::NotBegun,
            pin: None,
            hand: None,
            asked: None,
            last: None,
            unnamed: None,
            pace: Pace::default(),
            moves: Vec::new(),
            position: position::Doubts::default(),
            reference_was_asked: false,
            octave: octave_high::Heard::default(),
            again_was_said: false,
            all_heard_was_said: false,
            said_next: None,
            warned: Vec::new(),
        }
    }

    /// Takes in one event and says what there is to say, most urgent first.
    ///
    /// Before `Begin`, during a pause and after `Finish` what is heard is not the round's: nothing is said and nothing
    /// kept. An event whose figures are no numbers is passed over.
    pub fn step(&mut self, event: &Event) -> Vec<Say> {
        let known_s = event.known_s();
        if !known_s.is_finite() {
            return Vec::new();
        }
        self.pace.clock(known_s);
        let says = match event {
            Event::Act { act, .. } => self.act(*act),
            Event::Order { strings, .. } => self.in_this_order(strings),
            Event::NoteHeld {
                note, estimates, ..
            } => self.note_held(*note, estimates),
            _ if self.phase != Phase::Running => Vec::new(),
            Event::Moving(moving) => self.live(moving),
            Event::Heard(Heard::Warning(w)) => vec![Say::Sound(w.warning)],
            Event::Heard(Heard::Refused(r)) => vec![Say::NotRead {
                string: r.string,
                reason: r.reason,
            }],
            Event::Heard(Heard::Reading(r)) => self.reading(r),
        };
        let says = most_urgent_first(says);
        for say in &says {
            if let Say::Warning(warning) = say {
                self.warned.push(Warned {
                    at_s: event.at_s(),
                    warning: warning.clone(),
                });
            }
        }
        says
    }

    /// How a string stands; `None` where the round has no such string.
    pub fn state(&self, string: StringName) -> Option<State> {
        self.records.get(&string).map(|r| r.state)
    }

    /// Every reading that was given to a string, in the order of hearing.
    pub fn kept(&self, string: StringName) -> &[Kept] {
        self.records.get(&string).map_or(&[], |r| &r.kept)
    }

    /// What the round was made of, with tonight's pitches and the A in use.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// The strings in the order in which they are asked for.
    pub fn order(&self) -> &[StringName] {
        &self.order
    }

    /// The latest second that is known: of a pluck, the end of its listening.
    pub fn now_s(&self) -> f64 {
        self.pace.now_s()
    }

    /// The string that every pluck is taken for, if one was named.
    pub fn pinned(&self) -> Option<StringName> {
        self.pin
    }

    /// The string that was given the pluck with this onset, seconds.
    pub fn taken_for(&self, at_s: f64) -> Option<StringName> {
        let its = |r: &&Record| r.kept.last().is_some_and(|k| k.at_s == at_s);
        self.records.values().find(its).map(Record::string)
    }

    /// Between which pitches a string must be, Hz, where it is known where it was: from there to its target, and
    /// somewhat beyond both.
    pub fn expected_hz(&self, string: StringName) -> Option<(f64, f64)> {
        let record = self.records.get(&string)?;
        let (now, target) = (record.now_hz?, record.target_hz());
        let beyond = (identity::TURNED / 1200.0).exp2();
        Some((now.min(target) / beyond, now.max(target) * beyond))
    }

    /// What the strings that are not broken should sound, from the bass.
    pub fn standing(&self) -> Vec<Standing> {
        let whole = |r: &&Record| r.state != State::Broken;
        let all = self.records.values().filter(whole);
        all.map(|r| r.plan.standing).collect()
    }

    fn tolerance(&self, string: StringName) -> f64 {
        self.plan.tolerance.of(string)
    }

    fn is_discless(&self, string: StringName) -> bool {
        self.records
            .get(&string)
            .is_some_and(|r| self.plan.is_discless(&r.plan))
    }
}

/// Stops, then other warnings, then all else; each as it was said.
fn most_urgent_first(says: Vec<Say>) -> Vec<Say> {
    let is_stop = |say: &Say| matches!(say, Say::Warning(w) if w.is_stop());
    let is_warning = |say: &Say| matches!(say, Say::Warning(_));
    let (mut first, others): (Vec<Say>, Vec<Say>) = says.into_iter().partition(is_stop);
    let (warnings, rest): (Vec<Say>, Vec<Say>) = others.into_iter().partition(is_warning);
    first.extend(warnings);
    first.extend(rest);
    first
}
