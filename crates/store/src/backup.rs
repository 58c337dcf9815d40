//! A copy of the diary, whole at one moment, while others may go on writing.

use std::path::Path;

use rusqlite::Connection;

use crate::open::beside;
use crate::{Store, StoreError};

impl Store {
    /// Copies the diary into a new file.
    ///
    /// # Errors
    /// There is a file of that name; or the disk refuses, and no half of a copy is left.
    pub fn backup(&self, to: &Path) -> Result<(), StoreError> {
        copy_to(&self.connection, &self.path, to)
    }
}

pub(crate) fn copy_to(connection: &Connection, from: &Path, to: &Path) -> Result<(), StoreError> {
    if to.exists() {
        return Err(StoreError::Exists {
            path: to.to_owned(),
        });
    }
    let half = beside(to, "half");
    let name = half.to_str().ok_or_else(|| StoreError::Other {
        path: to.to_owned(),
        reason: "the name of a backup must be text".to_owned(),
    })?;
    // what a copy left that was interrupted
    let _ = std::fs::remove_file(&half);
    let copied = connection.execute("VACUUM INTO ?1", [name]);
    let copied = copied.map_err(|error| match StoreError::of(to, &error) {
        StoreError::Damaged { reason, .. } => StoreError::Damaged {
            path: from.to_owned(),
            reason,
        },
        other => other,
    });
    let done = copied.and_then(|_| {
        let synced = std::fs::File::open(&half).and_then(|file| file.sync_all());
        let renamed = synced.and_then(|()| std::fs::rename(&half, to));
        renamed.map_err(|error| StoreError::of_io(to, &error))
    });
    if done.is_err() {
        let _ = std::fs::remove_file(&half);
    }
    done
}
