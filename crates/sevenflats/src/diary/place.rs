//! Where the diary lies, and what time it is.

use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use ::diary::{At, Moment};
use etcetera::BaseStrategy;

use crate::trouble::Trouble;

/// The file that was named, or the usual one: where this system keeps the data of programs.
pub(crate) fn place(named: Option<&PathBuf>) -> Result<PathBuf, Trouble> {
    if let Some(path) = named {
        return Ok(path.clone());
    }
    let folders = etcetera::base_strategy::choose_native_strategy();
    let folders = folders.map_err(|_| Trouble::NoHome)?;
    Ok(folders.data_dir().join("sevenflats").join("diary.sqlite"))
}

/// The time by this machine's clock, to the second.
pub(crate) fn now() -> At {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    let seconds = since.map_or(0.0, |since| since.as_secs_f64());
    Moment::of_unix_s(seconds).at()
}
