//! `sevenflats diary`: the diary in its file, taken in, given out, shown, looked through, kept safe.

mod air;
pub mod arguments;
mod checked;
mod json;
mod known_json;
mod page;
pub(crate) mod place;
mod taken_in;

use std::io::{BufWriter, Read, Write};
use std::path::Path;

use ::diary::Giving;
use store::{Store, StoreError};

use crate::trouble::Trouble;
use arguments::{DiaryArguments, DiaryCommand, ExportArguments, ShowArguments};

/// Does what is asked; gives what could not be read, or is missing.
pub(crate) fn diary(
    arguments: &DiaryArguments,
    input: &mut dyn FnMut() -> Box<dyn Read>,
    out: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    let path = place::place(arguments.diary.as_ref())?;
    let troubles = match &arguments.command {
        DiaryCommand::Import(file) => taken_in::import(&path, file, input, out)?,
        DiaryCommand::Export(to) => {
            export(&path, to, out)?;
            Vec::new()
        }
        DiaryCommand::Show(asked) => {
            show(&path, asked, out)?;
            Vec::new()
        }
        DiaryCommand::Check(how) => checked::check(&path, how.json, out)?,
        DiaryCommand::Backup(to) => {
            Store::open_existing(&path)?.backup(&to.file)?;
            match to.json.json {
                true => json::line(&json::BackedUp::of(&to.file), out)?,
                false => writeln!(out, "{}: the diary, whole as it is now.", to.file.display())?,
            }
            Vec::new()
        }
        DiaryCommand::Restore(from) => checked::restore(&path, from, out)?,
    };
    out.flush()?;
    Ok(troubles)
}

/// To a file of its own, or to the answer.
fn export(path: &Path, asked: &ExportArguments, out: &mut dyn Write) -> Result<(), Trouble> {
    let store = Store::open_existing(path)?;
    let giving = asked.giving();
    let chosen = giving.as_ref().map(|giving| chosen(&store, giving));
    let chosen = chosen.transpose()?;
    let write = |to: &mut dyn Write| match &chosen {
        None => store.export(to),
        Some((lines, _)) => Ok(to
            .write_all(lines.concat().as_bytes())
            .map(|()| lines.len())),
    };
    let Some(to) = asked.file.as_deref() else {
        write(out)??;
        return Ok(());
    };
    let failed = |reason: std::io::Error| Trouble::Export {
        path: to.to_owned(),
        reason,
    };
    let file = std::fs::File::create_new(to).map_err(failed)?;
    let mut file = BufWriter::new(file);
    let written = write(&mut file)?.and_then(|count| {
        file.flush()?;
        file.get_ref().sync_all()?;
        Ok(count)
    });
    let count = written.map_err(|reason| {
        // half an export would be taken for a whole one
        let _ = std::fs::remove_file(to);
        failed(reason)
    })?;
    let not_understood = chosen.map(|(_, not_understood)| not_understood);
    if asked.json.json {
        json::line(&json::Exported::of(to, count, not_understood), out)?;
        return Ok(());
    }
    writeln!(out, "{}: {count} records.", to.display())?;
    if let Some(kept_back @ 1..) = not_understood {
        writeln!(
            out,
            "{kept_back} of a newer version of this program are left out: what they say is not known here."
        )?;
    }
    Ok(())
}

/// The lines that are to be given, with their ends, and how many records are not understood.
fn chosen(store: &Store, giving: &Giving) -> Result<(Vec<String>, usize), Trouble> {
    let diary = store.diary()?;
    if let Some(name) = &giving.harp
        && diary.known().harp(name).is_none()
    {
        return Err(Trouble::NoHarpInDiary { name: name.clone() });
    }
    let given = diary.given(giving);
    let lines = given.records.iter().map(|r| format!("{}\n", r.line()));
    Ok((lines.collect(), given.not_understood))
}

fn show(path: &Path, asked: &ShowArguments, out: &mut dyn Write) -> Result<(), Trouble> {
    let known = Store::open_existing(path)?.ends()?.known();
    if let Some(name) = &asked.harp
        && known.harp(name).is_none()
    {
        return Err(Trouble::NoHarpInDiary { name: name.clone() });
    }
    match asked.shown.json {
        true => known_json::write(&known, asked, out)?,
        false => page::write(&known, asked, out)?,
    }
    Ok(())
}

impl From<StoreError> for Trouble {
    fn from(error: StoreError) -> Self {
        Trouble::Diary(error)
    }
}
