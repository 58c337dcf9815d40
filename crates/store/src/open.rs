//! Opening the file: made if it is not there, looked through if it is, brought to the form of today.

use std::path::{Path, PathBuf};
use std::time::Duration;

use diary::Device;
use rusqlite::Connection;

use crate::backup::copy_to;
use crate::error::StoreError;
use crate::migration::{self, Migration};

/// How long another writer is waited for.
const PATIENCE: Duration = Duration::from_secs(10);

/// The diary in its file. While it is open, others may read it, and write between our transactions.
#[derive(Debug)]
pub struct Store {
    pub(crate) connection: Connection,
    pub(crate) path: PathBuf,
    pub(crate) device: Device,
    /// which file it is, whatever the file's name is now
    pub(crate) file: Option<(u64, u64)>,
}

impl Store {
    /// Opens a diary; where there is none, makes a new one, and its folder.
    ///
    /// # Errors
    /// The file is none of this program's, or a newer one's, or damaged; or the disk refuses.
    pub fn open(path: &Path) -> Result<Store, StoreError> {
        Store::open_as(path, migration::ALL)
    }

    /// Opens a diary that is there.
    ///
    /// # Errors
    /// There is none; and as [`Store::open`].
    pub fn open_existing(path: &Path) -> Result<Store, StoreError> {
        if path.exists() {
            return Store::open(path);
        }
        Err(StoreError::Missing {
            path: path.to_owned(),
        })
    }

    pub(crate) fn open_as(path: &Path, all: &[Migration]) -> Result<Store, StoreError> {
        let failed = |error: rusqlite::Error| StoreError::of(path, &error);
        if let Some(folder) = path
            .parent()
            .filter(|folder| !folder.as_os_str().is_empty())
        {
            std::fs::create_dir_all(folder).map_err(|error| StoreError::of_io(folder, &error))?;
        }
        let mut connection = Connection::open(path).map_err(failed)?;
        connection.busy_timeout(PATIENCE).map_err(failed)?;
        let form = form(&connection, path, all)?;
        prepare(&connection).map_err(failed)?;
        if form > 0 {
            whole(&connection, path)?;
        }
        if let Some(next) = all.get(form).filter(|_| form > 0) {
            let before = beside(path, &format!("before-{}", next.name));
            if !before.exists() {
                copy_to(&connection, path, &before)?;
            }
        }
        migration::migrate(&mut connection, all).map_err(failed)?;
        let device = device(&connection).map_err(failed)?;
        let device = device
            .parse()
            .map_err(|error: diary::DeviceError| StoreError::Damaged {
                path: path.to_owned(),
                reason: error.to_string(),
            })?;
        Ok(Store {
            connection,
            path: path.to_owned(),
            device,
            file: file(path),
        })
    }

    /// The name under which this file writes its own records.
    pub fn device(&self) -> &Device {
        &self.device
    }

    pub(crate) fn failed(&self, error: &rusqlite::Error) -> StoreError {
        StoreError::of(&self.path, error)
    }
}

/// Which file a name means: its disk and its number there; where the system has no such numbers it lets nobody move a file
/// that is open.
#[cfg(unix)]
pub(crate) fn file(path: &Path) -> Option<(u64, u64)> {
    use std::os::unix::fs::MetadataExt;
    let known = std::fs::metadata(path).ok()?;
    Some((known.dev(), known.ino()))
}

/// Which file a name means.
#[cfg(not(unix))]
pub(crate) fn file(_: &Path) -> Option<(u64, u64)> {
    None
}

/// A file's name with a word put before its ending: `diary.sqlite`, `diary.before-….sqlite`.
pub(crate) fn beside(path: &Path, word: &str) -> PathBuf {
    let mut name = path.file_stem().unwrap_or_default().to_owned();
    name.push(format!(".{word}"));
    if let Some(ending) = path.extension() {
        name.push(".");
        name.push(ending);
    }
    path.with_file_name(name)
}

/// How many migrations the file has seen; refused where it is somebody else's, or of a newer program.
fn form(connection: &Connection, path: &Path, all: &[Migration]) -> Result<usize, StoreError> {
    let failed = |error: rusqlite::Error| StoreError::of(path, &error);
    let number = |pragma: &str| connection.pragma_query_value(None, pragma, |row| row.get(0));
    let application: i64 = number("application_id").map_err(failed)?;
    let found = migration::form_of(connection).map_err(failed)?;
    let tables = "SELECT count(*) FROM sqlite_schema";
    let tables: i64 = connection
        .query_row(tables, [], |row| row.get(0))
        .map_err(failed)?;
    let path = path.to_owned();
    if application != migration::APPLICATION_ID && (application != 0 || found != 0 || tables != 0) {
        return Err(StoreError::NotADiary { path });
    }
    let known = all.len() as i64;
    if found > known {
        return Err(StoreError::Newer { path, found, known });
    }
    Ok(usize::try_from(found).unwrap_or(0))
}

/// A journal beside the file, and every transaction on the disk before it is called done.
fn prepare(connection: &Connection) -> rusqlite::Result<()> {
    connection.pragma_update(None, "journal_mode", "wal")?;
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "foreign_keys", "on")
}

/// SQLite looks through all pages of the file.
fn whole(connection: &Connection, path: &Path) -> Result<(), StoreError> {
    let found: String = connection
        .query_row("PRAGMA quick_check(1)", [], |row| row.get(0))
        .map_err(|error| StoreError::of(path, &error))?;
    if found == "ok" {
        return Ok(());
    }
    Err(StoreError::Damaged {
        path: path.to_owned(),
        reason: found,
    })
}

/// The device's name; made at random where there is none yet: a UUID of version 4 (RFC 9562, section 5.4).
fn device(connection: &Connection) -> rusqlite::Result<String> {
    connection.execute(
        "INSERT OR IGNORE INTO own (name, value)
         SELECT 'device', substr(h, 1, 8) || '-' || substr(h, 9, 4) || '-4' || substr(h, 14, 3) || '-'
             || substr('89ab', 1 + (abs(random()) % 4), 1) || substr(h, 18, 3) || '-' || substr(h, 21, 12)
         FROM (SELECT lower(hex(randomblob(16))) AS h)",
        [],
    )?;
    connection.query_row("SELECT value FROM own WHERE name = 'device'", [], |row| {
        row.get(0)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_goes_before_the_ending() {
        let name = |path| beside(Path::new(path), "kept");
        assert_eq!(name("a/diary.sqlite"), Path::new("a/diary.kept.sqlite"));
        assert_eq!(name("diary"), Path::new("diary.kept"));
    }

    const SECOND: Migration = Migration {
        name: "2999-01-01-second",
        sql: "CREATE TABLE second (a TEXT) STRICT;",
    };
    const BAD: Migration = Migration {
        name: "2999-01-02-bad",
        sql: "CREATE TABLE third (a TEXT) STRICT; SELECT nothing FROM nowhere;",
    };

    #[test]
    fn a_backup_is_made_before_the_form_is_changed() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("diary.sqlite");
        let device = Store::open(&path).unwrap().device;
        let all = [migration::ALL, &[SECOND]].concat();
        assert_eq!(Store::open_as(&path, &all).unwrap().device, device);
        let before = folder.path().join("diary.before-2999-01-01-second.sqlite");
        assert_eq!(Store::open(&before).unwrap().device, device);
        // the older program does not touch the newer form
        let newer = Store::open(&path).unwrap_err();
        assert!(
            matches!(
                newer,
                StoreError::Newer {
                    found: 2,
                    known: 1,
                    ..
                }
            ),
            "{newer}"
        );
    }

    #[test]
    fn a_change_that_fails_changes_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("diary.sqlite");
        drop(Store::open(&path).unwrap());
        let all = [migration::ALL, &[SECOND, BAD]].concat();
        Store::open_as(&path, &all).unwrap_err();
        let store = Store::open_as(&path, &all[..2]).unwrap();
        let tables = "SELECT count(*) FROM sqlite_schema WHERE name IN ('second', 'third')";
        let tables: i64 = store
            .connection
            .query_row(tables, [], |r| r.get(0))
            .unwrap();
        assert_eq!(tables, 1, "the second was done, nothing of the third");
    }
}
