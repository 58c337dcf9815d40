//! How far off a named string is, and how sure.

use harp::StringName;
use pitch::{ReferencePitch, cents, shown_as};

use signal::{Law, Prior, Spectrograph, Strike, fit, search};

use crate::naming::Name;
use crate::refusal::refuse;
use crate::{Direction, Partial, Reading, Reason, Refused};

/// Cents beside its interval, beyond which a string need not be thought to be off: neighbours stand 100 apart.
const SEMITONE_OFF: f64 = 96.0;
/// Widest interval of a reading, cents: what is less sure is refused.
pub(crate) const WIDEST: f64 = 40.0;
/// Seconds of sound that find the partials.
const SEARCH_S: f64 = 1.0;

/// Measures plucks.
pub(crate) struct Measurer {
    graph: Spectrograph,
    reference: ReferencePitch,
}

impl Measurer {
    pub(crate) fn new(rate_hz: f64, listen_s: f64, reference: ReferencePitch) -> Self {
        let longest = (listen_s.min(SEARCH_S) * rate_hz) as usize + 1;
        Measurer {
            graph: Spectrograph::new(longest, rate_hz),
            reference,
        }
    }

    /// From now on what a display would show is reckoned from this.
    pub(crate) fn refer_to(&mut self, reference: ReferencePitch) {
        self.reference = reference;
    }

    pub(crate) fn measure(&mut self, strike: &Strike, name: &Name) -> Result<Reading, Refused> {
        let rate = strike.rate_hz;
        let length = ((SEARCH_S * rate) as usize).min(strike.after.len());
        let spectrum = self.graph.of(&strike.after[..length]);
        let top = 14_000f64.min(0.45 * rate);
        let f1 = name.law.partial(1);
        let prior = Prior::usual(f1);
        let start = Law {
            f0_hz: f1 / (1.0 + prior.b).sqrt(),
            b: prior.b,
        };
        // the name was given to what was loudest at first: what rings along stays out of reach
        let reach = 14.0;
        let (law, _) = search(&spectrum, start, reach, top);
        let string = Some(name.standing.string);
        let Some(f) = fit(&strike.before, &strike.after, rate, law, prior) else {
            return Err(refuse(
                strike,
                string,
                Reason::TooNoisy,
                "no partial stands out of the noise".into(),
            ));
        };
        let target = name.standing.target_hz;
        let off = cents(target, f.heard_hz);
        let u95 = 1.96 * f.heard_sd;
        if !(off.is_finite() && u95.is_finite()) || u95 > WIDEST {
            return Err(refuse(
                strike,
                string,
                Reason::TooNoisy,
                format!("interval of ±{u95:.0} cents"),
            ));
        }
        let shown = shown_as(f.heard_hz, self.reference);
        // a string a whole semitone off is nobody's string; somewhat less may be a slack or an overwound one
        let far: Vec<StringName> = (name.rivals.iter())
            .filter(|r| {
                // a stiff string sounds above its first partial: whichever lies nearer
                let nearest = cents(r.target_hz, f.heard_hz)
                    .abs()
                    .min(cents(r.target_hz, f.f1_hz).abs());
                nearest > SEMITONE_OFF + u95
            })
            .map(|r| r.string)
            .collect();
        let mut candidates = name.candidates.clone();
        candidates.retain(|c| name.shared || !far.contains(c));
        let direction = if name.rivals.len() > far.len() || name.shared {
            None
        } else if off.abs() <= u95.max(0.5) {
            Some(Direction::There)
        } else if off < 0.0 {
            Some(Direction::Up)
        } else {
            Some(Direction::Down)
        };
        Ok(Reading {
            last: true,
            at_s: strike.at_s,
            string: if name.shared { None } else { string },
            candidates,
            position: Some(name.standing.alteration),
            target_hz: target,
            heard_hz: f.heard_hz,
            off_cents: off,
            u95_cents: u95,
            shows_as: shown.name,
            shows_off_cents: shown.off_cents,
            f1_hz: f.f1_hz,
            f1_u95_cents: 1.96 * f.f1_sd,
            f0_hz: f.law.f0_hz,
            b: f.law.b,
            glide_cents: f.glide_cents,
            partials: f
                .partials
                .iter()
                .map(|p| Partial {
                    n: p.n as u32,
                    hz: p.hz,
                    u95_cents: 1.96 * p.sd_cents,
                })
                .collect(),
            listened_s: strike.after.len() as f64 / rate,
            string_certainty: name.certainty,
            direction,
            stiffness_cents: cents(f.f1_hz, f.heard_hz),
            t60_s: Some(f.t60_s).filter(|t60_s| t60_s.is_finite()),
            level_dbfs: level_dbfs(strike),
        })
    }
}

/// Mean power of 0.05 to 0.3 s after the onset, decibels against full scale; none of silence.
fn level_dbfs(strike: &Strike) -> Option<f64> {
    let at = |s: f64| ((s * strike.rate_hz) as usize).min(strike.after.len());
    let heard = strike.after.get(at(0.05)..at(0.3))?;
    let power = heard.iter().map(|x| f64::from(x * x)).sum::<f64>() / heard.len() as f64;
    (power > 0.0).then(|| 10.0 * power.log10())
}
