//! A backup takes the place of the diary, which is kept beside it.

use std::path::{Path, PathBuf};

use diary::{At, Device};

use crate::open::beside;
use crate::{Looked, Store, StoreError};

/// What was done.
#[derive(Debug)]
pub struct Restored {
    /// The new name under which the diary writes from now on: the old one may have written more than the backup knows.
    pub device: Device,
    /// Where the diary lies that was there before.
    pub kept: Option<PathBuf>,
    /// What the backup holds.
    pub looked: Looked,
}

/// Puts a copy of a backup in the place of the diary. `now`: the time by this device's clock, for the name of the file that is
/// kept.
///
/// # Errors
/// The backup is none, or is damaged; or the disk refuses. Then the diary is as it was.
pub fn restore(backup: &Path, path: &Path, now: &At) -> Result<Restored, StoreError> {
    let coming = beside(path, "coming");
    clear(&coming)?;
    let done = prepared(backup, &coming, now)
        .map_err(|error| error.of_file(&coming, backup))
        .and_then(|(device, looked)| Ok((device, looked, keep(path, now)?)));
    let done = done.and_then(|(device, looked, kept)| {
        put_in_place(&coming, path)?;
        Ok(Restored {
            device,
            kept,
            looked,
        })
    });
    if done.is_err() {
        clear(&coming)?;
    }
    done
}

/// A copy of the backup, looked through, with a name of its own.
fn prepared(backup: &Path, coming: &Path, now: &At) -> Result<(Device, Looked), StoreError> {
    // the backup itself is not touched, not even its form
    for ending in ["", "-wal"] {
        let (from, to) = (with(backup, ending), with(coming, ending));
        if ending.is_empty() || from.exists() {
            std::fs::copy(&from, &to).map_err(|error| StoreError::of_io(&from, &error))?;
        }
    }
    let store = Store::open(coming)?;
    let looked = store.check(now)?;
    if !looked.file.is_empty() || !looked.damaged.is_empty() {
        return Err(StoreError::Damaged {
            path: backup.to_owned(),
            reason: looked.file.join("; "),
        });
    }
    let renew = "DELETE FROM own WHERE name = 'device'";
    store
        .connection
        .execute(renew, [])
        .map_err(|error| store.failed(&error))?;
    drop(store);
    let store = Store::open(coming)?;
    settle(&store)?;
    Ok((store.device.clone(), looked))
}

/// The diary that is there gets a second name; the first is free for another then.
fn keep(path: &Path, now: &At) -> Result<Option<PathBuf>, StoreError> {
    if !path.exists() {
        return Ok(None);
    }
    let stamp: String = now.as_str().chars().filter(|c| *c != ':').collect();
    let mut kept = beside(path, &format!("kept-{stamp}"));
    for number in 2.. {
        if !kept.exists() {
            break;
        }
        kept = beside(path, &format!("kept-{stamp}-{number}"));
    }
    // what stands in the journal goes into the file; a file that cannot be opened is kept as it is
    if let Ok(store) = Store::open(path) {
        settle(&store)?;
    }
    std::fs::hard_link(path, &kept)
        .or_else(|_| std::fs::copy(path, &kept).map(|_| ()))
        .map_err(|error| StoreError::of_io(&kept, &error))?;
    for ending in ["-wal", "-shm"] {
        let (from, to) = (with(path, ending), with(&kept, ending));
        if from.exists() {
            std::fs::rename(&from, &to).map_err(|error| StoreError::of_io(&to, &error))?;
        }
    }
    Ok(Some(kept))
}

fn put_in_place(coming: &Path, path: &Path) -> Result<(), StoreError> {
    std::fs::rename(coming, path).map_err(|error| StoreError::of_io(path, &error))?;
    clear(coming)
}

fn settle(store: &Store) -> Result<(), StoreError> {
    let busy: i64 = store
        .connection
        .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get(0))
        .map_err(|error| store.failed(&error))?;
    match busy {
        0 => Ok(()),
        _ => Err(StoreError::Busy {
            path: store.path.clone(),
        }),
    }
}

/// Takes away a file that was being made, and its journal.
fn clear(path: &Path) -> Result<(), StoreError> {
    for ending in ["", "-wal", "-shm"] {
        let file = with(path, ending);
        if file.exists() {
            std::fs::remove_file(&file).map_err(|error| StoreError::of_io(&file, &error))?;
        }
    }
    Ok(())
}

fn with(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}
