//! The form of the file: what was changed in it, one day after the other. What stands here is never edited; a test holds it.

use rusqlite::Connection;

/// A change of the form.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Migration {
    /// The day, and what it is about: the name of its file.
    pub(crate) name: &'static str,
    /// What is done.
    pub(crate) sql: &'static str,
}

/// All of them, in order. A file's form is how many of them it has seen.
pub(crate) const ALL: &[Migration] = &[Migration {
    name: "2026-11-26-records",
    sql: include_str!("../migrations/2026-11-26-records.sql"),
}];

/// By this a file says that it is a diary: '7flt' as a number, after the name of the project.
pub(crate) const APPLICATION_ID: i64 = 0x3766_6c74;

/// How many migrations a file has seen.
pub(crate) fn form_of(connection: &Connection) -> rusqlite::Result<i64> {
    connection.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Does what a file has not seen, each in a transaction of its own.
pub(crate) fn migrate(connection: &mut Connection, all: &[Migration]) -> rusqlite::Result<()> {
    let seen = usize::try_from(form_of(connection)?).unwrap_or(0);
    for (form, migration) in all.iter().enumerate().skip(seen) {
        let change = connection.transaction()?;
        change.execute_batch(migration.sql)?;
        change.pragma_update(None, "application_id", APPLICATION_ID)?;
        change.pragma_update(None, "user_version", form as i64 + 1)?;
        change.commit()?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use sha2::{Digest, Sha256};

    use super::*;

    /// SHA-256 (FIPS 180-4) of every file that was ever given away. Nothing in this list is changed, only added.
    const HELD: [(&str, &str); 1] = [(
        "2026-11-26-records",
        "bbaf6248762a8c4aa431c488d023cbbe6e03c077ed782e23c1f44fd33ddd741f",
    )];

    #[test]
    fn no_migration_was_edited() {
        let found: Vec<(&str, String)> = ALL
            .iter()
            .map(|m| (m.name, format!("{:x}", Sha256::digest(m.sql))))
            .collect();
        let held: Vec<(&str, String)> = HELD.map(|(n, h)| (n, h.to_owned())).to_vec();
        assert_eq!(found, held);
    }

    #[test]
    fn every_file_of_the_folder_is_in_the_list_in_the_order_of_days() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/migrations");
        let mut files: Vec<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|file| file.unwrap().file_name().into_string().unwrap())
            .collect();
        files.sort();
        let names: Vec<String> = ALL.iter().map(|m| format!("{}.sql", m.name)).collect();
        assert_eq!(files, names);
        assert!(ALL.is_sorted_by_key(|m| m.name));
    }
}
