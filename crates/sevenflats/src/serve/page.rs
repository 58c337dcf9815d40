//! The page as the server knows it: a name and bytes for each file. Nothing is read from the disk
//! while it is served, so no address leads anywhere else.

use std::collections::BTreeMap;

use hyper::body::Bytes;

use crate::serve::coding::{Coding, choose};
use crate::serve::media_type::media_type;
use crate::serve::tag::strong;

/// What the build script found in `web/dist`.
const INSIDE: &[(&str, &[u8])] = include!(concat!(env!("OUT_DIR"), "/page.rs"));

/// The file that `/` stands for.
const FIRST: &str = "index.html";

/// The folders of which a browser may keep a file for ever, as its name changes with it.
const KEPT: [&str; 2] = ["assets/", "later/"];

/// The files of the page, by their names.
#[derive(Debug, Default)]
pub struct Page {
    files: BTreeMap<String, File>,
}

/// One file in all the forms in which it is there.
#[derive(Debug)]
pub struct File {
    /// For `Content-Type`.
    pub media_type: &'static str,
    /// Whether its name tells its content, so that a browser need never ask again.
    pub for_ever: bool,
    forms: Vec<Form>,
}

/// One form of a file.
#[derive(Clone, Debug)]
pub struct Form {
    /// How it is packed.
    pub coding: Coding,
    /// What is sent.
    pub bytes: Bytes,
    /// The tag of these bytes in this coding.
    pub tag: String,
}

impl Page {
    /// The page that is built into this command; without files where there was none to build in.
    pub fn inside() -> Page {
        let files = INSIDE.iter();
        Page::of(files.map(|(name, bytes)| ((*name).to_owned(), Bytes::from_static(bytes))))
    }

    /// A page of these files, named from its root with `/` between folders. `name.br` and `name.gz`
    /// are taken for packed forms of `name` where that is there too, and have no address of their own.
    pub fn of(files: impl IntoIterator<Item = (String, Bytes)>) -> Page {
        let all: BTreeMap<String, Bytes> = files.into_iter().collect();
        let packed = |name: &str| {
            let plain = name.strip_suffix(".br").or(name.strip_suffix(".gz"));
            plain.is_some_and(|plain| all.contains_key(plain))
        };
        let files = all.keys().filter(|name| !packed(name));
        let files = files.map(|name| (name.clone(), File::of(name, &all)));
        Page {
            files: files.collect(),
        }
    }

    /// Whether there is a page at all.
    pub fn is_there(&self) -> bool {
        self.files.contains_key(FIRST)
    }

    /// The file at a path that begins with `/`.
    pub fn at(&self, path: &str) -> Option<&File> {
        match decoded(path)?.strip_prefix('/')? {
            "" => self.files.get(FIRST),
            name => self.files.get(name),
        }
    }
}

impl File {
    fn of(name: &str, all: &BTreeMap<String, Bytes>) -> File {
        let forms = [
            (Coding::Brotli, ".br"),
            (Coding::Gzip, ".gz"),
            (Coding::Identity, ""),
        ];
        let forms = forms.into_iter().filter_map(|(coding, suffix)| {
            let bytes = all.get(&format!("{name}{suffix}"))?.clone();
            let tag = strong(&bytes, coding.name());
            Some(Form { coding, bytes, tag })
        });
        File {
            media_type: media_type(name),
            for_ever: KEPT.iter().any(|folder| name.starts_with(folder)) && bears_its_hash(name),
            forms: forms.collect(),
        }
    }

    /// The form to send to a browser that says this of codings.
    pub fn form(&self, accept_encoding: &[&str]) -> Option<&Form> {
        let there = self
            .forms
            .iter()
            .map(|form| (form.coding, form.bytes.len()));
        let coding = choose(accept_encoding, there);
        self.forms.iter().find(|form| form.coding == coding)
    }
}

/// Whether a name ends, before its extension, in a hash of what is inside: eight characters of
/// base64url after a hyphen, as Vite makes them, or at least eight hexadecimal digits after a hyphen
/// or a dot. A word is no hash: one without a capital or a digit is not taken for one, and its file
/// is asked for anew each time, which costs little; the other way round it would be stale for a year.
fn bears_its_hash(name: &str) -> bool {
    let name = name.rsplit('/').next().unwrap_or(name);
    let Some((stem, _)) = name.rsplit_once('.') else {
        return false;
    };
    let vite = stem.len().checked_sub(9).and_then(|at| stem.get(at..));
    let vite = vite.and_then(|tail| tail.strip_prefix('-'));
    let hex = stem.rsplit(['-', '.']).next();
    let hex = hex.filter(|tail| tail.len() >= 8 && tail.len() < stem.len());
    vite.is_some_and(|hash| hash.bytes().all(is_base64url) && is_no_word(hash))
        || hex.is_some_and(|hash| hash.bytes().all(|b| b.is_ascii_hexdigit()) && is_no_word(hash))
}

fn is_base64url(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || byte == b'-' || byte == b'_'
}

fn is_no_word(hash: &str) -> bool {
    hash.bytes()
        .any(|byte| byte.is_ascii_digit() || byte.is_ascii_uppercase())
}

/// A path with its `%` escapes resolved (RFC 3986, 2.1); none where they are no escapes or no UTF-8.
/// Dots stay what they are: no file is called `..`.
fn decoded(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.as_bytes();
    while let [first, after @ ..] = rest {
        rest = after;
        if *first != b'%' {
            bytes.push(*first);
            continue;
        }
        let (digits, after) = rest.split_at_checked(2)?;
        let digits = str::from_utf8(digits).ok()?;
        // `from_str_radix` would take a sign.
        let both = digits.bytes().all(|digit| digit.is_ascii_hexdigit());
        bytes.push(u8::from_str_radix(digits, 16).ok().filter(|_| both)?);
        rest = after;
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_tells_its_content_is_told_from_a_word() {
        for name in [
            "assets/index-D3fXa9Qb.js",
            "assets/tune_bg-B-_x3fQa.wasm",
            "later/pieces-3fa94c1b22.json",
            "later/pieces.3fa94c1b22aa04de.json",
        ] {
            assert!(bears_its_hash(name), "{name}");
        }
        for name in [
            "assets/index.js",
            "later/first-lessons.json",
            "later/a-hundred.json",
            "later/programme.json",
            "later/3fa94c1b22.json",
            "later/2-pieces.json",
            "later/index-D3fXa9Qb",
        ] {
            assert!(!bears_its_hash(name), "{name}");
        }
    }

    /// RFC 3986, 2.1 and 2.3.
    #[test]
    fn escapes_are_resolved_and_what_is_none_is_no_path() {
        assert_eq!(decoded("/%69ndex.html").as_deref(), Some("/index.html"));
        assert_eq!(
            decoded("/%2e%2E/Cargo.toml").as_deref(),
            Some("/../Cargo.toml")
        );
        for path in ["/%", "/%2", "/%zz", "/%+1", "/%ff", "/%é"] {
            assert_eq!(decoded(path), None, "{path}");
        }
    }

    #[test]
    fn a_packed_file_alone_is_a_file() {
        let page = Page::of([("a.tar.gz".to_owned(), Bytes::from_static(b"x"))]);
        assert_eq!(page.at("/a.tar.gz").unwrap().media_type, "application/gzip");
        assert!(!page.is_there());
    }
}
