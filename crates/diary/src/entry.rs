//! What a record says, in the words of the other rooms.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use tuning::round::Event;

use crate::begun::BegunBody;
use crate::correction::{self, CorrectionBody};
use crate::events::EventsBody;
use crate::harp_kept::HarpBody;
use crate::over::OverBody;
use crate::plan_kept::PlanBody;
use crate::{
    Air, Correction, Fault, HarpKept, MOST_EVENTS, Met, Note, PlanKept, PracticeKept,
    ProgrammeKept, ReadingKept, RecordId, ReferenceTaken, Regulation, RoundBegun, RoundEvents,
    RoundOver, Spares, StringBroken, StringFitted, StringRemoved, Visit,
};

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
    /// `programme`: an evening's pieces.
    Programme(ProgrammeKept),
    /// `reading`: one pluck outside a round.
    Reading(Box<ReadingKept>),
    /// `reference`: a reference pitch was taken.
    Reference(ReferenceTaken),
    /// `air`: temperature and humidity.
    Air(Air),
    /// `string_fitted`: a string was put on.
    StringFitted(StringFitted),
    /// `string_broken`: a string broke.
    StringBroken(StringBroken),
    /// `string_removed`: a string was taken off.
    StringRemoved(StringRemoved),
    /// `spares`: more or fewer strings in the drawer.
    Spares(Spares),
    /// `visit`: the technician came.
    Visit(Visit),
    /// `regulation`: the mechanism was checked.
    Regulation(Regulation),
    /// `fault`: a disc, a lever or a pedal does not do its work, or is mended.
    Fault(Fault),
    /// `correction`: another record was wrong.
    Correction(Correction),
    /// `note`: something to remember.
    Note(Note),
    /// `practice`: what was practised.
    Practice(PracticeKept),
    /// `met`: the clock of another device was seen.
    Met(Met),
}

/// The first version of every kind.
const VERSION: u64 = 1;
/// The version of events among which an order is given: who cannot read that passes them on, and takes them for no others.
pub(crate) const ORDERED: u64 = 2;

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

    /// Whether records of a kind and version are read here.
    pub(crate) fn knows(kind: &str, v: u64) -> bool {
        // nothing is no body, but of a kind that is known it is at least a bad one
        Entry::read(kind, v, "").is_some()
    }

    /// The kind, as records name it.
    pub fn kind(&self) -> &'static str {
        match self {
            Entry::Harp(_) => "harp",
            Entry::Round(_) => "round",
            Entry::RoundEvents(_) => "round_events",
            Entry::RoundOver(_) => "round_over",
            Entry::Plan(_) => "plan",
            Entry::Programme(_) => "programme",
            Entry::Reading(_) => "reading",
            Entry::Reference(_) => "reference",
            Entry::Air(_) => "air",
            Entry::StringFitted(_) => "string_fitted",
            Entry::StringBroken(_) => "string_broken",
            Entry::StringRemoved(_) => "string_removed",
            Entry::Spares(_) => "spares",
            Entry::Visit(_) => "visit",
            Entry::Regulation(_) => "regulation",
            Entry::Fault(_) => "fault",
            Entry::Correction(_) => correction::KIND,
            Entry::Note(_) => "note",
            Entry::Practice(_) => "practice",
            Entry::Met(_) => "met",
        }
    }

    /// The version in which it is written.
    pub fn v(&self) -> u64 {
        match self {
            Entry::RoundEvents(part) if part.has_order() => ORDERED,
            _ => VERSION,
        }
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
            Entry::Programme(programme) => text(programme),
            Entry::Reading(reading) => text(reading),
            Entry::Reference(reference) => text(reference),
            Entry::Air(air) => text(air),
            Entry::StringFitted(fitted) => text(fitted),
            Entry::StringBroken(broken) => text(broken),
            Entry::StringRemoved(removed) => text(removed),
            Entry::Spares(spares) => text(spares),
            Entry::Visit(visit) => text(visit),
            Entry::Regulation(regulation) => text(regulation),
            Entry::Fault(fault) => text(fault),
            Entry::Correction(correction) => correction.body(),
            Entry::Note(note) => text(note),
            Entry::Practice(practice) => text(practice),
            Entry::Met(met) => text(met),
        }
    }

    /// Reads the body that stands in a line under `body`; `None` for a kind or version that is not known here, the reason in
    /// words where it is and the body is none of that kind.
    pub(crate) fn read(kind: &str, v: u64, line: &str) -> Option<Result<Entry, String>> {
        let entry = match (kind, v) {
            ("harp", 1) => of::<HarpBody>(line).map(|b| Entry::Harp(b.into())),
            ("round", 1) => of::<BegunBody>(line)
                .and_then(RoundBegun::try_from)
                .map(Entry::Round),
            ("round_events", 1 | ORDERED) => {
                of::<EventsBody>(line).map(|b| Entry::RoundEvents(b.into()))
            }
            ("round_over", 1) => of::<OverBody>(line).map(|b| Entry::RoundOver(b.into())),
            ("plan", 1) => of::<PlanBody>(line).map(|b| Entry::Plan(b.into())),
            ("programme", 1) => of(line).map(Entry::Programme),
            ("reading", 1) => of(line).map(|r| Entry::Reading(Box::new(r))),
            ("reference", 1) => of(line).map(Entry::Reference),
            ("air", 1) => of(line).map(Entry::Air),
            ("string_fitted", 1) => of(line).map(Entry::StringFitted),
            ("string_broken", 1) => of(line).map(Entry::StringBroken),
            ("string_removed", 1) => of(line).map(Entry::StringRemoved),
            ("spares", 1) => of(line).map(Entry::Spares),
            ("visit", 1) => of(line).map(Entry::Visit),
            ("regulation", 1) => of(line).map(Entry::Regulation),
            ("fault", 1) => of(line).map(Entry::Fault),
            (correction::KIND, 1) => of::<CorrectionBody>(line)
                .and_then(Correction::try_from)
                .map(Entry::Correction),
            ("note", 1) => of(line).map(Entry::Note),
            ("practice", 1) => of(line).map(Entry::Practice),
            ("met", 1) => of(line).map(Entry::Met),
            _ => return None,
        };
        Some(entry)
    }
}

/// A line of which only the body is wanted.
#[derive(Deserialize)]
struct Line<B> {
    body: B,
}

fn of<B: DeserializeOwned>(line: &str) -> Result<B, String> {
    let line: Line<B> = serde_json::from_str(line).map_err(|error| error.to_string())?;
    Ok(line.body)
}
