//! The words of printed sheets, a file each language; none can be forgotten in one of them.

mod english;
mod french;
mod german;

use pedals::{Because, LeverReason, Reason};
use pitch::Tongue;

/// One language.
pub(crate) struct Words {
    /// The title of what has none.
    pub(crate) untitled: &'static str,
    pub(crate) opening: &'static str,
    pub(crate) by_key: &'static str,
    /// A string and its pitch.
    pub(crate) set_to: fn(&str, &str) -> String,
    /// A string, its pitch before and after.
    pub(crate) turned: fn(&str, &str, &str) -> String,
    /// The bar.
    pub(crate) in_rest: fn(&str) -> String,
    /// A movement's name, and what is set to what before it.
    pub(crate) before_movement: fn(&str, &str) -> String,
    pub(crate) before: &'static str,
    /// The pitch of A4.
    pub(crate) whole_harp: fn(&str) -> String,
    pub(crate) nothing_turned: &'static str,
    /// What is to be minded where a string goes up on stage.
    pub(crate) going_up: &'static str,
    pub(crate) no_changes: &'static str,
    pub(crate) no_flips: &'static str,
    pub(crate) open_tuning: &'static str,
    /// The open tuning before, and now.
    pub(crate) other_open: fn(&str, &str) -> String,
    pub(crate) levers_on: &'static str,
    pub(crate) no_levers: &'static str,
    /// Strings whose levers go on, or off.
    pub(crate) flipped: fn(&str, bool) -> String,
    /// Strings that are heard alone.
    pub(crate) exposed: fn(&str) -> String,
    /// Times of playing.
    pub(crate) times: fn(&[u32]) -> String,
    pub(crate) bar: &'static str,
    pub(crate) beat: &'static str,
    /// How the lines are read, of pedals and of levers.
    pub(crate) how_read: &'static str,
    pub(crate) hands_read: &'static str,
    pub(crate) rings: &'static str,
    pub(crate) rings_between: &'static str,
    /// Headings: another string, lost, otherwise than marked, cautions.
    pub(crate) remarks: [&'static str; 4],
    /// What is written, what is played.
    pub(crate) other_string: fn(&str, &str) -> String,
    pub(crate) why: fn(Reason) -> &'static str,
    pub(crate) lever_why: fn(LeverReason) -> &'static str,
    pub(crate) respell: fn(&str) -> String,
    pub(crate) play: fn(&str) -> String,
    pub(crate) leave_out: &'static str,
    pub(crate) or: &'static str,
    /// As it stands, as marked.
    pub(crate) otherwise: fn(&str, &str) -> String,
    pub(crate) because: fn(Because) -> &'static str,
    /// The title of a regulation check.
    pub(crate) check: &'static str,
    /// String, open, natural, earlier, ±, sharp, earlier, ±, both, own.
    pub(crate) check_heads: [&'static str; 10],
    /// How the table is read.
    pub(crate) check_read: &'static str,
    pub(crate) check_found: &'static str,
    pub(crate) check_nothing: &'static str,
    /// Said where no string was read in two positions.
    pub(crate) check_unread: &'static str,
}

/// Why a note cannot be had, in words.
pub fn why(tongue: Tongue, reason: Reason) -> &'static str {
    (words(tongue).why)(reason)
}

/// The same on a lever harp.
pub fn lever_why(tongue: Tongue, reason: LeverReason) -> &'static str {
    (words(tongue).lever_why)(reason)
}

/// The words of a language.
pub(crate) fn words(tongue: Tongue) -> &'static Words {
    match tongue {
        Tongue::English => &english::ENGLISH,
        Tongue::German => &german::GERMAN,
        Tongue::French => &french::FRENCH,
    }
}
