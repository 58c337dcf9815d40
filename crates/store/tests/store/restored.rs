//! Backups, and the way back.

use store::{StoreError, restore};

use crate::samples::{Folder, note, now};

#[test]
fn a_backup_comes_back_under_a_new_name_and_the_present_diary_is_kept() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    store.append(&now(), &[note("before")]).unwrap();
    store.backup(&folder.file("backup.sqlite")).unwrap();
    store.append(&now(), &[note("after")]).unwrap();
    let device = store.device().clone();
    drop(store);
    let backup = std::fs::read(folder.file("backup.sqlite")).unwrap();
    let done = restore(
        &folder.file("backup.sqlite"),
        &folder.file("diary.sqlite"),
        &now(),
    )
    .unwrap();
    assert_ne!(done.device, device);
    assert_eq!((done.looked.records, done.looked.is_whole()), (1, true));
    assert_eq!(
        folder.names(),
        [
            "backup.sqlite",
            "diary.kept-2026-11-26T200000Z.sqlite",
            "diary.sqlite"
        ]
    );
    assert_eq!(
        std::fs::read(folder.file("backup.sqlite")).unwrap(),
        backup,
        "not touched"
    );
    let mut restored = folder.open("diary.sqlite");
    assert_eq!(restored.device(), &done.device);
    assert_eq!(restored.append(&now(), &[note("anew")]).unwrap()[0].seq, 1);
    let kept = folder.open("diary.kept-2026-11-26T200000Z.sqlite");
    assert_eq!(kept.diary().unwrap().records().count(), 2);
    // both together lack nothing, and nothing stands against anything
    let mut out = Vec::new();
    kept.export(&mut out).unwrap().unwrap();
    let merged = restored.import(&out).unwrap().merged;
    assert_eq!(
        (merged.taken.len(), merged.known, merged.conflicts.len()),
        (1, 1, 0)
    );
    // once more in the same second: the kept one is not overwritten
    drop((restored, kept));
    let again = restore(
        &folder.file("backup.sqlite"),
        &folder.file("diary.sqlite"),
        &now(),
    )
    .unwrap();
    let name = again.kept.unwrap();
    assert!(
        name.ends_with("diary.kept-2026-11-26T200000Z-2.sqlite"),
        "{name:?}"
    );
}

#[test]
fn a_backup_is_never_written_over_a_file() {
    let folder = Folder::new();
    let store = folder.open("diary.sqlite");
    std::fs::write(folder.file("letter.txt"), "dear").unwrap();
    let error = store.backup(&folder.file("letter.txt")).unwrap_err();
    assert!(matches!(error, StoreError::Exists { .. }));
    assert_eq!(std::fs::read(folder.file("letter.txt")).unwrap(), b"dear");
}

#[test]
fn what_is_no_backup_changes_nothing() {
    let folder = Folder::new();
    let mut store = folder.open("diary.sqlite");
    store.append(&now(), &[note("a")]).unwrap();
    drop(store);
    std::fs::write(folder.file("letter.txt"), "dear").unwrap();
    for name in ["letter.txt", "none.sqlite"] {
        let error = restore(&folder.file(name), &folder.file("diary.sqlite"), &now()).unwrap_err();
        assert!(error.to_string().contains(name), "{error}");
        assert_eq!(folder.names(), ["diary.sqlite", "letter.txt"]);
        assert_eq!(
            folder
                .open("diary.sqlite")
                .diary()
                .unwrap()
                .records()
                .count(),
            1
        );
    }
}

#[test]
fn where_no_diary_is_a_backup_becomes_one() {
    let folder = Folder::new();
    let mut store = folder.open("backup.sqlite");
    store.append(&now(), &[note("a")]).unwrap();
    // it is still open: what stands in its journal comes too
    let done = restore(
        &folder.file("backup.sqlite"),
        &folder.file("diary.sqlite"),
        &now(),
    )
    .unwrap();
    assert_eq!((done.kept, done.looked.records), (None, 1));
}

#[test]
fn a_file_that_is_no_diary_any_more_is_kept_too() {
    let folder = Folder::new();
    folder
        .open("diary.sqlite")
        .backup(&folder.file("backup.sqlite"))
        .unwrap();
    std::fs::write(folder.file("diary.sqlite"), "spoilt").unwrap();
    let done = restore(
        &folder.file("backup.sqlite"),
        &folder.file("diary.sqlite"),
        &now(),
    )
    .unwrap();
    assert_eq!(std::fs::read(done.kept.unwrap()).unwrap(), b"spoilt");
}
