//! Starting and stopping, as a person and a program see it: what is said, on which port, and how the
//! program ends. The server runs as a program of its own, so that a signal can be sent to it: the
//! program of these checks started once more.

use std::fs::File;
use std::io::{BufRead, BufReader, BufWriter, Read, Write};
use std::net::{Ipv4Addr, Ipv6Addr, TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use sevenflats::serve::arguments::ServeArguments;
use sevenflats::serve::page::Page;
use sevenflats::serve::{port, serve_page};
use tempfile::tempdir;

use crate::made_up::{page, text};
use crate::wire::get;

/// Tells the program of these checks that it is to be the server: with the words for it.
const SERVER: &str = "SEVENFLATS_TEST_SERVER";
/// Where that server is to write what it complains of.
const COMPLAINTS: &str = "SEVENFLATS_TEST_COMPLAINTS";

/// No check by itself: the server of the others, when it is started as that.
#[test]
fn the_server_of_the_other_checks() {
    let Ok(words) = std::env::var(SERVER) else {
        return;
    };
    let port = words.split(' ').next().and_then(|port| port.parse().ok());
    let json = words.ends_with("json");
    let mut err = File::create(std::env::var(COMPLAINTS).unwrap()).unwrap();
    // Behind a buffer, as in the command itself: what is not flushed is not seen.
    let mut out = BufWriter::new(std::io::stderr());
    serve_page(
        page(),
        &ServeArguments {
            port,
            json,
            no_diary: true,
            ..ServeArguments::default()
        },
        &mut out,
        &mut err,
    )
    .unwrap();
}

/// How long a line may take to come.
const WAIT: Duration = Duration::from_secs(60);

/// A server as a program of its own.
struct Server {
    child: Child,
    lines: Receiver<String>,
}

impl Server {
    fn start(words: &str, complaints: &Path) -> Server {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args([
                "--exact",
                "start_and_stop::the_server_of_the_other_checks",
                "--nocapture",
            ])
            .env(SERVER, words)
            .env(COMPLAINTS, complaints)
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let out = child.stderr.take().unwrap();
        Server::of(child, out)
    }

    /// A program that was started, and what it says, line by line as it says it.
    fn of(child: Child, out: impl Read + Send + 'static) -> Server {
        let (tell, lines) = channel();
        std::thread::spawn(move || {
            for line in BufReader::new(out).lines() {
                // Nobody may be left to be told.
                let _ = tell.send(line.unwrap());
            }
        });
        Server { child, lines }
    }

    /// Its next line.
    fn line(&self) -> String {
        self.lines.recv_timeout(WAIT).unwrap()
    }

    /// Whatever it says until it says no more.
    fn rest(&self) -> Vec<String> {
        self.lines.iter().collect()
    }

    /// Sends a signal and waits: the exit code, none where the signal itself was the end.
    fn stop(&mut self, signal: &str) -> Option<i32> {
        let kill = format!("kill -{signal} {}", self.child.id());
        assert!(
            Command::new("sh")
                .args(["-c", &kill])
                .status()
                .unwrap()
                .success()
        );
        self.child.wait().unwrap().code()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // Where a check failed half-way.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn port_of(url: &str) -> u16 {
    let port = url
        .strip_prefix("http://localhost:")
        .and_then(|rest| rest.strip_suffix('/'));
    port.unwrap_or_else(|| panic!("no address: {url:?}"))
        .parse()
        .unwrap()
}

#[cfg(unix)]
#[test]
fn a_person_reads_the_address_and_how_to_stop() {
    let folder = tempdir().unwrap();
    let complaints = folder.path().join("err");
    for signal in ["TERM", "INT"] {
        let mut server = Server::start("0", &complaints);
        let port = port_of(&server.line());
        assert_eq!(
            server.line(),
            "Open it in a browser on this machine; Ctrl-C here stops it."
        );
        assert_eq!(get(port, "/", &[]).body, text("index.html"));
        assert_eq!(server.stop(signal), Some(0), "{signal}");
        assert!(server.rest().is_empty(), "{signal}");
        assert_eq!(std::fs::read_to_string(&complaints).unwrap(), "");
        assert!(TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_err());
    }
}

#[cfg(unix)]
#[test]
fn a_program_reads_one_object() {
    let folder = tempdir().unwrap();
    let mut server = Server::start("0 json", &folder.path().join("err"));
    let line = server.line();
    let object: serde_json::Value = serde_json::from_str(&line).unwrap();
    let port = object["port"].as_u64().unwrap();
    let url = format!("http://localhost:{port}/");
    assert_eq!(
        line,
        format!("{{\"kind\":\"serving\",\"url\":\"{url}\",\"port\":{port}}}")
    );
    assert_eq!(server.stop("TERM"), Some(0));
    assert!(server.rest().is_empty());
}

/// Browsers keep connections open that they do not use, and one may be in the middle of a request.
#[cfg(unix)]
#[test]
fn a_browser_that_stays_does_not_keep_it_from_stopping() {
    let folder = tempdir().unwrap();
    let mut server = Server::start("0", &folder.path().join("err"));
    let port = port_of(&server.line());
    let mut idle = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
    let ask = format!("GET /sw.js HTTP/1.1\r\nHost: localhost:{port}\r\n\r\n");
    idle.write_all(ask.as_bytes()).unwrap();
    assert_eq!(idle.read(&mut [0; 15]).unwrap(), 15);
    let mut half = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
    half.write_all(b"GET / HTTP/1.1\r\nHo").unwrap();
    let from = Instant::now();
    assert_eq!(server.stop("TERM"), Some(0));
    assert!(
        from.elapsed() < Duration::from_secs(10),
        "{:?}",
        from.elapsed()
    );
}

#[cfg(unix)]
#[test]
fn without_a_port_it_is_the_usual_one_or_the_next_that_is_free() {
    let folder = tempdir().unwrap();
    let complaints = folder.path().join("err");
    // Taken by us, or by whoever has it already.
    let _taken = TcpListener::bind((Ipv4Addr::LOCALHOST, port::USUAL));
    let mut server = Server::start("", &complaints);
    let port = port_of(&server.line());
    assert!((4748..=4767).contains(&port), "{port}");
    assert_eq!(get(port, "/", &[]).status, 200);
    assert_eq!(
        std::fs::read_to_string(&complaints).unwrap(),
        format!(
            "sevenflats: port 4747 is taken, so it is {port} this time; a browser keeps things by the address, and what the page kept at 4747 is not seen from here\n"
        )
    );
    assert_eq!(server.stop("TERM"), Some(0));
}

#[test]
fn a_port_that_was_named_and_is_taken_is_a_trouble() {
    let taken = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap();
    let port = taken.local_addr().unwrap().port();
    let trouble = port::listen(Some(port)).unwrap_err();
    assert_eq!(trouble.exit_code(), 1);
    assert_eq!(
        trouble.to_string(),
        format!(
            "--port {port}: another program listens there: stop it, name another port, or leave --port out to have the next that is free"
        )
    );
    let (_, next) = port::first_free(port).unwrap();
    assert!(next > port && next - port <= 20, "{next} after {port}");
}

/// A browser sent to `localhost` may try ::1 before 127.0.0.1, and would find the other program.
#[test]
fn a_port_that_another_has_in_ipv6_is_taken_too() {
    let Ok(other) = TcpListener::bind((Ipv6Addr::LOCALHOST, 0)) else {
        return; // A machine without IPv6.
    };
    let port = other.local_addr().unwrap().port();
    assert!(port::listen(Some(port)).is_err());
}

#[test]
fn where_every_port_is_taken_it_is_said_which() {
    // Above the ports that systems give out by themselves on most machines, and small.
    let first = u16::MAX;
    let _taken = TcpListener::bind((Ipv4Addr::LOCALHOST, first));
    let trouble = port::first_free(first).unwrap_err();
    assert_eq!(trouble.exit_code(), 1);
    assert_eq!(
        trouble.to_string(),
        "no port from 65535 to 65535 can be had; name another, or --port 0 for any"
    );
}

const NO_PAGE: &str = "there is no page inside this command: `cargo xtask page` makes it, and the next `cargo build` puts it inside";

#[test]
fn without_a_page_it_says_which_command_makes_it() {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let arguments = ServeArguments {
        port: Some(0),
        no_diary: true,
        ..ServeArguments::default()
    };
    let trouble = serve_page(Page::default(), &arguments, &mut out, &mut err).unwrap_err();
    assert_eq!(
        (trouble.exit_code(), trouble.to_string().as_str()),
        (1, NO_PAGE)
    );
    assert!(out.is_empty() && err.is_empty());
}

/// The command itself, in whichever way it was built: with the page inside it serves that, without
/// one it says so.
#[cfg(unix)]
#[test]
fn the_command_serves_what_is_inside() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_sevenflats"))
        .args(["serve", "--port", "0", "--no-diary"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    if Page::inside().is_there() {
        let out = child.stdout.take().unwrap();
        let mut server = Server::of(child, out);
        let port = port_of(&server.line());
        let first = get(port, "/", &[]);
        assert_eq!(first.status, 200);
        assert!(first.body.contains("<html"), "{}", first.body);
        assert_eq!(server.stop("INT"), Some(0));
    } else {
        let output = child.wait_with_output().unwrap();
        assert_eq!(output.status.code(), Some(1));
        assert!(output.stdout.is_empty());
        let err = String::from_utf8(output.stderr).unwrap();
        assert_eq!(err, format!("sevenflats: {NO_PAGE}\n"));
    }
}

#[test]
fn a_port_that_is_none_is_not_understood() {
    for port in ["65536", "http", ""] {
        let folder = tempdir().unwrap();
        let run = crate::command::run(folder.path(), &["serve", "--port", port], b"");
        assert_eq!(run.code, Some(2), "{port}: {}", run.err);
        assert!(run.err.contains("--port"), "{}", run.err);
    }
}
