//! A round for which there are only some minutes: the string that saves most is asked for next, anew after every pluck.

use std::collections::BTreeMap;

use diary::{At, Moment};
use forecast::{Minutes, MinutesTold, SURE, minutes_words, rests_words, sure_words};
use harp::StringName;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use tuning::Happened;
use tuning::round::{Event, Round, Say, State};
use wasm_bindgen::prelude::*;

use super::{Said, Step, Tune};
use crate::foreseen::Foreseen;
use crate::shown::Voice;

/// Half of the 95 % interval, cents, of a string that her ear called in tune: a guess of ours.
const BY_EAR_U95: f64 = 1.5;
/// Seconds after which the page shows the share again where nothing happened.
const SHOWN_AGAIN_S: f64 = 5.0;

/// What stands on the page beside the round.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct FewView {
    /// Seconds until the minutes are over; below nought afterwards.
    pub left_s: f64,
    /// Whether the diary was read: until then the usual order stands.
    pub is_read: bool,
    /// What is expected out when the minutes are over, and how sure it is in tune: a sentence each.
    pub lines: Vec<String>,
    /// Whether it may be called in tune.
    pub in_tune: bool,
    /// What that rests on, a sentence each.
    pub rests: Vec<String>,
}

/// So many minutes, and what is foreseen.
pub(crate) struct Few {
    ends: Moment,
    now: Moment,
    shown: Moment,
    foreseen: Option<Ahead>,
    over_was_said: bool,
    in_tune_was_said: bool,
}

/// What is foreseen, and what of the round was told to it.
struct Ahead {
    minutes: Minutes,
    of: Foreseen,
    targets: BTreeMap<StringName, f64>,
    /// how many readings of each string
    told: BTreeMap<StringName, usize>,
    /// strings that her ear called in tune
    by_ear: Vec<StringName>,
}

#[wasm_bindgen]
impl Tune {
    /// There are only so many minutes, from now on.
    pub fn within(&mut self, minutes: f64, at: &str) -> Result<(), JsError> {
        let now = Moment::of(&at.parse::<At>()?);
        self.few = Some(Few {
            ends: now.plus_s(60.0 * minutes),
            now,
            shown: now,
            foreseen: None,
            over_was_said: false,
            in_tune_was_said: false,
        });
        Ok(())
    }

    /// What the diary foresees, before the round begins or in the midst of it; the order is given by it from now on.
    pub fn foresee(&mut self, foreseen: Ts<Foreseen>, at: &str) -> Result<Ts<Step>, JsError> {
        let at: At = at.parse()?;
        let of = foreseen.to_rust()?;
        if let Some(few) = &mut self.few {
            few.foreseen = Ahead::of(of, self.sitting.round());
        }
        Ok(self.stepped(Vec::new(), &at)?.into_ts()?)
    }

    /// What stands beside the round; nothing where there is time enough.
    pub fn few(&self, at: &str) -> Result<Option<Ts<FewView>>, JsError> {
        let now = Moment::of(&at.parse::<At>()?);
        let view = self
            .few
            .as_ref()
            .map(|few| few.view(now, self.sitting.round(), &self.voice));
        Ok(view.map(|view| view.into_ts()).transpose()?)
    }
}

impl Tune {
    /// What happened, and the order that follows from it; it stands in the place of the order that the round went by.
    pub(super) fn in_turn(
        &mut self,
        mut happened: Vec<Happened>,
        at: &At,
        step: &mut Step,
    ) -> Vec<Happened> {
        let Some(few) = &mut self.few else {
            return happened;
        };
        few.now = Moment::of(at);
        let moved = |one: &Happened| matches!(one.event, Event::Moving(_));
        if !happened.iter().all(moved) || !few.was_begun() {
            let order = few.order(self.sitting.round());
            if let Some(order) = order {
                let mut given = self.sitting.order(order);
                if given.says.iter().any(|say| matches!(say, Say::Next { .. })) {
                    let other = |say: &Say| !matches!(say, Say::Next { .. } | Say::Left { .. });
                    happened.iter_mut().for_each(|one| one.says.retain(other));
                }
                // one word stands beside the other, as if the round had known
                if let Some(last) = happened.last_mut() {
                    last.says.append(&mut given.says);
                }
                happened.push(given);
            }
        }
        few.say(self.sitting.round(), &self.voice, step);
        happened
    }
}

impl Ahead {
    fn of(of: Foreseen, round: &Round) -> Option<Ahead> {
        let minutes = of.minutes(round.plan().tolerance)?;
        let targets = of.strings.iter();
        let targets = targets.filter_map(|one| Some((one.string.parse().ok()?, one.target_hz)));
        Some(Ahead {
            minutes,
            targets: targets.collect(),
            of,
            told: BTreeMap::new(),
            by_ear: Vec::new(),
        })
    }

    /// Takes in what the round knows beyond what was told before.
    fn learn(&mut self, round: &Round) {
        for planned in &round.plan().strings {
            let (string, hz) = (planned.standing.string, planned.standing.target_hz);
            let target = self.targets.entry(string).or_insert(hz);
            if *target != hz && *target > 0.0 {
                let by = pitch::cents(*target, hz);
                self.minutes.joint.target_raised(string, by);
            }
            *target = hz;
            let kept = round.kept(string);
            let told = self.told.entry(string).or_default();
            for (place, one) in kept.iter().enumerate().skip(*told) {
                let off = pitch::cents(hz, one.heard_hz);
                if one.aside.is_some() {
                    continue;
                }
                // only its first reading says how it was found
                if place == 0 {
                    self.minutes.joint.heard(string, off, one.u95_cents);
                } else {
                    self.minutes.joint.tuned(string, off, one.u95_cents);
                }
            }
            *told = kept.len();
            match round.state(string) {
                Some(State::InTuneByEar) if !self.by_ear.contains(&string) => {
                    self.by_ear.push(string);
                    self.minutes.joint.tuned(string, 0.0, BY_EAR_U95);
                }
                Some(State::Broken) => self.minutes.without(string),
                _ => {}
            }
        }
    }
}

/// Strings of which nothing more is asked.
fn done(round: &Round) -> Vec<StringName> {
    let strings = round.plan().strings.iter().map(|s| s.standing.string);
    let is_done = |string: &StringName| {
        matches!(
            round.state(*string),
            Some(
                State::InTune
                    | State::InTuneByEar
                    | State::Near
                    | State::Skipped
                    | State::Broken
                    | State::New
            )
        )
    };
    strings.filter(is_done).collect()
}

impl Few {
    fn was_begun(&self) -> bool {
        self.foreseen
            .as_ref()
            .is_none_or(|ahead| !ahead.told.is_empty())
    }

    /// The order from here on, where it is another than the round goes by.
    fn order(&mut self, round: &Round) -> Option<Vec<StringName>> {
        let ahead = self.foreseen.as_mut()?;
        ahead.learn(round);
        let done = done(round);
        let order = ahead.minutes.in_turn(&done);
        let order: Vec<StringName> = order.iter().map(|next| next.string).collect();
        let now: Vec<StringName> = round.order().to_vec();
        let now = now.into_iter().filter(|string| !done.contains(string));
        (!now.eq(order.iter().copied())).then_some(order)
    }

    fn left_s(&self, now: Moment) -> f64 {
        self.ends.since_s(now)
    }

    fn told(&self, ahead: &Ahead, now: Moment, done: &[StringName]) -> MinutesTold {
        let left_s = self.left_s(now);
        let strings = ahead.minutes.strings_in(left_s);
        MinutesTold {
            over: left_s <= 0.0,
            left_out: ahead.minutes.left_out(done, strings),
            tonight: ahead.of.tonight,
        }
    }

    fn view(&self, now: Moment, round: &Round, voice: &Voice) -> FewView {
        let mut view = FewView {
            left_s: self.left_s(now),
            is_read: false,
            lines: Vec::new(),
            in_tune: false,
            rests: Vec::new(),
        };
        if let Some(ahead) = &self.foreseen {
            let done = done(round);
            let in_tune = ahead.minutes.in_tune(&done, SURE);
            view.is_read = true;
            view.in_tune = in_tune.after_plucks == Some(0);
            view.lines = vec![
                sure_words(&in_tune, voice.tongue),
                minutes_words(&self.told(ahead, now, &done), voice.tongue),
            ];
            view.rests = rests_words(&ahead.of.rests(), voice.tongue);
        }
        view
    }

    /// What is said aloud: what is to be expected as soon as it is known, in tune as soon as it is so, and the end.
    fn say(&mut self, round: &Round, voice: &Voice, step: &mut Step) {
        let Some(ahead) = &self.foreseen else { return };
        let done = done(round);
        let in_tune = ahead.minutes.in_tune(&done, SURE);
        let told = self.told(ahead, self.now, &done);
        let is_in_tune = in_tune.after_plucks == Some(0);
        let mut said = Vec::new();
        if is_in_tune && !self.in_tune_was_said {
            said.push(sure_words(&in_tune, voice.tongue));
        }
        if told.over && !self.over_was_said {
            said.push(minutes_words(&told, voice.tongue));
        }
        (self.in_tune_was_said, self.over_was_said) = (is_in_tune, told.over);
        let again = self.now.since_s(self.shown) >= SHOWN_AGAIN_S;
        if again || !said.is_empty() {
            self.shown = self.now;
            step.changed = true;
        }
        let said = said.into_iter().map(|words| Said {
            words,
            weighty: true,
        });
        step.said.extend(said);
    }
}

#[cfg(test)]
mod tests {
    use harp::{Harp, Setup};
    use pitch::ReferencePitch;
    use tuning::round::{Act, Plan};

    use super::*;
    use crate::foreseen::ForeseenString;

    /// A round of a small harp, and what is foreseen of three of its strings: cents, notes.
    fn begun(strings: &[(&str, f64, f64)]) -> (Round, Few) {
        let harp = Harp::named("lever22").unwrap();
        let plan = Plan::of(&harp, &Setup::open(ReferencePitch::A440)).unwrap();
        let target = |name: &str| {
            let string = plan.strings.iter().map(|s| s.standing);
            string
                .filter(|s| s.string.to_string() == name)
                .map(|s| s.target_hz)
                .sum()
        };
        let count = strings.len();
        let mut covariance_cents2 = vec![0.0; count * count];
        covariance_cents2
            .iter_mut()
            .step_by(count + 1)
            .for_each(|own| *own = 1.0);
        let foreseen = Foreseen {
            strings: strings
                .iter()
                .map(|(name, cents, weight)| ForeseenString {
                    string: (*name).to_owned(),
                    target_hz: target(name),
                    expected_cents: *cents,
                    u95_cents: 2.8,
                    weight: *weight,
                })
                .collect(),
            covariance_cents2,
            tonight: true,
            stretches: 9,
            never_read: 0,
            temperature_c: None,
            humidity_percent: None,
            seconds_per_string: 10.0,
            own_pace: false,
        };
        let now = Moment::of(&"2026-11-26T18:50:00Z".parse().unwrap());
        let mut round = Round::new(plan);
        let few = Few {
            ends: now.plus_s(25.0),
            now,
            shown: now,
            foreseen: Ahead::of(foreseen, &round),
            over_was_said: false,
            in_tune_was_said: false,
        };
        act(&mut round, Act::Begin);
        (round, few)
    }

    fn act(round: &mut Round, act: Act) {
        round.step(&Event::Act { at_s: 1.0, act });
    }

    fn order(few: &mut Few, round: &Round) -> Option<Vec<String>> {
        let order = few.order(round)?;
        Some(order.iter().map(ToString::to_string).collect())
    }

    fn name(text: &str) -> StringName {
        text.parse().unwrap()
    }

    #[test]
    fn the_order_is_told_once_and_anew_when_a_string_is_done() {
        let strings = [
            ("C4", 9.0, 1.0),
            ("D4", 9.0, 5.0),
            ("E4", 0.0, 2.0),
            ("F4", 20.0, 0.0),
        ];
        let (mut round, mut few) = begun(&strings);
        let given = order(&mut few, &round).unwrap();
        assert_eq!(
            given,
            ["D4", "C4", "E4"],
            "a string that rests is not asked for"
        );
        let strings = given.iter().map(|string| name(string)).collect();
        round.step(&Event::Order { at_s: 2.0, strings });
        assert_eq!(round.next(), Some(name("D4")));
        assert_eq!(order(&mut few, &round), None, "nothing else is known");
        act(&mut round, Act::InTuneByEar(name("D4")));
        assert_eq!(order(&mut few, &round), None, "the order goes on as it was");
        act(&mut round, Act::Skip(name("C4")));
        assert_eq!(round.next(), Some(name("E4")));
        let view = few.view(few.now, &round, &Voice::of(&Default::default()));
        assert!(
            view.is_read && !view.in_tune,
            "C4 is skipped, not tuned: {view:?}"
        );
        assert!(view.rests[0].contains("9 times"), "{:?}", view.rests);
    }

    #[test]
    fn a_broken_string_is_no_reason_not_to_call_the_rest_in_tune() {
        let (mut round, mut few) = begun(&[("C4", 90.0, 1.0), ("D4", 0.0, 5.0)]);
        act(
            &mut round,
            Act::Broke(name("C4"), tuning::round::Then::PlayWithout),
        );
        act(&mut round, Act::InTuneByEar(name("D4")));
        few.order(&round);
        let voice = Voice::of(&Default::default());
        let mut step = Step::default();
        few.say(&round, &voice, &mut step);
        assert_eq!(step.said.len(), 1, "{step:?}");
        assert!(step.said[0].words.starts_with("It may be called in tune"));
        few.say(&round, &voice, &mut step);
        assert_eq!(step.said.len(), 1, "it is said once");
        few.now = few.ends;
        few.say(&round, &voice, &mut step);
        assert!(
            step.said[1].words.starts_with("The minutes are over"),
            "{step:?}"
        );
    }

    // a target that is raised by 100 cents leaves every string 100 cents lower, by definition
    #[test]
    fn another_a_moves_every_string() {
        let (mut round, mut few) = begun(&[("C4", 0.0, 1.0), ("D4", 0.0, 5.0)]);
        let a4_hz = 440.0 * (1.0_f64 / 12.0).exp2();
        few.order(&round);
        act(
            &mut round,
            Act::UseA {
                a4_hz,
                technician_asked: true,
            },
        );
        few.order(&round);
        let ahead = few.foreseen.unwrap();
        let (off, _) = ahead.minutes.joint.of(name("C4")).unwrap();
        assert!((off + 100.0).abs() < 1e-6, "{off}");
    }
}
