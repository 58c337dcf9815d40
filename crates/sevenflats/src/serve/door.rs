//! Who may come to the diary: the page of this address, and no other, by whatever way a browser can be made to ask.

use hyper::header::{CONTENT_TYPE, HOST, HeaderMap, HeaderName, ORIGIN};
use hyper::{Method, Request, StatusCode};

/// What is held, told shortly.
pub const HAVE: &str = "/diary/have";
/// Records in, records out.
pub const EXCHANGE: &str = "/diary/exchange";
/// What is sent there: a line each. No form of a page can send it (Fetch, 2.2.2: what needs no leave to be asked for).
pub const LINES: &str = "application/x-ndjson";

/// How a browser tells whose page asks (Fetch Metadata Request Headers, 2.3); others need not tell.
const SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// What is asked of the diary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// What it holds.
    Have,
    /// That both give each other what is lacking.
    Exchange,
}

/// Why somebody is not let in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Refused {
    /// The status to answer with.
    pub status: StatusCode,
    /// The one method that is taken here, where it was another.
    pub allow: Option<&'static str>,
    /// Why, in words.
    pub why: &'static str,
}

/// What a request asks of the diary; none where it is not about it. The name by which we are called was looked at before.
pub fn asked<B>(request: &Request<B>) -> Option<Result<Asked, Refused>> {
    let (asked, allow) = match request.uri().path() {
        HAVE => (Asked::Have, Method::GET),
        EXCHANGE => (Asked::Exchange, Method::POST),
        _ => return None,
    };
    let known =
        *request.method() == allow || (allow == Method::GET && *request.method() == Method::HEAD);
    Some(if known {
        guarded(asked, request.headers()).map(|()| asked)
    } else {
        Err(Refused {
            status: StatusCode::METHOD_NOT_ALLOWED,
            allow: Some(if allow == Method::GET {
                "GET, HEAD"
            } else {
                "POST"
            }),
            why: "Of the diary one asks by GET what it has, and gives it records by POST.",
        })
    })
}

fn guarded(asked: Asked, headers: &HeaderMap) -> Result<(), Refused> {
    let refused = |status, why| {
        Err(Refused {
            status,
            allow: None,
            why,
        })
    };
    let site = headers.get(SITE).map(|site| site.as_bytes());
    // an address that was typed has no page behind it: it may read
    let typed = asked == Asked::Have && site == Some(b"none");
    let is_own = site.is_none_or(|site| site == b"same-origin") || typed;
    let origin = headers.get(ORIGIN).map(|origin| origin.as_bytes());
    let ours = |origin: &[u8]| {
        headers
            .get(HOST)
            .is_some_and(|host| is_at(origin, host.as_bytes()))
    };
    let named = match asked {
        // browsers leave it out where a page reads what is its own
        Asked::Have => origin.is_none_or(ours),
        Asked::Exchange => origin.is_some_and(ours),
    };
    if !is_own || !named {
        return refused(
            StatusCode::FORBIDDEN,
            "The diary is for the page of this address, and this request is another's.",
        );
    }
    if asked == Asked::Exchange && !sends_lines(headers) {
        return refused(
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
            "Records are sent as application/x-ndjson, a line each.",
        );
    }
    Ok(())
}

/// Whether an origin is the page at this host (RFC 6454, 6.2): http, and the host as it was called.
fn is_at(origin: &[u8], host: &[u8]) -> bool {
    let called = origin.strip_prefix(b"http://");
    called.is_some_and(|called| called.eq_ignore_ascii_case(host))
}

fn sends_lines(headers: &HeaderMap) -> bool {
    let said = headers
        .get(CONTENT_TYPE)
        .and_then(|said| said.to_str().ok());
    let said = said.and_then(|said| said.split(';').next());
    said.is_some_and(|said| said.trim().eq_ignore_ascii_case(LINES))
}

#[cfg(test)]
mod tests {
    use super::*;

    const OURS: [(&str, &str); 3] = [
        ("host", "localhost:4747"),
        ("origin", "http://localhost:4747"),
        ("content-type", LINES),
    ];

    #[track_caller]
    fn check(method: &str, path: &str, changed: &[(&str, &str)], status: Option<u16>) {
        let mut request = Request::builder().method(method).uri(path);
        let kept = OURS
            .iter()
            .filter(|(name, _)| changed.iter().all(|(other, _)| other != name));
        for (name, value) in kept.chain(changed).filter(|(_, value)| !value.is_empty()) {
            request = request.header(*name, *value);
        }
        let asked = asked(&request.body(()).unwrap()).unwrap();
        let refused = asked.err().map(|refused| refused.status.as_u16());
        assert_eq!(refused, status, "{method} {path} {changed:?}");
    }

    #[test]
    fn the_page_of_this_address_comes_in() {
        check("GET", HAVE, &[("origin", ""), ("content-type", "")], None);
        check("HEAD", HAVE, &[("origin", "")], None);
        check(
            "GET",
            HAVE,
            &[("sec-fetch-site", "none"), ("origin", "")],
            None,
        );
        check("POST", EXCHANGE, &[], None);
        check("POST", EXCHANGE, &[("sec-fetch-site", "same-origin")], None);
        check(
            "POST",
            EXCHANGE,
            &[("content-type", "application/x-ndjson; charset=utf-8")],
            None,
        );
        let other = ("host", "127.0.0.1:4747");
        check(
            "POST",
            EXCHANGE,
            &[other, ("origin", "http://127.0.0.1:4747")],
            None,
        );
    }

    #[test]
    fn no_other_page_does() {
        for origin in [
            "",
            "null",
            "http://elsewhere.example",
            "http://localhost:4748",
            "https://localhost:4747",
            "http://localhost:4747.elsewhere.example",
            "http://127.0.0.1:4747",
        ] {
            check("POST", EXCHANGE, &[("origin", origin)], Some(403));
        }
        check(
            "GET",
            HAVE,
            &[("origin", "http://localhost:4748")],
            Some(403),
        );
        for site in ["cross-site", "same-site", "none", "whatever"] {
            check("POST", EXCHANGE, &[("sec-fetch-site", site)], Some(403));
        }
        // another port of this machine is the same site to a browser, and not the same page
        check(
            "GET",
            HAVE,
            &[("sec-fetch-site", "same-site"), ("origin", "")],
            Some(403),
        );
    }

    /// The three types that a form sends (HTML, 4.10.18.6), and none.
    #[test]
    fn no_form_does() {
        for sent in [
            "application/x-www-form-urlencoded",
            "multipart/form-data",
            "text/plain",
            "",
        ] {
            check("POST", EXCHANGE, &[("content-type", sent)], Some(415));
        }
    }

    #[test]
    fn each_is_asked_in_one_way() {
        check("POST", HAVE, &[], Some(405));
        check("GET", EXCHANGE, &[], Some(405));
        check("DELETE", EXCHANGE, &[], Some(405));
        let elsewhere = Request::builder().uri("/diary").body(()).unwrap();
        assert!(asked(&elsewhere).is_none());
    }
}
