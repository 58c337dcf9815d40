//! Files that are none, or not for this program, and what is said of them.

use store::{Store, StoreError};

use crate::samples::{Folder, note, now};

#[track_caller]
fn check(folder: &Folder, says: &str) -> StoreError {
    let error = Store::open(&folder.file("diary.sqlite")).unwrap_err();
    let said = error.to_string();
    assert!(said.contains(says), "{said}\nhas no '{says}'");
    assert!(said.contains("diary.sqlite"), "{said}");
    error
}

#[test]
fn a_text_or_a_picture_is_no_diary() {
    let folder = Folder::new();
    for bytes in [
        &b"{\"device\":\"phone\"}\n"[..],
        &[0x89, b'P', b'N', b'G'].repeat(1000),
    ] {
        std::fs::write(folder.file("diary.sqlite"), bytes).unwrap();
        check(&folder, "no diary of this program");
        assert_eq!(
            std::fs::read(folder.file("diary.sqlite")).unwrap(),
            bytes,
            "not touched"
        );
    }
}

#[test]
fn a_database_of_another_program_is_no_diary() {
    let folder = Folder::new();
    let other = rusqlite::Connection::open(folder.file("diary.sqlite")).unwrap();
    other.execute_batch("CREATE TABLE a (b)").unwrap();
    drop(other);
    check(&folder, "no diary of this program");
}

#[test]
fn a_diary_of_a_newer_program_is_not_touched() {
    let folder = Folder::new();
    drop(folder.open("diary.sqlite"));
    let newer = rusqlite::Connection::open(folder.file("diary.sqlite")).unwrap();
    newer.pragma_update(None, "user_version", 9).unwrap();
    drop(newer);
    let error = check(&folder, "use that version, or a newer one");
    assert!(matches!(error, StoreError::Newer { found: 9, .. }));
}

#[test]
fn a_damaged_file_is_named_and_left_as_it_is() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    let notes: Vec<_> = (0..400)
        .map(|n| note(&format!("{n} {}", "x".repeat(400))))
        .collect();
    store.append(&now(), &notes).unwrap();
    drop(store);
    let path = folder.file("diary.sqlite");
    let mut bytes = std::fs::read(&path).unwrap();
    let middle = bytes.len() / 2 / 4096 * 4096;
    bytes[middle..middle + 4096].fill(0xa5);
    std::fs::write(&path, &bytes).unwrap();
    check(&folder, "the file is damaged");
    assert_eq!(std::fs::read(&path).unwrap(), bytes);
}

#[test]
fn a_folder_that_cannot_be_made_is_named() {
    let folder = Folder::new();
    std::fs::write(folder.file("file"), "").unwrap();
    let error = Store::open(&folder.file("file/diary.sqlite")).unwrap_err();
    assert!(error.to_string().contains("file"), "{error}");
    let missing = Store::open_existing(&folder.file("none.sqlite")).unwrap_err();
    assert!(matches!(missing, StoreError::Missing { .. }));
    assert_eq!(folder.names(), ["file"], "nothing was made");
}

#[test]
fn a_line_that_was_damaged_inside_a_whole_file_is_found() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    store
        .append(&now(), &[note("a"), note("b"), note("c")])
        .unwrap();
    let other = rusqlite::Connection::open(folder.file("diary.sqlite")).unwrap();
    other
        .execute(
            "UPDATE record SET line = replace(line, '\"a\"', '\"a') WHERE seq = 1",
            [],
        )
        .unwrap();
    other
        .execute("UPDATE record SET seq = 7 WHERE seq = 3", [])
        .unwrap();
    let looked = store.check(&now()).unwrap();
    assert_eq!((looked.damaged.len(), looked.displaced.len()), (1, 1));
    assert!(looked.damaged[0].0.ends_with(" 1") && looked.displaced[0].ends_with(" 7"));
    assert!(!looked.is_whole());
}
