//! A check under way: what is asked for next, and what becomes of a pluck.

use harp::{Harp, HarpError, HarpKind, Mechanism, Position, Setup, Standing, StringName};
use pitch::SpelledPitch;

use super::Pluck;

/// So near to what it should sound in an earlier position, a string stands there still.
const AS_BEFORE_CENTS: f64 = 35.0;
/// A string farther off than this is not what was asked for, or wants tuning first.
const FAR_CENTS: f64 = 65.0;

/// A check: every string in one position, then in the next, and open once more.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    phases: Vec<Phase>,
    at: usize,
    /// The string that stood as before, until it is plucked again.
    doubted: Option<StringName>,
    plucks: Vec<Pluck>,
}

#[derive(Clone, Debug, PartialEq)]
struct Phase {
    position: Position,
    standing: Vec<Standing>,
    waiting: Vec<StringName>,
}

/// What there is to say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Say {
    /// All pedals or levers are to be moved there.
    Set(Position),
    /// The string was measured, and is done in this position.
    Taken(Pluck),
    /// It stands as before the pedals were moved: is its pedal, or its lever, where it was asked for? Plucked again it is
    /// taken as it is.
    AsBefore(StringName),
    /// It is so far from what was asked for that it is taken for no step at all: is it the right string, and in tune?
    Far(StringName, f64),
    /// This string is not part of the check, or is done in this position.
    NotAsked(StringName),
    /// All is measured. Every pedal is up, every lever off.
    Done,
}

impl Check {
    /// A check of these strings, in this order; strings that nothing moves, and that the harp does not have, are left out.
    /// `setup` says the reference pitch, the open tuning and what the strings without discs are tuned to.
    ///
    /// ```
    /// use harp::{Harp, Position, Setup};
    /// use pitch::ReferencePitch;
    /// use tuning::regulation::{Check, within_time, Pace};
    /// let harp = Harp::named("pedal47")?;
    /// let strings = within_time(&harp, None, &Pace::default());
    /// let check = Check::new(&harp, &Setup::open(ReferencePitch::A440), &strings)?;
    /// assert_eq!(check.next().map(|(_, string)| string.to_string()).as_deref(), Some("E1"));
    /// assert_eq!(check.left(), 4 * 44);
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn new(harp: &Harp, setup: &Setup, strings: &[StringName]) -> Result<Self, HarpError> {
        let positions: &[Position] = match harp.kind() {
            HarpKind::Lever => &[Position::Open, Position::Sharp, Position::Open],
            HarpKind::Pedal | HarpKind::Free => &[
                Position::Open,
                Position::Natural,
                Position::Sharp,
                Position::Open,
            ],
        };
        let mut asked: Vec<StringName> = Vec::new();
        for &string in strings {
            let moves = |found: &harp::HarpString| found.mechanism != Mechanism::Nothing;
            if harp.string(string).is_some_and(moves) && !asked.contains(&string) {
                asked.push(string);
            }
        }
        let discless = unmoved(harp, setup)?;
        let phase = |&position: &Position| {
            let setup = Setup {
                position,
                setting: None,
                levers: Vec::new(),
                discless: discless.clone(),
                ..setup.clone()
            };
            Ok(Phase {
                position,
                standing: harp.standing(&setup)?,
                waiting: asked.clone(),
            })
        };
        let mut check = Check {
            phases: positions
                .iter()
                .map(phase)
                .collect::<Result<_, HarpError>>()?,
            at: 0,
            doubted: None,
            plucks: Vec::new(),
        };
        check.pass_over_the_done();
        Ok(check)
    }

    /// Where the pedals or levers are to stand now, and the string that is asked for; `None` when all is measured.
    pub fn next(&self) -> Option<(Position, StringName)> {
        let phase = self.phases.get(self.at)?;
        Some((phase.position, *phase.waiting.first()?))
    }

    /// What the strings should sound now, from the bass up; empty when all is measured.
    pub fn standing(&self) -> &[Standing] {
        self.phases
            .get(self.at)
            .map_or(&[], |phase| &phase.standing)
    }

    /// Between which pitches, in Hz, a string can be now: all at which its pedal or lever was asked to stand so far, with
    /// room for its tuning.
    pub fn expected_hz(&self, string: StringName) -> Option<(f64, f64)> {
        let room = (FAR_CENTS / 1200.0).exp2();
        let until = self.phases.get(..=self.at)?;
        let here = until.iter().filter_map(|phase| phase.of(string));
        let all = here.map(|standing| standing.target_hz);
        let (low, high) = all.fold((f64::MAX, 0.0_f64), |(low, high), hz| {
            (low.min(hz), high.max(hz))
        });
        (high > 0.0).then_some((low / room, high * room))
    }

    /// Plucks that are still to come.
    pub fn left(&self) -> usize {
        self.phases.iter().map(|phase| phase.waiting.len()).sum()
    }

    /// What was measured, in order.
    pub fn plucks(&self) -> &[Pluck] {
        &self.plucks
    }

    /// A string was read, so far from what it should sound now, give or take half of a 95 % interval, both in cents.
    pub fn heard(&mut self, string: StringName, off_cents: f64, u95_cents: f64) -> Vec<Say> {
        let before: Vec<Standing> = (self.phases.iter().take(self.at))
            .filter_map(|phase| phase.of(string).copied())
            .collect();
        let Some(phase) = self.phases.get_mut(self.at) else {
            return vec![Say::Done];
        };
        let place = phase.waiting.iter().position(|&other| other == string);
        let (Some(place), Some(stands)) = (place, phase.of(string).copied()) else {
            return vec![Say::NotAsked(string)];
        };
        let as_before = before.iter().any(|before| {
            let step = 1200.0 * (before.target_hz / stands.target_hz).log2();
            step.abs() > FAR_CENTS && (off_cents - step).abs() <= AS_BEFORE_CENTS
        });
        if as_before && self.doubted != Some(string) {
            self.doubted = Some(string);
            return vec![Say::AsBefore(string)];
        }
        if !as_before && off_cents.abs() > FAR_CENTS {
            return vec![Say::Far(string, off_cents)];
        }
        phase.waiting.remove(place);
        self.doubted = None;
        let pluck = Pluck {
            string,
            stands: stands.alteration,
            off_cents,
            u95_cents,
        };
        self.plucks.push(pluck);
        let mut says = vec![Say::Taken(pluck)];
        says.extend(self.pass_over_the_done());
        says
    }

    /// The string is left out, here and in the positions to come.
    pub fn skip(&mut self, string: StringName) -> Vec<Say> {
        for phase in &mut self.phases {
            phase.waiting.retain(|&other| other != string);
        }
        self.pass_over_the_done().into_iter().collect()
    }

    /// On to the position in which something is still to be plucked.
    fn pass_over_the_done(&mut self) -> Option<Say> {
        let from = self.at;
        while self
            .phases
            .get(self.at)
            .is_some_and(|phase| phase.waiting.is_empty())
        {
            self.at += 1;
        }
        if self.at == from {
            return None;
        }
        self.doubted = None;
        let phase = self.phases.get(self.at);
        Some(phase.map_or(Say::Done, |phase| Say::Set(phase.position)))
    }
}

impl Phase {
    fn of(&self, string: StringName) -> Option<&Standing> {
        self.standing
            .iter()
            .find(|standing| standing.string == string)
    }
}

/// What strings that nothing moves sound, whatever the pedals do: what was said, or how they stand with all pedals up.
fn unmoved(harp: &Harp, setup: &Setup) -> Result<Vec<(StringName, SpelledPitch)>, HarpError> {
    let open = harp.standing(&Setup {
        open: setup.open,
        discless: setup.discless.clone(),
        ..Setup::open(setup.reference)
    })?;
    let standing = harp.strings().iter().zip(open);
    Ok(standing
        .filter(|(string, _)| string.mechanism == Mechanism::Nothing)
        .map(|(string, standing)| (string.name, standing.pitch))
        .collect())
}
