//! Targets that change during a round: another A, another pitch for a string without discs.

use harp::{Mechanism, NEAR_SEMITONES, StringName};
use pitch::{ReferencePitch, SpelledPitch};

use super::{Estimate, Raise, Round, Say, State, TakeError, strings_that_sound_a, take_the_a};

impl Round {
    /// A note was held: what A it stands for. Nothing changes until she confirms it.
    pub(super) fn note_held(&self, note: SpelledPitch, estimates: &[Estimate]) -> Vec<Say> {
        let taken = match take_the_a(note, estimates) {
            Ok(taken) => taken,
            Err(error) => return vec![Say::NoA(error)],
        };
        let raise = self
            .plan
            .usual_a4_hz
            .map(|usual| Raise::between(usual, taken.a4_hz));
        let standing: Vec<_> = self.records.values().map(|r| r.plan.standing).collect();
        vec![Say::TheA {
            taken,
            raise,
            strings: strings_that_sound_a(&standing),
        }]
    }

    pub(super) fn use_a(&mut self, a4_hz: f64, technician_asked: bool) -> Vec<Say> {
        let Ok(reference) = ReferencePitch::new(a4_hz) else {
            return vec![Say::NoA(TakeError::OutOfRange { a4_hz })];
        };
        if let Some(raise) = self.raise_to(a4_hz).filter(|_| !technician_asked) {
            return vec![Say::AskTechnician(raise)];
        }
        self.plan.reference = reference;
        let strings: Vec<StringName> = self.records.keys().copied().collect();
        for string in strings {
            self.aim_at(string, None);
        }
        // what was asked about the old A need not hold for the new one
        self.reference_was_asked = false;
        let mut says = vec![Say::Uses(a4_hz)];
        says.extend(self.onward_if_running());
        says
    }

    /// What an A4 asks of the harp, where that is more than may be proposed.
    pub(super) fn raise_to(&self, a4_hz: f64) -> Option<Raise> {
        let raise = Raise::between(self.plan.usual_a4_hz?, a4_hz);
        raise.asks_a_technician().then_some(raise)
    }

    /// A string without discs is to stand at another pitch: it is asked for first, and nothing that follows from the
    /// change is an alarm.
    pub(super) fn set_to(&mut self, string: StringName, wanted: SpelledPitch) -> Vec<Say> {
        let near = (wanted.midi() - string.key()).abs() <= NEAR_SEMITONES;
        let nothing_moves_it = |r: &super::record::Record| r.plan.mechanism == Mechanism::Nothing;
        if !near || !self.records.get(&string).is_some_and(nothing_moves_it) {
            return vec![Say::NotHere(string)];
        }
        self.aim_at(string, Some(wanted));
        if self.state(string) == Some(State::BeforeKnown)
            || self.state(string) == Some(State::NotYetHeard)
        {
            self.asked = Some(string);
            self.said_next = None;
        }
        let mut says = vec![Say::WillStand(string, wanted)];
        says.extend(self.onward_if_running());
        says
    }

    /// Reckons a string's target anew; one that no longer stands inside the tolerance is asked for again.
    fn aim_at(&mut self, string: StringName, wanted: Option<SpelledPitch>) {
        let (reference, tolerance) = (self.plan.reference, self.tolerance(string));
        let Some(record) = self.records.get_mut(&string) else {
            return;
        };
        let standing = &mut record.plan.standing;
        if let Some(pitch) = wanted {
            standing.pitch = pitch;
            standing.alteration = nearest(pitch.midi() - string.key());
            record.plan.pitch_was_said = true;
            record.asked = false;
            record.on_purpose = record.now_hz.is_some();
        }
        standing.target_hz = reference.hz(standing.pitch);
        record.told = None;
        record.unchanged = 0;
        record.over = false;
        let off = record.now_hz.map(|hz| record.off(hz).abs());
        let leaves = record.state.is_settled() && off.is_some_and(|off| off > tolerance);
        if leaves {
            record.state = State::BeforeKnown;
            self.all_heard_was_said = false;
        }
        let planned = record.plan;
        if let Some(own) = self
            .plan
            .strings
            .iter_mut()
            .find(|p| p.standing.string == string)
        {
            *own = planned;
        }
    }
}

/// Where a string set by key stands against its letter.
fn nearest(semitones: i32) -> pitch::Alteration {
    match semitones.signum() {
        -1 => pitch::Alteration::Flat,
        0 => pitch::Alteration::Natural,
        _ => pitch::Alteration::Sharp,
    }
}
