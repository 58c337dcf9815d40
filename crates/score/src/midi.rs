//! Standard MIDI Files: notes without spelling, hands by track or channel or by a stated guess.

mod bars;
mod events;
mod hands;

use std::collections::BTreeMap;

use crate::doubts::Doubts;
use crate::part::{labels, meant, names_a_harp};
use crate::spelling::spell;
use crate::{
    Anchor, Doubt, Mark, MarkKind, Note, Options, Part, Piece, Played, ScoreError, Tempo, TempoMap,
    Tie, WhichPart,
};
use bars::Bars;
use events::{Events, Heard};
use hands::Hands;

/// The program of the orchestral harp, counted from 0 (General MIDI, level 1).
const HARP_PROGRAM: u8 = 46;
/// The tempo where a MIDI file gives none: 500,000 µs a quarter (Standard MIDI Files 1.0).
const STANDARD_TEMPO: f64 = 120.0;

/// Whether bytes are a MIDI file, alone or in a RIFF container.
pub(crate) fn is_midi(bytes: &[u8]) -> bool {
    bytes.starts_with(b"MThd") || (bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"RMID"))
}

/// Reads a MIDI file. Where none is named the harp's, all tracks but the drums are taken.
pub(crate) fn read(bytes: &[u8], options: &Options) -> Result<Piece, ScoreError> {
    let mut doubts = Doubts::default();
    let events = events::read(bytes, &mut doubts)?;
    let (parts, places) = parts(&events);
    if parts.is_empty() {
        return Err(ScoreError::NoMeasures);
    }
    let chosen = chosen(&parts, options, &mut doubts)?;
    let bars = Bars::new(&events)?;
    let part_of = |note: &Heard| places.get(&events.source(note)).copied();
    let heard: Vec<(&Heard, usize)> = events
        .notes
        .iter()
        .filter_map(|note| part_of(note).map(|part| (note, part)))
        .filter(|(_, part)| chosen.contains(part))
        .collect();
    let notes = notes(&heard, &bars, &events, &mut doubts);
    if events.tempos.is_empty() && events.seconds_per_tick.is_none() {
        let quarters_per_minute = STANDARD_TEMPO;
        doubts.add(
            None,
            Doubt::NoTempo {
                quarters_per_minute,
            },
        );
    }
    let measures = bars.measures(&events);
    Ok(Piece {
        title: events.title.clone(),
        composer: String::new(),
        parts,
        chosen,
        diagnostics: doubts.told(&measures),
        order: (0..measures.len())
            .map(|measure| Played { measure, pass: 1 })
            .collect(),
        tempos: TempoMap::new(tempos(&events, &bars), STANDARD_TEMPO),
        measures,
        notes,
        marks: marks(&events, &bars),
        glissandi: Vec::new(),
        tremolos: Vec::new(),
    })
}

/// The parts that hold notes, and which track or channel is which.
fn parts(events: &Events) -> (Vec<Part>, BTreeMap<(usize, u8), usize>) {
    let mut places = BTreeMap::new();
    for note in &events.notes {
        places.entry(events.source(note)).or_insert(0);
    }
    let mut parts = Vec::new();
    for (place, (&(track, channel), part)) in places.iter_mut().enumerate() {
        *part = place;
        let name = events.names.get(&track).cloned().unwrap_or_default();
        let programs = events
            .programs
            .iter()
            .filter(|(source, _)| **source == (track, channel));
        let programs: Vec<u8> = programs
            .flat_map(|(_, programs)| programs.clone())
            .collect();
        parts.push(Part {
            id: (place + 1).to_string(),
            is_harp: names_a_harp(&name) || programs.contains(&HARP_PROGRAM),
            name,
            instruments: programs
                .iter()
                .map(|p| format!("MIDI program {}", u16::from(*p) + 1))
                .collect(),
            staves: 1,
        });
    }
    (parts, places)
}

/// Every track that is a harp's (two hands are often two tracks), or the one asked for, or all.
fn chosen(
    parts: &[Part],
    options: &Options,
    doubts: &mut Doubts,
) -> Result<Vec<usize>, ScoreError> {
    if options.part != WhichPart::Harp {
        let (chosen, doubt) = meant(parts, &options.part)?;
        if let Some(doubt) = doubt {
            doubts.add(None, doubt);
        }
        return Ok(chosen);
    }
    let harps: Vec<usize> = (0..parts.len()).filter(|&at| parts[at].is_harp).collect();
    if !harps.is_empty() {
        return Ok(harps);
    }
    let all: Vec<usize> = (0..parts.len()).collect();
    if all.len() > 1 {
        let taken = labels(parts, &all);
        doubts.add(None, Doubt::PartGuessed { taken });
    }
    Ok(all)
}

fn notes(
    heard: &[(&Heard, usize)],
    bars: &Bars,
    events: &Events,
    doubts: &mut Doubts,
) -> Vec<Note> {
    let hands = Hands::of(heard);
    let how = hands.how();
    doubts.add(None, Doubt::HandsGuessed { how });
    let written = heard
        .iter()
        .filter_map(|&(note, part)| written(note, part, bars, events, &hands));
    let mut notes: Vec<Note> = written.collect();
    notes.sort_by_key(|note| (note.measure, note.offset, note.string.midi(), note.anchor));
    notes
}

fn written(
    heard: &Heard,
    part: usize,
    bars: &Bars,
    events: &Events,
    hands: &Hands,
) -> Option<Note> {
    let key = i32::from(heard.key);
    let pitch = spell(key, events.fifths_at(heard.from))?;
    let (measure, offset) = bars.place(heard.from)?;
    Some(Note {
        written: pitch,
        sounding: pitch,
        string: pitch,
        spelled: false,
        measure,
        offset,
        duration: bars.quarters(heard.until.saturating_sub(heard.from))?,
        staff: 1,
        hand: hands.hand(heard),
        voice: u32::from(heard.channel) + 1,
        tie: Tie::default(),
        grace: None,
        harmonic: None,
        arpeggio: None,
        etouffe: false,
        anchor: Anchor {
            part,
            measure,
            element: heard.event,
            byte: 0,
        },
    })
}

fn tempos(events: &Events, bars: &Bars) -> Vec<Tempo> {
    // a later event at the same time holds; the map keeps the first of one place
    let latest = events.tempos.iter().rev();
    let tempos = latest.filter_map(|&(tick, quarters_per_minute)| {
        let (measure, offset) = bars.place(tick)?;
        Some(Tempo {
            measure,
            offset,
            quarters_per_minute,
        })
    });
    tempos.collect()
}

fn marks(events: &Events, bars: &Bars) -> Vec<Mark> {
    let marks = events.markers.iter().filter_map(|(tick, text)| {
        let (measure, offset) = bars.place(*tick)?;
        Some(Mark {
            kind: MarkKind::Rehearsal(text.clone()),
            measure,
            offset,
            staff: None,
            anchor: Anchor {
                part: 0,
                measure,
                element: 0,
                byte: 0,
            },
        })
    });
    marks.collect()
}
