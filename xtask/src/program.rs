//! Starting another program.

use std::process::{Command, Stdio};

use crate::trouble::Trouble;

/// Runs it to its end, its output shown; `advice` is said where it is not there.
pub(crate) fn run(command: &mut Command, advice: &'static str) -> Result<(), Trouble> {
    let status = command.status().map_err(|reason| Trouble::NotStarted {
        program: shown(command),
        reason,
        advice,
    })?;
    if status.success() {
        Ok(())
    } else {
        Err(Trouble::Failed {
            program: shown(command),
        })
    }
}

/// What it prints, where it starts and succeeds; its complaints are kept quiet.
pub(crate) fn asked(command: &mut Command) -> Option<String> {
    let output = command.stderr(Stdio::null()).output().ok()?;
    let text = String::from_utf8_lossy(&output.stdout).trim().to_owned();
    output.status.success().then_some(text)
}

fn shown(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    let words: Vec<_> = words.map(|word| word.to_string_lossy()).collect();
    words.join(" ")
}
