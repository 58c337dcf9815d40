//! The events of a MIDI file that matter here, at their ticks, track by track.

use std::collections::{BTreeMap, VecDeque};

use midly::{Format, MetaMessage, MidiMessage, Timing, TrackEventKind};

use crate::doubts::Doubts;
use crate::{Doubt, ScoreError, TimeSignature};

/// Most notes that are read.
const MOST_NOTES: usize = 500_000;
/// Most tempos, signatures and markers, of each.
const MOST_METAS: usize = 50_000;
/// The channel of drums, counted from 0 (General MIDI, level 1).
const DRUMS: u8 = 9;

/// What was read of a file.
#[derive(Debug, Default)]
pub(crate) struct Events {
    /// Ticks in a quarter.
    pub(crate) ticks: i64,
    /// Where ticks are parts of a second: how long one is.
    pub(crate) seconds_per_tick: Option<f64>,
    /// Several tracks at once: a part is a track; else it is a channel.
    pub(crate) by_track: bool,
    /// The notes, by track and beginning.
    pub(crate) notes: Vec<Heard>,
    /// (tick, quarters a minute), ascending.
    pub(crate) tempos: Vec<(u64, f64)>,
    /// (tick, signature), ascending.
    pub(crate) times: Vec<(u64, TimeSignature)>,
    /// (tick, sharps), ascending.
    pub(crate) keys: Vec<(u64, i8)>,
    /// (tick, text), ascending.
    pub(crate) markers: Vec<(u64, String)>,
    /// Names of tracks.
    pub(crate) names: BTreeMap<usize, String>,
    /// Programs by source.
    pub(crate) programs: BTreeMap<(usize, u8), Vec<u8>>,
    /// The name of the first track of several that has no notes: the piece's.
    pub(crate) title: String,
    /// The last tick of any track.
    pub(crate) last: u64,
}

/// One note as it is heard.
#[derive(Clone, Debug)]
pub(crate) struct Heard {
    pub(crate) track: usize,
    pub(crate) channel: u8,
    pub(crate) key: u8,
    pub(crate) from: u64,
    pub(crate) until: u64,
    /// Place of its event in the track.
    pub(crate) event: usize,
}

impl Events {
    /// The track or channel that a note's part is made of.
    pub(crate) fn source(&self, note: &Heard) -> (usize, u8) {
        self.source_of(note.track, note.channel)
    }

    /// Sharps in force at a tick.
    pub(crate) fn fifths_at(&self, tick: u64) -> i8 {
        let next = self.keys.partition_point(|(at, _)| *at <= tick);
        next.checked_sub(1).map_or(0, |last| self.keys[last].1)
    }

    fn source_of(&self, track: usize, channel: u8) -> (usize, u8) {
        if self.by_track {
            (track, 0)
        } else {
            (0, channel)
        }
    }
}

/// Reads all tracks. What is damaged ends its track, with a doubt.
pub(crate) fn read(bytes: &[u8], doubts: &mut Doubts) -> Result<Events, ScoreError> {
    let file = file_in(bytes).ok_or_else(|| damaged("it has no header"))?;
    // 128 frames a second backwards: no such rate, and the parser would overflow on it
    if file.get(12) == Some(&0x80) {
        return Err(damaged("its ticks have no length"));
    }
    let (header, tracks) = midly::parse(file).map_err(|error| damaged(&error.to_string()))?;
    let mut events = Events {
        by_track: header.format != Format::SingleTrack,
        ..Events::default()
    };
    timing(header.timing, &mut events, doubts)?;
    let mut reader = TrackReader::new(&mut events);
    let mut found = 0_usize;
    for track in tracks {
        let Ok(track) = track else {
            doubts.add(None, Doubt::BreaksOff);
            break;
        };
        found += 1;
        reader.begin(header.format == Format::Sequential);
        for event in track {
            match event {
                Ok(event) => reader.event(event.delta.as_int(), &event.kind),
                Err(_) => {
                    doubts.add(None, Doubt::BreaksOff);
                    break;
                }
            }
        }
        if !reader.ended {
            doubts.add(None, Doubt::BreaksOff);
        }
        reader.end();
    }
    let (endless, left_out) = (reader.endless, reader.left_out);
    if endless > 0 {
        doubts.add(None, Doubt::NoteWithoutEnd { count: endless });
    }
    if left_out > 0 {
        doubts.add(None, Doubt::TooManyNotes { limit: MOST_NOTES });
    }
    if found == 0 {
        return Err(damaged("it has no track"));
    }
    settle(&mut events);
    Ok(events)
}

/// The file itself, out of a RIFF container where it is in one.
fn file_in(bytes: &[u8]) -> Option<&[u8]> {
    let first = &bytes[..bytes.len().min(64)];
    let at = first.windows(4).position(|four| four == b"MThd")?;
    Some(&bytes[at..])
}

fn timing(timing: Timing, events: &mut Events, doubts: &mut Doubts) -> Result<(), ScoreError> {
    match timing {
        Timing::Metrical(ticks) => events.ticks = i64::from(ticks.as_int()),
        Timing::Timecode(frames, parts) => {
            // at 120 a minute a quarter is half a second
            let per_second = f64::from(frames.as_f32()) * f64::from(parts);
            events.ticks = (per_second / 2.0).round() as i64;
            events.seconds_per_tick = Some(1.0 / per_second);
            doubts.add(None, Doubt::SecondsNotBeats);
        }
    }
    if events.ticks <= 0 {
        return Err(damaged("its ticks have no length"));
    }
    Ok(())
}

/// Times of different tracks in one order.
fn settle(events: &mut Events) {
    events.tempos.sort_by_key(|(tick, _)| *tick);
    events.times.sort_by_key(|(tick, _)| *tick);
    events.keys.sort_by_key(|(tick, _)| *tick);
    events.markers.sort_by_key(|(tick, _)| *tick);
    if let Some(per_tick) = events.seconds_per_tick {
        // ticks that are parts of a second know no tempo
        events.tempos = vec![(0, 60.0 / (per_tick * events.ticks as f64))];
    }
    let first = events.names.get(&0).cloned().unwrap_or_default();
    let silent = !events.notes.iter().any(|note| note.track == 0);
    if silent || !events.by_track {
        events.title = first;
    }
}

struct TrackReader<'a> {
    events: &'a mut Events,
    track: usize,
    begun: bool,
    tick: u64,
    event: usize,
    /// Notes that sound, by channel and key, the oldest first.
    open: BTreeMap<(u8, u8), VecDeque<(u64, usize)>>,
    endless: usize,
    left_out: usize,
    /// How many are in `open`.
    sounding: usize,
    /// The track said that it ends.
    ended: bool,
}

impl<'a> TrackReader<'a> {
    fn new(events: &'a mut Events) -> Self {
        Self {
            events,
            track: 0,
            begun: false,
            tick: 0,
            event: 0,
            open: BTreeMap::new(),
            endless: 0,
            left_out: 0,
            sounding: 0,
            ended: false,
        }
    }

    /// In a file whose tracks follow each other each begins behind the one before.
    fn begin(&mut self, after_the_last: bool) {
        self.track += usize::from(self.begun);
        self.begun = true;
        self.tick = if after_the_last { self.events.last } else { 0 };
        self.event = 0;
        self.ended = false;
    }

    fn event(&mut self, delta: u32, kind: &TrackEventKind<'_>) {
        self.tick += u64::from(delta);
        match kind {
            TrackEventKind::Midi { channel, message } => self.midi(channel.as_int(), message),
            TrackEventKind::Meta(meta) => self.meta(meta),
            TrackEventKind::SysEx(_) | TrackEventKind::Escape(_) => {}
        }
        self.event += 1;
    }

    fn midi(&mut self, channel: u8, message: &MidiMessage) {
        if channel == DRUMS {
            return;
        }
        match message {
            MidiMessage::NoteOn { key, vel } if vel.as_int() > 0 => {
                if self.events.notes.len() + self.sounding >= MOST_NOTES {
                    self.left_out += 1;
                    return;
                }
                let open = self.open.entry((channel, key.as_int())).or_default();
                open.push_back((self.tick, self.event));
                self.sounding += 1;
            }
            MidiMessage::NoteOn { key, .. } | MidiMessage::NoteOff { key, .. } => {
                let key = key.as_int();
                let open = self.open.get_mut(&(channel, key));
                if let Some((from, event)) = open.and_then(VecDeque::pop_front) {
                    self.sounding -= 1;
                    self.note(channel, key, from, event);
                }
            }
            MidiMessage::ProgramChange { program } => {
                let source = self.events.source_of(self.track, channel);
                let programs = self.events.programs.entry(source).or_default();
                if !programs.contains(&program.as_int()) {
                    programs.push(program.as_int());
                }
            }
            _ => {}
        }
    }

    fn note(&mut self, channel: u8, key: u8, from: u64, event: usize) {
        self.events.notes.push(Heard {
            track: self.track,
            channel,
            key,
            from,
            until: self.tick,
            event,
        });
    }

    fn meta(&mut self, meta: &MetaMessage<'_>) {
        let tick = self.tick;
        let events = &mut *self.events;
        match *meta {
            MetaMessage::TrackName(name) => {
                events.names.entry(self.track).or_insert_with(|| text(name));
            }
            MetaMessage::Tempo(micros) if micros.as_int() > 0 => {
                let tempo = 60.0e6 / f64::from(micros.as_int());
                keep(&mut events.tempos, (tick, tempo));
            }
            MetaMessage::TimeSignature(beats, power, ..) if beats > 0 && power <= 10 => {
                let time = TimeSignature {
                    beats: u32::from(beats),
                    unit: 1 << power,
                };
                keep(&mut events.times, (tick, time));
            }
            MetaMessage::KeySignature(fifths, _) => {
                keep(&mut events.keys, (tick, fifths.clamp(-7, 7)));
            }
            MetaMessage::EndOfTrack => self.ended = true,
            MetaMessage::Marker(marker) => keep(&mut events.markers, (tick, text(marker))),
            _ => {}
        }
    }

    fn end(&mut self) {
        for ((channel, key), open) in std::mem::take(&mut self.open) {
            self.endless += open.len();
            for (from, event) in open {
                self.note(channel, key, from, event);
            }
        }
        self.sounding = 0;
        self.events.last = self.events.last.max(self.tick);
    }
}

fn keep<T>(list: &mut Vec<T>, one: T) {
    if list.len() < MOST_METAS {
        list.push(one);
    }
}

fn text(bytes: &[u8]) -> String {
    let text = String::from_utf8_lossy(&bytes[..bytes.len().min(400)]);
    text.trim_matches(['\0', ' ']).chars().take(100).collect()
}

fn damaged(why: &str) -> ScoreError {
    ScoreError::Midi {
        why: why.to_owned(),
    }
}
