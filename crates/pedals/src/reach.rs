//! How long a piece may be: the planner keeps a row of all settings for every place at which a foot
//! may act, and so needs room and time for each.

use std::fmt;

use score::{Piece, Played};

use crate::{Demand, moments_within};

/// Most note heads that are looked at in playing order.
const MOST_HEADS: usize = 200_000;
/// Most places at which a foot may act, more than an hour of harp that never rests: 175 megabytes of rows.
const MOST_PLACES: usize = 20_000;

/// What is planned of a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Reach {
    /// What it asks of a harp.
    pub demand: Demand,
    /// What is not planned.
    pub left_out: Option<LeftOut>,
}

/// What of a piece is not planned, as it is too long.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// Its repeats.
    Repeats,
    /// All after the bar of this printed number.
    After(String),
}

/// The whole piece in playing order, if `repeats` are wanted and leave it short enough; or as it is
/// written; or its beginning.
pub fn within_reach(piece: &Piece, repeats: bool) -> Reach {
    if repeats && let Some(demand) = whole(piece, &piece.order) {
        return Reach {
            demand,
            left_out: None,
        };
    }
    let written = piece.written_order();
    let too_long = repeats.then_some(LeftOut::Repeats);
    if let Some(demand) = whole(piece, &written) {
        return Reach {
            demand,
            left_out: too_long,
        };
    }
    beginning(piece, &written)
}

fn whole(piece: &Piece, order: &[Played]) -> Option<Demand> {
    if turns(piece, order) < order.len() {
        return None;
    }
    let demand = Demand::of_score(piece, order);
    (moments_within(&demand, MOST_PLACES) == demand.moments.len()).then_some(demand)
}

fn beginning(piece: &Piece, order: &[Played]) -> Reach {
    // one bar at least, however full
    let turns = turns(piece, order).max(1).min(order.len());
    let mut demand = Demand::of_score(piece, &order[..turns]);
    let until = moments_within(&demand, MOST_PLACES);
    demand.moments.truncate(until);
    demand.movements.retain(|&first| first < until);
    let last = demand.moments.last().map_or(1, |moment| moment.measure);
    let bar = (last as usize).checked_sub(1);
    let bar = bar.and_then(|bar| piece.measures.get(bar));
    let bar = bar.map_or_else(|| last.to_string(), |bar| bar.number.clone());
    Reach {
        demand,
        left_out: Some(LeftOut::After(bar)),
    }
}

/// How many measures of an order hold no more notes than are looked at.
fn turns(piece: &Piece, order: &[Played]) -> usize {
    let mut heads = vec![0; piece.measures.len()];
    for note in &piece.notes {
        heads[note.measure] += 1;
    }
    let mut sum = 0;
    let fits = |played: &&Played| {
        sum += heads.get(played.measure).copied().unwrap_or(0);
        sum <= MOST_HEADS
    };
    order.iter().take_while(fits).count()
}

impl fmt::Display for LeftOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Repeats => write!(
                f,
                "with its repeats the piece is too long to be planned: planned without them"
            ),
            Self::After(bar) => write!(
                f,
                "the piece is too long to be planned whole: planned until bar {bar}; what comes later, plan from a file of its own"
            ),
        }
    }
}
