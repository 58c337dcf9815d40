//! The server: takes connections, hands each request to `answer`, ends when it is told to.

use std::convert::Infallible;
use std::future::{Future, poll_fn};
use std::io;
use std::net::TcpListener;
use std::pin::pin;
use std::sync::Arc;
use std::task::Poll;
use std::time::Duration;

use http_body_util::Full;
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;

use crate::serve::answer::answer;
use crate::serve::page::Page;

/// How long a request may take to arrive.
const ARRIVES_WITHIN: Duration = Duration::from_secs(30);
/// The longest head of a request, in bytes: the browser's own words, many times over.
const LONGEST_HEAD: usize = 64 * 1024;
/// How long answers that have begun may go on once we are told to stop.
const FINISHES_WITHIN: Duration = Duration::from_secs(2);
/// How long to wait where the machine has no connection to spare.
const AGAIN_AFTER: Duration = Duration::from_millis(100);

/// Serves the page on a listener until `stop` is done, then lets what has begun finish for two
/// seconds. Must run inside a runtime of tokio.
///
/// # Errors
///
/// When the listener cannot be used.
pub async fn serve_until(
    page: Page,
    listener: TcpListener,
    stop: impl Future<Output = ()>,
) -> io::Result<()> {
    let port = listener.local_addr()?.port();
    listener.set_nonblocking(true)?;
    let listener = tokio::net::TcpListener::from_std(listener)?;
    let graceful = GracefulShutdown::new();
    {
        let mut stop = pin!(stop);
        let mut taking = pin!(take(Arc::new(page), port, listener, &graceful));
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

/// Takes connections, each into a task of its own, and never ends by itself.
async fn take(
    page: Arc<Page>,
    port: u16,
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
        let page = Arc::clone(&page);
        let service = service_fn(move |request| {
            let answer = answer(&page, port, &request).map(Full::new);
            async move { Ok::<_, Infallible>(answer) }
        });
        let connection = http.serve_connection(TokioIo::new(stream), service);
        let connection = graceful.watch(connection);
        // A browser that goes away in the middle is no trouble of ours.
        tokio::spawn(async move { drop(connection.await) });
    }
}
