//! What can go wrong with a command as a whole, and the exit code that tells it.

use std::path::PathBuf;

use harp::HarpError;
use thiserror::Error;

use crate::sound::SoundError;

/// Everything was done.
pub const DONE: u8 = 0;
/// Something could not be read, or nothing was heard in it.
pub const NOT_READ: u8 = 1;
/// The command is not understood, or asks for what the harp does not have.
pub const NOT_UNDERSTOOD: u8 = 2;

/// Why a command, or a part of it, was not done.
#[derive(Debug, Error)]
pub enum Trouble {
    /// The harp does not have what was asked for.
    #[error("{0}")]
    Harp(#[from] HarpError),
    /// A harp that is neither a built-in name nor a file.
    #[error(
        "--harp {name}: neither a harp known by name ({}) nor a file that is there",
        known_harps()
    )]
    NoSuchHarp {
        /// What was given.
        name: String,
    },
    /// A harp file that cannot be read from the disk.
    #[error("{}: the harp file cannot be read: {reason}; check its name and that you may read it", path.display())]
    HarpFile {
        /// Where.
        path: PathBuf,
        /// What the system says.
        reason: std::io::Error,
    },
    /// A harp file far larger than one can be.
    #[error("{}: {bytes} bytes is no harp file; one is a page of text", path.display())]
    HarpFileSize {
        /// Where.
        path: PathBuf,
        /// Its size.
        bytes: u64,
    },
    /// A harp file that says something that cannot be.
    #[error("{}: {reason}", path.display())]
    HarpText {
        /// Where.
        path: PathBuf,
        /// What is wrong, and in which line.
        reason: String,
    },
    /// A string named with `--string` that the harp does not have.
    #[error(
        "--string {string}: this harp's strings run from {lowest} to {highest}, and it is none of them"
    )]
    NoSuchString {
        /// What was asked for.
        string: harp::StringName,
        /// The harp's lowest.
        lowest: harp::StringName,
        /// The harp's highest.
        highest: harp::StringName,
    },
    /// A sound that cannot be read, or only in part.
    #[error("{name} {reason}")]
    Sound {
        /// The file.
        name: String,
        /// Why.
        reason: SoundError,
    },
    /// A sound in which there is nothing to hear.
    #[error("{name}: no pluck was heard in {read_s:.1} s; {advice}")]
    NothingHeard {
        /// The file.
        name: String,
        /// How long it is.
        read_s: f64,
        /// What may help.
        advice: &'static str,
    },
    /// Raw samples without their rate, or a rate for something else.
    #[error("{0}")]
    Rate(&'static str),
    /// The listener refuses the task.
    #[error("{name}: {reason}")]
    Ear {
        /// The file.
        name: String,
        /// Why.
        reason: tuning::EarError,
    },
    /// No held note can be followed in this sound, or not the one that is named.
    #[error("{name}: {}", of_held(reason))]
    Held {
        /// The file.
        name: String,
        /// Why.
        reason: signal::HeldError,
    },
    /// No A could be taken from the sound.
    #[error("{name}: {detail}")]
    NoA {
        /// The file.
        name: String,
        /// Why not, and what to do.
        detail: String,
    },
    /// The demo round cannot be written.
    #[error("{}: the demo round cannot be written: {reason}", path.display())]
    Demo {
        /// Where.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// What is said during the round cannot be read or followed.
    #[error("--said {}: {reason}", path.display())]
    Said {
        /// Where.
        path: PathBuf,
        /// What is wrong.
        reason: String,
    },
    /// The picture cannot be written.
    #[error("{}: the picture cannot be written: {reason}; the round itself is told above", path.display())]
    Picture {
        /// Where.
        path: PathBuf,
        /// What the system says.
        reason: std::io::Error,
    },
    /// A score that cannot be read from the disk.
    #[error("{}: the score cannot be read: {reason}; check its name and that you may read it", path.display())]
    ScoreFile {
        /// Where.
        path: PathBuf,
        /// What the system says.
        reason: std::io::Error,
    },
    /// A file that is no score, or none that can be read.
    #[error("{}: {reason}", path.display())]
    Score {
        /// Where.
        path: PathBuf,
        /// What is wrong.
        reason: score::ScoreError,
    },
    /// The score with the plan in it cannot be written.
    #[error("--score-out {}: {reason}; the plan itself is told above", path.display())]
    ScoreOut {
        /// Where.
        path: PathBuf,
        /// What is wrong, and what to do.
        reason: String,
    },
    /// An earlier check cannot be read.
    #[error("--before {}: {reason}; it is a file of what 'sevenflats regulation --json' printed", path.display())]
    Before {
        /// Where.
        path: PathBuf,
        /// What is wrong.
        reason: String,
    },
    /// The table cannot be written.
    #[error("--csv {}: {reason}; check that the folder is there, that you may write to it, and that the disk is not full", path.display())]
    Csv {
        /// Where.
        path: PathBuf,
        /// What the system says.
        reason: std::io::Error,
    },
    /// The printed sheet cannot be written.
    #[error("--sheet {}: {reason}; all else is told above", path.display())]
    Sheet {
        /// Where.
        path: PathBuf,
        /// What is wrong.
        reason: String,
    },
    /// An evening's file that cannot be read or followed.
    #[error("{}: {reason}", path.display())]
    Evening {
        /// Where.
        path: PathBuf,
        /// What is wrong, in which line, and what to do.
        reason: String,
    },
    /// A piece of the evening of which something could not be read.
    #[error("piece {number} ({title}): {reason}")]
    Piece {
        /// Its number, from 1.
        number: usize,
        /// Its title.
        title: String,
        /// What is wrong.
        reason: String,
    },
    /// A string said to be broken that no harp of the evening has.
    #[error("{string}: no harp of the evening has this string")]
    NoHarpHas {
        /// What was named.
        string: harp::StringName,
    },
    /// A file of prices that cannot be used.
    #[error("--weights {}: {reason}", path.display())]
    Prices {
        /// Where.
        path: PathBuf,
        /// What is wrong.
        reason: String,
    },
    /// An option that this harp has no use for.
    #[error("{0}")]
    NotForThisHarp(&'static str),
    /// A string said to be broken that the harp does not have.
    #[error("{string}: this harp's strings run from {lowest} to {highest}, and it is none of them")]
    Missing {
        /// What was named.
        string: harp::StringName,
        /// The harp's lowest.
        lowest: harp::StringName,
        /// The harp's highest.
        highest: harp::StringName,
    },
    /// A place named with `--pin` at which nothing begins.
    #[error(
        "--pin {measure}:{beat}: nothing begins there; measures are counted from 1 as they are written, beats in quarters from 1"
    )]
    NoSuchPlace {
        /// The measure.
        measure: u32,
        /// The beat.
        beat: String,
    },
    /// The diary's file.
    #[error("{0}")]
    Diary(store::StoreError),
    /// No folder for the diary is known.
    #[error(
        "this system names no folder for the data of programs: say where the diary lies with --diary"
    )]
    NoHome,
    /// A file of records that cannot be read.
    #[error("{}: this cannot be read: {reason}; check its name and that you may read it", path.display())]
    ImportFile {
        /// Where.
        path: PathBuf,
        /// What the system says.
        reason: std::io::Error,
    },
    /// A line that is no record.
    #[error("{name}, {trouble}")]
    ImportLine {
        /// The file.
        name: String,
        /// Which line, and why.
        trouble: ::diary::LineTrouble,
    },
    /// A file of records that cannot be written.
    #[error("{}: {}", path.display(), of_export(reason))]
    Export {
        /// Where.
        path: PathBuf,
        /// What the system says.
        reason: std::io::Error,
    },
    /// A harp that the diary does not know.
    #[error("--harp {name}: the diary knows no harp of this name; 'diary show' lists them")]
    NoHarpInDiary {
        /// What was given.
        name: String,
    },
    /// A diary without a harp.
    #[error("the diary knows no harp yet: the first round writes it")]
    NoHarpYet,
    /// A harp whose strings were never written down.
    #[error(
        "{name}: the diary has no file of this harp yet, so its strings are not known; the first round writes it"
    )]
    NoHarpFile {
        /// The harp.
        name: String,
    },
    /// Something is missing or damaged, as was said.
    #[error("{}: not all is as it should be: see above", path.display())]
    NotWhole {
        /// The diary.
        path: PathBuf,
    },
    /// The command was built without the page.
    #[error(
        "there is no page inside this command: `cargo xtask page` makes it, and the next `cargo build` puts it inside"
    )]
    NoPage,
    /// The port that was named cannot be had.
    #[error("--port {port}: {}", of_port(reason))]
    Port {
        /// Which.
        port: u16,
        /// What the system says.
        reason: std::io::Error,
    },
    /// None of the ports that are tried by themselves can be had.
    #[error("no port from {first} to {last} can be had; name another, or --port 0 for any")]
    Ports {
        /// The first that was tried.
        first: u16,
        /// The last.
        last: u16,
    },
    /// The page cannot be served.
    #[error("the page cannot be served: {0}")]
    Serve(std::io::Error),
    /// The answer cannot be written.
    #[error("the answer cannot be written: {0}")]
    Write(#[from] std::io::Error),
}

impl Trouble {
    /// The exit code that tells of it.
    pub fn exit_code(&self) -> u8 {
        match self {
            Trouble::Harp(_)
            | Trouble::NoSuchHarp { .. }
            | Trouble::NoSuchString { .. }
            | Trouble::Rate(_)
            | Trouble::Prices { .. }
            | Trouble::NotForThisHarp(_)
            | Trouble::Missing { .. }
            | Trouble::NoHarpHas { .. }
            | Trouble::NoSuchPlace { .. }
            | Trouble::NoHarpInDiary { .. }
            | Trouble::Held {
                reason: signal::HeldError::Pitch { .. },
                ..
            } => NOT_UNDERSTOOD,
            // Whoever read the answer has read enough of it.
            Trouble::Write(reason) if reason.kind() == std::io::ErrorKind::BrokenPipe => DONE,
            _ => NOT_READ,
        }
    }
}

fn of_held(reason: &signal::HeldError) -> String {
    match reason {
        signal::HeldError::Pitch { about_hz } => format!(
            "the note after --take-a would be about {about_hz:.0} Hz, which is not followed at this sampling rate, or at none: name one between 20 and 5,000 Hz"
        ),
        other => other.to_string(),
    }
}

fn of_export(reason: &std::io::Error) -> String {
    use std::io::ErrorKind as Kind;
    match reason.kind() {
        Kind::AlreadyExists => {
            "there is a file of this name already, and it is not overwritten; name another"
                .to_owned()
        }
        Kind::StorageFull | Kind::QuotaExceeded | Kind::FileTooLarge => format!(
            "the disk is full ({reason}); nothing was left of this file: make room, and do it again"
        ),
        _ => format!("this cannot be written: {reason}"),
    }
}

fn of_port(reason: &std::io::Error) -> String {
    match reason.kind() {
        std::io::ErrorKind::AddrInUse => "another program listens there: stop it, name another port, or leave --port out to have the next that is free".to_owned(),
        std::io::ErrorKind::PermissionDenied => "the system keeps it for itself: name one from 1024 up".to_owned(),
        _ => reason.to_string(),
    }
}

fn known_harps() -> String {
    harp::BUILT_IN
        .iter()
        .map(|built_in| built_in.name)
        .collect::<Vec<_>>()
        .join(", ")
}
