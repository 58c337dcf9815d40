//! From a request to its answer. Nothing is touched here: the same page and request give the same
//! answer.

use hyper::body::Bytes;
use hyper::header::{
    ACCEPT_ENCODING, ALLOW, CACHE_CONTROL, CONTENT_ENCODING, CONTENT_LENGTH, CONTENT_TYPE, ETAG,
    HOST, HeaderName, HeaderValue, IF_NONE_MATCH, VARY,
};
use hyper::{Method, Request, Response, StatusCode};

use crate::serve::address;
use crate::serve::coding::Coding;
use crate::serve::door::{self, Asked};
use crate::serve::page::{File, Form, Page};
use crate::serve::policy;
use crate::serve::tag;

/// For a file whose name changes with its content (RFC 9111, 5.2.2; RFC 8246).
const FOR_EVER: &str = "public, max-age=31536000, immutable";
/// For all others: keep it, but ask first (RFC 9111, 5.2.2.4).
const ASK_FIRST: &str = "no-cache";
/// For what is hers alone (RFC 9111, 5.2.2.5).
const NOT_KEPT: &str = "no-store";

/// What is answered to a request at this port. To whoever calls us by another name than this
/// machine's own, nothing is shown: a page from elsewhere could have had its name pointed here.
/// To HEAD the answer is that to GET; whoever sends it leaves its content out (RFC 9110, 9.3.2).
pub fn answer<B>(page: &Page, port: u16, request: &Request<B>) -> Response<Bytes> {
    let mut answer = turned_away(port, request).unwrap_or_else(|| asked(page, request));
    policy::forbid(answer.headers_mut());
    answer
}

/// What is asked of the diary by a page that may; `Err`: what is answered to any other request. The host is looked at first,
/// whatever is asked.
///
/// # Errors
/// The answer, where the diary is not asked for, or not by the page of this address.
pub fn of_diary<B>(
    page: &Page,
    port: u16,
    request: &Request<B>,
) -> Result<Asked, Box<Response<Bytes>>> {
    let away = turned_away(port, request);
    let mut answer = match (away, door::asked(request)) {
        (Some(away), _) => away,
        (None, Some(Ok(asked))) => return Ok(asked),
        (None, Some(Err(refused))) => {
            let mut answer = words(refused.status, refused.why.to_owned());
            if let Some(allow) = refused.allow {
                put(&mut answer, ALLOW, allow);
            }
            answer
        }
        (None, None) => asked(page, request),
    };
    policy::forbid(answer.headers_mut());
    Err(Box::new(answer))
}

/// What is answered to whoever does not call us by our name.
fn turned_away<B>(port: u16, request: &Request<B>) -> Option<Response<Bytes>> {
    match called(request) {
        None => Some(words(
            StatusCode::BAD_REQUEST,
            "A request names one host, and this one does not.".to_owned(),
        )),
        Some(name) if !address::is_ours(name, port) => Some(words(
            StatusCode::MISDIRECTED_REQUEST,
            format!(
                "This page is for this machine alone; its address is {}",
                address::of(port)
            ),
        )),
        Some(_) => None,
    }
}

/// By what name we are called: in the target where it stands there, else in the one `Host` (RFC 9112,
/// 3.2 and 3.2.2).
fn called<B>(request: &Request<B>) -> Option<&str> {
    let mut hosts = request.headers().get_all(HOST).iter();
    let host = hosts.next()?.to_str().ok()?;
    if hosts.next().is_some() {
        return None;
    }
    let target = request.uri().authority();
    Some(target.map_or(host, |authority| authority.as_str()))
}

fn asked<B>(page: &Page, request: &Request<B>) -> Response<Bytes> {
    if request.method() != Method::GET && request.method() != Method::HEAD {
        let mut refused = words(
            StatusCode::METHOD_NOT_ALLOWED,
            "Here one can only read: GET or HEAD.".to_owned(),
        );
        put(&mut refused, ALLOW, "GET, HEAD");
        return refused;
    }
    let file = page.at(request.uri().path());
    let form = file.and_then(|file| file.form(&lines(request, ACCEPT_ENCODING)));
    match (file, form) {
        (Some(file), Some(form)) => {
            let kept = tag::is_named(&form.tag, &lines(request, IF_NONE_MATCH));
            sent(file, form, kept)
        }
        _ => words(
            StatusCode::NOT_FOUND,
            "There is nothing at this address; the page begins at /.".to_owned(),
        ),
    }
}

/// A file, or only that what is kept of it still holds, with the same headers (RFC 9110, 15.4.5).
fn sent(file: &File, form: &Form, kept: bool) -> Response<Bytes> {
    let mut answer = Response::new(Bytes::new());
    let keep = if file.for_ever { FOR_EVER } else { ASK_FIRST };
    put(&mut answer, CACHE_CONTROL, keep);
    put(&mut answer, VARY, "accept-encoding");
    put(&mut answer, ETAG, &form.tag);
    if kept {
        *answer.status_mut() = StatusCode::NOT_MODIFIED;
        return answer;
    }
    put(&mut answer, CONTENT_TYPE, file.media_type);
    if form.coding != Coding::Identity {
        put(&mut answer, CONTENT_ENCODING, form.coding.name());
    }
    put(&mut answer, CONTENT_LENGTH, &form.bytes.len().to_string());
    *answer.body_mut() = form.bytes.clone();
    answer
}

/// An answer in plain words.
fn words(status: StatusCode, sentence: String) -> Response<Bytes> {
    let text = sentence + "\n";
    made(status, "text/plain; charset=utf-8", ASK_FIRST, text.into())
}

/// An answer of the diary, which nobody between keeps.
pub(crate) fn said(status: StatusCode, media_type: &str, text: Vec<u8>) -> Response<Bytes> {
    let mut answer = made(status, media_type, NOT_KEPT, text);
    policy::forbid(answer.headers_mut());
    answer
}

fn made(status: StatusCode, media_type: &str, keep: &str, text: Vec<u8>) -> Response<Bytes> {
    let mut answer = Response::new(Bytes::new());
    *answer.status_mut() = status;
    put(&mut answer, CONTENT_TYPE, media_type);
    put(&mut answer, CACHE_CONTROL, keep);
    put(&mut answer, CONTENT_LENGTH, &text.len().to_string());
    *answer.body_mut() = Bytes::from(text);
    answer
}

/// The lines of one header that are text; others cannot be meant.
fn lines<B>(request: &Request<B>, name: HeaderName) -> Vec<&str> {
    let lines = request.headers().get_all(name).iter();
    lines.filter_map(|line| line.to_str().ok()).collect()
}

fn put(answer: &mut Response<Bytes>, name: HeaderName, value: &str) {
    // Every value is made here, of visible ASCII.
    if let Ok(value) = HeaderValue::from_str(value) {
        answer.headers_mut().insert(name, value);
    }
}
