//! The bench: how well plucks are heard, against their truth, against what must be reached and against others; how much time
//! and memory that takes. It never knows how anything is heard: it asks [`listener::Listener`] as anyone could.
//!
//! - [`plan`] says which plucks, [`perform`] renders them and has them heard, [`trial`] holds each against its truth;
//! - [`figures`] and [`statistics`] make figures of them, [`requirement`] is the table of what must be reached;
//! - [`rival`], [`mcleod`] and [`sounds`] are about others on the same plucks;
//! - [`speed`] and [`memory`] measure cost, on a [`ringing_round`], [`round_time`] that of a round's own events;
//! - [`reading`] times how a [`made_score`] is read, against another reader, [`planning`] how its pedals are planned;
//! - [`diary`] times how the diary of many years is replayed;
//! - [`tables`] and [`page`] write it all down.

pub mod cpu_clock;
pub mod diary;
pub mod ear;
pub mod figures;
pub mod listener;
pub mod machine;
pub mod made_score;
pub mod mcleod;
pub mod memory;
pub mod page;
pub mod perform;
pub mod plan;
pub mod planning;
pub mod reading;
pub mod requirement;
pub mod ringing_round;
pub mod rival;
pub mod round_time;
pub mod sounds;
pub mod speed;
pub mod statistics;
pub mod tables;
pub mod trial;
pub mod trial_list;
pub mod trouble;
