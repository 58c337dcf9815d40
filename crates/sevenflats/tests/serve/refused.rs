//! Requests that are refused: by their method, by the name they call us, by their form.

use std::io::Write;
use std::net::{Ipv4Addr, TcpStream};

use crate::made_up::{serving, text};
use crate::wire::{ask, get, say};

/// RFC 9110, 15.5.6: with what is allowed, in `Allow` (10.2.1).
#[test]
fn one_can_only_read() {
    let port = serving();
    for method in ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "BREW"] {
        for path in ["/", "/nothing"] {
            let reply = ask(port, method, path, &["Content-Length: 0"]);
            assert_eq!(reply.status, 405, "{method}");
            assert_eq!(reply.header("allow"), Some("GET, HEAD"), "{method}");
            assert_eq!(reply.body, "Here one can only read: GET or HEAD.\n");
        }
    }
}

fn called(port: u16, target: &str, hosts: &[&str]) -> (u16, String) {
    let hosts: String = hosts
        .iter()
        .map(|host| format!("Host: {host}\r\n"))
        .collect();
    let reply = say(
        port,
        &format!("GET {target} HTTP/1.1\r\n{hosts}Connection: close\r\n\r\n"),
    );
    (reply.status, reply.body)
}

/// A page elsewhere may have its own name point to 127.0.0.1 and then read what is here as its own;
/// the browser still tells that name in `Host`. 421 is RFC 9110, 15.5.20.
#[test]
fn a_name_that_is_not_this_machines_is_shown_nothing() {
    let port = serving();
    let sentence =
        format!("This page is for this machine alone; its address is http://localhost:{port}/\n");
    for host in [
        "elsewhere.example".to_owned(),
        format!("elsewhere.example:{port}"),
        format!("localhost.elsewhere.example:{port}"),
        format!("127.0.0.1.elsewhere.example:{port}"),
        format!("192.0.2.7:{port}"),
        format!("0.0.0.0:{port}"),
        format!("127.0.0.2:{port}"),
        format!("localhost:{}", port - 1),
        format!("localhost:{port}@elsewhere.example"),
        "localhost".to_owned(),
        "127.0.0.1".to_owned(),
        String::new(),
    ] {
        assert_eq!(
            called(port, "/", &[&host]),
            (421, sentence.clone()),
            "{host:?}"
        );
    }
    for host in ["localhost", "127.0.0.1", "[::1]", "LOCALHOST"] {
        let (status, body) = called(port, "/", &[&format!("{host}:{port}")]);
        assert_eq!((status, body.as_str()), (200, text("index.html")), "{host}");
    }
}

/// RFC 9112, 3.2: one `Host`, else 400. 3.2.2: a target that names the host outweighs it.
#[test]
fn one_host_is_named_and_the_target_outweighs_it() {
    let port = serving();
    let ours = format!("localhost:{port}");
    assert_eq!(called(port, "/", &[]).0, 400);
    assert_eq!(called(port, "/", &[&ours, &ours]).0, 400);
    assert_eq!(called(port, "/", &[&ours, "elsewhere.example"]).0, 400);
    assert_eq!(called(port, &format!("http://{ours}/"), &[&ours]).0, 200);
    assert_eq!(
        called(port, &format!("http://{ours}/"), &["elsewhere.example"]).0,
        200
    );
    assert_eq!(called(port, "http://elsewhere.example/", &[&ours]).0, 421);
}

#[test]
fn what_is_no_http_is_the_end_of_no_other() {
    let port = serving();
    for words in ["\0\0\0\r\n\r\n", "GET\r\n\r\n", "GET / HTTP/1.1\r\nHost"] {
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
        stream.write_all(words.as_bytes()).unwrap();
    }
    // Far above what any browser says, far below what would hurt.
    let long = format!("X-Long: {}", "x".repeat(200_000));
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
    let head = format!("GET / HTTP/1.1\r\nHost: localhost:{port}\r\n{long}\r\n\r\n");
    // Whether it can be said to the end is the server's affair.
    let _ = stream.write_all(head.as_bytes());
    assert_eq!(get(port, "/", &[]).status, 200);
}
