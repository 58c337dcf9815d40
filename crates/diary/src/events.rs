//! What happened in a round since its last record.

use serde::{Deserialize, Serialize};
use tuning::round::Event;

use crate::RecordId;
use crate::event::EventBody;
use crate::record_id::IdBody;

/// Most events in one record: with every partial of every pluck a line stays well below [`crate::LONGEST_LINE`].
pub const MOST_EVENTS: usize = 400;

/// Some events of a round, in their order.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundEvents {
    /// The record that began the round.
    pub round: RecordId,
    /// How many events of the round stand in earlier records: a hole or a second writer shows by it.
    pub first: u64,
    /// The events.
    pub events: Vec<Event>,
}

impl RoundEvents {
    /// Whether an order is given among them.
    pub(crate) fn has_order(&self) -> bool {
        let given = |event: &Event| matches!(event, Event::Order { .. });
        self.events.iter().any(given)
    }
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct EventsBody {
    round: IdBody,
    first: u64,
    events: Vec<EventBody>,
}

impl From<&RoundEvents> for EventsBody {
    fn from(kept: &RoundEvents) -> Self {
        Self {
            round: (&kept.round).into(),
            first: kept.first,
            events: kept.events.iter().map(EventBody::from).collect(),
        }
    }
}

impl From<EventsBody> for RoundEvents {
    fn from(body: EventsBody) -> Self {
        Self {
            round: body.round.into(),
            first: body.first,
            events: body.events.into_iter().map(Event::from).collect(),
        }
    }
}
