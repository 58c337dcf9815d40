//! `sevenflats serve` as a browser meets it: HTTP spoken by hand over a socket, to a page made up for
//! it. RFC 9110 is HTTP's semantics, RFC 9111 its caching, RFC 9112 its form on the wire.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    clippy::unwrap_used,
    clippy::panic,
    reason = "opens sockets, starts the server, sends signals"
)]

#[path = "serve/a_page.rs"]
mod a_page;
#[path = "serve/build_script.rs"]
mod build_script;
#[path = "serve/codings.rs"]
mod codings;
#[path = "support/command.rs"]
mod command;
#[cfg(unix)]
#[path = "serve/exchange_broken_off.rs"]
mod exchange_broken_off;
#[path = "serve/exchanged.rs"]
mod exchanged;
#[path = "serve/files.rs"]
mod files;
#[path = "serve/forbidden.rs"]
mod forbidden;
#[path = "serve/kept.rs"]
mod kept;
#[path = "serve/loopback.rs"]
mod loopback;
#[path = "serve/made_up.rs"]
mod made_up;
#[path = "serve/refused.rs"]
mod refused;
#[path = "serve/start_and_stop.rs"]
mod start_and_stop;
#[path = "serve/wire.rs"]
mod wire;
