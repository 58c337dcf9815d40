//! A round on the music stand: samples and acts in; what to show, what to keep out.

#[cfg(feature = "desk")]
pub mod few;
#[cfg(feature = "desk")]
mod taken_up;

use diary::{At, RoundBegun, Writer};
use harp::Harp;
use serde::{Deserialize, Serialize};
use sheet::{Stand, of_round, on_page};
use tsify::{Ts, Tsify};
use tuning::round::{Act, Event, Say};
use tuning::{Happened, Heard, Sitting};
use wasm_bindgen::prelude::*;

use crate::act::PageAct;
use crate::choice::RoundChoice;
use crate::keeper::Keeper;
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;
use crate::summary::{SummaryView, summed};
use crate::view::{Phase, View, Viewer};

/// Seconds that each pluck is listened to.
const LISTEN_S: f64 = 0.6;

/// What came of a block of samples, or of an act.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Step {
    /// Whether the page has anything new to show.
    pub changed: bool,
    /// What is to be said aloud, and read by a screen reader.
    pub said: Vec<Said>,
    /// Readings and refusals, for whoever counts.
    pub heard: Vec<HeardLine>,
    /// Records to be kept, a line each.
    pub records: Vec<String>,
}

/// Something said.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Said {
    /// Its sentence.
    pub words: String,
    /// Whether it is the last word on a pluck, or a question, or a stop.
    pub weighty: bool,
}

/// A pluck that was read, or was not.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct HeardLine {
    /// Seconds from the start of the round.
    pub at_s: f64,
    /// The string, as in files.
    pub string: Option<String>,
    /// Cents above its target; none where it was refused.
    pub off_cents: Option<f64>,
    /// Half of its 95 % interval.
    pub u95_cents: Option<f64>,
    /// Whether it is the pluck's last word.
    pub last: bool,
    /// Why it was refused.
    pub refused: Option<String>,
}

/// The harp's picture in a box.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DrawnHarp {
    /// Elements of SVG, without a root.
    pub svg: String,
    /// The strings from the bass, and where each stands across the box.
    pub strings: Vec<DrawnString>,
}

/// Where a string stands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DrawnString {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// From the left.
    pub x: f64,
}

/// A round under way.
#[wasm_bindgen]
pub struct Tune {
    sitting: Sitting,
    stand: Stand,
    harp: Harp,
    voice: Voice,
    phase: Phase,
    keeper: Keeper,
    /// the first record, until it is handed out
    beginning: Option<String>,
    /// where there are only so many minutes
    #[cfg(feature = "desk")]
    few: Option<few::Few>,
}

#[wasm_bindgen]
impl Tune {
    /// A round that begins now: `device` writes its records, the first of them in its place `next`; `at` is now, in RFC
    /// 3339, UTC.
    pub fn begin(
        choice: Ts<RoundChoice>,
        shown: Ts<ShownChoice>,
        rate_hz: u32,
        device: &str,
        next: u32,
        at: &str,
    ) -> Result<Tune, JsError> {
        let choice = choice.to_rust()?;
        let harp = choice.harp.harp()?;
        let setup = choice.setup()?;
        let plan = choice.plan(&harp)?;
        let begun = RoundBegun::of(&choice.harp.name(), &harp, &setup, &plan, LISTEN_S);
        let writer = Writer::new(device, u64::from(next))?;
        let (keeper, first) = Keeper::begin(writer, &at.parse()?, begun, &plan)?;
        Ok(Tune {
            sitting: Sitting::new(rate_hz, plan, LISTEN_S)?,
            stand: Stand::default(),
            harp,
            voice: Voice::of(&shown.to_rust()?),
            phase: Phase::NotBegun,
            keeper,
            beginning: Some(first),
            #[cfg(feature = "desk")]
            few: None,
        })
    }

    /// Goes on with another microphone, whose sound may have another rate: what rings now is no pluck.
    pub fn change_rate(&mut self, rate_hz: u32, at: &str) -> Result<Ts<Step>, JsError> {
        let happened = self.sitting.change_rate(rate_hz)?;
        self.step(happened, at)
    }

    /// Takes in samples, −1 to 1; `own_sound` where the page may be heard in them.
    pub fn push(
        &mut self,
        samples: &[f32],
        own_sound: bool,
        at: &str,
    ) -> Result<Ts<Step>, JsError> {
        if self.phase == Phase::Over {
            // what is heard now is not the round's, and nothing is to be written behind its end
            return Ok(Step::default().into_ts()?);
        }
        self.sitting.own_sound(own_sound);
        let happened = self.sitting.push(samples);
        self.step(happened, at)
    }

    /// Seconds of the round that were heard.
    pub fn now_s(&self) -> f64 {
        self.sitting.now_s()
    }

    /// So many samples are known to be missing.
    pub fn lost(&mut self, samples: u32, at: &str) -> Result<Ts<Step>, JsError> {
        if self.phase == Phase::Over {
            return Ok(Step::default().into_ts()?);
        }
        let happened = self.sitting.lost(u64::from(samples));
        self.step(happened, at)
    }

    /// The player does something.
    pub fn act(&mut self, act: Ts<PageAct>, at: &str) -> Result<Ts<Step>, JsError> {
        let act = act.to_rust()?.act()?;
        let happened = self.sitting.act(act);
        if let Act::ThisOne(string) = act {
            self.stand.point_at(string);
        }
        let at = at.parse()?;
        let mut step = self.stepped(vec![happened], &at)?;
        if matches!(act, Act::Pause | Act::Finish) {
            step.records.extend(self.keeper.rest(&at)?);
        }
        if act == Act::Finish {
            let summary = self.sitting.round().summary();
            step.records.push(self.keeper.over(&at, &summary)?);
        }
        Ok(step.into_ts()?)
    }

    /// Everything that is not kept yet, before the page may be closed.
    pub fn keep(&mut self, at: &str) -> Result<Ts<Step>, JsError> {
        let step = Step {
            records: self.keeper.rest(&at.parse()?)?,
            ..Step::default()
        };
        Ok(step.into_ts()?)
    }

    /// The round's first record, once, where it began here: the page keeps it before all others.
    pub fn beginning(&mut self) -> Option<String> {
        self.beginning.take()
    }

    /// Takes a notice away that was read.
    pub fn settle(&mut self, place: usize) {
        self.stand.settle(place);
    }

    /// Shows it otherwise from now on.
    pub fn show(&mut self, shown: Ts<ShownChoice>) -> Result<(), JsError> {
        self.voice = Voice::of(&shown.to_rust()?);
        Ok(())
    }

    /// What the page shows now.
    pub fn view(&self) -> Result<Ts<View>, JsError> {
        let viewer = Viewer {
            round: self.sitting.round(),
            stand: &self.stand,
            harp: &self.harp,
            voice: self.voice,
        };
        Ok(viewer.view(self.phase, self.sitting.breaks()).into_ts()?)
    }

    /// The harp's picture in a box, CSS pixels; `unit` is the size of letters against those on a phone.
    pub fn harp(&self, width: f64, height: f64, unit: f64) -> Result<Ts<DrawnHarp>, JsError> {
        let mut picture = self.picture();
        picture.present = self.stand.string;
        let drawn = on_page(&picture, width, height, unit);
        let strings = drawn.places.iter().map(|place| DrawnString {
            id: place.name.to_string(),
            name: self.voice.string(place.name),
            x: place.neck.x,
        });
        let drawn = DrawnHarp {
            strings: strings.collect(),
            svg: drawn.svg,
        };
        Ok(drawn.into_ts()?)
    }

    /// The picture in words, for who does not see it.
    pub fn account(&self) -> String {
        sheet::said(&self.picture())
    }

    /// Every string, before and after.
    pub fn summary(&self) -> Result<Ts<SummaryView>, JsError> {
        Ok(summed(self.sitting.round(), &self.harp, &self.voice).into_ts()?)
    }
}

impl Tune {
    fn picture(&self) -> sheet::Picture {
        let mut picture = of_round(
            self.sitting.round(),
            &self.harp,
            self.voice.naming,
            self.voice.tongue,
            false,
        );
        picture.side = self.voice.side;
        picture
    }

    fn step(&mut self, happened: Vec<Happened>, at: &str) -> Result<Ts<Step>, JsError> {
        Ok(self.stepped(happened, &at.parse()?)?.into_ts()?)
    }

    fn stepped(&mut self, happened: Vec<Happened>, at: &At) -> Result<Step, JsError> {
        let mut step = Step::default();
        #[cfg(feature = "desk")]
        let happened = self.in_turn(happened, at, &mut step);
        for one in &happened {
            self.took(one);
            step.changed |= !one.says.is_empty();
            step.heard.extend(heard_line(&one.event));
            let said = one.says.iter().filter(|say| is_spoken(say));
            step.said.extend(said.map(|say| Said {
                words: self.voice.sentence(say),
                weighty: is_weighty(say),
            }));
        }
        step.records = self.keeper.settled(at)?;
        Ok(step)
    }

    /// The stand, the phase and the diary's store of events take part in what happened.
    fn took(&mut self, happened: &Happened) {
        self.stand.take(&happened.says);
        self.keeper.push(&happened.event);
        for say in &happened.says {
            self.phase = match say {
                Say::Begun { .. } | Say::Resumed => Phase::Listening,
                Say::Paused => Phase::Paused,
                Say::Finished => Phase::Over,
                _ => self.phase,
            };
        }
    }
}

fn heard_line(event: &Event) -> Option<HeardLine> {
    match event {
        Event::Heard(Heard::Reading(r)) => Some(HeardLine {
            at_s: r.at_s,
            string: r.string.map(|s| s.to_string()),
            off_cents: Some(r.off_cents),
            u95_cents: Some(r.u95_cents),
            last: r.last,
            refused: None,
        }),
        Event::Heard(Heard::Refused(r)) => Some(HeardLine {
            at_s: r.at_s,
            string: r.string.map(|s| s.to_string()),
            off_cents: None,
            u95_cents: None,
            last: true,
            refused: Some(r.reason.as_str().to_owned()),
        }),
        _ => None,
    }
}

/// Whether it is put into words: what is followed live is shown only, and would be said without end.
fn is_spoken(say: &Say) -> bool {
    !matches!(
        say,
        Say::Sounds { .. } | Say::Moving { .. } | Say::Left { .. }
    )
}

fn is_weighty(say: &Say) -> bool {
    matches!(
        say,
        Say::Turn(_)
            | Say::InTune { .. }
            | Say::Near { .. }
            | Say::Which(_)
            | Say::Enough(_)
            | Say::PluckStill(_)
            | Say::Warning(_)
            | Say::NotRead { .. }
    )
}
