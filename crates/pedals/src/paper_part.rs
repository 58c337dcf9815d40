//! A part on paper, as a player wrote it down: opening pedals, changes by bar or rehearsal mark, what the strings without
//! discs are tuned to, which strings are exposed. No score is needed for it.
//!
//! The shorthand, line by line; what it means stands in the guide too:
//!
//! ```
//! let read = pedals::PaperPart::read("
//! ## a line that is not read
//! opening E♭ F G A♭ | D C B♭   -- the right foot's letters, then the left's; what is not named is natural
//! 7C = C♯                      -- what a string without discs is tuned to
//! exposed 3A 4E                -- strings that are heard alone
//! 12 F# | B                    -- bar 12: F sharp with the right foot, B natural with the left
//! 12:3½ C♭                     -- the same bar, on the and of three; without | letters find their own foot
//! 17 [A] F | C#                -- bar 17, where rehearsal mark A stands
//! [B] Eb+F#                    -- at mark B; joined by +, one foot takes both pedals at once
//! [B]+4 G#                     -- four bars after it
//! 20 F -- what follows is a note for yourself
//! movement II
//! 1 F# -- the pedals stand as the movement before left them, or as its own opening says
//! ");
//! assert_eq!(read.errors, []);
//! assert_eq!(read.part.movements.len(), 2);
//! ```

mod check;
mod lines;
mod parse;
mod places;
mod word;
mod write;

use harp::{Setting, StringName};
use pitch::{Alteration, Letter, SpelledPitch};

use crate::{Foot, Quarters};
pub use check::{Finding, FindingKind};
pub use lines::PaperLines;
pub use parse::{PaperError, PaperRead, PaperWrong};
pub use places::{Standing, Stretch};

/// A part on paper: at least one movement.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperPart {
    /// Its movements in order.
    pub movements: Vec<PaperMovement>,
}

/// One movement, or a part that has only one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PaperMovement {
    /// Its name, or nothing.
    pub name: String,
    /// Where all seven pedals stand when it begins; where it is not said, as the movement before left them.
    pub opening: Option<Setting>,
    /// What strings without discs are tuned to.
    pub by_key: Vec<(StringName, SpelledPitch)>,
    /// Strings that she calls exposed.
    pub exposed: Vec<StringName>,
    /// What is written at bars and marks, in order.
    pub places: Vec<PaperPlace>,
}

/// What is written at one place.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperPlace {
    /// The bar.
    pub bar: PaperBar,
    /// Which beat, as it is counted, from 1; `None` where it is not said.
    pub beat: Option<Quarters>,
    /// The rehearsal mark that stands over a numbered bar.
    pub mark: Option<String>,
    /// The right foot's changes, in order.
    pub right: Vec<PaperChange>,
    /// The left foot's.
    pub left: Vec<PaperChange>,
    /// A note for herself, or nothing.
    pub note: String,
}

/// A bar on paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PaperBar {
    /// By its printed number, 0 to 99,999; two bars of one number may bear a letter: `12a`.
    Number(u32, Option<char>),
    /// So many bars after a rehearsal mark; 0 is the bar of the mark itself.
    Mark(String, u32),
}

/// One pedal moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PaperChange {
    /// The pedal.
    pub letter: Letter,
    /// To where.
    pub to: Alteration,
    /// Whether the foot takes it together with the change written before it.
    pub together: bool,
}

impl Default for PaperPart {
    fn default() -> Self {
        Self {
            movements: vec![PaperMovement::default()],
        }
    }
}

impl PaperPlace {
    /// Every change with the foot that makes it, the right foot's first.
    pub fn changes(&self) -> impl Iterator<Item = (Foot, &PaperChange)> {
        let right = self.right.iter().map(|change| (Foot::Right, change));
        right.chain(self.left.iter().map(|change| (Foot::Left, change)))
    }

    /// The rehearsal mark that stands at this bar, if one does.
    pub fn landmark(&self) -> Option<&str> {
        match &self.bar {
            PaperBar::Number(..) => self.mark.as_deref(),
            PaperBar::Mark(mark, 0) => Some(mark),
            PaperBar::Mark(..) => None,
        }
    }
}
