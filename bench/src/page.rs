//! The page: what is measured stands between two lines and is written anew; what stands outside them is kept.

use std::fs;
use std::path::Path;

use crate::trouble::Trouble;

/// The line after which the measured part begins.
pub const BEGIN: &str = "<!-- measured: begin (written by ./dev bench, never by hand) -->";
/// The line before which it ends.
pub const END: &str = "<!-- measured: end -->";

/// A page that holds nothing yet.
const EMPTY: &str = "# Measured

How well plucks are heard, what that costs, and how others do on the same sounds. `bench/README.md` says how each figure is taken.

";

/// Writes the measured part into a page, which is begun where there is none.
///
/// # Errors
/// What the disk refuses; a page that has lost its two lines.
pub fn write(path: &Path, measured: &str) -> Result<(), Trouble> {
    let old = match fs::read_to_string(path) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            format!("{EMPTY}{BEGIN}\n{END}\n")
        }
        Err(error) => return Err(Trouble::at(path)(error)),
    };
    let new = replaced(&old, measured).ok_or_else(|| Trouble::Markers {
        path: path.to_owned(),
        begin: BEGIN,
        end: END,
    })?;
    fs::write(path, new).map_err(Trouble::at(path))
}

/// The page with another measured part.
fn replaced(page: &str, measured: &str) -> Option<String> {
    let (before, rest) = page.split_once(BEGIN)?;
    let (old, after) = rest.split_once(END)?;
    let twice = [before, old, after]
        .iter()
        .any(|part| part.contains(BEGIN) || part.contains(END));
    (!twice).then(|| format!("{before}{BEGIN}\n\n{}\n\n{END}{after}", measured.trim()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_outside_is_kept() {
        let page = format!("before\n{BEGIN}\nold\n{END}\nafter\n");
        let new = replaced(&page, "new\n").unwrap();
        assert_eq!(new, format!("before\n{BEGIN}\n\nnew\n\n{END}\nafter\n"));
        assert_eq!(replaced(&new, "new").unwrap(), new);
    }

    #[test]
    fn a_page_without_its_lines_is_left_alone() {
        for page in [
            String::new(),
            format!("{END}\n{BEGIN}\n"),
            format!("{BEGIN}\n"),
            format!("{BEGIN}\n{END}\n{BEGIN}\n{END}\n"),
        ] {
            assert_eq!(replaced(&page, "new"), None, "{page}");
        }
    }
}
