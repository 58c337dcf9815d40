//! A page made up for the checks, and a server of it.

use std::net::TcpListener;
use std::path::Path;

use hyper::body::Bytes;
use sevenflats::serve::keeper::Keeper;
use sevenflats::serve::page::Page;
use sevenflats::serve::{port, server};

/// The made-up page: a name and content for each file. What is called packed here is not: the server
/// sends it as it stands, and a word is easier to recognise.
pub(crate) const FILES: [(&str, &str); 13] = [
    ("index.html", "<!doctype html><title>made up</title>"),
    ("sw.js", "// a service worker, made up"),
    ("manifest.webmanifest", "{\"name\":\"made up\"}"),
    ("icon.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>"),
    (
        "assets/index-D3fXa9Qb.js",
        "export const longest = 'as it is';",
    ),
    ("assets/index-D3fXa9Qb.js.br", "packed: br"),
    ("assets/index-D3fXa9Qb.js.gz", "packed: gzip"),
    ("assets/index-B_x3-fQa.css", "body { margin: 0 }"),
    ("assets/tune_bg-Ck2pLw07.wasm", "\0asm"),
    ("assets/serif-3fa94c1b22.woff2", "wOF2"),
    ("assets/licences.txt", "made up"),
    ("later/desk_bg-Dd2pLw07.wasm", "\0asm later"),
    ("later/first-lessons.json", "[]"),
];

/// The page as a value.
pub(crate) fn page() -> Page {
    let files = FILES.iter();
    Page::of(files.map(|(name, text)| ((*name).to_owned(), Bytes::from_static(text.as_bytes()))))
}

/// What a file of the page holds.
pub(crate) fn text(name: &str) -> &'static str {
    FILES.iter().find(|(known, _)| *known == name).unwrap().1
}

/// Serves the page on a free port for as long as the checks run; gives the port.
pub(crate) fn serving() -> u16 {
    let (listener, port) = port::listen(Some(0)).unwrap();
    std::thread::spawn(move || serve_for_ever(listener, None));
    port
}

/// The same with a diary in this file.
pub(crate) fn serving_with(diary: &Path) -> u16 {
    let (listener, port) = port::listen(Some(0)).unwrap();
    let keeper = Keeper::new(diary);
    std::thread::spawn(move || serve_for_ever(listener, Some(keeper)));
    port
}

fn serve_for_ever(listener: TcpListener, diary: Option<Keeper>) {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .unwrap();
    let never = std::future::pending::<()>();
    runtime
        .block_on(server::serve_until(page(), diary, listener, never))
        .unwrap();
}
