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

use store::{Store, StoreError};

use crate::trouble::Trouble;
use arguments::{DiaryArguments, DiaryCommand, ShowArguments};

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
            export(&path, to.file.as_deref(), to.json.json, out)?;
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
fn export(path: &Path, to: Option<&Path>, json: bool, out: &mut dyn Write) -> Result<(), Trouble> {
    let store = Store::open_existing(path)?;
    let Some(to) = to else {
        store.export(out)??;
        return Ok(());
    };
    let failed = |reason: std::io::Error| Trouble::Export {
        path: to.to_owned(),
        reason,
    };
    let file = std::fs::File::create_new(to).map_err(failed)?;
    let mut file = BufWriter::new(file);
    let written = store.export(&mut file)?.and_then(|count| {
        file.flush()?;
        file.get_ref().sync_all()?;
        Ok(count)
    });
    let count = written.map_err(|reason| {
        // half an export would be taken for a whole one
        let _ = std::fs::remove_file(to);
        failed(reason)
    })?;
    match json {
        true => json::line(&json::Exported::of(to, count), out)?,
        false => writeln!(out, "{}: {count} records.", to.display())?,
    }
    Ok(())
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
