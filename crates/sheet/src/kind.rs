//! The kinds of marks, without their figures: what a key and an account go by.

use crate::Mark;

/// A kind of mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    NotYetHeard,
    Off,
    InTune,
    Near,
    Moving,
    Skipped,
    Broken,
    New,
    Again,
}

impl Mark {
    /// The kind, the same whatever the figures.
    pub(crate) fn kind(&self) -> Kind {
        match self {
            Self::NotYetHeard => Kind::NotYetHeard,
            Self::Off { .. } => Kind::Off,
            Self::InTune { .. } => Kind::InTune,
            Self::Near { .. } => Kind::Near,
            Self::Moving { .. } => Kind::Moving,
            Self::Skipped => Kind::Skipped,
            Self::Broken => Kind::Broken,
            Self::New { .. } => Kind::New,
            Self::Again { .. } => Kind::Again,
        }
    }
}
