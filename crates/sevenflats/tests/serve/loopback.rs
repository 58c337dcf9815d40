//! Nobody but this machine: the listener is bound to 127.0.0.1 and to nothing else.

use std::io::ErrorKind;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, TcpListener, TcpStream, UdpSocket};

use crate::made_up::serving;
use crate::wire::get;

/// Ports that are tried.
const TRIES: usize = 5;

/// The machine's address in its own network, if it is in one. The socket only asks which way the
/// system would send; 192.0.2.1 is nobody's (RFC 5737), and nothing is sent.
fn other_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    let address = socket.local_addr().ok()?.ip();
    (!address.is_loopback() && !address.is_unspecified()).then_some(address)
}

/// Whether nobody listens at this port on the machine's other addresses. A program of somebody else may: that is no
/// fault of ours, and another port tells.
fn nobody_else_answers(port: u16) -> bool {
    let mut others = vec![IpAddr::from(Ipv6Addr::LOCALHOST)];
    others.extend(other_address());
    if cfg!(target_os = "linux") {
        // There all of 127/8 leads to the machine itself, so that this holds without a network too.
        others.push(IpAddr::from(Ipv4Addr::new(127, 0, 0, 2)));
    }
    others.into_iter().all(|other| {
        // That we could be reached there, were we listening: somebody else can listen.
        let Ok(control) = TcpListener::bind((other, 0)) else {
            assert!(other.is_ipv6(), "{other}");
            return true;
        };
        TcpStream::connect(control.local_addr().unwrap()).unwrap();
        let refused = TcpStream::connect((other, port)).map_err(|error| error.kind());
        matches!(refused, Err(ErrorKind::ConnectionRefused))
    })
}

#[test]
fn no_other_address_of_this_machine_answers() {
    let at_ours = |port: &u16| get(*port, "/", &[]).status == 200;
    let mut ports = (0..TRIES).map(|_| serving()).filter(at_ours);
    assert!(ports.any(nobody_else_answers));
}
