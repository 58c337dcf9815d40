//! A page made up for the checks: it keeps a diary of its own and exchanges with the server, as the real one does.

use std::io::{Read, Write};
use std::net::{Ipv4Addr, TcpStream};
use std::time::Duration;

use diary::{At, BLOCK, Diary, Entry, Held, LineSum, Note, Record};
use serde_json::{Value, json};

use crate::wire::{Reply, reply};

/// Bytes of records that it sends at once.
const PIECE: usize = 200_000;

/// One page, in one browser.
pub(crate) struct APage {
    /// What it keeps.
    pub(crate) diary: Diary,
    /// Under which name it writes.
    pub(crate) device: String,
}

/// What an exchange came to.
#[derive(Debug, Default)]
pub(crate) struct Came {
    /// Records that the server took.
    pub(crate) sent: usize,
    /// Records that were new to the page.
    pub(crate) got: usize,
    /// Places that two records claim, as the server said.
    pub(crate) apart: Vec<String>,
    /// What the server did not take, and why.
    pub(crate) bad: Vec<String>,
    /// How many requests it took.
    pub(crate) requests: usize,
}

impl APage {
    pub(crate) fn new(device: &str) -> APage {
        APage {
            diary: Diary::default(),
            device: device.to_owned(),
        }
    }

    /// Writes a note in the next place.
    pub(crate) fn note(&mut self, at: &str, text: &str) {
        let at: At = at.parse().unwrap();
        let note = Entry::Note(Note {
            harp: None,
            string: None,
            text: text.to_owned(),
        });
        self.diary.append(&self.device, at, &note).unwrap();
    }

    pub(crate) fn held(&self) -> Held {
        Held::of(self.diary.records().chain(self.diary.apart()))
    }

    /// Everything it keeps, in an order of its own.
    pub(crate) fn lines(&self) -> Vec<String> {
        let mut lines: Vec<String> = self.diary.export().lines().map(str::to_owned).collect();
        lines.sort();
        lines
    }

    /// One exchange, from what both have to nothing lacking; whatever the server breaks off with is given.
    pub(crate) fn exchange(&mut self, port: u16, ahead_s: Option<f64>) -> Result<Came, Value> {
        let mut came = Came::default();
        let theirs = have(port)?;
        let mut rest: Vec<String> = Vec::new();
        for gap in theirs.lacking(&self.held()) {
            let all = self.diary.records().chain(self.diary.apart());
            let of = all.filter(|r| {
                r.id().device == gap.device && (gap.from..=gap.to).contains(&r.id().seq)
            });
            rest.extend(of.map(|r| r.line().to_owned()));
        }
        loop {
            let mut piece = String::new();
            while let Some(line) = rest
                .first()
                .filter(|line| piece.is_empty() || piece.len() + line.len() < PIECE)
            {
                piece.push_str(line);
                piece.push('\n');
                rest.remove(0);
            }
            let more = self.say(port, ahead_s, json!([]), &piece, &mut came)?;
            if rest.is_empty() && !more {
                break;
            }
        }
        self.settle(port, &mut came)?;
        Ok(came)
    }

    /// Of places that both hold: whether the same stands there.
    fn settle(&mut self, port: u16, came: &mut Came) -> Result<(), Value> {
        let theirs = have(port)?;
        let own = self.held();
        let other: Vec<_> = own.sums().collect();
        let differing = theirs.sums().filter(|sum| !other.contains(sum));
        for (device, block, _) in differing {
            let mut places: Vec<(u64, LineSum)> = Vec::new();
            let mut lines = String::new();
            let mut all: Vec<&Record> = self.diary.records().chain(self.diary.apart()).collect();
            all.sort_by_key(|r| r.id().clone());
            for record in all {
                if record.id().device == *device && record.id().seq / BLOCK == block {
                    let sum = LineSum::of(record.line());
                    match places.last_mut().filter(|(seq, _)| *seq == record.id().seq) {
                        Some((_, first)) => *first = first.and(sum),
                        None => places.push((record.id().seq, sum)),
                    }
                    lines.push_str(record.line());
                    lines.push('\n');
                }
            }
            let places: Vec<Value> = places
                .iter()
                .map(|(seq, sum)| json!([seq, sum.to_string()]))
                .collect();
            let doubt = json!([{"device": device.as_str(), "places": places}]);
            let mut page = APage {
                diary: self.diary.clone(),
                device: self.device.clone(),
            };
            page.say(port, None, doubt, &lines, came)?;
            self.diary = page.diary;
        }
        Ok(())
    }

    /// One request; whether there is more to come.
    fn say(
        &mut self,
        port: u16,
        ahead_s: Option<f64>,
        in_doubt: Value,
        lines: &str,
        came: &mut Came,
    ) -> Result<bool, Value> {
        let clock = ahead_s.map(|ahead_s| json!({"ahead_s": ahead_s}));
        let held = self.held().without_sums();
        let head = json!({"kind": "exchange", "device": self.device, "held": held, "clock": clock, "in_doubt": in_doubt});
        let answer = post(port, &format!("{head}\n{lines}")).ok_or(Value::Null)?;
        let (head, records) = answer.body.split_once('\n').unwrap();
        let head: Value = serde_json::from_str(head).unwrap();
        if answer.status != 200 {
            return Err(head);
        }
        came.requests += 1;
        came.sent += head["taken"].as_u64().unwrap() as usize;
        for apart in head["apart"].as_array().unwrap() {
            came.apart.push(format!(
                "{} {}",
                apart["device"].as_str().unwrap(),
                apart["seq"]
            ));
        }
        for bad in head["bad"].as_array().unwrap() {
            came.bad.push(bad["why"].as_str().unwrap().to_owned());
        }
        let read = self.diary.import(records.as_bytes());
        assert_eq!(read.troubles, []);
        came.got += read.merged.taken.len();
        Ok(head["more"].as_bool().unwrap())
    }
}

/// What the server holds.
pub(crate) fn have(port: u16) -> Result<Held, Value> {
    let answer = try_say(
        port,
        &format!("GET /diary/have HTTP/1.1\r\nHost: localhost:{port}\r\nConnection: close\r\n\r\n"),
    );
    let answer = answer.ok_or(Value::Null)?;
    let head: Value = serde_json::from_str(answer.body.trim()).unwrap();
    match answer.status {
        200 => Ok(serde_json::from_value(head["held"].clone()).unwrap()),
        _ => Err(head),
    }
}

/// Sends a body as the page of this address; none where the server breaks off.
pub(crate) fn post(port: u16, body: &str) -> Option<Reply> {
    let origin = format!("Origin: http://localhost:{port}");
    post_as(port, &[&origin, "Content-Type: application/x-ndjson"], body)
}

/// Sends a body with these header lines.
pub(crate) fn post_as(port: u16, lines: &[&str], body: &str) -> Option<Reply> {
    let lines: String = lines.iter().map(|line| format!("{line}\r\n")).collect();
    let length = body.len();
    let head = format!(
        "POST /diary/exchange HTTP/1.1\r\nHost: localhost:{port}\r\nConnection: close\r\nContent-Length: {length}\r\n{lines}\r\n"
    );
    try_say(port, &(head + body))
}

/// Says these words; none where nobody listens or the answer breaks off.
fn try_say(port: u16, words: &str) -> Option<Reply> {
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).ok()?;
    stream
        .set_read_timeout(Some(Duration::from_secs(60)))
        .unwrap();
    // who refuses what is too long need not read it to its end
    let _ = stream.write_all(words.as_bytes());
    let mut bytes = Vec::new();
    let read = stream.read_to_end(&mut bytes);
    let text = String::from_utf8(bytes).ok()?;
    let (head, body) = text.split_once("\r\n\r\n")?;
    let length = head
        .lines()
        .find_map(|line| line.strip_prefix("content-length: "));
    let whole = length.is_none_or(|length| length.parse() == Ok(body.len()));
    (whole && (read.is_ok() || !body.is_empty())).then(|| reply(&text))
}
