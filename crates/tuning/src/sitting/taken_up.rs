//! A round that is taken up again: after the page was closed, or with another microphone.
//!
//! The round is its events; the ear and the follower are made anew and told what the old ones had been told. The new sound
//! goes on with the round's seconds, so that what is written down of it stays in order.

use std::collections::BTreeMap;

use super::{Happened, Sitting, Told};
use crate::round::{Event, Plan, Round};
use crate::{Ear, EarError, Listening};
use harp::StringName;
use signal::Follower;

/// Seconds left between the last event of a round and the sound with which it is taken up.
const APART_S: f64 = 1.0;
/// Samples before which a round surely is taken up: centuries.
const LONGEST: f64 = 1e15;

impl Sitting {
    /// Takes up a round that was interrupted, from the plan with which it began and everything that happened: a sitting, and
    /// what happened with what was said to it then, for a page to show again.
    ///
    /// The round stands as its last event left it: if it was running it runs, and the second until the new sound begins is
    /// counted. To have it wait for her, `act(Act::Pause)` first, and `Act::Resume` when she goes on. The new sound begins
    /// one second after the last event, on a whole second ([`Sitting::now_s`]); a pluck whose last word had not come is to
    /// be plucked again, and what rings as the sound begins is no pluck.
    ///
    /// ```
    /// use harp::{Harp, Setup};
    /// use pitch::ReferencePitch;
    /// use tuning::Sitting;
    /// use tuning::round::{Act, Plan, Say};
    /// let plan = Plan::of(&Harp::named("lever22")?, &Setup::open(ReferencePitch::A440))?;
    /// let mut sitting = Sitting::new(48_000, plan.clone(), 0.6)?;
    /// let mut events = vec![sitting.act(Act::Begin).event];
    /// sitting.push(&[0.0; 24_000]);
    /// events.push(sitting.act(Act::Pause).event);
    /// drop(sitting);
    ///
    /// let (mut sitting, past) = Sitting::resume(44_100, plan, 0.6, &events)?;
    /// assert_eq!((past.len(), sitting.now_s()), (2, 2.0));
    /// assert_eq!(sitting.act(Act::Resume).says.first(), Some(&Say::Resumed));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn resume(
        rate_hz: u32,
        plan: Plan,
        listen_s: f64,
        events: &[Event],
    ) -> Result<(Sitting, Vec<Happened>), EarError> {
        let mut round = Round::new(plan);
        let happened = events.iter().map(|event| Happened {
            event: event.clone(),
            says: round.step(event),
        });
        let happened: Vec<Happened> = happened.collect();
        let from_s = if happened.is_empty() {
            0.0
        } else {
            round.now_s().ceil() + APART_S
        };
        Ok((
            Sitting::with_round(rate_hz, round, listen_s, from_s)?,
            happened,
        ))
    }

    /// A sitting for a round that is at hand, whose sound begins at `from_s`, seconds: not before what the round knows.
    /// From 0 the sound may begin on a pluck; later, what rings as it begins is none.
    pub fn with_round(
        rate_hz: u32,
        round: Round,
        listen_s: f64,
        from_s: f64,
    ) -> Result<Sitting, EarError> {
        let reference = round.plan().reference;
        let listening = Listening {
            listen_s,
            ..Listening::new(reference)
        };
        let all = round.plan().strings.iter().map(|s| s.standing);
        let mut standing = round.standing();
        if standing.is_empty() {
            // every string is broken: the ear must have some, and nobody plucks them
            standing = all.clone().collect();
        }
        let mut keys = BTreeMap::new();
        for (key, standing) in (0..).zip(all) {
            keys.insert(standing.string, key);
        }
        let mut sitting = Sitting {
            ear: Ear::new(rate_hz, standing.clone(), listening)?,
            follower: Follower::new(rate_hz)?,
            keys,
            followed: BTreeMap::new(),
            early: None,
            told: Told {
                pinned: None,
                expected_hz: None,
                standing,
            },
            round,
            samples: 0,
            rate_hz: f64::from(rate_hz),
            listen_s,
            own_sound: false,
            breaks: 0,
        };
        sitting.begin_at(from_s);
        sitting.recall();
        sitting.tell_ear();
        Ok(sitting)
    }

    /// From now on the sound comes at another rate, 8,000 to 192,000: another microphone. The pluck that was being listened
    /// to gets its last word; the round goes on, and its seconds with it. After an error nothing has changed.
    pub fn change_rate(&mut self, rate_hz: u32) -> Result<Vec<Happened>, EarError> {
        Follower::new(rate_hz)?;
        let happened = self.finish();
        let now_s = self.now_s();
        let next = Sitting::with_round(rate_hz, self.round.clone(), self.listen_s, now_s)?;
        let (breaks, own_sound) = (self.breaks(), self.own_sound);
        *self = Sitting { breaks, ..next };
        self.own_sound(own_sound);
        Ok(happened)
    }

    fn begin_at(&mut self, from_s: f64) {
        self.samples = (from_s * self.rate_hz).ceil().clamp(0.0, LONGEST) as u64;
        if self.samples > 0 {
            self.ear.begin_after(self.samples);
            self.follower.lost(self.samples);
        }
    }

    /// Tells the ear how far off each string was when it was last heard, if it is to sound the same still.
    fn recall(&mut self) {
        let mut heard: Vec<(f64, StringName, f64)> = Vec::new();
        for standing in &self.told.standing {
            let last = self.round.kept(standing.string).iter().rev();
            let mut own = last.filter(|k| k.aside.is_none() && k.target_hz == standing.target_hz);
            if let Some(k) = own.next() {
                let place = heard.partition_point(|(at_s, ..)| at_s.total_cmp(&k.at_s).is_le());
                heard.insert(place, (k.at_s, standing.string, k.off_cents));
            }
        }
        for (at_s, string, off_cents) in heard {
            self.ear.recall(string, at_s, off_cents);
        }
    }
}
