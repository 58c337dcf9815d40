//! What each thing costs: every price is hers to change.

use pitch::Letter;

use crate::{Demand, Moment};

/// Prices, whole numbers from 0 to [`Weights::HIGHEST`] (`lost` and `glissando` may be higher). Nothing here
/// has a source: they put into numbers what players say they avoid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weights {
    /// A note head that does not sound.
    pub lost: u64,
    /// A letter that a glissando finds in another place, or a note that a tremolo does not find.
    pub glissando: u64,
    /// A note head played on another string than the written one.
    pub respelled: u32,
    /// Moving a pedal.
    pub moved: u32,
    /// More, where it goes over two notches.
    pub two_notches: u32,
    /// More, where it goes neither on a beat nor in a rest.
    pub off_beat: u32,
    /// More, where strings of the letter were struck just now; it fades as they do.
    pub ringing: u32,
    /// More, where a foot crosses over.
    pub crossing: u32,
    /// More, where one foot takes two neighbouring pedals at once.
    pub together: u32,
    /// A mark of the part that the plan contradicts, for each letter.
    pub mark: u32,
    /// Retuning a string without discs in a rest.
    pub retuned: u32,
    /// A mark that holds for some passes of a repeat only.
    pub passes_differ: u32,
}

/// How free the plan is to play a note on another string than the written one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Spelling {
    /// Free, at the price of [`Weights::respelled`].
    #[default]
    Free,
    /// Only where the written string cannot have the note, or the moment wants two alterations of
    /// its letter at once.
    Written,
}

impl Weights {
    /// The highest price that a sum can hold without loss.
    pub const HIGHEST: u32 = 4_000_000;

    /// Preset 'comfortable': written spellings, quiet feet on the beat, strings left to ring.
    pub fn comfortable() -> Self {
        Self {
            lost: 100_000,
            glissando: 50_000,
            respelled: 150,
            moved: 1_000,
            two_notches: 300,
            off_beat: 300,
            ringing: 1_500,
            crossing: 3_000,
            together: 3_000,
            mark: 400,
            retuned: 10_000,
            passes_differ: 20_000,
        }
    }

    /// Preset 'fewest': first the fewest notes lost, then the fewest moves, then the fewest
    /// respellings, for the piece given; nothing else counts but for what is asked by name. A mark
    /// that holds for some passes only counts as eight moves. Beyond sixteen thousand notes a lost
    /// one counts as much as thousands of moves, not more than any number of them.
    pub fn fewest(demand: &Demand) -> Self {
        let letters = demand.moments.iter().map(held_for).sum::<u64>();
        let heads = demand.heads() as u64 + letters + 1;
        let moved = heads.min(1 << 17);
        // no plan moves a pedal that then sounds nothing: there are fewer moves than heads
        let lost = (heads * (moved + 1)).min(1 << 28);
        Self {
            lost,
            glissando: lost,
            respelled: 1,
            moved: moved as u32,
            two_notches: 0,
            off_beat: 0,
            ringing: 0,
            crossing: 0,
            together: 0,
            mark: 0,
            retuned: 0,
            passes_differ: (8.min(heads) * moved) as u32,
        }
    }
}

/// What a moment wants for a glissando or a tremolo.
fn held_for(moment: &Moment) -> u64 {
    let named = |letter: &Letter| moment.glissando.get(*letter).is_some();
    let named = Letter::ALL.iter().filter(|letter| named(letter)).count();
    (named + moment.tremolo.len()) as u64
}
