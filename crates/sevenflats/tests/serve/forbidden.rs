//! What every answer forbids: Content Security Policy Level 3, Permissions Policy, Fetch (nosniff,
//! Cross-Origin-Resource-Policy), Referrer Policy, HTML (Cross-Origin-Opener-Policy).

use std::collections::BTreeMap;

use crate::made_up::serving;
use crate::wire::{Reply, ask, get, say};

/// The directives of the policy, as CSP Level 3, 2.2.1 reads them.
fn directives(policy: &str) -> BTreeMap<&str, &str> {
    let directives = policy.split(';').map(str::trim);
    let directives: Vec<_> = directives.map(|one| one.split_once(' ').unwrap()).collect();
    let map: BTreeMap<_, _> = directives.iter().copied().collect();
    assert_eq!(
        map.len(),
        directives.len(),
        "the second of a name is ignored"
    );
    map
}

fn check(reply: &Reply) {
    let header = |name: &str| {
        reply
            .header(name)
            .unwrap_or_else(|| panic!("no {name}: {reply:?}"))
    };
    let expected = BTreeMap::from([
        ("default-src", "'none'"),
        ("script-src", "'self' 'wasm-unsafe-eval'"),
        ("style-src", "'self'"),
        ("img-src", "'self' data:"),
        ("font-src", "'self'"),
        ("connect-src", "'self'"),
        ("worker-src", "'self'"),
        ("manifest-src", "'self'"),
        ("media-src", "'self' blob:"),
        ("base-uri", "'none'"),
        ("form-action", "'none'"),
        ("frame-ancestors", "'none'"),
    ]);
    assert_eq!(directives(header("content-security-policy")), expected);
    assert_eq!(header("x-content-type-options"), "nosniff");
    assert_eq!(header("referrer-policy"), "no-referrer");
    assert_eq!(header("cross-origin-opener-policy"), "same-origin");
    assert_eq!(header("cross-origin-resource-policy"), "same-origin");
    let permissions: BTreeMap<&str, &str> = header("permissions-policy")
        .split(", ")
        .map(|one| one.split_once('=').unwrap())
        .collect();
    for (feature, allowed) in &permissions {
        let ours = ["microphone", "screen-wake-lock"].contains(feature);
        assert_eq!(*allowed, if ours { "(self)" } else { "()" }, "{feature}");
    }
    for feature in [
        "microphone",
        "screen-wake-lock",
        "camera",
        "geolocation",
        "usb",
        "midi",
    ] {
        assert!(permissions.contains_key(feature), "{feature}");
    }
}

#[test]
fn every_answer_forbids_what_the_page_has_no_need_of() {
    let port = serving();
    let replies = [
        (200, get(port, "/", &[])),
        (200, get(port, "/sw.js", &[])),
        (200, ask(port, "HEAD", "/", &[])),
        (304, get(port, "/", &["If-None-Match: *"])),
        (404, get(port, "/nothing", &[])),
        (405, ask(port, "POST", "/", &["Content-Length: 0"])),
        (
            400,
            say(port, "GET / HTTP/1.1\r\nConnection: close\r\n\r\n"),
        ),
        (
            421,
            say(
                port,
                "GET / HTTP/1.1\r\nHost: elsewhere.example\r\nConnection: close\r\n\r\n",
            ),
        ),
    ];
    for (status, reply) in replies {
        assert_eq!(reply.status, status, "{reply:?}");
        check(&reply);
        // It says nothing of itself that it need not, and opens itself to no other origin (Fetch, 3.3).
        for name in ["server", "access-control-allow-origin", "set-cookie"] {
            assert_eq!(reply.header(name), None, "{name}");
        }
    }
}
