//! Samples in; onsets, partials, sounding pitch and decay out, each with its uncertainty.
#![allow(missing_docs, reason = "being built")]

pub mod blocks;
pub mod spectrum;
pub mod comb;
pub mod fit;
pub mod small;
pub mod evidence;
pub mod onset;
pub mod listener;
pub mod thin;
mod prior;
pub use comb::Law;
pub use evidence::{Evidence, Picture, picture};
pub use fit::{Fit, Prior, fit};
pub use listener::{ListenError, Listener, Look, Strike};
pub use spectrum::Spectrograph;
