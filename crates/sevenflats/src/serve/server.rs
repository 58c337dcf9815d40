//! The server: takes connections, hands each request to `answer`, ends when it is told to.

use std::convert::Infallible;
use std::future::{Future, poll_fn};
use std::io;
use std::net::TcpListener;
use std::pin::pin;
use std::sync::Arc;
use std::task::Poll;
use std::time::Duration;

use http_body_util::{BodyExt, Full, LengthLimitError, Limited};
use hyper::body::{Body, Bytes, Incoming};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Method, Request, Response};
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;

use crate::serve::answer::of_diary;
use crate::serve::door::Asked;
use crate::serve::exchange::LONGEST;
use crate::serve::keeper::{self, Keeper};
use crate::serve::page::Page;

/// How long a request may take to arrive.
const ARRIVES_WITHIN: Duration = Duration::from_secs(30);
/// The longest head of a request, in bytes: the browser's own words, many times over.
const LONGEST_HEAD: usize = 64 * 1024;
/// How long answers that have begun may go on once we are told to stop.
const FINISHES_WITHIN: Duration = Duration::from_secs(2);
/// How long to wait where the machine has no connection to spare.
const AGAIN_AFTER: Duration = Duration::from_millis(100);

/// Serves the page, and the diary where there is one, on a listener until `stop` is done, then lets what has begun finish for two
/// seconds. Must run inside a runtime of tokio.
///
/// # Errors
///
/// When the listener cannot be used.
pub async fn serve_until(
    page: Page,
    diary: Option<Keeper>,
    listener: TcpListener,
    stop: impl Future<Output = ()>,
) -> io::Result<()> {
    let port = listener.local_addr()?.port();
    listener.set_nonblocking(true)?;
    let listener = tokio::net::TcpListener::from_std(listener)?;
    let graceful = GracefulShutdown::new();
    {
        let mut stop = pin!(stop);
        let mut taking = pin!(take(
            Arc::new(Served { page, diary, port }),
            listener,
            &graceful
        ));
        poll_fn(|context| {
            let stopped = stop.as_mut().poll(context);
            if stopped.is_pending() {
                let Poll::Pending = taking.as_mut().poll(context);
            }
            stopped
        })
        .await;
    }
    // Whoever has not finished by then is cut off.
    let _ = tokio::time::timeout(FINISHES_WITHIN, graceful.shutdown()).await;
    Ok(())
}

/// What is served, and where.
struct Served {
    page: Page,
    diary: Option<Keeper>,
    port: u16,
}

/// Takes connections, each into a task of its own, and never ends by itself.
async fn take(
    served: Arc<Served>,
    listener: tokio::net::TcpListener,
    graceful: &GracefulShutdown,
) -> Infallible {
    let mut http = http1::Builder::new();
    http.timer(TokioTimer::new())
        .header_read_timeout(ARRIVES_WITHIN)
        .max_buf_size(LONGEST_HEAD);
    loop {
        let Ok((stream, _)) = listener.accept().await else {
            // Too many at once, or one that left again: neither is the end of the others.
            tokio::time::sleep(AGAIN_AFTER).await;
            continue;
        };
        let served = Arc::clone(&served);
        let service = service_fn(move |request| {
            let served = Arc::clone(&served);
            async move { Ok::<_, Infallible>(answer(&served, request).await.map(Full::new)) }
        });
        let connection = http.serve_connection(TokioIo::new(stream), service);
        let connection = graceful.watch(connection);
        // A browser that goes away in the middle is no trouble of ours.
        tokio::spawn(async move { drop(connection.await) });
    }
}

async fn answer(served: &Served, request: Request<Incoming>) -> Response<Bytes> {
    let asked = match of_diary(&served.page, served.port, &request) {
        Ok(asked) => asked,
        Err(answer) => return *answer,
    };
    let Some(diary) = served.diary.clone() else {
        return keeper::none_kept();
    };
    let body = match asked {
        // whether there is one is told without looking into it
        Asked::Have if request.method() == Method::HEAD => return keeper::is_there(),
        Asked::Have => Bytes::new(),
        Asked::Exchange => match whole(request.into_body()).await {
            Ok(body) => body,
            Err(answer) => return *answer,
        },
    };
    // the disk may take its time: the page is served meanwhile
    let answered = tokio::task::spawn_blocking(move || diary.answer(asked, &body));
    answered.await.unwrap_or_else(|_| keeper::cut_off())
}

/// A request's body, if it comes in time and is not too long.
async fn whole(body: Incoming) -> Result<Bytes, Box<Response<Bytes>>> {
    if body.size_hint().lower() > LONGEST as u64 {
        return Err(Box::new(keeper::too_long()));
    }
    let arriving = Limited::new(body, LONGEST).collect();
    match tokio::time::timeout(ARRIVES_WITHIN, arriving).await {
        Ok(Ok(body)) => Ok(body.to_bytes()),
        Ok(Err(error)) if error.is::<LengthLimitError>() => Err(Box::new(keeper::too_long())),
        _ => Err(Box::new(keeper::cut_off())),
    }
}
