//! What a first visit loads, in packed bytes, held to a budget; and all that is loaded later, held to another.
//!
//! Everything in `web/dist` counts but what the build puts under `later/`, icons and the manifest, which a browser fetches
//! when the page is put on a home screen. The service worker counts; that it then fetches all the rest, so that the page
//! opens with the network off, does not: it does so when the page is up. A file weighs what its brotli form weighs, which
//! the build lays beside it, or itself where there is none.

use std::fs;
use std::path::{Path, PathBuf};

use crate::trouble::Trouble;

/// The budget, in bytes.
const MOST: u64 = 300_000;

/// The budget of all that work at a desk may load: the diary, plans, pages, the other languages.
const MOST_LATER: u64 = 1_450_000;

/// What is apart from that, by the beginnings of names: the engraver, the plots' library and texts of licences, which are not
/// ours to make smaller, the invented harp, which nobody needs at a desk, and the guide's pictures, each loaded when it is seen.
const APART: [&str; 5] = [
    "later/verovio",
    "later/plots",
    "later/licences/",
    "later/demo",
    "later/pictures/",
];

/// Without one of each there is no page.
const NEEDED: [&str; 4] = ["html", "js", "css", "wasm"];

/// Prints the weight of each file of the first load and of all; an error if that is above the budget.
pub(crate) fn first_load(dist: &Path) -> Result<(), Trouble> {
    let mut weights = Vec::new();
    for path in files(dist)? {
        let name = named(dist, &path);
        if is_first(&name) {
            weights.push((weight(&path)?, name));
        }
    }
    let has = |kind: &&str| {
        weights
            .iter()
            .any(|(_, name)| name.ends_with(&format!(".{kind}")))
    };
    if !NEEDED.iter().all(has) {
        return Err(Trouble::NoPage {
            path: dist.to_owned(),
        });
    }
    weights.sort();
    for (bytes, name) in weights.iter().rev() {
        println!("{bytes:>8}  {name}");
    }
    let bytes = weights.iter().map(|(bytes, _)| bytes).sum();
    println!("{bytes:>8}  of at most {MOST}");
    if bytes > MOST {
        return Err(Trouble::TooHeavy { bytes, most: MOST });
    }
    later(dist)
}

/// Prints what all files that are loaded later weigh together; an error if that is above its budget.
fn later(dist: &Path) -> Result<(), Trouble> {
    let (mut own, mut apart) = (0, 0);
    for path in files(dist)? {
        let name = named(dist, &path);
        if !name.starts_with("later/") || is_packed(&name) {
            continue;
        }
        let sum = if is_apart(&name) {
            &mut apart
        } else {
            &mut own
        };
        *sum += weight(&path)?;
    }
    println!(
        "{own:>8}  later, of at most {MOST_LATER}; {apart} more for the engraver, the plots, the demo and the guide's pictures"
    );
    if own > MOST_LATER {
        return Err(Trouble::TooHeavyLater {
            bytes: own,
            most: MOST_LATER,
        });
    }
    Ok(())
}

/// A file's name from `dist`, with strokes.
fn named(dist: &Path, path: &Path) -> String {
    let name = path.strip_prefix(dist).unwrap_or(path);
    name.to_string_lossy().replace('\\', "/")
}

fn is_apart(name: &str) -> bool {
    APART.iter().any(|begins| name.starts_with(begins))
}

fn is_packed(name: &str) -> bool {
    name.ends_with(".br") || name.ends_with(".gz")
}

/// Whether a first visit loads a file, named from `dist` with strokes.
fn is_first(name: &str) -> bool {
    let home_screen = name.starts_with("icon") || name == "manifest.webmanifest";
    !is_packed(name) && !home_screen && !name.starts_with("later/")
}

/// Bytes that go over the network for a file.
fn weight(path: &Path) -> Result<u64, Trouble> {
    let mut packed = path.as_os_str().to_owned();
    packed.push(".br");
    let file = Some(PathBuf::from(packed)).filter(|packed| packed.exists());
    let file = file.unwrap_or_else(|| path.to_owned());
    let known = fs::metadata(&file);
    known
        .map(|known| known.len())
        .map_err(|reason| Trouble::File { path: file, reason })
}

/// Every file in a folder and in those inside it.
fn files(folder: &Path) -> Result<Vec<PathBuf>, Trouble> {
    let failed = |reason| Trouble::File {
        path: folder.to_owned(),
        reason,
    };
    if !folder.exists() {
        return Err(Trouble::NoPage {
            path: folder.to_owned(),
        });
    }
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        if path.is_dir() {
            found.extend(files(&path)?);
        } else {
            found.push(path);
        }
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(name: &str, first: bool) {
        assert_eq!(is_first(name), first, "{name}");
    }

    #[test]
    fn all_is_loaded_first_but_what_is_put_off() {
        check("index.html", true);
        check("sw.js", true);
        check("assets/tune_bg-1.wasm", true);
        check("assets/iconic-2.js", true);
        check("assets/anything.new", true);
        check("later/desk_bg-1.wasm", false);
        check("icon-180.png", false);
        check("manifest.webmanifest", false);
        check("assets/tune_bg-1.wasm.br", false);
        check("assets/tune_bg-1.wasm.gz", false);
    }

    #[test]
    fn the_engraver_is_weighed_apart() {
        assert!(is_apart("later/verovio-module-1.mjs"));
        assert!(is_apart("later/pictures/desk-1.webp"));
        assert!(!is_apart("later/engraver-2.js"));
    }

    #[test]
    fn a_folder_without_a_page_is_no_light_page() {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        for folder in [here.join("src"), here.join("no such folder")] {
            assert!(matches!(first_load(&folder), Err(Trouble::NoPage { .. })));
        }
    }
}
