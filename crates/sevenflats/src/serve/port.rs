//! The port on which the page is served: on this machine alone.

use std::io::{self, ErrorKind};
use std::net::{Ipv4Addr, Ipv6Addr, TcpListener};

use crate::trouble::Trouble;

/// The port where none is named.
pub const USUAL: u16 = 4747;
/// How many further ports are tried where the usual one is taken.
const FURTHER: u16 = 20;

/// Listens on the port that was named, 0 for any that is free; else on the first free one from the
/// usual. Gives the port too.
///
/// # Errors
///
/// When the port that was named, or every one that was tried, is taken or forbidden.
pub fn listen(named: Option<u16>) -> Result<(TcpListener, u16), Trouble> {
    match named {
        Some(port) => on(port).map_err(|reason| Trouble::Port { port, reason }),
        None => first_free(USUAL),
    }
}

/// Listens on the first free port of twenty-one from this one. Gives the port too.
///
/// # Errors
///
/// When none can be had.
pub fn first_free(first: u16) -> Result<(TcpListener, u16), Trouble> {
    let last = first.saturating_add(FURTHER);
    (first..=last)
        .find_map(|port| on(port).ok())
        .ok_or(Trouble::Ports { first, last })
}

fn on(port: u16) -> io::Result<(TcpListener, u16)> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
    let port = listener.local_addr()?.port();
    // A browser that is sent to `localhost` tries ::1 first: another program there would be found in
    // our place. We do not listen there ourselves; a machine without IPv6 has no such trouble.
    match TcpListener::bind((Ipv6Addr::LOCALHOST, port)) {
        Err(reason) if reason.kind() == ErrorKind::AddrInUse => Err(reason),
        _ => Ok((listener, port)),
    }
}
