//! Which hand plays a MIDI note: by track or channel where there are two, else by height.

use std::collections::BTreeMap;

use super::events::Heard;
use crate::Hand;

/// Middle C: from here up it is the right hand's, where nothing else tells.
const MIDDLE: u8 = 60;

/// How hands are told apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Hands {
    /// Two sources, the higher of which is the right hand's.
    Two {
        /// The right hand's track and channel.
        right: (usize, u8),
    },
    /// By height.
    Height,
}

impl Hands {
    /// From all notes that were chosen.
    pub(crate) fn of(heard: &[(&Heard, usize)]) -> Self {
        let mut sums: BTreeMap<(usize, u8), (u64, u64)> = BTreeMap::new();
        for (note, _) in heard {
            let (sum, count) = sums.entry((note.track, note.channel)).or_default();
            *sum += u64::from(note.key);
            *count += 1;
        }
        let sources: Vec<_> = sums.into_iter().collect();
        match sources[..] {
            // sum / count compared crosswise
            [(a, (sum_a, count_a)), (b, (sum_b, count_b))] => Self::Two {
                right: if sum_b * count_a > sum_a * count_b {
                    b
                } else {
                    a
                },
            },
            _ => Self::Height,
        }
    }

    /// The hand of a note.
    pub(crate) fn hand(&self, note: &Heard) -> Hand {
        let right = match self {
            Self::Two { right } => *right == (note.track, note.channel),
            Self::Height => note.key >= MIDDLE,
        };
        if right { Hand::Right } else { Hand::Left }
    }

    /// How they were told, as a diagnostic says it.
    pub(crate) fn how(&self) -> &'static str {
        match self {
            Self::Two { .. } => {
                "of two tracks or channels the higher is taken for the right hand's"
            }
            Self::Height => "from middle C up it is taken for the right hand",
        }
    }
}
