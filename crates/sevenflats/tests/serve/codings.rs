//! Packed forms: RFC 9110, 12.5.3 (Accept-Encoding), 8.4 (Content-Encoding), 12.5.5 (Vary), 8.8.3.3
//! (tags that differ between codings).

use std::collections::BTreeSet;

use crate::made_up::{serving, text};
use crate::wire::get;

const SCRIPT: &str = "/assets/index-D3fXa9Qb.js";

fn check(port: u16, lines: &[&str], coding: Option<&str>) {
    let suffix = match coding {
        Some("br") => ".br",
        Some("gzip") => ".gz",
        _ => "",
    };
    let reply = get(port, SCRIPT, lines);
    assert_eq!(reply.status, 200, "{lines:?}");
    assert_eq!(reply.header("content-encoding"), coding, "{lines:?}");
    assert_eq!(
        reply.body,
        text(&format!("{}{suffix}", &SCRIPT[1..])),
        "{lines:?}"
    );
    assert_eq!(reply.header("vary"), Some("accept-encoding"), "{lines:?}");
    // It is the script that is packed, and its kind is told (RFC 9110, 8.4).
    assert_eq!(
        reply.header("content-type"),
        Some("text/javascript; charset=utf-8")
    );
}

#[test]
fn a_file_comes_in_the_form_that_is_liked_best() {
    let port = serving();
    let check = |lines: &[&str], coding| check(port, lines, coding);
    check(&[], None);
    check(&["Accept-Encoding: gzip, deflate, br, zstd"], Some("br"));
    check(&["Accept-Encoding: gzip"], Some("gzip"));
    check(&["Accept-Encoding: x-gzip"], Some("gzip"));
    check(&["Accept-Encoding: deflate"], None);
    check(&["Accept-Encoding: "], None);
    check(&["Accept-Encoding: *"], Some("br"));
    check(&["Accept-Encoding: br;q=0, *"], Some("gzip"));
    check(&["Accept-Encoding: br;q=0, gzip;q=0"], None);
    check(&["Accept-Encoding: br;q=0.4, gzip;q=0.5"], Some("gzip"));
    check(
        &["Accept-Encoding: gzip;q=1.0, identity; q=0.5, *;q=0"],
        Some("gzip"),
    );
    check(&["Accept-Encoding: identity, br;q=0.9"], None);
    check(&["Accept-Encoding: GZIP"], Some("gzip"));
    check(
        &["Accept-Encoding: gzip", "Accept-Encoding: br"],
        Some("br"),
    );
    // What refuses everything still gets the file as it is, rather than nothing.
    check(&["Accept-Encoding: *;q=0"], None);
    check(&["Accept-Encoding: identity;q=0"], None);
}

#[test]
fn a_file_that_was_not_packed_comes_as_it_is() {
    let reply = get(serving(), "/", &["Accept-Encoding: br, gzip"]);
    assert_eq!(
        (reply.status, reply.header("content-encoding")),
        (200, None)
    );
    assert_eq!(reply.body, text("index.html"));
}

#[test]
fn each_form_has_a_tag_of_its_own() {
    let port = serving();
    let tags: BTreeSet<String> = ["br", "gzip", "identity"]
        .iter()
        .map(|coding| get(port, SCRIPT, &[&format!("Accept-Encoding: {coding}")]))
        .map(|reply| reply.header("etag").unwrap().to_owned())
        .collect();
    assert_eq!(tags.len(), 3, "{tags:?}");
}
