//! The diary beside the page: opened when it is asked for first, and kept open. Whatever goes wrong with its file is an
//! answer; the page keeps what it has.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use ::diary::{At, Moment};
use hyper::body::Bytes;
use hyper::header::{CONTENT_LENGTH, CONTENT_TYPE};
use hyper::{Response, StatusCode};
use serde::Serialize;
use store::{Store, StoreError};

use crate::serve::answer::said;
use crate::serve::door::{Asked, LINES};
use crate::serve::exchange::{self, LONGEST, NotDone};

/// Keeps the diary for all who ask.
#[derive(Clone, Debug)]
pub struct Keeper {
    path: PathBuf,
    open: Arc<Mutex<Option<Store>>>,
}

/// What is answered where nothing could be done.
#[derive(Serialize)]
struct TroubleLine {
    kind: &'static str,
    trouble: &'static str,
    why: String,
}

impl Keeper {
    /// Of a diary; it is made when the first record comes.
    pub fn new(path: &Path) -> Keeper {
        Keeper {
            path: path.to_owned(),
            open: Arc::default(),
        }
    }

    /// Where it lies.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What is answered to somebody who was let in. It may wait for another program, ten seconds at most.
    pub(crate) fn answer(&self, asked: Asked, request: &[u8]) -> Response<Bytes> {
        match self.done(asked, request) {
            Ok(lines) => said(StatusCode::OK, LINES, lines),
            Err(error) => {
                let (status, trouble) = told(&error);
                refused(status, trouble, error.to_string())
            }
        }
    }

    fn done(&self, asked: Asked, request: &[u8]) -> Result<Vec<u8>, NotDone> {
        // a store whose user went down in the middle has undone what was begun
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        let here = open.take().filter(Store::is_in_place);
        let mut store = match here {
            Some(store) => store,
            None => Store::open(&self.path)?,
        };
        let done = match asked {
            Asked::Have => exchange::have(&store, &now()),
            Asked::Exchange => exchange::exchange(&mut store, request, &now()),
        };
        // after a trouble with the file it is opened anew, and so looked through
        *open = Some(store).filter(|_| !matches!(done, Err(NotDone::Store(_))));
        done
    }
}

/// What is answered to a request that is longer than any can be.
pub(crate) fn too_long() -> Response<Bytes> {
    let why = format!("one exchange takes at most {LONGEST} bytes; send fewer records at once");
    refused(StatusCode::PAYLOAD_TOO_LARGE, "too_long", why)
}

/// What is answered where a request did not come whole.
pub(crate) fn cut_off() -> Response<Bytes> {
    let why = "the request did not come to its end in time; send it once more".to_owned();
    refused(StatusCode::REQUEST_TIMEOUT, "cut_off", why)
}

/// What is answered to whoever only asks whether a diary is kept.
pub(crate) fn is_there() -> Response<Bytes> {
    said(StatusCode::OK, LINES, Vec::new())
}

/// What is answered where no diary is kept.
pub(crate) fn none_kept() -> Response<Bytes> {
    let mut none = said(StatusCode::NO_CONTENT, LINES, Vec::new());
    // RFC 9110, 8.6: without content there is no length of it
    none.headers_mut().remove(CONTENT_LENGTH);
    none.headers_mut().remove(CONTENT_TYPE);
    none
}

fn refused(status: StatusCode, trouble: &'static str, why: String) -> Response<Bytes> {
    let kind = "trouble";
    let line = TroubleLine { kind, trouble, why };
    let mut line = serde_json::to_vec(&line).unwrap_or_default();
    line.push(b'\n');
    said(status, LINES, line)
}

/// 507 is RFC 4918, 11.5; 503 RFC 9110, 15.6.4: it may be tried again.
fn told(error: &NotDone) -> (StatusCode, &'static str) {
    let broken = StatusCode::INTERNAL_SERVER_ERROR;
    match error {
        NotDone::Head(_) => (StatusCode::BAD_REQUEST, "not_understood"),
        NotDone::Store(StoreError::Full { .. }) => (StatusCode::INSUFFICIENT_STORAGE, "full"),
        NotDone::Store(StoreError::Busy { .. }) => (StatusCode::SERVICE_UNAVAILABLE, "busy"),
        NotDone::Store(StoreError::Damaged { .. } | StoreError::Line { .. }) => (broken, "damaged"),
        NotDone::Store(StoreError::Denied { .. }) => (broken, "denied"),
        NotDone::Store(StoreError::Newer { .. }) => (broken, "newer"),
        NotDone::Store(StoreError::NotADiary { .. }) => (broken, "no_diary"),
        NotDone::Store(_) => (broken, "other"),
    }
}

/// The time by this machine's clock, to a thousandth of a second: how two clocks stand to each other is measured by it.
fn now() -> At {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    let seconds = since.map_or(0.0, |since| since.as_secs_f64());
    Moment::of_unix_s(seconds).at_ms()
}
