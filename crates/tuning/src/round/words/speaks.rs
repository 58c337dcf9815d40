//! What a language must be able to say: a function for each thing, so that none can be forgotten in one of them.
//!
//! Names of strings, letters and pitches come as they are to be written; a language never makes them.

use harp::Colour;

use crate::round::{Amount, Limit, Raise, State, TakeError, TakenA, Then, Turn, Why};
use crate::{Direction, Reason, WarningKind};

/// A whole language.
pub(super) trait Speaks: Sentences + Warnings + Phrases {
    /// A sentence as it is set in type; most languages need nothing more.
    fn set(&self, sentence: String) -> String {
        sentence
    }
}

/// What is said in the course of a round.
pub(super) trait Sentences {
    fn begun(&self, strings: usize) -> String;
    fn second_best(&self, touch_up: bool, open: bool) -> String;
    fn ask_pitch(&self, strings: &[String]) -> String;
    fn next(&self, string: &str, why: Why) -> String;
    fn left(&self, strings: usize, minutes: Option<f64>) -> String;
    fn sounds(&self, string: &str, off_cents: f64) -> String;
    fn turn(&self, string: &str, turn: &Turn) -> String;
    fn in_tune(&self, string: &str, off_cents: f64) -> String;
    fn near(&self, string: &str, u95_cents: f64, octave_above: Option<&str>) -> String;
    fn pluck_still(&self, string: &str) -> String;
    fn which(&self, strings: &[String]) -> String;
    fn not_read(&self, string: Option<&str>, reason: Reason) -> String;
    fn sound(&self, warning: WarningKind) -> String;
    fn moving(&self, string: &str, off_cents: f64, way: Direction) -> String;
    fn enough(&self, string: &str) -> String;
    fn reached_for_now(&self, string: &str, off_cents: f64) -> String;
    fn holds(&self, string: &str) -> String;
    fn again(&self, strings: &[String], moved_cents: f64) -> String;
    /// Strings without discs, each with its pitch.
    fn offer(&self, strings: &[(String, String)]) -> String;
    fn will_stand(&self, string: &str, pitch: &str) -> String;
    fn broke(&self, string: &str, then: Then) -> String;
    fn pinned(&self, string: &str) -> String;
    fn let_go(&self) -> String;
    fn skipped(&self, string: &str) -> String;
    fn undone(&self, string: &str) -> String;
    fn by_ear(&self, string: &str) -> String;
    fn on_purpose(&self, string: &str) -> String;
    fn not_here(&self, string: &str) -> String;
    fn paused(&self) -> String;
    fn resumed(&self) -> String;
    fn the_a(&self, taken: TakenA, raise: Option<Raise>, strings: &[String]) -> String;
    fn no_a(&self, error: TakeError) -> String;
    fn ask_technician(&self, raise: Raise) -> String;
    fn uses(&self, a4_hz: f64) -> String;
    fn all_heard(&self) -> String;
    fn finished(&self) -> String;
}

/// What may be wrong. Each gives its reason; none but a stop gives an order.
pub(super) trait Warnings {
    /// `up`: whether the pedal should be up, rather than where she said.
    fn pedal_up(&self, letter: &str, semitones: u32, up: bool, strings: &[String]) -> String;
    fn lever_off(&self, string: &str) -> String;
    fn found_high(&self, string: &str, off_cents: f64) -> String;
    fn key_elsewhere(&self, string: &str, plucks: u32) -> String;
    fn octave_high(&self, expected: &str, heard_as: &str) -> String;
    fn reference(&self, off_cents: f64, a4_hz: f64, strings: usize) -> String;
    fn another_moves(&self, expected: &str, moving: &str, by_cents: f64) -> String;
    fn over_pull(&self, string: &str, off_cents: f64, limit: Limit) -> String;
}

/// Standing words and short forms.
pub(super) trait Phrases {
    fn care(&self) -> &'static str;
    fn which_way_the_key_turns(&self, way: Direction) -> &'static str;
    fn reason(&self, reason: Reason) -> &'static str;
    fn advice(&self, reason: Reason) -> &'static str;
    fn way(&self, way: Direction) -> &'static str;
    fn amount(&self, amount: Amount) -> &'static str;
    /// The way with the amount, in the order in which the language has them.
    fn how_far(&self, way: Direction, amount: Amount) -> String;
    fn state(&self, state: State) -> &'static str;
    fn enough_at_a_glance(&self) -> &'static str;
    fn by_colour(&self, colour: Colour, wire: bool) -> &'static str;
    fn a_tuner_shows(&self, pitch: &str) -> String;
    /// The next string, and on which side of the one before it lies, if on another.
    fn then(&self, string: &str, side: Option<Side>) -> String;
}

/// On which side of a string another lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// Towards the bass.
    Below,
    /// Towards the treble.
    Above,
}
