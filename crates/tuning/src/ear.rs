//! A stream of samples in; readings, refusals and warnings out.

use harp::{Standing, StringName};
use pitch::ReferencePitch;
use signal::{Law, ListenError, Listener, Look, SOFT_RISE, Strike, broken_at};

use crate::last_word::held_against;
use crate::measure::Measurer;
use crate::naming::{Guide, Name, Namer};
use crate::refusal::refuse;
use crate::rings_on::rings_on;
use crate::{Heard, Reading, Reason, Refused, Warning, WarningKind};

/// How to listen.
#[derive(Clone, Debug, PartialEq)]
pub struct Listening {
    /// How long to listen to each pluck, seconds; the next pluck ends it early.
    pub listen_s: f64,
    /// The one string that is being plucked, where that is known.
    pub guided: Option<StringName>,
    /// The reference pitch, for what an equal-tempered display would show.
    pub reference: ReferencePitch,
}

impl Listening {
    /// 0.6 s a pluck, any string.
    pub fn new(reference: ReferencePitch) -> Self {
        Listening {
            listen_s: 0.6,
            guided: None,
            reference,
        }
    }
}

/// Why an ear cannot be made.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum EarError {
    /// The sound cannot be listened to.
    #[error(transparent)]
    Listen(#[from] ListenError),
    /// No strings to hear.
    #[error("no strings stand: there is nothing to listen for")]
    NoStrings,
    /// The guided string is not one of those that stand.
    #[error("{0} is not among the strings that stand")]
    NotThere(StringName),
}

/// Hears a harp.
pub struct Ear {
    listener: Listener,
    namer: Namer,
    measurer: Measurer,
    /// what the present strike was called at its last look
    name: Option<Name>,
    /// the early reading of the present strike, if one was given
    early: Option<Reading>,
    /// when the string last read began, and its law
    ringing: Option<(f64, Law)>,
    /// power of the loudest pluck of late
    loudest: f64,
    /// how often samples were missing, and whether that was said without a pluck to say it of
    breaks: usize,
    warned: bool,
}

/// Rise below which a string that rings on may only have swelled.
const SWELL_RISE: f32 = 0.4;
/// Power over that of the tenth of a second before, from which a rise is none of the soft ones.
const LOUDER: f64 = 4.0;
/// Power against the loudest of late, below which a soft rise is handling noise: −30 dB.
const HANDLING: f64 = 1e-3;
/// What is kept of that at each reading.
const FORGOTTEN: f64 = 0.8;
/// Certainty that a soft rise needs to count as a pluck at all.
const SOFT_CERTAINTY: f64 = 0.93;
/// Cents within which an early reading is worth giving.
const EARLY_U95: f64 = 12.0;

impl Ear {
    /// An ear for sound at `rate_hz` (8,000 to 192,000) and the strings that stand.
    pub fn new(
        rate_hz: u32,
        standing: Vec<Standing>,
        listening: Listening,
    ) -> Result<Self, EarError> {
        if standing.is_empty() {
            return Err(EarError::NoStrings);
        }
        if let Some(g) = listening
            .guided
            .filter(|g| standing.iter().all(|s| s.string != *g))
        {
            return Err(EarError::NotThere(g));
        }
        let listener = Listener::new(rate_hz, listening.listen_s)?;
        let rate = listener.rate_hz();
        Ok(Ear {
            namer: Namer::new(
                standing,
                listening.guided.map(|string| Guide {
                    string,
                    expected_hz: None,
                }),
                rate,
            ),
            measurer: Measurer::new(rate, listening.listen_s, listening.reference),
            listener,
            name: None,
            early: None,
            ringing: None,
            loudest: 0.0,
            breaks: 0,
            warned: false,
        })
    }

    /// What is plucked from now on is this string, however far off it is; none: any string. A pluck that is being listened
    /// to is named so too. Where it is known between which pitches the string must be, in Hz, another string that is plain
    /// outside them gets its own name after all.
    pub fn guide(
        &mut self,
        guided: Option<StringName>,
        expected_hz: Option<(f64, f64)>,
    ) -> Result<(), EarError> {
        if let Some(g) = guided.filter(|g| self.namer.standing().iter().all(|s| s.string != *g)) {
            return Err(EarError::NotThere(g));
        }
        self.namer.guide(guided.map(|string| Guide {
            string,
            expected_hz,
        }));
        self.name = None;
        Ok(())
    }

    /// From now on these strings stand, at this reference pitch; any string may be plucked.
    pub fn stand(
        &mut self,
        standing: Vec<Standing>,
        reference: ReferencePitch,
    ) -> Result<(), EarError> {
        if standing.is_empty() {
            return Err(EarError::NoStrings);
        }
        self.namer.stand(standing);
        self.namer.guide(None);
        self.measurer.refer_to(reference);
        self.name = None;
        Ok(())
    }

    /// The onset of what is being listened to, seconds from the start of the sound.
    pub fn onset_s(&self) -> Option<f64> {
        self.listener.onset_s()
    }

    /// Takes in samples, −1 to 1, any number at a time.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Heard> {
        let strikes = self.listener.push(samples);
        strikes.into_iter().filter_map(|s| self.look(&s)).collect()
    }

    /// Ends the sound: the last pluck's reading, if one is still due.
    pub fn finish(&mut self) -> Vec<Heard> {
        let strikes = self.listener.finish();
        strikes.into_iter().filter_map(|s| self.look(&s)).collect()
    }

    /// The tool makes a sound itself from the next sample on, or makes none any more: [`Listener::own_sound`].
    pub fn own_sound(&mut self, sounds: bool) {
        self.listener.own_sound(sounds);
    }

    /// Whether the next sample belongs to the tool's own sound, or to the room's answer to it.
    pub fn is_own_sound(&self) -> bool {
        self.listener.is_own_sound()
    }

    /// So many samples of the stream are known to be missing here. The pluck that was being listened to is refused; where
    /// there was none that is said once, as a warning, and counted from then on.
    pub fn lost(&mut self, samples: u64) -> Vec<Heard> {
        let at_s = self.listener.now_s();
        self.breaks += 1;
        let strikes = self.listener.lost(samples);
        let mut heard: Vec<Heard> = strikes.iter().filter_map(|s| self.look(s)).collect();
        if heard.is_empty() && !self.warned {
            self.warned = true;
            heard.push(Heard::Warning(Warning {
                at_s,
                string: None,
                warning: WarningKind::AudioBroke,
                detail: format!("{samples} samples are missing at {at_s:.3} s"),
            }));
        }
        heard
    }

    /// How often samples were missing so far: those that were told, and those that were found in a pluck.
    pub fn breaks(&self) -> usize {
        self.breaks
    }

    /// The sound begins after so many samples, in the middle of what may ring already.
    pub(crate) fn begin_after(&mut self, samples: u64) {
        self.listener.lost(samples);
    }

    /// A string was heard before so far off, this ear has not: it helps to name it again.
    pub(crate) fn recall(&mut self, string: StringName, at_s: f64, off_cents: f64) {
        self.namer.recall(string, at_s, off_cents);
    }

    /// Whether what was named is a partial of the string last read, which may still ring.
    fn swells(&self, name: &Name, strike: &Strike) -> bool {
        let Some((at_s, law)) = self.ringing else {
            return false;
        };
        let hz = name.law.partial(1);
        let n = (hz / law.f0_hz).round();
        (2.0..=8.0).contains(&n)
            && strike.at_s < at_s + 12.0
            && pitch::cents(law.partial(n as usize), hz).abs() < 25.0
    }

    fn look(&mut self, strike: &Strike) -> Option<Heard> {
        if strike.look == Look::First {
            self.name = None;
            self.early = None;
        }
        if strike.look == Look::Lost {
            return self.broken_off(strike).map(Heard::Refused);
        }
        if strike.at_s == 0.0 && !begins_on_a_pluck(strike) {
            return None;
        }
        // far softer than what was played, and rising softly: a hand, a chair, the soundboard at rest
        if strike.rise < SOFT_RISE && loudness(strike) < HANDLING * self.loudest {
            return None;
        }
        let name = self.namer.name(strike, self.name.take());
        if strike.cut && !strike.look.is_last() {
            self.name = None;
            return None;
        }
        // what rose softly is a pluck only if a string is plain in it
        let soft = strike.rise < SOFT_RISE && strike.at_s > 0.0 && louder(strike) < LOUDER;
        if soft
            && name
                .as_ref()
                .map_or(true, |n| n.certainty < SOFT_CERTAINTY && !n.shared)
        {
            self.name = None;
            return None;
        }
        // a string that rings on may swell again in one of its partials: that is no new string
        if strike.rise < SWELL_RISE && name.as_ref().is_ok_and(|n| self.swells(n, strike)) {
            self.name = None;
            return None;
        }
        let broken = if strike.cut {
            Some(0)
        } else {
            broken_at(&strike.after, strike.rate_hz)
        };
        let name = match broken {
            Some(at) if strike.look.is_last() => {
                self.breaks += 1;
                let at_s = strike.at_s + at as f64 / strike.rate_hz;
                let string = name.as_ref().ok().map(|n| n.standing.string);
                let detail = format!(
                    "samples are missing at {at_s:.3} s: record again without other programs running"
                );
                Err(refuse(strike, string, Reason::AudioBroke, detail))
            }
            _ => name,
        };
        let heard = match name {
            Ok(name) => {
                let measured = self.measurer.measure(strike, &name);
                self.name = Some(name);
                measured
            }
            Err(refused) => Err(refused),
        };
        if strike.look.is_last() {
            self.name = None;
            let heard = match self.early.take() {
                Some(early) => heard.and_then(|last| held_against(last, &early)),
                None => heard,
            };
            let heard = heard.and_then(|reading| rings_on(reading, strike));
            return match heard {
                Ok(reading) => {
                    self.namer.remember(&reading);
                    self.loudest = loudness(strike).max(FORGOTTEN * self.loudest);
                    self.ringing = Some((
                        reading.at_s,
                        Law {
                            f0_hz: reading.f0_hz,
                            b: reading.b,
                        },
                    ));
                    Some(Heard::Reading(reading))
                }
                Err(_) if strike.at_s == 0.0 => None,
                Err(r) => Some(Heard::Refused(r)),
            };
        }
        let reading = heard.ok()?;
        let name = self.name.as_ref()?;
        let soon = strike.look == Look::First && reading.target_hz < 255.0;
        if self.early.is_some() || soon || !name.sure || reading.u95_cents > EARLY_U95 {
            return None;
        }
        let early = Reading {
            last: false,
            ..reading
        };
        self.early = Some(early.clone());
        Some(Heard::Reading(early))
    }
}

impl Ear {
    /// The word on a pluck after which samples are known to be missing; none where it may have been no pluck at all.
    fn broken_off(&mut self, strike: &Strike) -> Option<Refused> {
        let (name, early) = (self.name.take(), self.early.take());
        let string = early.as_ref().and_then(|e| e.string);
        let string = string.or(name.map(|n| n.standing.string));
        let began = strike.at_s == 0.0 || strike.rise < SOFT_RISE;
        if began && early.is_none() && string.is_none() {
            return None;
        }
        let end_s = strike.at_s + strike.after.len() as f64 / strike.rate_hz;
        let detail = format!("samples are missing at {end_s:.3} s");
        Some(refuse(strike, string, Reason::AudioBroke, detail))
    }
}

/// A sound may begin on a pluck, or in the middle of something that is none: then it is soft, or soon over.
fn begins_on_a_pluck(strike: &Strike) -> bool {
    let part = |from_s: f64, to_s: f64| {
        let (a, b) = (
            (from_s * strike.rate_hz) as usize,
            (to_s * strike.rate_hz) as usize,
        );
        power(strike.after.get(a..b).unwrap_or_default()).sqrt()
    };
    strike.after.len() as f64 > 0.2 * strike.rate_hz && part(0.02, 0.1) > 0.01
}

/// Mean square.
fn power(part: &[f32]) -> f64 {
    let sum: f64 = part.iter().map(|y| f64::from(*y).powi(2)).sum();
    sum / part.len().max(1) as f64
}

/// The power of the first tenth of a second.
fn loudness(strike: &Strike) -> f64 {
    let tenth = (0.1 * strike.rate_hz) as usize;
    power(&strike.after[..tenth.min(strike.after.len())])
}

/// The same over that of what stood before.
fn louder(strike: &Strike) -> f64 {
    loudness(strike) / power(&strike.before).max(1e-12)
}
