//! What can go wrong with a file, and what to do about it.

use std::path::{Path, PathBuf};

use diary::{AppendError, ReadError};
use rusqlite::ErrorCode;

/// Why nothing was done. The diary is as it was.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// It may not be read or written.
    #[error(
        "{}: this may not be opened or written ({reason}); look who owns the file and its folder, or name another place",
        path.display()
    )]
    Denied {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// No room is left.
    #[error(
        "{}: this cannot be written, as on a full disk ({reason}); the diary is as it was: make room, and do it again",
        path.display()
    )]
    Full {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// Some other file.
    #[error(
        "{}: this is no diary of this program; name the right file (a text with a record on each line is taken in by 'import')",
        path.display()
    )]
    NotADiary {
        /// The file.
        path: PathBuf,
    },
    /// A newer program wrote it.
    #[error(
        "{}: a newer version of this program wrote this diary (its form is {found}, this one knows {known}); use that version, or a newer one",
        path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// The number of its form.
        found: i64,
        /// The highest that is known here.
        known: i64,
    },
    /// The file is damaged.
    #[error(
        "{}: the file is damaged ({reason}); leave it as it is, take the newest backup with 'restore', or another device's export with 'import'",
        path.display()
    )]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What was found.
        reason: String,
    },
    /// Another program writes.
    #[error(
        "{}: another program is writing this diary; wait until it is done, or stop it",
        path.display()
    )]
    Busy {
        /// The file.
        path: PathBuf,
    },
    /// A file is in the way.
    #[error("{}: there is a file of this name already, and it is not overwritten; name another", path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// There is no such file.
    #[error("{}: there is no such file", path.display())]
    Missing {
        /// The file.
        path: PathBuf,
    },
    /// An entry cannot be written as a record.
    #[error(transparent)]
    Append(#[from] AppendError),
    /// A line that was kept is no record any more.
    #[error("{}: a record in it cannot be read: {reason}; 'check' says which", path.display())]
    Line {
        /// The file.
        path: PathBuf,
        /// Why not.
        reason: ReadError,
    },
    /// Anything else.
    #[error("{}: {reason}", path.display())]
    Other {
        /// The file.
        path: PathBuf,
        /// What was said.
        reason: String,
    },
}

impl StoreError {
    /// What SQLite says of a file.
    pub(crate) fn of(path: &Path, error: &rusqlite::Error) -> Self {
        let (path, reason) = (path.to_owned(), error.to_string());
        match error.sqlite_error_code() {
            // a limit on the size of files is told as a failure to write
            Some(ErrorCode::DiskFull | ErrorCode::SystemIoFailure) => Self::Full { path, reason },
            Some(ErrorCode::CannotOpen | ErrorCode::PermissionDenied | ErrorCode::ReadOnly) => {
                Self::Denied { path, reason }
            }
            Some(ErrorCode::NotADatabase) => Self::NotADiary { path },
            Some(ErrorCode::DatabaseCorrupt) => Self::Damaged { path, reason },
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy { path },
            _ => Self::Other { path, reason },
        }
    }

    /// What the system says of a file.
    pub(crate) fn of_io(path: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind as Kind;
        let (path, reason) = (path.to_owned(), error.to_string());
        match error.kind() {
            Kind::PermissionDenied | Kind::ReadOnlyFilesystem => Self::Denied { path, reason },
            Kind::StorageFull | Kind::QuotaExceeded | Kind::FileTooLarge => {
                Self::Full { path, reason }
            }
            Kind::NotFound => Self::Missing { path },
            Kind::AlreadyExists => Self::Exists { path },
            _ => Self::Other { path, reason },
        }
    }

    /// The same of another file, where it is of this one.
    pub(crate) fn of_file(mut self, this: &Path, other: &Path) -> Self {
        let (Self::Denied { path, .. }
        | Self::Full { path, .. }
        | Self::NotADiary { path }
        | Self::Newer { path, .. }
        | Self::Damaged { path, .. }
        | Self::Busy { path }
        | Self::Exists { path }
        | Self::Missing { path }
        | Self::Line { path, .. }
        | Self::Other { path, .. }) = &mut self
        else {
            return self;
        };
        if path == this {
            other.clone_into(path);
        }
        self
    }
}
