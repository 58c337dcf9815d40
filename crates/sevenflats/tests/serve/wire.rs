//! HTTP/1.1 as RFC 9112 writes it, by hand.

use std::io::{Read, Write};
use std::net::{Ipv4Addr, TcpStream};
use std::time::Duration;

/// How long an answer may take, in seconds.
const WAIT_S: u64 = 20;

/// An answer.
#[derive(Debug)]
pub(crate) struct Reply {
    /// Its status.
    pub(crate) status: u16,
    headers: Vec<(String, String)>,
    /// What follows the head.
    pub(crate) body: String,
}

impl Reply {
    /// The one value of a header; none where it is not there.
    pub(crate) fn header(&self, name: &str) -> Option<&str> {
        let mut values = self.headers.iter().filter(|(known, _)| known == name);
        let value = values.next();
        assert!(values.next().is_none(), "{name} twice: {self:?}");
        value.map(|(_, value)| value.as_str())
    }
}

/// Asks for a path with GET and these further header lines.
pub(crate) fn get(port: u16, path: &str, lines: &[&str]) -> Reply {
    ask(port, "GET", path, lines)
}

/// Asks with any method and these further header lines.
pub(crate) fn ask(port: u16, method: &str, path: &str, lines: &[&str]) -> Reply {
    let lines: String = lines.iter().map(|line| format!("{line}\r\n")).collect();
    let head =
        format!("{method} {path} HTTP/1.1\r\nHost: localhost:{port}\r\nConnection: close\r\n");
    say(port, &format!("{head}{lines}\r\n"))
}

/// Says these words and reads until the server has no more to say.
pub(crate) fn say(port: u16, words: &str) -> Reply {
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
    stream
        .set_read_timeout(Some(Duration::from_secs(WAIT_S)))
        .unwrap();
    stream.write_all(words.as_bytes()).unwrap();
    let mut bytes = Vec::new();
    stream.read_to_end(&mut bytes).unwrap();
    reply(&String::from_utf8(bytes).unwrap())
}

/// Reads one answer.
pub(crate) fn reply(text: &str) -> Reply {
    let (head, body) = text
        .split_once("\r\n\r\n")
        .unwrap_or_else(|| panic!("no head: {text:?}"));
    let (status, headers) = head.split_once("\r\n").unwrap();
    let headers = headers.split("\r\n").map(|line| {
        let (name, value) = line.split_once(": ").unwrap();
        (name.to_ascii_lowercase(), value.to_owned())
    });
    Reply {
        status: status.strip_prefix("HTTP/1.1 ").unwrap()[..3]
            .parse()
            .unwrap(),
        headers: headers.collect(),
        body: body.to_owned(),
    }
}
