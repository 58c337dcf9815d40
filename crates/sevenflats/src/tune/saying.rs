//! What the player says as the round goes on: from a file with its seconds, or live, at once, from a terminal or a pipe.

use std::io::{BufRead, BufReader};
use std::iter::Peekable;
use std::path::Path;
use std::sync::mpsc::{Receiver, channel};
use std::vec::IntoIter;

use tuning::round::Act;

use super::said;
use crate::trouble::Trouble;

/// What is said, as it falls due.
pub struct Saying {
    timed: Peekable<IntoIter<(f64, Act)>>,
    live: Option<Receiver<String>>,
}

impl Saying {
    /// What is said at once, and what `path` holds: a file is read whole; a terminal or a pipe is listened to.
    pub fn new(mut at_once: Vec<(f64, Act)>, path: Option<&Path>) -> Result<Saying, Trouble> {
        let mut live = None;
        if let Some(path) = path {
            let failed = |reason: String| Trouble::Said {
                path: path.to_owned(),
                reason,
            };
            let about = std::fs::metadata(path).map_err(|e| failed(e.to_string()))?;
            if about.is_file() || about.is_dir() {
                let text = std::fs::read_to_string(path).map_err(|e| failed(e.to_string()))?;
                at_once.extend(said::read(&text).map_err(|e| failed(e.to_string()))?);
            } else {
                live = Some(listen(path));
            }
        }
        Ok(Saying {
            timed: at_once.into_iter().peekable(),
            live,
        })
    }

    /// The next thing that has been said by `now_s`, or why a line is not understood.
    pub fn due(&mut self, now_s: f64) -> Option<Result<Act, String>> {
        if let Some((_, act)) = self.timed.next_if(|(at, _)| *at <= now_s) {
            return Some(Ok(act));
        }
        let line = self.live.as_ref()?.try_recv().ok()?;
        Some(said::line(&line))
    }

    /// What was to be said later than anything was heard.
    pub fn rest(self) -> impl Iterator<Item = Act> {
        self.timed.map(|(_, act)| act)
    }
}

/// Lines from a terminal or a pipe. Opening a pipe waits for who writes into it, and so does reading: neither may keep the
/// sound waiting. The thread ends with the program.
fn listen(path: &Path) -> Receiver<String> {
    let (tell, told) = channel();
    let path = path.to_owned();
    std::thread::spawn(move || {
        let Ok(file) = std::fs::File::open(path) else {
            return;
        };
        for line in BufReader::new(file).lines().map_while(Result::ok) {
            if !line.trim().is_empty() && tell.send(line).is_err() {
                return;
            }
        }
    });
    told
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Write;

    #[test]
    fn what_a_file_says_falls_due_at_its_seconds_and_the_rest_at_the_end() {
        let mut file = tempfile::NamedTempFile::new().unwrap();
        writeln!(file, "2 pause\n9 resume").unwrap();
        let begin = vec![(0.0, Act::Begin)];
        let mut saying = Saying::new(begin, Some(file.path())).unwrap();
        assert_eq!(saying.due(0.0), Some(Ok(Act::Begin)));
        assert_eq!(saying.due(1.9), None);
        assert_eq!(saying.due(2.0), Some(Ok(Act::Pause)));
        assert_eq!(saying.rest().collect::<Vec<_>>(), [Act::Resume]);
    }

    #[test]
    fn what_is_said_live_is_said_at_once_and_what_is_not_understood_is_told() {
        let (tell, told) = channel();
        let mut saying = Saying::new(Vec::new(), None).unwrap();
        saying.live = Some(told);
        assert_eq!(saying.due(5.0), None);
        tell.send("skip 4G".to_owned()).unwrap();
        tell.send("dance".to_owned()).unwrap();
        let string = "G3".parse().unwrap();
        assert_eq!(saying.due(5.0), Some(Ok(Act::Skip(string))));
        assert!(saying.due(5.0).unwrap().unwrap_err().contains("'dance'"));
    }

    #[test]
    fn a_file_that_is_not_there_is_told() {
        let error = Saying::new(Vec::new(), Some(Path::new("nowhere/said"))).err();
        assert!(error.unwrap().to_string().contains("nowhere"));
    }
}
