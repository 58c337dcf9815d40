//! What the page and this machine's diary say to each other: what either holds, then the records that the other lacks.
//!
//! Both know first what the other has; so each line goes once, in pieces of a megabyte, and what was lost on the way is
//! simply lacking still. The first line of a request and of an answer is its head; the others are records, unchanged.

use ::diary::{At, BLOCK, Device, Entry, Gap, Held, Imported, LineSum, Met, Moment, RecordId};
use serde::{Deserialize, Serialize};
use store::{Store, StoreError};

/// Bytes of records in one answer, before the last: one record may be longer than that alone.
const PIECE: usize = 1 << 20;
/// Longest request, bytes: its longest record, a piece beside it, and what is held.
pub const LONGEST: usize = ::diary::LONGEST_LINE + (4 << 20);

/// By how much two clocks must have moved against each other before that is written down again, seconds: less decides
/// nothing about which of two records came first.
const MOVED_S: f64 = 2.0;
/// How long what was written of a clock holds while there are new records, seconds: a day, in which a clock may drift by
/// a second or two.
const HOLDS_S: f64 = 86_400.0;
/// Larger than any clock is wrong by, seconds: a hundred years.
const MOST_S: f64 = 100.0 * 365.25 * 86_400.0;

/// What this machine's diary holds.
#[derive(Serialize)]
struct HaveLine<'a> {
    kind: &'static str,
    device: &'a str,
    now: &'a str,
    held: Held,
}

/// What the page says first.
#[derive(Deserialize)]
struct Head {
    /// who writes in the page
    device: String,
    held: Held,
    clock: Option<ClockSeen>,
    #[serde(default)]
    in_doubt: Vec<InDoubt>,
}

/// This machine's clock as the page saw it: ahead of its own, half of the way there and back taken off.
#[derive(Deserialize)]
struct ClockSeen {
    ahead_s: f64,
}

/// Places in which two records may claim to be, with the sum of what the page has there.
#[derive(Deserialize)]
struct InDoubt {
    device: String,
    places: Vec<(u64, String)>,
}

/// What became of what was sent, and what follows.
#[derive(Serialize)]
struct AnswerHead<'a> {
    kind: &'static str,
    device: &'a str,
    taken: usize,
    known: usize,
    apart: Vec<IdLine>,
    bad: Vec<BadLine>,
    /// places of which the page is to send its records: there is another here
    differ: Vec<IdLine>,
    /// whether there is more than follows here
    more: bool,
}

#[derive(Serialize)]
struct IdLine {
    device: String,
    seq: u64,
}

/// A line that was no record, counted from the first after the head.
#[derive(Serialize)]
struct BadLine {
    line: usize,
    why: String,
}

/// Why an exchange was not done.
#[derive(Debug, thiserror::Error)]
pub enum NotDone {
    /// The head of a request cannot be understood.
    #[error("the first line is to say what is held: {0}")]
    Head(String),
    /// The diary's file.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// What the diary holds, as one line. `now`: the time by this machine's clock.
///
/// # Errors
/// The file cannot be read.
pub fn have(store: &Store, now: &At) -> Result<Vec<u8>, NotDone> {
    Ok(line(&HaveLine {
        kind: "have",
        device: store.device().as_str(),
        now: now.as_str(),
        held: store.held()?,
    }))
}

/// Takes in the records of a request and answers with those that the page lacks.
///
/// # Errors
/// The first line is none; or the file cannot be read or written: then nothing was taken.
pub fn exchange(store: &mut Store, request: &[u8], now: &At) -> Result<Vec<u8>, NotDone> {
    let end = request.iter().position(|byte| *byte == b'\n');
    let (head, records) = request.split_at(end.unwrap_or(request.len()));
    let head: Head =
        serde_json::from_slice(head).map_err(|error| NotDone::Head(error.to_string()))?;
    let device: Device = (head.device.parse())
        .map_err(|error: ::diary::DeviceError| NotDone::Head(error.to_string()))?;
    let imported = match records.trim_ascii().is_empty() {
        true => Imported::default(),
        // the end of the head itself is no line of theirs
        false => store.import(records.get(1..).unwrap_or_default())?,
    };
    if let Some(clock) = &head.clock {
        meet(store, &device, &head.held, clock, now)?;
    }
    let mut piece = Piece::default();
    for stretch in head.held.lacking(&store.places()?) {
        piece.add(store, &stretch)?;
    }
    let mut differ = Vec::new();
    for doubt in &head.in_doubt {
        differ.extend(differing(store, doubt, &mut piece)?);
    }
    let mut answer = line(&AnswerHead {
        kind: "exchanged",
        device: store.device().as_str(),
        taken: imported.merged.taken.len(),
        known: imported.merged.known,
        apart: imported.merged.conflicts.iter().map(IdLine::of).collect(),
        bad: bad(&imported),
        differ,
        more: piece.more,
    });
    answer.extend(piece.lines);
    Ok(answer)
}

/// Writes down how the page's clock stands to this one's, where its new records need it.
///
/// Without new records of the page there is nothing to put in order, so nothing is written, however often it is opened.
fn meet(
    store: &mut Store,
    page: &Device,
    held: &Held,
    clock: &ClockSeen,
    now: &At,
) -> Result<(), NotDone> {
    let Some(seq) = held.last(page).filter(|_| page != store.device()) else {
        return Ok(());
    };
    // the page saw ours ahead: by as much its own is behind
    let ahead_s = -clock.ahead_s;
    if !ahead_s.is_finite() || ahead_s.abs() > MOST_S {
        return Ok(());
    }
    let last = store.last_met(page)?;
    if is_news(last.as_ref(), seq, ahead_s, now) {
        // to a hundredth of a second: the way there and back is no better known
        let ahead_s = (100.0 * ahead_s).round() / 100.0;
        let device = page.clone();
        store.append(
            now,
            &[Entry::Met(Met {
                device,
                seq,
                ahead_s,
            })],
        )?;
    }
    Ok(())
}

fn is_news(last: Option<&(At, Met)>, seq: u64, ahead_s: f64, now: &At) -> bool {
    let Some((at, met)) = last else {
        return true;
    };
    let moved = (met.ahead_s - ahead_s).abs() > MOVED_S;
    let age_s = Moment::of(now).since_s(Moment::of(at));
    // a clock that was put back since then makes the last one old, too
    let is_old = !(0.0..HOLDS_S).contains(&age_s);
    seq > met.seq && (moved || is_old)
}

/// Records on their way to the page.
#[derive(Default)]
struct Piece {
    lines: Vec<u8>,
    more: bool,
}

impl Piece {
    fn add(&mut self, store: &Store, stretch: &Gap) -> Result<(), StoreError> {
        if self.more {
            return Ok(());
        }
        store.lines(stretch, &mut |_, line| {
            if !self.lines.is_empty() && self.lines.len() + line.len() > PIECE {
                self.more = true;
                return false;
            }
            self.lines.extend(line.as_bytes());
            self.lines.push(b'\n');
            true
        })
    }
}

/// The places of a doubt in which something else stands here; what stands there goes with the answer.
fn differing(store: &Store, doubt: &InDoubt, piece: &mut Piece) -> Result<Vec<IdLine>, NotDone> {
    let mut differ = Vec::new();
    let Ok(device) = doubt.device.parse::<Device>() else {
        return Ok(differ);
    };
    let (Some((from, _)), Some((to, _))) = (doubt.places.first(), doubt.places.last()) else {
        return Ok(differ);
    };
    let stretch = |from, to| Gap {
        device: device.clone(),
        from,
        to,
    };
    if to.saturating_sub(*from) > BLOCK {
        let words = format!("at most {BLOCK} places are looked at together");
        return Err(NotDone::Head(words));
    }
    let own = store.sums(&stretch(*from, *to))?;
    for (seq, sum) in &doubt.places {
        let other = |(own, own_sum): &(u64, LineSum)| own == seq && own_sum.to_string() != *sum;
        if own.iter().any(other) {
            piece.add(store, &stretch(*seq, *seq))?;
            let device = device.to_string();
            differ.push(IdLine { device, seq: *seq });
        }
    }
    Ok(differ)
}

impl IdLine {
    fn of(id: &RecordId) -> Self {
        Self {
            device: id.device.to_string(),
            seq: id.seq,
        }
    }
}

fn bad(imported: &Imported) -> Vec<BadLine> {
    let troubles = imported.troubles.iter();
    let bad = troubles.map(|trouble| BadLine {
        line: trouble.line,
        why: trouble.error.to_string(),
    });
    bad.collect()
}

fn line(value: &impl Serialize) -> Vec<u8> {
    // every value here is text, numbers and lists of them
    let mut line = serde_json::to_vec(value).unwrap_or_default();
    line.push(b'\n');
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> At {
        text.parse().unwrap()
    }

    #[test]
    fn a_clock_is_written_down_when_it_moved_or_after_a_day_and_never_without_new_records() {
        let device: Device = "phone".parse().unwrap();
        let last = Some((
            at("2026-11-26T18:00:00Z"),
            Met {
                device,
                seq: 10,
                ahead_s: 1.0,
            },
        ));
        let check = |seq, ahead_s, now: &str| is_news(last.as_ref(), seq, ahead_s, &at(now));
        assert!(is_news(None, 1, 0.0, &at("2026-11-26T18:00:00Z")));
        assert!(!check(11, 2.9, "2026-11-27T17:59:59Z"));
        assert!(check(11, 3.1, "2026-11-26T18:00:01Z"));
        assert!(check(11, -1.1, "2026-11-26T18:00:01Z"));
        assert!(check(11, 1.0, "2026-11-27T18:00:00Z"));
        assert!(!check(10, 99.0, "2027-11-27T18:00:00Z"));
        // this machine's own clock was put back
        assert!(check(11, 1.0, "2026-11-25T18:00:00Z"));
    }
}
