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
use crate::serve::page::{File, Form, Page};
use crate::serve::policy;
use crate::serve::tag;

/// For a file whose name changes with its content (RFC 9111, 5.2.2; RFC 8246).
const FOR_EVER: &str = "public, max-age=31536000, immutable";
/// For all others: keep it, but ask first (RFC 9111, 5.2.2.4).
const ASK_FIRST: &str = "no-cache";

/// What is answered to a request at this port. To whoever calls us by another name than this
/// machine's own, nothing is shown: a page from elsewhere could have had its name pointed here.
/// To HEAD the answer is that to GET; whoever sends it leaves its content out (RFC 9110, 9.3.2).
pub fn answer<B>(page: &Page, port: u16, request: &Request<B>) -> Response<Bytes> {
    let mut answer = match called(request) {
        None => words(
            StatusCode::BAD_REQUEST,
            "A request names one host, and this one does not.".to_owned(),
        ),
        Some(name) if !address::is_ours(name, port) => words(
            StatusCode::MISDIRECTED_REQUEST,
            format!(
                "This page is for this machine alone; its address is {}",
                address::of(port)
            ),
        ),
        Some(_) => asked(page, request),
    };
    policy::forbid(answer.headers_mut());
    answer
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
    let mut answer = Response::new(Bytes::new());
    *answer.status_mut() = status;
    put(&mut answer, CONTENT_TYPE, "text/plain; charset=utf-8");
    put(&mut answer, CACHE_CONTROL, ASK_FIRST);
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
