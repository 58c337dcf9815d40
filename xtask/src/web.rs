//! The page itself: its packages, and the build that puts all of it into `web/dist`.

use std::path::Path;
use std::process::Command;

use crate::program::run;
use crate::trouble::Trouble;

const NODE: &str = "Install Node 20.19 or newer (apt-get install nodejs npm).";

/// Installs what the lock file names, where that has changed, and builds.
pub(crate) fn build(root: &Path) -> Result<(), Trouble> {
    let web = root.join("web");
    if !is_installed(&web) {
        install(&web)?;
    }
    npm(&web, &["run", "--silent", "build"])
}

/// A few tries: registries are sometimes busy.
fn install(web: &Path) -> Result<(), Trouble> {
    let words = ["ci", "--no-audit", "--no-fund", "--ignore-scripts"];
    npm(web, &words)
        .or_else(|_| npm(web, &words))
        .or_else(|_| npm(web, &words))
}

/// Whether the packages are those of the lock file: npm leaves a copy of it beside them.
fn is_installed(web: &Path) -> bool {
    let changed = |path: &str| web.join(path).metadata().and_then(|m| m.modified()).ok();
    match (
        changed("package-lock.json"),
        changed("node_modules/.package-lock.json"),
    ) {
        (Some(asked), Some(there)) => there >= asked,
        _ => false,
    }
}

fn npm(web: &Path, words: &[&str]) -> Result<(), Trouble> {
    run(Command::new("npm").current_dir(web).args(words), NODE)
}
