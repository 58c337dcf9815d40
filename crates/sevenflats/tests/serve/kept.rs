//! What a browser keeps: RFC 9110, 13.1.2 (If-None-Match) and 15.4.5 (304).

use crate::made_up::{serving, text};
use crate::wire::{ask, get};

#[test]
fn what_is_kept_and_still_holds_is_not_sent_again() {
    let port = serving();
    for (path, accept) in [
        ("/", "Accept-Encoding: br"),
        ("/assets/index-D3fXa9Qb.js", "Accept-Encoding: br"),
        ("/assets/index-D3fXa9Qb.js", "Accept-Encoding: gzip"),
    ] {
        let whole = get(port, path, &[accept]);
        let tag = whole.header("etag").unwrap();
        for kept in [
            tag.to_owned(),
            format!("W/{tag}"),
            format!("\"other\", {tag}"),
            "*".to_owned(),
        ] {
            for method in ["GET", "HEAD"] {
                let line = format!("If-None-Match: {kept}");
                let reply = ask(port, method, path, &[accept, &line]);
                assert_eq!((reply.status, reply.body.as_str()), (304, ""), "{line}");
                // 15.4.5: what a 200 would have said of these is said here too.
                for name in ["etag", "vary", "cache-control"] {
                    assert_eq!(reply.header(name), whole.header(name), "{name}");
                }
                assert!(reply.header("date").is_some());
                // 8.6: no length, or that of the 200.
                let length = reply.header("content-length");
                assert!(
                    length.is_none() || length == whole.header("content-length"),
                    "{reply:?}"
                );
            }
        }
    }
}

#[test]
fn what_is_kept_and_no_longer_holds_is_sent() {
    let port = serving();
    let path = "/assets/index-D3fXa9Qb.js";
    let gzip = get(port, path, &["Accept-Encoding: gzip"]);
    let of_gzip = format!("If-None-Match: {}", gzip.header("etag").unwrap());
    for lines in [
        &["If-None-Match: \"other\""][..],
        &["If-None-Match: "],
        // The tag of another form is not that of this one.
        &["Accept-Encoding: br", &of_gzip],
        // We tell no date, so a date tells us nothing (13.1.3).
        &["If-Modified-Since: Sat, 29 Oct 2094 19:43:31 GMT"],
    ] {
        let reply = get(port, path, lines);
        assert_eq!(reply.status, 200, "{lines:?}");
    }
    assert_eq!(gzip.body, text("assets/index-D3fXa9Qb.js.gz"));
}
