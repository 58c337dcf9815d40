//! Samples in; onsets, partials, sounding pitch and decay out, each with its uncertainty.
//!
//! This room knows sound: it fits a stiff string at any starting frequency that is proposed to it. It never knows a note's
//! name or a string.

mod beating;
mod blocks;
mod breaks;
mod cent;
mod comb;
mod common_law;
mod displaced;
mod evidence;
mod faultless;
mod fit;
mod follower;
mod frames;
mod held;
mod joined;
mod joint;
mod leak;
mod line;
mod listener;
mod noise;
mod onset;
mod own_sound;
mod prior;
mod ringing;
mod ringing_string;
mod small;
mod spectrum;
mod stands;
mod thin;
mod track;
mod transform;
mod voice;

pub use breaks::broken_at;
pub use comb::{Law, search};
pub use evidence::{Evidence, Picture, picture};
pub use fit::{Fit, FitPartial, fit};
pub use follower::Follower;
pub use held::{Held, HeldError, HeldNote};
pub use listener::{ListenError, Listener, Look, SOFT_RISE, Strike};
pub use noise::attack_noise;
pub use onset::{OnsetFinder, refine};
pub use own_sound::ECHO_S;
pub use prior::Prior;
pub use ringing::{Ringing, ringing};
pub use ringing_string::Followed;
pub use spectrum::{Spectrograph, Spectrum};
