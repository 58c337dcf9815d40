//! When to stop: Ctrl-C, or the system's wish that the program end.

use std::future::Future;
use std::io;

/// Listens from now on for the wish to stop; what is given waits for it.
///
/// # Errors
///
/// When the system does not let us listen for it.
#[cfg(unix)]
pub(crate) fn wished() -> io::Result<impl Future<Output = ()>> {
    use std::task::Poll;
    use tokio::signal::unix::{SignalKind, signal};

    let mut interrupt = signal(SignalKind::interrupt())?;
    let mut terminate = signal(SignalKind::terminate())?;
    Ok(std::future::poll_fn(move |context| {
        // Both are asked each time, so that either wakes us.
        let wished = [
            interrupt.poll_recv(context).is_ready(),
            terminate.poll_recv(context).is_ready(),
        ];
        if wished.contains(&true) {
            Poll::Ready(())
        } else {
            Poll::Pending
        }
    }))
}

/// Listens for the wish to stop.
#[cfg(not(unix))]
pub(crate) fn wished() -> io::Result<impl Future<Output = ()>> {
    Ok(async {
        // Where it cannot be listened for, whoever closes the window ends the program.
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await;
        }
    })
}
