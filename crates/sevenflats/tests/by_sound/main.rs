//! What is heard, by sound alone and in whole rounds: one program, for each would be built and linked by itself.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    clippy::disallowed_types,
    clippy::unwrap_used,
    clippy::panic,
    dead_code,
    reason = "tests read recordings, print their figures, and stop where a case cannot be prepared; each uses a part of their support"
)]

mod by_ear;
#[path = "../support/flac.rs"]
mod flac;
#[path = "../support/heard.rs"]
mod heard;
mod missing_samples;
mod neighbours;
mod own_sound;
#[path = "../support/played.rs"]
mod played;
#[path = "../support/prompted.rs"]
mod prompted;
#[path = "../support/recorded.rs"]
mod recorded;
mod recorded_guitars;
mod recorded_pitch;
mod recorded_shift;
mod recorded_spans;
#[path = "../support/resample.rs"]
mod resample;
mod rounds;
mod rounds_at_large;
mod rounds_elsewhere;
mod rounds_gone_wrong;
#[path = "../support/said.rs"]
mod said;
#[path = "../support/slow_pitch.rs"]
mod slow_pitch;
mod sound;
#[path = "../support/still_missed.rs"]
mod still_missed;
mod taken_up;
#[path = "../support/wav.rs"]
mod wav;
