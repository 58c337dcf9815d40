//! Bars of a MIDI file, from its time signatures.

use super::events::Events;
use crate::{Fraction, KeySignature, Measure, ScoreError, TimeSignature};

/// Most bars.
const MOST_BARS: usize = 100_000;

/// Where each bar begins, in ticks; a time signature begins a new one.
#[derive(Debug)]
pub(crate) struct Bars {
    ticks: i64,
    /// (first tick, signature), ascending.
    begin: Vec<(u64, TimeSignature)>,
    end: u64,
}

impl Bars {
    /// The bars up to the last event; 4/4 where no signature is given (Standard MIDI Files 1.0).
    pub(crate) fn new(events: &Events) -> Result<Self, ScoreError> {
        let mut time = TimeSignature { beats: 4, unit: 4 };
        let mut times = events.times.iter().peekable();
        let mut begin = Vec::new();
        let mut at = 0_u64;
        while at < events.last || begin.is_empty() {
            while let Some((_, next)) = times.next_if(|(tick, _)| *tick <= at) {
                time = *next;
            }
            if begin.len() >= MOST_BARS {
                return Err(ScoreError::TooMany {
                    limit: MOST_BARS,
                    what: "bars",
                });
            }
            begin.push((at, time));
            let length = 4 * events.ticks * i64::from(time.beats) / i64::from(time.unit);
            let full = at + u64::try_from(length).unwrap_or(0).max(1);
            at = match times.peek() {
                Some((tick, _)) if *tick < full => *tick,
                _ => full,
            };
        }
        Ok(Self {
            ticks: events.ticks,
            begin,
            end: at,
        })
    }

    /// A number of ticks in quarters.
    pub(crate) fn quarters(&self, ticks: u64) -> Option<Fraction> {
        Fraction::new(i64::try_from(ticks).ok()?, self.ticks)
    }

    /// The bar of a tick (its index) and the offset in it, in quarters.
    pub(crate) fn place(&self, tick: u64) -> Option<(usize, Fraction)> {
        let next = self.begin.partition_point(|(begin, _)| *begin <= tick);
        let bar = next.checked_sub(1)?;
        let offset = self.quarters(tick - self.begin[bar].0)?;
        Some((bar, offset))
    }

    /// The bars as measures.
    pub(crate) fn measures(&self, events: &Events) -> Vec<Measure> {
        let ends = self.begin.iter().skip(1).map(|(begin, _)| *begin);
        let ends = ends.chain([self.end]);
        let bars = self.begin.iter().zip(ends).enumerate();
        let measures = bars.map(|(place, (&(begin, time), end))| Measure {
            index: u32::try_from(place + 1).unwrap_or(u32::MAX),
            number: (place + 1).to_string(),
            implicit: false,
            start: self.quarters(begin).unwrap_or(Fraction::ZERO),
            length: self.quarters(end - begin).unwrap_or(Fraction::ZERO),
            time: Some(time),
            key: KeySignature::of_fifths(events.fifths_at(begin)).unwrap_or_default(),
            repeat_start: false,
            repeat_end: None,
            ending: None,
        });
        measures.collect()
    }
}
