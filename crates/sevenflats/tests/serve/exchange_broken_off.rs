//! A server that is killed in the middle, and one whose disk is full: what was called taken is there, and what was not is
//! still in the page.
//!
//! The test starts itself again as the server. Killed twenty times; with `SEVENFLATS_LONG` two hundred.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use sevenflats::serve::keeper::Keeper;
use sevenflats::serve::{port, server};
use store::Store;
use tempfile::tempdir;

use crate::a_page::APage;
use crate::made_up::page;

/// Where the server keeps its diary: said to the test that is started again.
const FILE: &str = "SEVENFLATS_TEST_DIARY";

/// No check by itself: the server of the others. Without a file it has nothing to do.
#[test]
fn the_server_with_a_diary() {
    let Ok(path) = std::env::var(FILE) else {
        return;
    };
    let (listener, port) = port::listen(Some(0)).unwrap();
    println!("\nport {port}");
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .unwrap();
    let keeper = Keeper::new(Path::new(&path));
    let never = std::future::pending::<()>();
    runtime
        .block_on(server::serve_until(page(), Some(keeper), listener, never))
        .unwrap();
}

struct Server {
    child: Child,
    port: u16,
}

impl Server {
    /// A program of its own, under a limit on the size of files, in blocks of 512 bytes, where one is given.
    fn start(path: &Path, blocks: Option<u32>) -> Server {
        let limit = blocks.map_or_else(String::new, |blocks| {
            format!("trap '' XFSZ; ulimit -f {blocks}; ")
        });
        let mut child = Command::new("sh")
            .args(["-c", &format!("{limit}exec \"$0\" \"$@\"")])
            .arg(std::env::current_exe().unwrap())
            .args([
                "exchange_broken_off::the_server_with_a_diary",
                "--exact",
                "--nocapture",
            ])
            .env(FILE, path)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap())
            .lines()
            .map_while(Result::ok);
        let port = lines
            .find_map(|line| line.strip_prefix("port ")?.parse().ok())
            .unwrap();
        std::thread::spawn(move || lines.count());
        Server { child, port }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

fn held(path: &Path) -> usize {
    let store = Store::open(path).unwrap();
    assert!(
        store
            .check(&"2026-12-26T18:40:00Z".parse().unwrap())
            .unwrap()
            .file
            .is_empty()
    );
    store.diary().unwrap().records().count()
}

#[test]
fn a_server_that_is_killed_in_the_middle_loses_nothing() {
    let times = if std::env::var("SEVENFLATS_LONG").is_ok() {
        200
    } else {
        20
    };
    let folder = tempdir().unwrap();
    let path = folder.path().join("diary.sqlite");
    let mut phone = APage::new("phone");
    let (text, mut broken_off) = ("x".repeat(3_000), 0);
    for time in 0..times {
        for minute in 0..60 {
            phone.note(&format!("2026-11-26T18:{minute:02}:00Z"), &text);
        }
        let server = Server::start(&path, None);
        let (port, pid) = (server.port, server.child.id());
        // not always at the same point
        let wait = Duration::from_micros(1_700 * (time % 23));
        let killer = std::thread::spawn(move || {
            std::thread::sleep(wait);
            let kill = Command::new("kill")
                .args(["-KILL", &pid.to_string()])
                .status();
            assert!(kill.unwrap().success());
        });
        let before = if path.exists() { held(&path) } else { 0 };
        let came = phone.exchange(port, None);
        killer.join().unwrap();
        drop(server);
        let there = if path.exists() { held(&path) } else { 0 };
        assert!(there >= before, "{before} were there, {there} are");
        match came {
            Ok(_) => assert_eq!(there, phone.lines().len()),
            Err(_) => broken_off += 1,
        }
        assert_eq!(phone.diary.gaps(), []);
    }
    assert!(broken_off > 0, "the server was never killed in time");
    // what the last one did not get is lacking still, and goes with the next
    let server = Server::start(&path, None);
    phone.exchange(server.port, None).unwrap();
    assert_eq!(phone.lines().len(), 60 * times as usize);
    assert_eq!(held(&path), phone.lines().len());
}

#[test]
fn a_full_disk_is_named_and_nothing_is_lost() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("diary.sqlite");
    let mut phone = APage::new("phone");
    let text = "x".repeat(100_000);
    for minute in 0..40 {
        phone.note(&format!("2026-11-26T18:{minute:02}:00Z"), &text);
    }
    let before = phone.lines();
    let server = Server::start(&path, Some(2_000));
    let trouble = phone.exchange(server.port, None).unwrap_err();
    assert_eq!(trouble["trouble"], "full", "{trouble}");
    assert!(
        trouble["why"].as_str().unwrap().contains("make room"),
        "{trouble}"
    );
    drop(server);
    assert_eq!(phone.lines(), before);
    assert!(held(&path) < 40);
    // room again
    let server = Server::start(&path, None);
    phone.exchange(server.port, None).unwrap();
    assert_eq!(held(&path), 40);
}
