//! What is done on stage before a piece: read from the programme, decided there.

use harp::{OpenTuning, Setting, StringName};
use pedals::Programme;
use pitch::SpelledPitch;

/// What is done before a piece; nothing before the first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BeforePiece {
    /// Whether a piece on this harp came before.
    pub follows: bool,
    /// Whether the whole harp stood in another pitch.
    pub whole_harp: bool,
    /// Strings turned by key.
    pub turned: Vec<Turned>,
    /// Where the last piece left the pedals, as far as it is known.
    pub left: Setting,
    /// The open tuning of a lever harp before this one, where it was another.
    pub other_open: Option<OpenTuning>,
    /// Levers flipped: the string, and whether it goes on.
    pub flips: Vec<(StringName, bool)>,
}

/// A string turned by key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Turned {
    /// The string.
    pub string: StringName,
    /// What it sounded.
    pub from: SpelledPitch,
    /// What it must sound.
    pub to: SpelledPitch,
}

impl BeforePiece {
    /// What the programme says of a piece, from 0.
    pub fn of(programme: &Programme, piece: usize) -> Self {
        let turned = programme.retunings.iter().filter(|turn| {
            (turn.before.piece, turn.before.movement) == (piece, 0) && turn.in_rest_at.is_none()
        });
        let turned = turned.map(|turn| Turned {
            string: turn.string,
            from: turn.from,
            to: turn.to,
        });
        let Some(needs) = programme.pieces.get(piece) else {
            return Self::default();
        };
        let levers = needs.levers.as_ref();
        Self {
            follows: !needs.first,
            whole_harp: needs.other_reference.is_some(),
            turned: turned.collect(),
            left: needs.left,
            other_open: levers.and_then(|levers| levers.other_open),
            flips: levers
                .map(|levers| levers.flips.clone())
                .unwrap_or_default(),
        }
    }

    /// Whether any string may go up.
    pub(crate) fn goes_up(&self) -> bool {
        self.whole_harp
            || self.other_open.is_some()
            || self
                .turned
                .iter()
                .any(|turn| turn.to.midi() > turn.from.midi())
    }
}
