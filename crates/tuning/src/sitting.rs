//! A round as it is heard: samples and acts in; what happened, and what there is to say of it, out.
//!
//! An ear names and measures each pluck; the strings that ring on are followed while their pins are turned; the round takes in
//! both. What the player does reaches the ear too: a named string guides it, a broken one stands no more.

mod taken_up;

use std::collections::BTreeMap;

use harp::{Standing, StringName};
use pitch::SpelledPitch;
use signal::{Followed, Follower};

use crate::round::{Act, Estimate, Event, Moving, Plan, Round, Say};
use crate::{Ear, EarError, Heard, Partial, Reading};

/// Seconds after its pluck from which a string is followed: its glide has died.
const GLIDE_S: f64 = 0.45;
/// Widest interval of a partial by which a string is followed, cents.
const SURE_CENTS: f64 = 8.0;
/// Samples taken in at a time, so that what is heard and what is followed come in their order.
const PIECE: usize = 1024;

/// One thing that happened, and what the round says to it, most urgent first.
#[derive(Clone, Debug, PartialEq)]
pub struct Happened {
    /// What.
    pub event: Event,
    /// What there is to say.
    pub says: Vec<Say>,
}

/// A round being heard.
pub struct Sitting {
    ear: Ear,
    follower: Follower,
    round: Round,
    /// by the follower's key: the string, and its sounding pitch and interval when its partials were told
    followed: BTreeMap<usize, (StringName, f64, f64)>,
    keys: BTreeMap<StringName, usize>,
    /// the key of the string whose early reading has come
    early: Option<usize>,
    told: Told,
    /// samples of the sound so far, those lost among them
    samples: u64,
    rate_hz: f64,
    listen_s: f64,
    own_sound: bool,
    /// breaks that an earlier ear saw
    breaks: usize,
}

/// What the ear was told last.
#[derive(Clone, Debug, PartialEq)]
struct Told {
    pinned: Option<StringName>,
    expected_hz: Option<(f64, f64)>,
    standing: Vec<Standing>,
}

impl Sitting {
    /// For sound at `rate_hz` (8,000 to 192,000); each pluck is listened to for `listen_s` seconds.
    ///
    /// ```
    /// use harp::{Harp, Setup};
    /// use pitch::ReferencePitch;
    /// use tuning::Sitting;
    /// use tuning::round::{Act, Plan, Say};
    /// let plan = Plan::of(&Harp::named("lever22")?, &Setup::open(ReferencePitch::A440))?;
    /// let mut sitting = Sitting::new(48_000, plan, 0.6)?;
    /// let begun = sitting.act(Act::Begin);
    /// assert_eq!(begun.says.first(), Some(&Say::Begun { strings: 22 }));
    /// assert!(sitting.push(&[0.0; 48_000]).is_empty());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn new(rate_hz: u32, plan: Plan, listen_s: f64) -> Result<Sitting, EarError> {
        Sitting::with_round(rate_hz, Round::new(plan), listen_s, 0.0)
    }

    /// The round so far.
    pub fn round(&self) -> &Round {
        &self.round
    }

    /// Seconds of sound taken in.
    pub fn now_s(&self) -> f64 {
        self.samples as f64 / self.rate_hz
    }

    /// The tool makes a sound itself from the next sample on, a word or a tone; or makes none any more.
    ///
    /// While it does and for [`signal::ECHO_S`] after, no pluck is heard to begin and nothing is followed. A pluck that was
    /// being listened to gets its last word from what came before. To be said before the first sample that may hold the
    /// sound is pushed, and not before the last one that does: a loudspeaker comes late, and so does a microphone.
    pub fn own_sound(&mut self, sounds: bool) {
        self.own_sound = sounds;
        self.ear.own_sound(sounds);
    }

    /// So many samples, between those that were pushed and those to come, are known to be missing.
    ///
    /// The pluck that they fall into is refused, as broken audio; where there was none it is told once, as a warning. The
    /// clock goes on by what is missing. What rings when the sound goes on is no pluck.
    pub fn lost(&mut self, samples: u64) -> Vec<Happened> {
        let heard = self.ear.lost(samples);
        self.follower.lost(samples);
        self.samples = self.samples.saturating_add(samples);
        heard.into_iter().map(|h| self.heard(h)).collect()
    }

    /// How often samples were missing so far: as was told, or found in a pluck.
    pub fn breaks(&self) -> usize {
        self.breaks + self.ear.breaks()
    }

    /// Takes in samples, −1 to 1, any number at a time.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Happened> {
        let mut happened = Vec::new();
        let mut rest = samples;
        while !rest.is_empty() {
            // the pieces lie the same however the samples come
            let in_piece = (self.samples % PIECE as u64) as usize;
            let (piece, after) = rest.split_at((PIECE - in_piece).min(rest.len()));
            rest = after;
            self.samples = self.samples.saturating_add(piece.len() as u64);
            if self.ear.is_own_sound() {
                self.follower.cover_until(self.now_s());
            }
            let followed = self.follower.push(piece);
            happened.extend(followed.into_iter().filter_map(|f| self.moving(f)));
            let heard = self.ear.push(piece);
            self.struck();
            happened.extend(heard.into_iter().map(|h| self.heard(h)));
        }
        happened
    }

    /// The player does something, now.
    pub fn act(&mut self, act: Act) -> Happened {
        let at_s = self.now_s();
        let happened = self.step(Event::Act { at_s, act });
        self.tell_ear();
        happened
    }

    /// From now on strings are asked for in this order.
    pub fn order(&mut self, strings: Vec<StringName>) -> Happened {
        let at_s = self.now_s();
        self.step(Event::Order { at_s, strings })
    }

    /// Somebody held a note: its pitch over three seconds or more.
    pub fn note_held(&mut self, note: SpelledPitch, estimates: Vec<Estimate>) -> Happened {
        let at_s = self.now_s();
        self.step(Event::NoteHeld {
            at_s,
            note,
            estimates,
        })
    }

    /// Ends the sound: the last pluck's word, if one is still due.
    pub fn finish(&mut self) -> Vec<Happened> {
        let heard = self.ear.finish();
        heard.into_iter().map(|h| self.heard(h)).collect()
    }

    fn step(&mut self, event: Event) -> Happened {
        let says = self.round.step(&event);
        Happened { event, says }
    }

    /// While something new is being listened to, what rang before is covered by it.
    fn struck(&mut self) {
        if self.ear.onset_s().is_some() {
            self.follower.wait_until(self.now_s(), self.early);
        }
    }

    fn heard(&mut self, heard: Heard) -> Happened {
        let reading = match &heard {
            Heard::Reading(reading) => Some(reading.clone()),
            _ => None,
        };
        let happened = self.step(Event::Heard(heard));
        let followed = reading.as_ref().map(|r| (self.follow(r), r.last));
        self.early = followed.filter(|(_, last)| !last).map(|(key, _)| key);
        self.tell_ear();
        happened
    }

    /// What was read rings on, and may be turned. What got no name is followed too, under a key that no string has: its
    /// partials are no other string's.
    fn follow(&mut self, reading: &Reading) -> usize {
        let given = self.round.taken_for(reading.at_s);
        let string = given.or(reading.string).or(self.round.pinned());
        let known = string.and_then(|s| Some((s, *self.keys.get(&s)?)));
        let key = known.map_or(self.keys.len(), |(_, key)| key);
        let sure = |p: &&Partial| p.u95_cents <= SURE_CENTS;
        let partials: Vec<f64> = reading.partials.iter().filter(sure).map(|p| p.hz).collect();
        self.follower
            .follow(key, &partials, reading.at_s, reading.at_s + GLIDE_S);
        if let Some((string, key)) = known {
            let told = (string, reading.heard_hz, reading.u95_cents);
            self.followed.insert(key, told);
        }
        key
    }

    fn moving(&mut self, f: Followed) -> Option<Happened> {
        let (string, hz, u95_cents) = *self.followed.get(&f.key)?;
        Some(self.step(Event::Moving(Moving {
            at_s: f.at_s,
            string,
            hz: hz * (f.cents / 1200.0).exp2(),
            u95_cents: f.u95_cents.hypot(u95_cents),
        })))
    }

    /// The ear is told what has changed. Strings that the round has always stand, so it cannot refuse.
    fn tell_ear(&mut self) {
        let pinned = self.round.pinned();
        let told = Told {
            pinned,
            expected_hz: pinned.and_then(|string| self.round.expected_hz(string)),
            standing: self.round.standing(),
        };
        if told.standing != self.told.standing {
            let reference = self.round.plan().reference;
            let _ = self.ear.stand(told.standing.clone(), reference);
            let _ = self.ear.guide(told.pinned, told.expected_hz);
        } else if told != self.told {
            let _ = self.ear.guide(told.pinned, told.expected_hz);
        }
        self.told = told;
    }
}
