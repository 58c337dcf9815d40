//! A wire heard an octave high: its second partial was louder than its first, or its octave was plucked instead.

use harp::StringName;

use super::{Round, Say, Warning};

impl Round {
    /// Where a wire was asked for and its octave was heard: both are possible, and nothing is kept.
    pub(super) fn octave_high(&mut self, heard_as: StringName) -> Option<Vec<Say>> {
        let expected = self.next()?;
        let wire = self.records.get(&expected)?.plan.wire;
        let an_octave = StringName {
            octave: expected.octave.saturating_add(1),
            ..expected
        };
        if !wire || heard_as != an_octave {
            self.octave_was_asked = false;
            return None;
        }
        let mut says = Vec::new();
        if !self.octave_was_asked {
            self.octave_was_asked = true;
            says.push(Say::Warning(Warning::OctaveHigh { expected, heard_as }));
        }
        says.push(Say::Which(vec![expected, heard_as]));
        Some(says)
    }
}
