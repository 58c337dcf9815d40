//! Samples in; onsets, partials, sounding pitch and decay out, each with its uncertainty.
#![allow(missing_docs, reason = "being built")]

pub mod blocks;
pub mod comb;
pub mod evidence;
pub mod fit;
pub mod listener;
pub mod onset;
mod prior;
pub mod small;
pub mod spectrum;
pub mod thin;
pub use comb::Law;
pub use evidence::{Evidence, Picture, picture};
pub use fit::{Fit, Prior, attack_noise, fit};
pub use listener::{ListenError, Listener, Look, Strike};
pub use spectrum::Spectrograph;
