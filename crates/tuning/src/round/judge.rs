//! One pluck: given to its string, kept, judged.

use harp::StringName;

use super::amount::way;
use super::identity::Who;
use super::keep::Change;
use super::tolerance::Verdict;
use super::{Amount, Round, Say, State, Turn};
use crate::{Direction, Reading, Reason};

impl Round {
    pub(super) fn reading(&mut self, reading: &Reading) -> Vec<Say> {
        let figures = [
            reading.heard_hz,
            reading.u95_cents,
            reading.string_certainty,
        ];
        if figures.iter().any(|f| !f.is_finite()) || reading.heard_hz <= 0.0 {
            return Vec::new();
        }
        let who = self.who(reading);
        if !reading.last {
            return self.early(reading, &who);
        }
        match who {
            Who::Nobody => vec![Say::NotRead {
                string: None,
                reason: Reason::NoString,
            }],
            Who::Either(strings) => {
                self.unnamed = Some((reading.clone(), strings.clone()));
                let asked = self.heard_instead(None, reading.heard_hz);
                asked.into_iter().chain([Say::Which(strings)]).collect()
            }
            Who::Sure(string) => {
                if let Some(says) = self.octave_high(string, reading) {
                    self.unnamed = Some((reading.clone(), vec![string]));
                    return says;
                }
                self.take(string, reading)
            }
        }
    }

    fn early(&self, reading: &Reading, who: &Who) -> Vec<Say> {
        let sounds = |string: &StringName| {
            let record = self.records.get(string)?;
            Some(Say::Sounds {
                string: *string,
                off_cents: record.off(reading.heard_hz),
                u95_cents: reading.u95_cents.abs(),
            })
        };
        match who {
            Who::Sure(string) => sounds(string).into_iter().collect(),
            _ => Vec::new(),
        }
    }

    /// A pluck is this string's.
    pub(super) fn take(&mut self, string: StringName, reading: &Reading) -> Vec<Say> {
        self.the_other_of_two(string, reading.heard_hz);
        let mut says: Vec<Say> = Vec::new();
        if self.pin.is_some_and(|pin| pin != string) {
            self.pin = None;
            says.push(Say::LetGo);
        }
        says.extend(self.heard_instead(Some(string), reading.heard_hz));
        says.extend(self.another_was_turned(string, reading));
        let Some(change) = self.keep(string, reading) else {
            return says;
        };
        if self.hand != Some(string)
            && let Some(left) = self.hand.and_then(|h| self.records.get_mut(&h))
        {
            left.unchanged = 0;
        }
        self.hand = Some(string);
        self.went_on_from(string);
        self.said_next = None;
        if self.asked == Some(string) {
            self.asked = None;
        }
        says.extend(self.judge(string, reading, change));
        says.extend(self.key_elsewhere(string));
        says.extend(self.ask_reference());
        // what is asked for next is said once the string is out of hand
        if self.unfinished_hand() != Some(string) {
            says.extend(self.onward());
        }
        says
    }

    fn judge(&mut self, string: StringName, reading: &Reading, change: Change) -> Vec<Say> {
        let tolerance = self.tolerance(string);
        let Some(record) = self.records.get(&string) else {
            return Vec::new();
        };
        let off = record.off(reading.heard_hz);
        let u95 = reading.u95_cents.abs();
        if let Some(stop) = self.over_pull(string, off, change.turned && change.cents > 0.0) {
            self.tell(string, Direction::Down);
            return vec![stop];
        }
        if change.disturbed {
            self.set(string, State::Moving);
            return vec![Say::PluckStill(string)];
        }
        match Verdict::of(off, u95, tolerance) {
            Verdict::InTune => self.in_tune(string, off, u95),
            Verdict::Near => self.near(string, off, u95),
            Verdict::Off => match self.ask_high(string, off) {
                Some(question) => {
                    self.set(string, State::BeforeKnown);
                    vec![question]
                }
                None => self.turn(string, off, u95),
            },
        }
    }

    fn in_tune(&mut self, string: StringName, off: f64, u95: f64) -> Vec<Say> {
        if self.state(string) == Some(State::New) {
            return self.new_in_tune(string, off, u95);
        }
        self.is_done(string, State::InTune);
        if self.pin == Some(string) {
            self.pin = None;
        }
        vec![Say::InTune {
            string,
            off_cents: off,
            u95_cents: u95,
        }]
    }

    /// A string has been brought where it belongs, by a reading or by her ear.
    pub(super) fn is_done(&mut self, string: StringName, state: State) {
        let own_s = self.pace.own_s();
        let Some(record) = self.records.get_mut(&string) else {
            return;
        };
        // hearing a string that is done already takes no string's time
        let anew = !record.state.is_in_tune();
        record.state = state;
        record.told = None;
        record.unchanged = 0;
        record.near = 0;
        record.over = false;
        record.turned = false;
        record.on_purpose = false;
        record.done_s = Some(own_s);
        if anew {
            self.pace.done();
            self.a_gap(string);
        }
    }

    fn near(&mut self, string: StringName, off: f64, u95: f64) -> Vec<Say> {
        let above = StringName {
            octave: string.octave.saturating_add(1),
            ..string
        };
        let octave_above = self
            .records
            .get(&above)
            .filter(|r| r.state != State::Broken);
        let octave_above = octave_above.map(|r| r.string());
        if let Some(record) = self.records.get_mut(&string) {
            record.near += 1;
            record.told = None;
        }
        self.set(string, State::Near);
        vec![Say::Near {
            string,
            off_cents: off,
            u95_cents: u95,
            octave_above,
        }]
    }

    fn turn(&mut self, string: StringName, off: f64, u95: f64) -> Vec<Say> {
        let way = way(off);
        self.tell(string, way);
        vec![Say::Turn(Turn {
            string,
            way,
            amount: Amount::of(off),
            by_cents: Amount::at_once(off),
            off_cents: off,
            u95_cents: u95,
            climbing: self.state(string) == Some(State::New),
        })]
    }

    fn tell(&mut self, string: StringName, way: Direction) {
        self.set(string, State::BeforeKnown);
        if let Some(record) = self.records.get_mut(&string) {
            record.told = Some(way);
            record.near = 0;
            record.reached = false;
        }
    }

    /// A new string stays new whatever is heard of it, until it holds.
    pub(super) fn set(&mut self, string: StringName, state: State) {
        if let Some(record) = self
            .records
            .get_mut(&string)
            .filter(|r| r.state != State::New)
        {
            record.state = state;
        }
    }
}
