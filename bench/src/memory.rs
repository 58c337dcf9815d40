//! Peak memory of the command on an hour-long file.

use std::fs::{self, File};
use std::io::{BufRead, BufReader, BufWriter, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::Duration;

use pluck::RATE_HZ;

use crate::ringing_round;
use crate::trouble::Trouble;

const HOUR_S: usize = 3600;
/// How often the system is asked.
const ASK_EVERY: Duration = Duration::from_millis(20);
const KIB: f64 = 1024.0;

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Memory {
    /// Most memory that was resident at once, in MiB.
    pub peak_mib: f64,
    /// Plucks in the command's own summary.
    pub plucks: usize,
    /// Length of the file in seconds.
    pub file_s: usize,
}

/// Writes an hour of round after round as 16-bit WAV, mono, 48 kHz.
///
/// # Errors
/// What the disk refuses.
pub fn write_hour(path: &Path, seed: u64) -> Result<(), Trouble> {
    let round = ringing_round::samples(seed)?;
    let file = File::create(path).map_err(Trouble::at(path))?;
    let mut file = BufWriter::new(file);
    let length = HOUR_S * RATE_HZ as usize;
    file.write_all(&wav_head(length as u32))
        .map_err(Trouble::at(path))?;
    for x in round.iter().cycle().take(length) {
        let sample = (f64::from(*x) * 32767.0).round().clamp(-32768.0, 32767.0) as i16;
        file.write_all(&sample.to_le_bytes())
            .map_err(Trouble::at(path))?;
    }
    file.flush().map_err(Trouble::at(path))
}

/// Runs `sevenflats hear --json FILE` and asks the system for its high-water mark until it ends (Linux only).
///
/// # Errors
/// The command does not start, fails, or ends without a summary that counts plucks; or the system does not tell.
pub fn measure(command: &Path, file: &Path) -> Result<Memory, Trouble> {
    let trouble = |what: String| Trouble::Program {
        program: command.display().to_string(),
        what,
    };
    let mut child = Command::new(command)
        .args(["hear", "--json"])
        .arg(file)
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|error| trouble(error.to_string()))?;
    let lines = child
        .stdout
        .take()
        .map(|out| thread::spawn(move || last_line(out)));
    let peak_kib = watch(&mut child).map_err(trouble)?;
    let summary = lines
        .and_then(|lines| lines.join().ok())
        .unwrap_or_default();
    let plucks =
        plucks_in(&summary).ok_or_else(|| trouble(format!("no summary but '{summary}'")))?;
    Ok(Memory {
        peak_mib: peak_kib / KIB,
        plucks,
        file_s: HOUR_S,
    })
}

/// Most KiB resident at once, until the child has ended well.
fn watch(child: &mut Child) -> Result<f64, String> {
    let status_path = format!("/proc/{}/status", child.id());
    let mut peak = None;
    loop {
        let mark = fs::read_to_string(&status_path).ok();
        peak = mark.as_deref().and_then(high_water_kib).or(peak);
        match child.try_wait().map_err(|error| error.to_string())? {
            Some(status) if status.success() => {
                return peak.ok_or_else(|| "the system does not tell its memory".to_owned());
            }
            Some(status) => return Err(status.to_string()),
            None => thread::sleep(ASK_EVERY),
        }
    }
}

fn last_line(out: impl std::io::Read) -> String {
    let lines = BufReader::new(out).lines().map_while(Result::ok);
    lines.last().unwrap_or_default()
}

/// `VmHWM` of /proc/PID/status, the peak resident set (proc(5)).
fn high_water_kib(status: &str) -> Option<f64> {
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.split_whitespace().next()?.parse().ok()
}

/// The count in `{"kind":"summary","plucks":12,…}`; none of a summary without plucks.
fn plucks_in(line: &str) -> Option<usize> {
    let rest = line.split_once(r#""kind":"summary""#)?.1;
    let rest = rest.split_once(r#""plucks":"#)?.1;
    let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
    digits.parse().ok().filter(|plucks| *plucks > 0)
}

/// Canonical 44-byte head of a PCM file (Microsoft and IBM, *Multimedia Programming Interface and Data Specifications 1.0*, 1991).
fn wav_head(samples: u32) -> Vec<u8> {
    let bytes = samples * 2;
    let mut head = Vec::with_capacity(44);
    head.extend(b"RIFF");
    head.extend((36 + bytes).to_le_bytes());
    head.extend(b"WAVEfmt ");
    head.extend(16u32.to_le_bytes());
    head.extend(1u16.to_le_bytes());
    head.extend(1u16.to_le_bytes());
    head.extend(RATE_HZ.to_le_bytes());
    head.extend((RATE_HZ * 2).to_le_bytes());
    head.extend(2u16.to_le_bytes());
    head.extend(16u16.to_le_bytes());
    head.extend(b"data");
    head.extend(bytes.to_le_bytes());
    head
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_high_water_mark_is_read() {
        let status = "Name:\tx\nVmPeak:\t  9000 kB\nVmHWM:\t    5120 kB\nVmRSS:\t 4000 kB\n";
        assert_eq!(high_water_kib(status), Some(5120.0));
        assert_eq!(high_water_kib("Name:\tx\n"), None);
    }

    #[test]
    fn a_summary_without_plucks_is_none() {
        let line = r#"{"kind":"summary","plucks":1740,"readings":1700}"#;
        assert_eq!(plucks_in(line), Some(1740));
        assert_eq!(plucks_in(r#"{"kind":"summary","plucks":0}"#), None);
        assert_eq!(plucks_in(r#"{"kind":"reading","plucks":3}"#), None);
    }

    #[test]
    fn the_head_is_44_bytes_and_says_the_length() {
        let head = wav_head(48_000);
        assert_eq!(
            (head.len(), &head[40..44]),
            (44, &96_000u32.to_le_bytes()[..])
        );
    }

    #[test]
    fn a_program_that_fails_is_no_measurement() {
        assert!(measure(Path::new("/bin/false"), Path::new("x")).is_err());
        assert!(measure(Path::new("/bin/true"), Path::new("x")).is_err());
    }
}
