//! `sevenflats diary check` and `restore`: what is whole, what is missing, what to do.

use std::io::Write;
use std::path::Path;

use ::diary::{ClockSeen, Gap};
use store::{Looked, Store};

use super::arguments::FileArguments;
use super::{json, place};
use crate::trouble::Trouble;

/// Looks through the diary; a trouble where it is not whole.
pub(super) fn check(path: &Path, json: bool, out: &mut dyn Write) -> Result<Vec<Trouble>, Trouble> {
    let looked = Store::open_existing(path)?.check(&place::now())?;
    match json {
        true => json::line(&json::CheckedLine::of(&looked), out)?,
        false => told(&looked, out)?,
    }
    Ok(not_whole(path, &looked))
}

/// Puts a backup in the diary's place.
pub(super) fn restore(
    path: &Path,
    from: &FileArguments,
    out: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    let restored = store::restore(&from.file, path, &place::now())?;
    if from.json.json {
        json::line(&json::RestoredLine::of(&restored), out)?;
        return Ok(Vec::new());
    }
    writeln!(
        out,
        "{}: the backup, {} records, is the diary now. It writes under a new name, {}.",
        path.display(),
        restored.looked.records,
        restored.device
    )?;
    if let Some(kept) = &restored.kept {
        writeln!(
            out,
            "The diary that was there is kept as {}. What only that one has: export it with --diary, and import that here.",
            kept.display()
        )?;
    }
    told(&restored.looked, out)?;
    Ok(Vec::new())
}

fn not_whole(path: &Path, looked: &Looked) -> Vec<Trouble> {
    match looked.is_whole() {
        true => Vec::new(),
        false => vec![Trouble::NotWhole {
            path: path.to_owned(),
        }],
    }
}

fn told(looked: &Looked, out: &mut dyn Write) -> std::io::Result<()> {
    let diary = &looked.diary;
    writeln!(
        out,
        "{} records of {} devices.",
        looked.records,
        diary.devices.len()
    )?;
    for (device, count) in &diary.devices {
        writeln!(out, "  {device}: {count}")?;
    }
    for found in &looked.file {
        writeln!(
            out,
            "The file is damaged: {found}. Take the newest backup with 'restore'."
        )?;
    }
    for (place, reason) in &looked.damaged {
        writeln!(
            out,
            "{place}: the record is damaged: {reason}. A backup or another device has it whole."
        )?;
    }
    for place in &looked.displaced {
        writeln!(
            out,
            "{place}: the record that stands there is another's. Take the newest backup with 'restore'."
        )?;
    }
    for Gap { device, from, to } in &diary.gaps {
        let places = if from == to {
            format!("{from}")
        } else {
            format!("{from} to {to}")
        };
        writeln!(
            out,
            "{device} {places}: written there and not here. Export from that device once more, and import it."
        )?;
    }
    for id in &diary.twins {
        writeln!(
            out,
            "{id}: two records claim this place. Both are kept, the earlier is used; note what the other says, if it was right."
        )?;
    }
    for clock in &diary.clocks {
        clock_told(clock, out)?;
    }
    match diary.not_understood.len() {
        0 => {}
        1 => writeln!(
            out,
            "1 record is of a newer version of this program: kept, passed on, not shown."
        )?,
        count => writeln!(
            out,
            "{count} records are of a newer version of this program: kept, passed on, not shown."
        )?,
    }
    match looked.is_whole() {
        true => writeln!(out, "Nothing is missing."),
        false => Ok(()),
    }
}

pub(super) fn clock_told(clock: &ClockSeen, out: &mut dyn Write) -> std::io::Result<()> {
    match clock {
        ClockSeen::PutBack { record, by_s } => writeln!(
            out,
            "{record}: by its clock this was written {} before the record before it. The order is kept by number; look at that device's clock.",
            long(*by_s)
        ),
        ClockSeen::Ahead { record, by_s } => writeln!(
            out,
            "{record}: by its clock this was written {} from now. Look at that device's clock, and at this one's.",
            long(*by_s)
        ),
    }
}

/// A length of time in the largest unit of which it has one and a half.
fn long(seconds: f64) -> String {
    const UNITS: [(f64, &str); 3] = [(86_400.0, "days"), (3_600.0, "hours"), (60.0, "minutes")];
    let unit = UNITS.iter().find(|(length, _)| seconds >= 1.5 * length);
    let (length, name) = unit.copied().unwrap_or((60.0, "minutes"));
    format!("{:.0} {name}", seconds / length)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_said_in_round_units() {
        assert_eq!(long(301.0), "5 minutes");
        assert_eq!(long(86_400.0), "24 hours");
        assert_eq!(long(30.0 * 86_400.0), "30 days");
    }
}
