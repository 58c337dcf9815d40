//! Files: what they are, how long they may be kept, and what is not one.

use crate::made_up::{FILES, serving, text};
use crate::wire::{Reply, ask, get};

const FOR_EVER: &str = "public, max-age=31536000, immutable";
const ASK_FIRST: &str = "no-cache";

/// Whatever is there arrives whole, with its length, date and kind.
fn check(port: u16, path: &str, name: &str, kind: &str, keep: &str) {
    let reply = get(port, path, &[]);
    let header = |name: &str| reply.header(name);
    assert_eq!(reply.status, 200, "{path}");
    assert_eq!(reply.body, text(name), "{path}");
    // RFC 9110, 8.3; X-Content-Type-Options makes it count.
    assert_eq!(header("content-type"), Some(kind), "{path}");
    // RFC 9111, 5.2.2; `immutable` is RFC 8246.
    assert_eq!(header("cache-control"), Some(keep), "{path}");
    // RFC 9110, 8.6.
    let length = reply.body.len().to_string();
    assert_eq!(header("content-length"), Some(length.as_str()), "{path}");
    // RFC 9110, 6.6.1: a server with a clock tells it.
    assert!(header("date").unwrap().ends_with(" GMT"), "{reply:?}");
    // RFC 9110, 12.5.5: another browser might have been given another form.
    assert_eq!(header("vary"), Some("accept-encoding"), "{path}");
    // RFC 9110, 8.8.3: strong, so without W/.
    assert!(header("etag").unwrap().starts_with('"'), "{reply:?}");
    assert_eq!(header("content-encoding"), None, "{path}");
}

/// Media types: RFC 9239 (JavaScript), RFC 8081 (fonts), the WebAssembly Web API, the Web Application
/// Manifest, RFC 8259 (JSON, which has no charset), IANA's registry for the others.
#[test]
fn a_file_says_what_it_is_and_how_long_it_may_be_kept() {
    let port = serving();
    let check = |name: &str, kind, keep| check(port, &format!("/{name}"), name, kind, keep);
    let script = "text/javascript; charset=utf-8";
    check("index.html", "text/html; charset=utf-8", ASK_FIRST);
    check("sw.js", script, ASK_FIRST);
    check(
        "manifest.webmanifest",
        "application/manifest+json",
        ASK_FIRST,
    );
    check("icon.svg", "image/svg+xml", ASK_FIRST);
    check("assets/index-D3fXa9Qb.js", script, FOR_EVER);
    check(
        "assets/index-B_x3-fQa.css",
        "text/css; charset=utf-8",
        FOR_EVER,
    );
    check("assets/tune_bg-Ck2pLw07.wasm", "application/wasm", FOR_EVER);
    check("assets/serif-3fa94c1b22.woff2", "font/woff2", FOR_EVER);
    check("later/desk_bg-Dd2pLw07.wasm", "application/wasm", FOR_EVER);
    // Names that do not change with what is inside: kept for ever they would be stale for ever.
    check(
        "assets/licences.txt",
        "text/plain; charset=utf-8",
        ASK_FIRST,
    );
    check("later/first-lessons.json", "application/json", ASK_FIRST);
}

#[test]
fn the_root_is_the_first_page_and_a_query_changes_nothing() {
    let port = serving();
    let html = "text/html; charset=utf-8";
    for path in [
        "/",
        "/?source=installed",
        "/index.html?x=/../y",
        "/%69ndex.html",
    ] {
        check(port, path, "index.html", html, ASK_FIRST);
    }
}

/// RFC 9110, 9.3.2: the same headers as for GET, and no content.
#[test]
fn head_tells_all_but_the_content() {
    let port = serving();
    for (path, lines) in [
        ("/", &[][..]),
        ("/assets/index-D3fXa9Qb.js", &["Accept-Encoding: br"]),
        ("/nothing", &[]),
    ] {
        let told = |reply: &Reply| {
            [
                "content-type",
                "content-length",
                "content-encoding",
                "etag",
                "vary",
                "cache-control",
            ]
            .map(|name| reply.header(name).map(str::to_owned))
        };
        let head = ask(port, "HEAD", path, lines);
        let get = get(port, path, lines);
        assert_eq!(
            (head.status, told(&head)),
            (get.status, told(&get)),
            "{path}"
        );
        assert_eq!((head.body.as_str(), get.body.is_empty()), ("", false));
    }
}

/// RFC 9110, 15.5.5. Only what is in the page is there: no folder, no other case, no packed form by
/// itself, and no way out (CWE-22), however it is spelled.
#[test]
fn what_is_not_in_the_page_is_not_there() {
    let port = serving();
    for path in [
        "/nothing",
        "/assets",
        "/assets/",
        "/Index.html",
        "//index.html",
        "/./index.html",
        "/assets/../index.html",
        "/assets/index-D3fXa9Qb.js.br",
        "/assets/index-D3fXa9Qb.js.gz",
        "/../Cargo.toml",
        "/../../../../../../../../etc/passwd",
        "/..%2f..%2f..%2fetc/passwd",
        "/%2e%2e/Cargo.toml",
        "/%2e%2e%2fCargo.toml",
        "/%252e%252e/Cargo.toml",
        "/..\\Cargo.toml",
        "/..%5cCargo.toml",
        "/index.html%00.js",
        "/%",
        "/%zz",
        "/%ff",
    ] {
        let reply = get(port, path, &[]);
        assert_eq!(reply.status, 404, "{path}");
        assert_eq!(
            reply.header("content-type"),
            Some("text/plain; charset=utf-8")
        );
        assert_eq!(reply.header("cache-control"), Some(ASK_FIRST));
        assert_eq!(
            reply.body,
            "There is nothing at this address; the page begins at /.\n"
        );
    }
}

#[test]
fn every_file_is_there_and_many_come_over_one_connection() {
    let port = serving();
    let names = FILES.map(|(name, _)| name);
    let packed = |name: &str| name.ends_with(".br") || name.ends_with(".gz");
    let names: Vec<&str> = names.into_iter().filter(|name| !packed(name)).collect();
    // RFC 9112, 9.3: a connection stays until one side closes it.
    let last = names.len() - 1;
    let asked: String = names
        .iter()
        .enumerate()
        .map(|(n, name)| {
            let close = if n == last {
                "Connection: close\r\n"
            } else {
                ""
            };
            format!("GET /{name} HTTP/1.1\r\nHost: localhost:{port}\r\n{close}\r\n")
        })
        .collect();
    let answered = crate::wire::say(port, &asked).body;
    let others = answered.matches("HTTP/1.1 200 OK\r\n").count();
    assert_eq!((others, names.len()), (last, 11), "{answered}");
    assert!(answered.ends_with(text(names[last])), "{answered}");
}
