//! The command as a person or a program runs it.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use serde_json::Value;

/// What a run of the command left behind.
pub(crate) struct Run {
    /// Its exit code; none where a signal ended it.
    pub(crate) code: Option<i32>,
    /// What it answered.
    pub(crate) out: String,
    /// What it complained of.
    pub(crate) err: String,
}

/// Runs `sevenflats` in a folder with these words and this standard input.
pub(crate) fn run(folder: &Path, words: &[&str], input: &[u8]) -> Run {
    let mut child = Command::new(env!("CARGO_BIN_EXE_sevenflats"))
        .args(words)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let input = input.to_vec();
    // Whether the command reads it all is its own affair.
    let feeding = std::thread::spawn(move || stdin.write_all(&input).is_ok());
    let output = child.wait_with_output().unwrap();
    feeding.join().unwrap();
    let run = Run {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    };
    assert!(!run.err.contains("panicked"), "{words:?}: {}", run.err);
    run
}

impl Run {
    /// The answer as one JSON object a line.
    pub(crate) fn lines(&self) -> Vec<Value> {
        self.out
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }

    /// The lines of one kind.
    #[allow(dead_code, reason = "not every test program asks for it")]
    pub(crate) fn of_kind(&self, kind: &str) -> Vec<Value> {
        self.lines()
            .into_iter()
            .filter(|line| line["kind"] == kind)
            .collect()
    }
}
