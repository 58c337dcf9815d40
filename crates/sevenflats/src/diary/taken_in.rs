//! `sevenflats diary import`.

use std::collections::BTreeSet;
use std::io::{Read, Write};
use std::path::Path;

use ::diary::{ClockSeen, Imported, LineTrouble, RecordId, clocks_ahead, records_of};
use store::Store;

use super::arguments::FileArguments;
use super::checked::clock_told;
use super::{json, place};
use crate::trouble::Trouble;

/// Largest file that is taken in, in bytes: far more than the events of a life.
const LARGEST: u64 = 4 << 30;

/// Takes in a file; gives a trouble for each of its lines that is no record.
pub(super) fn import(
    path: &Path,
    arguments: &FileArguments,
    input: &mut dyn FnMut() -> Box<dyn Read>,
    out: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    let name = arguments.file.display().to_string();
    let bytes = read(&arguments.file, input).map_err(|reason| Trouble::ImportFile {
        path: arguments.file.clone(),
        reason,
    })?;
    let (records, troubles) = records_of(&bytes);
    let merged = Store::open(path)?.merge(&records)?;
    // what was known before was warned of then
    let taken: BTreeSet<&RecordId> = merged.taken.iter().collect();
    let new = records.iter().filter(|record| taken.contains(record.id()));
    let ahead = clocks_ahead(new, &place::now());
    drop(taken);
    let imported = Imported { merged, troubles };
    match arguments.json.json {
        true => json::line(&json::TakenIn::of(&imported, &ahead), out)?,
        false => told(&name, &imported, &ahead, out)?,
    }
    let trouble = |trouble: LineTrouble| Trouble::ImportLine {
        name: name.clone(),
        trouble,
    };
    Ok(imported.troubles.into_iter().map(trouble).collect())
}

fn read(path: &Path, input: &mut dyn FnMut() -> Box<dyn Read>) -> std::io::Result<Vec<u8>> {
    let from: Box<dyn Read> = match path == Path::new("-") {
        true => input(),
        false => Box::new(std::fs::File::open(path)?),
    };
    let mut bytes = Vec::new();
    from.take(LARGEST).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn told(
    name: &str,
    imported: &Imported,
    ahead: &[ClockSeen],
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let merged = &imported.merged;
    writeln!(
        out,
        "{name}: {} records are new here, {} were here already.",
        merged.taken.len(),
        merged.known
    )?;
    for id in &merged.conflicts {
        writeln!(
            out,
            "{id}: another record has this place and says something else. Both are kept; the earlier is used."
        )?;
    }
    for clock in ahead {
        clock_told(clock, out)?;
    }
    match imported.troubles.len() {
        0 => Ok(()),
        1 => writeln!(out, "1 line is no record and was not taken: see below."),
        lines => writeln!(
            out,
            "{lines} lines are no records and were not taken: see below."
        ),
    }
}
