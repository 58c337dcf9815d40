//! The whole harp at another pitch.

use diary::Moment;
use forecast::{ChangeAsk, change, learn};
use pitch::ReferencePitch;
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use super::ahead::reference;
use super::ask::{AskError, Asked};

/// Which pitch, by when.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct MovedAsk {
    /// The A4 that is wanted, Hz, 380 to 480.
    pub to_a4_hz: f64,
    /// When it is to be played, RFC 3339, UTC.
    pub at: String,
    /// The A at which it stands, Hz, where the diary knows none.
    pub a4_hz: f64,
    /// The harp's usual A, Hz, where she says it.
    pub usual_a4_hz: Option<f64>,
}

/// What it asks for, in her language.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct MovedView {
    /// From where to where.
    pub headline: String,
    /// That a technician is to be asked first.
    pub ask: Option<String>,
    /// What the strings pull.
    pub load: String,
    /// How many passes, and why.
    pub passes: String,
    /// By when each pass.
    pub by: Vec<String>,
    /// When to begin, and what that rests on.
    pub start: String,
    /// That this day is past.
    pub late: Option<String>,
    /// In what order a pass goes.
    pub order: String,
    /// The strings in that order, as they are called.
    pub strings_in_order: Vec<String>,
    /// How far past, or why not.
    pub past: Vec<String>,
    /// The strings, from the bass.
    pub strings: Vec<StringMoved>,
    /// What can hurt or break.
    pub cautions: Vec<String>,
}

/// A string moved.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StringMoved {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// How far it goes, cents.
    pub move_cents: f64,
    /// How far past its place in the first pass, cents; none where none is called for.
    pub past_cents: Option<f64>,
    /// Half of its 95 % interval.
    pub past_u95_cents: Option<f64>,
}

impl MovedView {
    pub(super) fn of(asked: &Asked<'_>, ask: &MovedAsk) -> Result<MovedView, AskError> {
        let harp = keep::strung(&asked.harp, &asked.own);
        let told = change(
            &ChangeAsk {
                harp: &harp,
                known: &asked.own,
                air: &asked.known.air,
                from: reference(asked, ask.a4_hz)?,
                to: ReferencePitch::new(ask.to_a4_hz)?,
                usual_a4_hz: ask.usual_a4_hz,
                now: asked.now,
                when: Moment::of(&ask.at.parse::<diary::At>()?),
            },
            &learn(&harp, &asked.own, &asked.known.air),
        );
        let voice = &asked.voice;
        let words = told.words(voice.tongue);
        Ok(MovedView {
            headline: words.headline,
            ask: words.ask,
            load: words.load,
            passes: words.passes,
            by: told.passes.iter().map(|p| p.by.to_string()).collect(),
            start: words.start,
            late: words.late,
            order: words.order,
            strings_in_order: told.order.iter().map(|s| voice.string(*s)).collect(),
            past: words.past,
            strings: told
                .strings
                .iter()
                .map(|one| StringMoved {
                    id: one.string.to_string(),
                    name: voice.string(one.string),
                    move_cents: one.move_cents,
                    past_cents: one.overshoot.map(|past| past.cents),
                    past_u95_cents: one.overshoot.map(|past| past.u95_cents),
                })
                .collect(),
            cautions: words.cautions,
        })
    }
}
