//! What the player does.

use harp::StringName;

use super::{Act, Aside, Phase, Round, Say, State, Then};

impl Round {
    pub(super) fn act(&mut self, act: Act) -> Vec<Say> {
        if let Some(string) = named(act).filter(|s| !self.records.contains_key(s)) {
            return vec![Say::NotHere(string)];
        }
        match act {
            Act::Begin => self.begin(),
            Act::ThisOne(string) => self.this_one(string),
            Act::LetGo => self.let_go(),
            Act::Skip(string) => self.skip(string),
            Act::Broke(string, then) => self.broke(string, then),
            Act::Next => self.leave(),
            Act::Again(string) => self.again(string, Vec::new()),
            Act::NotInTune(string) => self.again(string, vec![Say::Undone(string)]),
            Act::InTuneByEar(string) => self.by_ear(string),
            Act::Pause => self.pause(),
            Act::Resume => self.resume(),
            Act::SetTo(string, pitch) => self.set_to(string, pitch),
            Act::BetweenPieces => self.between_pieces(),
            Act::MovedOnPurpose(string) => self.moved_on_purpose(string),
            Act::AsSaid(letter) => {
                self.as_said(letter);
                Vec::new()
            }
            Act::UseA {
                a4_hz,
                technician_asked,
            } => self.use_a(a4_hz, technician_asked),
            Act::Finish => self.finish(),
        }
    }

    fn begin(&mut self) -> Vec<Say> {
        if self.phase != Phase::NotBegun {
            return Vec::new();
        }
        self.phase = Phase::Running;
        self.pace.go();
        let mut says = vec![Say::Begun {
            strings: self.order.len(),
        }];
        let touch_up = self.plan.touch_up.is_some();
        if touch_up || !self.plan.open {
            says.push(Say::SecondBest {
                touch_up,
                open: self.plan.open,
            });
        }
        let raise = self.raise_to(self.plan.reference.a4_hz());
        says.extend(raise.map(Say::AskTechnician));
        let unsaid = self.order.iter().copied().filter(|s| {
            self.is_discless(*s) && self.records.get(s).is_some_and(|r| !r.plan.pitch_was_said)
        });
        let unsaid: Vec<StringName> = unsaid.collect();
        if !unsaid.is_empty() {
            says.push(Say::AskPitch(unsaid));
        }
        says.extend(self.onward());
        says
    }

    fn this_one(&mut self, string: StringName) -> Vec<Say> {
        if self.state(string) == Some(State::Broken) {
            return self.broke(string, Then::FittedNow);
        }
        self.pin = Some(string);
        let mut says = vec![Say::Pinned(string)];
        let asked_about = self.unnamed.take().filter(|_| self.phase == Phase::Running);
        if let Some((reading, strings)) = asked_about {
            // the pluck that had two names has one now; it may yet be another string's
            if self.who(&reading) == super::identity::Who::Sure(string) {
                says.extend(self.take(string, &reading));
            } else {
                self.unnamed = Some((reading, strings));
            }
        }
        says
    }

    fn let_go(&mut self) -> Vec<Say> {
        if self.pin.take().is_none() {
            return Vec::new();
        }
        let mut says = vec![Say::LetGo];
        says.extend(self.onward_if_running());
        says
    }

    fn skip(&mut self, string: StringName) -> Vec<Say> {
        self.leave_alone(string);
        if let Some(record) = self.records.get_mut(&string)
            && record.state != State::Broken
        {
            record.state = State::Skipped;
        }
        let mut says = vec![Say::Skipped(string)];
        says.extend(self.onward_if_running());
        says
    }

    fn broke(&mut self, string: StringName, then: Then) -> Vec<Say> {
        self.leave_alone(string);
        let Some(record) = self.records.get_mut(&string) else {
            return Vec::new();
        };
        record.forget_place();
        for kept in &mut record.kept {
            kept.aside.get_or_insert(Aside::OldString);
        }
        record.plan.highest_hz = None;
        record.turned = false;
        record.asked = false;
        record.reached = false;
        record.holds = 0;
        record.others = 0;
        record.done_s = None;
        let mut says = vec![Say::Broke(string, then)];
        match then {
            Then::PlayWithout => record.state = State::Broken,
            Then::FittedNow => {
                record.state = State::New;
                record.fitted = true;
                self.pin = Some(string);
                self.all_heard_was_said = false;
            }
        }
        says.extend(self.onward_if_running());
        says
    }

    fn leave(&mut self) -> Vec<Say> {
        if let Some(string) = self.next() {
            self.leave_alone(string);
            self.went_on_from(string);
            self.said_next = None;
        }
        self.onward_if_running()
    }

    fn again(&mut self, string: StringName, mut says: Vec<Say>) -> Vec<Say> {
        let Some(record) = self.records.get_mut(&string) else {
            return says;
        };
        if matches!(record.state, State::Broken | State::New) {
            return says;
        }
        record.state = if record.kept.is_empty() {
            State::NotYetHeard
        } else {
            State::Again
        };
        record.near = 0;
        record.told = None;
        self.asked = Some(string);
        self.all_heard_was_said = false;
        says.extend(self.onward_if_running());
        says
    }

    fn by_ear(&mut self, string: StringName) -> Vec<Say> {
        if self.state(string) == Some(State::Broken) {
            return vec![Say::NotHere(string)];
        }
        self.leave_alone(string);
        self.is_done(string, State::InTuneByEar);
        self.went_on_from(string);
        let mut says = vec![Say::ByEar(string)];
        says.extend(self.onward_if_running());
        says
    }

    fn pause(&mut self) -> Vec<Say> {
        if self.phase != Phase::Running {
            return Vec::new();
        }
        self.phase = Phase::Paused;
        self.pace.stop();
        vec![Say::Paused]
    }

    fn resume(&mut self) -> Vec<Say> {
        if !matches!(self.phase, Phase::Paused | Phase::Finished) {
            return Vec::new();
        }
        self.phase = Phase::Running;
        self.pace.go();
        self.said_next = None;
        let mut says = vec![Say::Resumed];
        says.extend(self.onward());
        says
    }

    fn between_pieces(&self) -> Vec<Say> {
        let discless = self
            .records
            .values()
            .filter(|r| self.plan.is_discless(&r.plan));
        let sounding = discless.filter(|r| r.state != State::Broken);
        let offered: Vec<_> = sounding
            .map(|r| (r.string(), r.plan.standing.pitch))
            .collect();
        if offered.is_empty() {
            return Vec::new();
        }
        vec![Say::Offer(offered)]
    }

    fn moved_on_purpose(&mut self, string: StringName) -> Vec<Say> {
        if let Some(record) = self.records.get_mut(&string) {
            record.forget_place();
            record.on_purpose = true;
            if record.state.is_settled() {
                record.state = State::Again;
            }
        }
        vec![Say::OnPurpose(string)]
    }

    fn finish(&mut self) -> Vec<Say> {
        if self.phase == Phase::Finished {
            return Vec::new();
        }
        self.phase = Phase::Finished;
        self.pace.stop();
        vec![Say::Finished]
    }

    /// A string is out of hand, and nobody is asked to turn it.
    fn leave_alone(&mut self, string: StringName) {
        for held in [&mut self.pin, &mut self.hand, &mut self.asked] {
            if *held == Some(string) {
                *held = None;
            }
        }
        self.unnamed = None;
    }

    pub(super) fn onward_if_running(&mut self) -> Vec<Say> {
        if self.phase == Phase::Running {
            self.onward()
        } else {
            Vec::new()
        }
    }
}

/// The string that an act names.
fn named(act: Act) -> Option<StringName> {
    match act {
        Act::ThisOne(s)
        | Act::Skip(s)
        | Act::Broke(s, _)
        | Act::Again(s)
        | Act::NotInTune(s)
        | Act::InTuneByEar(s)
        | Act::SetTo(s, _)
        | Act::MovedOnPurpose(s) => Some(s),
        _ => None,
    }
}
