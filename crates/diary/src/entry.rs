//! What a record says, in the words of the other rooms.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use tuning::round::Event;

use crate::begun::BegunBody;
use crate::events::EventsBody;
use crate::harp_kept::HarpBody;
use crate::over::OverBody;
use crate::plan_kept::PlanBody;
use crate::{HarpKept, MOST_EVENTS, PlanKept, RecordId, RoundBegun, RoundEvents, RoundOver};

/// What a record says, of the kinds that are known here.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// `harp`: a harp, as its player knows it now.
    Harp(HarpKept),
    /// `round`: a round begins.
    Round(RoundBegun),
    /// `round_events`: what happened in a round since its last record.
    RoundEvents(RoundEvents),
    /// `round_over`: a round ends, finished or left.
    RoundOver(RoundOver),
    /// `plan`: a plan of a piece.
    Plan(PlanKept),
}

/// The version of every kind so far.
const VERSION: u64 = 1;

impl Entry {
    /// Events of a round as entries of at most [`MOST_EVENTS`] each; `first` is how many of the round's events the diary
    /// holds already.
    pub fn round_events(round: &RecordId, first: u64, events: &[Event]) -> Vec<Entry> {
        let starts = (first..).step_by(MOST_EVENTS);
        let parts = events.chunks(MOST_EVENTS).zip(starts);
        let entry = |(events, first): (&[Event], u64)| {
            Entry::RoundEvents(RoundEvents {
                round: round.clone(),
                first,
                events: events.to_vec(),
            })
        };
        parts.map(entry).collect()
    }

    /// The kind, as records name it.
    pub fn kind(&self) -> &'static str {
        match self {
            Entry::Harp(_) => "harp",
            Entry::Round(_) => "round",
            Entry::RoundEvents(_) => "round_events",
            Entry::RoundOver(_) => "round_over",
            Entry::Plan(_) => "plan",
        }
    }

    /// The version in which it is written.
    pub fn v(&self) -> u64 {
        VERSION
    }

    /// The body as JSON.
    pub(crate) fn body(&self) -> Result<String, serde_json::Error> {
        fn text(body: impl Serialize) -> Result<String, serde_json::Error> {
            serde_json::to_string(&body)
        }
        match self {
            Entry::Harp(kept) => text(HarpBody::from(kept)),
            Entry::Round(begun) => text(BegunBody::from(begun)),
            Entry::RoundEvents(events) => text(EventsBody::from(events)),
            Entry::RoundOver(over) => text(OverBody::from(over)),
            Entry::Plan(kept) => text(PlanBody::from(kept)),
        }
    }

    /// Reads a body; `None` for a kind or version that is not known here, the reason in words where it is and the body
    /// is none of that kind.
    pub(crate) fn read(kind: &str, v: u64, body: Value) -> Option<Result<Entry, String>> {
        fn of<B: DeserializeOwned>(body: Value) -> Result<B, String> {
            serde_json::from_value(body).map_err(|error| error.to_string())
        }
        match (kind, v) {
            ("harp", 1) => Some(of::<HarpBody>(body).map(|b| Entry::Harp(b.into()))),
            ("round", 1) => {
                let begun = of::<BegunBody>(body).and_then(RoundBegun::try_from);
                Some(begun.map(Entry::Round))
            }
            ("round_events", 1) => {
                Some(of::<EventsBody>(body).map(|b| Entry::RoundEvents(b.into())))
            }
            ("round_over", 1) => Some(of::<OverBody>(body).map(|b| Entry::RoundOver(b.into()))),
            ("plan", 1) => Some(of::<PlanBody>(body).map(|b| Entry::Plan(b.into()))),
            _ => None,
        }
    }
}
