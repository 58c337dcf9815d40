//! One pluck: given to its string, kept, judged.

use harp::StringName;

use super::amount::way;
use super::identity::Who;
use super::record::Kept;
use super::tolerance::Verdict;
use super::{Amount, Limit, Round, Say, State, Turn, Warning};
use crate::{Direction, Reading, Reason};

/// Cents beside both intervals, beyond which two plucks show that the pin was turned.
const MOVED: f64 = 4.0;
/// Cents within which nothing has changed, or the interval if that is wider.
const UNCHANGED: f64 = 2.0;
/// Cents above the target beyond which no rising string goes.
const OVER: f64 = 30.0;
/// The same for the highest pitch known of a string: an ordinary pass over the target is no alarm.
const PASSED: f64 = 10.0;
/// Unchanged plucks after the one that told it to move: three in a row.
const THREE: u32 = 2;
/// Strings either way whose pins may have been turned instead.
const BESIDE: usize = 3;

/// What changed since the string's last pluck.
#[derive(Clone, Copy, Debug)]
struct Change {
    /// cents; nought for a first pluck
    cents: f64,
    /// whether the pin was turned
    turned: bool,
    /// whether it moved while it was read
    disturbed: bool,
}

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
                self.unnamed = Some(reading.clone());
                let asked = self.heard_instead(None, reading.heard_hz);
                asked.into_iter().chain([Say::Which(strings)]).collect()
            }
            Who::Sure(string) => {
                if let Some(says) = self.octave_high(string) {
                    self.unnamed = Some(reading.clone());
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
        self.unnamed = None;
        let mut says: Vec<Say> = Vec::new();
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

    fn keep(&mut self, string: StringName, reading: &Reading) -> Option<Change> {
        let record = self.records.get(&string)?;
        let (hz, u95) = (reading.heard_hz, reading.u95_cents.abs());
        let cents = record.plucked_hz.map_or(0.0, |was| pitch::cents(was, hz));
        let put_right = self.position_was_put_right(string, cents);
        let own_s = self.pace.own_s();
        let record = self.records.get_mut(&string)?;
        let before_u95 = record.kept.last().map_or(0.0, |k| k.u95_cents);
        let change = Change {
            cents,
            turned: !put_right && cents.abs() > MOVED + u95.hypot(before_u95),
            disturbed: moved_within(record, reading),
        };
        let told = matches!(record.told, Some(Direction::Up | Direction::Down));
        let unchanged = told && cents.abs() <= UNCHANGED.max(u95);
        record.unchanged = if unchanged { record.unchanged + 1 } else { 0 };
        record.turned |= change.turned;
        if change.turned && !record.fitted {
            self.moves.push((own_s, string, cents));
        }
        record.kept.push(Kept {
            at_s: reading.at_s,
            target_hz: record.target_hz(),
            heard_hz: hz,
            off_cents: record.off(hz),
            u95_cents: u95,
            aside: None,
        });
        record.plucked_hz = Some(hz);
        record.now_hz = Some(hz);
        record.live.clear();
        record.enough = false;
        record.loose = false;
        let off = record.off(hz);
        self.stands_right(string, off);
        Some(change)
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

    /// A string that rises past what it is known to bear: said once until it has come down again.
    pub(super) fn over_pull(&mut self, string: StringName, off: f64, rising: bool) -> Option<Say> {
        let record = self.records.get_mut(&string)?;
        let highest = record
            .plan
            .highest_hz
            .map(|hz| (hz, record.off(hz).max(PASSED)));
        let (limit_cents, limit) = match highest {
            Some((hz, above)) if above < OVER => (above, Limit::HighestKnown(hz)),
            _ => (OVER, Limit::AboveTarget(OVER)),
        };
        if off <= limit_cents {
            record.over = false;
            return None;
        }
        if !rising {
            return None;
        }
        record.over = true;
        Some(Say::Warning(Warning::OverPull {
            string,
            off_cents: off,
            limit,
        }))
    }

    fn key_elsewhere(&mut self, string: StringName) -> Option<Say> {
        let plucks = self.records.get(&string)?.unchanged + 1;
        if plucks <= THREE {
            return None;
        }
        let order: Vec<StringName> = self.records.keys().copied().collect();
        let at = order.iter().position(|s| *s == string)?;
        let beside = order.get(at.saturating_sub(BESIDE)..(at + BESIDE + 1).min(order.len()))?;
        // where those beside it stand is no longer known
        for other in beside.iter().filter(|s| **s != string) {
            if let Some(record) = self.records.get_mut(other) {
                record.loose = true;
            }
        }
        Some(Say::Warning(Warning::KeyElsewhere { string, plucks }))
    }

    /// While one string was told to move and did not, this one, which stood in tune, has moved.
    fn another_was_turned(&self, string: StringName, reading: &Reading) -> Option<Say> {
        let expected = self.unfinished_hand().filter(|h| *h != string)?;
        let hand = self.records.get(&expected)?;
        let record = self.records.get(&string)?;
        let by_cents = record.moved_to(reading.heard_hz)?;
        let stood = record.state.is_in_tune() && !record.on_purpose;
        let moved = by_cents.abs() > 2.0 * MOVED + reading.u95_cents.abs();
        (stood && moved && hand.told.is_some() && hand.unchanged > 0).then_some(Say::Warning(
            Warning::AnotherMoves {
                expected,
                moving: string,
                by_cents,
            },
        ))
    }
}

/// Whether the string moved between a pluck's onset and the end of its listening.
fn moved_within(record: &super::record::Record, reading: &Reading) -> bool {
    let end = reading.at_s + reading.listened_s;
    let during = record
        .live
        .iter()
        .filter(|(at, _)| *at > reading.at_s && *at <= end);
    let off: Vec<f64> = during.map(|(_, hz)| record.off(*hz)).collect();
    let highest = off.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let lowest = off.iter().copied().fold(f64::INFINITY, f64::min);
    highest - lowest > MOVED + reading.u95_cents.abs()
}
