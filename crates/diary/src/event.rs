//! One event of a round, as records hold it: `{"what":"moving","at_s":…,"string":"G3",…}`.

use harp::StringName;
use pitch::SpelledPitch;
use serde::{Deserialize, Serialize};
use tuning::Heard;
use tuning::round::{Estimate, Event, Moving};

use crate::act::ActBody;
use crate::figure::Figure;
use crate::reading::{ReadingBody, RefusedBody, WarningBody};
use crate::text::{Text, texts, values};

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "what")]
pub(crate) enum EventBody {
    #[serde(rename = "reading")]
    Reading(ReadingBody),
    #[serde(rename = "refused")]
    Refused(RefusedBody),
    #[serde(rename = "warning")]
    Warning(WarningBody),
    #[serde(rename = "moving")]
    Moving {
        at_s: Figure,
        string: Text<StringName>,
        heard_hz: Figure,
        u95_cents: Figure,
    },
    #[serde(rename = "act")]
    Act { at_s: Figure, act: ActBody },
    #[serde(rename = "order")]
    Order {
        at_s: Figure,
        strings: Vec<Text<StringName>>,
    },
    #[serde(rename = "note_held")]
    NoteHeld {
        at_s: Figure,
        note: Text<SpelledPitch>,
        estimates: Vec<EstimateBody>,
    },
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct EstimateBody {
    heard_hz: Figure,
    u95_cents: Figure,
}

impl From<&Event> for EventBody {
    fn from(event: &Event) -> Self {
        match event {
            Event::Heard(Heard::Reading(reading)) => Self::Reading(reading.into()),
            Event::Heard(Heard::Refused(refused)) => Self::Refused(refused.into()),
            Event::Heard(Heard::Warning(warning)) => Self::Warning(warning.into()),
            Event::Moving(Moving {
                at_s,
                string,
                hz,
                u95_cents,
            }) => Self::Moving {
                at_s: Figure(*at_s),
                string: Text(*string),
                heard_hz: Figure(*hz),
                u95_cents: Figure(*u95_cents),
            },
            Event::Act { at_s, act } => Self::Act {
                at_s: Figure(*at_s),
                act: (*act).into(),
            },
            Event::Order { at_s, strings } => Self::Order {
                at_s: Figure(*at_s),
                strings: texts(strings),
            },
            Event::NoteHeld {
                at_s,
                note,
                estimates,
            } => Self::NoteHeld {
                at_s: Figure(*at_s),
                note: Text(*note),
                estimates: estimates.iter().map(EstimateBody::from).collect(),
            },
        }
    }
}

impl From<EventBody> for Event {
    fn from(body: EventBody) -> Self {
        match body {
            EventBody::Reading(reading) => Self::Heard(Heard::Reading(reading.into())),
            EventBody::Refused(refused) => Self::Heard(Heard::Refused(refused.into())),
            EventBody::Warning(warning) => Self::Heard(Heard::Warning(warning.into())),
            EventBody::Moving {
                at_s,
                string,
                heard_hz,
                u95_cents,
            } => Self::Moving(Moving {
                at_s: at_s.0,
                string: string.0,
                hz: heard_hz.0,
                u95_cents: u95_cents.0,
            }),
            EventBody::Act { at_s, act } => Self::Act {
                at_s: at_s.0,
                act: act.into(),
            },
            EventBody::Order { at_s, strings } => Self::Order {
                at_s: at_s.0,
                strings: values(strings),
            },
            EventBody::NoteHeld {
                at_s,
                note,
                estimates,
            } => Self::NoteHeld {
                at_s: at_s.0,
                note: note.0,
                estimates: estimates.into_iter().map(Estimate::from).collect(),
            },
        }
    }
}

impl From<&Estimate> for EstimateBody {
    fn from(&Estimate { hz, u95_cents }: &Estimate) -> Self {
        Self {
            heard_hz: Figure(hz),
            u95_cents: Figure(u95_cents),
        }
    }
}

impl From<EstimateBody> for Estimate {
    fn from(body: EstimateBody) -> Self {
        Self {
            hz: body.heard_hz.0,
            u95_cents: body.u95_cents.0,
        }
    }
}
