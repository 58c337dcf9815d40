//! Where the page is, and by what names it may be called.

/// The machine's own names for itself (RFC 6761, 6.3; RFC 1122, 3.2.1.3; RFC 4291, 2.5.3).
const OURS: [&str; 3] = ["localhost", "127.0.0.1", "[::1]"];

/// The port that http means where none is named.
const HTTP: u16 = 80;

/// The address to open. One name only: what a page keeps belongs to the name by which it was opened.
pub fn of(port: u16) -> String {
    match port {
        HTTP => "http://localhost/".to_owned(),
        port => format!("http://localhost:{port}/"),
    }
}

/// Whether a host and port, as a request names them, are this machine at this port.
pub fn is_ours(called: &str, port: u16) -> bool {
    let is = |own: String| called.eq_ignore_ascii_case(&own);
    OURS.iter()
        .any(|name| is(format!("{name}:{port}")) || (port == HTTP && is((*name).to_owned())))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_this_machines_own_names_are_ours() {
        for called in [
            "localhost:4747",
            "LocalHost:4747",
            "127.0.0.1:4747",
            "[::1]:4747",
        ] {
            assert!(is_ours(called, 4747), "{called}");
        }
        for called in [
            "",
            "localhost",
            "localhost:",
            "localhost:4748",
            "localhost:04747",
            "localhost.:4747",
            "localhost.example:4747",
            "example:4747",
            "127.0.0.2:4747",
            "0.0.0.0:4747",
            "::1:4747",
            "me@localhost:4747",
            " localhost:4747",
        ] {
            assert!(!is_ours(called, 4747), "{called}");
        }
    }

    #[test]
    fn the_port_of_http_need_not_be_named() {
        assert!(is_ours("localhost", 80) && is_ours("[::1]", 80) && is_ours("localhost:80", 80));
        assert_eq!(of(80), "http://localhost/");
        assert_eq!(of(4747), "http://localhost:4747/");
    }
}
