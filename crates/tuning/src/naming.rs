//! Which string sounded.

use std::collections::BTreeMap;

use harp::{Standing, StringName};
use pitch::cents;
use signal::{Law, Picture, Prior, Spectrograph, Strike, picture};

use crate::refusal::refuse;
use crate::{Reading, Reason, Refused};

/// Seconds of sound that decide the name: later sound is other instruments' as much as the string's.
const NAME_S: f64 = 0.25;
/// How far off a string is looked for, cents.
const REACH: f64 = 100.0;
/// How far off a named string is looked for.
const GUIDED_BELOW: f64 = 560.0;
const GUIDED_ABOVE: f64 = 260.0;
/// Lead of the best string over the next, as a share of its evidence, for a name; and for a name that is sure.
const LEAD: f64 = 0.16;
const SURE_LEAD: f64 = 0.3;
/// Evidence that each cent beyond 35 must make up for.
const FAR: f64 = 0.03;
/// Lead from which the share of odd partials does not turn the choice round.
const SWAP: f64 = 0.4;
/// Cents within which another string, far off its pitch, may be what sounded; the measurement narrows it down.
const RIVAL: f64 = 112.0;
/// Evidence of the second string from which both sound.
const BOTH_PLAIN: f64 = 8.0;
/// Certainty from which another string than the named one was plucked.
const SURELY: f64 = 0.9;
/// Evidence below which nothing of the harp was heard.
const LEAST: f64 = 2.0;

/// A string's name, with what was found on the way.
#[derive(Clone, Debug)]
pub(crate) struct Name {
    /// The string and what it should sound.
    pub(crate) standing: Standing,
    /// Every string that explains the sound, the best first.
    pub(crate) candidates: Vec<StringName>,
    /// Whether several strings sound this very pitch.
    pub(crate) shared: bool,
    /// 0 to 1.
    pub(crate) certainty: f64,
    /// Enough for an early reading.
    pub(crate) sure: bool,
    /// Where its partials were found.
    pub(crate) law: Law,
    /// Those among them that would have to be far off their pitch, about a semitone at most.
    pub(crate) rivals: Vec<Standing>,
}

/// Names strings.
pub(crate) struct Namer {
    standing: Vec<Standing>,
    guided: Option<Guide>,
    graph: Spectrograph,
    /// last reading of each string: when, how far off
    heard: BTreeMap<StringName, (f64, f64)>,
    last: Option<StringName>,
}

/// The string that is being plucked, and between which pitches it may be found, Hz, where that is known: outside them
/// another string may have been plucked after all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Guide {
    pub(crate) string: StringName,
    pub(crate) expected_hz: Option<(f64, f64)>,
}

struct Found {
    at: usize,
    score: f64,
    law: Law,
    off: f64,
}

impl Namer {
    pub(crate) fn new(standing: Vec<Standing>, guided: Option<Guide>, rate_hz: f64) -> Self {
        let longest = (NAME_S * rate_hz) as usize + 1;
        Namer {
            standing,
            guided,
            graph: Spectrograph::new(longest, rate_hz),
            heard: BTreeMap::new(),
            last: None,
        }
    }

    /// The name of what `strike` let sound; `before` is what its earlier look was called.
    pub(crate) fn name(&mut self, strike: &Strike, before: Option<Name>) -> Result<Name, Refused> {
        let heard_s = strike.after.len() as f64 / strike.rate_hz;
        if heard_s < 0.06 {
            return Err(refuse(
                strike,
                self.guided.map(|g| g.string),
                Reason::TooShort,
                format!("{:.0} ms until the next sound", heard_s * 1e3),
            ));
        }
        let length = ((NAME_S * strike.rate_hz) as usize).min(strike.after.len());
        if let Some(b) = before {
            // a name found at the second look is held
            if strike.look.is_last() && heard_s > NAME_S && b.certainty > 0.0 && b.held() {
                return Ok(b);
            }
        }
        let top = 14_000f64.min(0.45 * strike.rate_hz);
        let seen = picture(
            &mut self.graph,
            &strike.before,
            &strike.after[..length],
            top,
        );
        match self.guided {
            Some(g) => self.guided_name(strike, &seen, g.string).map(|name| {
                let other = self.another(strike, &seen, g, &name);
                other.unwrap_or(name)
            }),
            None => self.free_name(strike, &seen),
        }
    }

    fn guided_name(
        &self,
        strike: &Strike,
        seen: &Picture,
        string: StringName,
    ) -> Result<Name, Refused> {
        let Some(standing) = self.standing.iter().find(|s| s.string == string) else {
            return Err(refuse(
                strike,
                Some(string),
                Reason::NoString,
                "it does not stand".into(),
            ));
        };
        // near its pitch first; further off only where nothing is near
        let near = find(seen, standing, 0.0, REACH);
        let middle = 0.5 * (GUIDED_ABOVE - GUIDED_BELOW);
        let far = find(seen, standing, middle, 0.5 * (GUIDED_ABOVE + GUIDED_BELOW));
        let best = if far.score > 3.0 * near.score.max(0.0) + 4.0 {
            far
        } else {
            near
        };
        if best.score < LEAST {
            return Err(refuse(
                strike,
                Some(string),
                Reason::TooNoisy,
                format!("evidence {:.1}, at least {LEAST} needed", best.score),
            ));
        }
        Ok(Name {
            standing: *standing,
            candidates: vec![string],
            shared: false,
            certainty: 0.99,
            sure: true,
            law: best.law,
            rivals: Vec::new(),
        })
    }

    /// Another string that was surely plucked instead: it stands near its own pitch, and the named one would have had to jump
    /// from where it is known to be, or to be one of the other's partials, or was looked for beside it.
    fn another(&self, strike: &Strike, seen: &Picture, guide: Guide, name: &Name) -> Option<Name> {
        let (low, high) = guide.expected_hz?;
        let other = self.free_name(strike, seen).ok()?;
        let (own, its) = (name.law.partial(1), other.law.partial(1));
        let n = (own / its).round();
        let partial = (2.0..=4.0).contains(&n) && cents(n * its, own).abs() < 30.0;
        let jumped = !(low..=high).contains(&own);
        // so near its own pitch it was among those that were looked for, and another explains the sound better
        let compared = cents(name.standing.target_hz, own).abs() < REACH;
        let near = cents(other.standing.target_hz, its).abs() < 50.0;
        let surely = other.certainty > SURELY && other.standing.string != guide.string;
        (surely && near && (jumped || partial || compared)).then_some(other)
    }

    fn free_name(&self, strike: &Strike, seen: &Picture) -> Result<Name, Refused> {
        let mut found: Vec<Found> = Vec::new();
        for (at, standing) in self.standing.iter().enumerate() {
            if at > 0 && cents(self.standing[at - 1].target_hz, standing.target_hz).abs() < 0.5 {
                continue; // sounds as the one before it
            }
            let f = find(seen, standing, 0.0, REACH);
            let place = found.partition_point(|other| other.score.total_cmp(&f.score).is_ge());
            found.insert(place, Found { at, ..f });
        }
        let Some(best) = found.first() else {
            return Err(refuse(
                strike,
                None,
                Reason::NoString,
                "no strings stand".into(),
            ));
        };
        if best.score < LEAST {
            return Err(refuse(
                strike,
                None,
                Reason::NoString,
                format!("evidence {:.1}, at least {LEAST} needed", best.score),
            ));
        }
        // the same sound claimed by a neighbour is another question than another sound
        let apart = |a: &Found, b: &Found| cents(a.law.partial(1), b.law.partial(1)).abs();
        let mut best = best;
        let mut next = found.iter().find(|f| apart(f, best) >= 18.0);
        let lead_over = |best: &Found, n: Option<&Found>| {
            n.map_or(1.0, |n| (best.score - n.score.max(0.0)) / best.score)
        };
        let mut lead = lead_over(best, next);
        if let Some(n) = next.filter(|n| (apart(n, best) - 1200.0).abs() < 45.0) {
            // which of two an octave apart: the lower one has odd partials
            let lower = if n.law.f0_hz < best.law.f0_hz {
                n
            } else {
                best
            };
            let tells = seen.lower_rather(lower.law);
            let agrees = (tells > 0.0) == std::ptr::eq(lower, best);
            let third = found
                .iter()
                .find(|f| apart(f, best) >= 18.0 && !std::ptr::eq(*f, n) && apart(f, n) >= 18.0);
            if agrees {
                lead = lead.max(1.6 * tells.abs()).min(lead_over(best, third));
            } else if tells.abs() > 0.14 && lead < SWAP {
                next = Some(best);
                best = n;
                lead = (tells.abs() - 0.5 * lead).min(lead_over(best, third));
            } else {
                lead -= tells.abs();
            }
        }
        if lead < LEAD {
            return Err(self.unsure(strike, best, next, lead));
        }
        let claims: Vec<&Found> = found.iter().filter(|f| apart(f, best) < 18.0).collect();
        Ok(self.settle(&claims, lead))
    }

    /// Why no name is given: two strings sound, or one that might be either.
    fn unsure(&self, strike: &Strike, best: &Found, next: Option<&Found>, lead: f64) -> Refused {
        let string = self.standing[best.at].string;
        let Some(next) = next else {
            return refuse(
                strike,
                None,
                Reason::NotSure,
                format!("{string}: lead {lead:.2}, {LEAD} needed"),
            );
        };
        let other = self.standing[next.at].string;
        // two strings at once are both plain, and neither's first partial is one of the other's
        let (a, b) = (best.law.partial(1), next.law.partial(1));
        let ratio = a.max(b) / a.min(b);
        let apart = (ratio - ratio.round()).abs() > 0.03;
        let reason = if apart && next.score > BOTH_PLAIN {
            Reason::TwoStrings
        } else {
            Reason::NotSure
        };
        refuse(
            strike,
            None,
            reason,
            format!("{string} or {other}: lead {lead:.2}, {LEAD} needed"),
        )
    }

    /// Chooses among strings that would all sound like this, each so far off its own pitch.
    fn settle(&self, claims: &[&Found], lead: f64) -> Name {
        let cost = |f: &Found| {
            let string = self.standing[f.at].string;
            match self.heard.get(&string) {
                Some((_, off)) if self.last == Some(string) => (f.off - off).abs() / 60.0,
                Some((_, off)) => (f.off - off).abs() / 20.0,
                None => f.off.abs() / 40.0,
            }
        };
        let mut order: Vec<(f64, &Found)> = Vec::new();
        for claim in claims {
            let own = cost(claim);
            let place = order.partition_point(|(other, _)| other.total_cmp(&own).is_le());
            order.insert(place, (own, claim));
        }
        let (least, best) = (order[0].0, order[0].1);
        let standing = self.standing[best.at];
        let mut candidates: Vec<StringName> = self
            .standing
            .iter()
            .filter(|s| cents(s.target_hz, standing.target_hz).abs() < 0.5)
            .map(|s| s.string)
            .collect();
        let mut shared = candidates.len() > 1;
        let mut rivals = Vec::new();
        let f1 = best.law.partial(1);
        let still = self.last == Some(standing.string)
            || self
                .heard
                .get(&standing.string)
                .is_none_or(|(_, was)| (best.off - was).abs() <= 8.0);
        for other in &self.standing {
            let off = cents(other.target_hz, f1);
            if candidates.contains(&other.string) || off.abs() > RIVAL {
                continue;
            }
            // a string whose own pitch is known stands where it was heard, unless its pin is being turned; but then
            // the named string too must stand where it was
            let known = still
                && self.last != Some(other.string)
                && self
                    .heard
                    .get(&other.string)
                    .is_some_and(|(_, was)| was.abs() <= 30.0 && (off - was).abs() > 20.0);
            let close = order
                .iter()
                .any(|(c, f)| self.standing[f.at].string == other.string && *c < least + 0.5);
            shared |= close;
            if close || !known {
                candidates.push(other.string);
                rivals.push(*other);
            }
        }
        let certainty = 1.0 / (1.0 + (-(lead - 0.1) * 22.0).exp()) * if shared { 0.5 } else { 1.0 };
        Name {
            standing,
            candidates,
            shared,
            certainty,
            sure: lead > SURE_LEAD && !shared,
            law: best.law,
            rivals,
        }
    }

    /// From now on it is this string, or any.
    pub(crate) fn guide(&mut self, guided: Option<Guide>) {
        self.guided = guided;
    }

    /// From now on these strings stand. Where a string was heard is forgotten if its target is another now.
    pub(crate) fn stand(&mut self, standing: Vec<Standing>) {
        let same = |string: &StringName| {
            let target = |all: &[Standing]| {
                all.iter()
                    .find(|s| s.string == *string)
                    .map(|s| s.target_hz)
            };
            target(&self.standing) == target(&standing)
        };
        let moved: Vec<StringName> = self.heard.keys().copied().filter(|s| !same(s)).collect();
        for string in moved {
            self.heard.remove(&string);
        }
        self.standing = standing;
    }

    /// The strings that stand.
    pub(crate) fn standing(&self) -> &[Standing] {
        &self.standing
    }

    /// Keeps what a final reading says of its string.
    pub(crate) fn remember(&mut self, reading: &Reading) {
        if let Some(s) = reading.string {
            self.recall(s, reading.at_s, reading.off_cents);
        }
    }

    /// Keeps how far off a string was heard at a second, the latest last.
    pub(crate) fn recall(&mut self, string: StringName, at_s: f64, off_cents: f64) {
        self.heard.insert(string, (at_s, off_cents));
        self.last = Some(string);
    }
}

impl Name {
    fn held(&self) -> bool {
        self.sure || self.certainty > 0.75
    }
}

fn find(seen: &Picture, standing: &Standing, middle: f64, reach: f64) -> Found {
    let hz = standing.target_hz * (middle / 1200.0).exp2();
    let prior = Prior::usual(hz);
    let start = Law {
        f0_hz: hz / (1.0 + prior.b).sqrt(),
        b: prior.b,
    };
    let e = seen.of(start, reach);
    let off = cents(standing.target_hz, e.law.partial(1));
    // a string is seldom far off: what needs it to be must be heard the better
    Found {
        at: 0,
        score: e.score - FAR * (off.abs() - 35.0).max(0.0),
        law: e.law,
        off,
    }
}
