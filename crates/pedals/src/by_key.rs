//! Strings without discs: what each is tuned to, for as long as it cannot be changed.

use harp::StringName;

use crate::asked::allowed_ways;
use crate::ways::{By, Strings, Way};
use crate::{Demand, Wishes};

/// A string without discs, tuned by key for a stretch of the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tuned {
    /// The string.
    pub string: StringName,
    /// What it sounds, as a key number (A4 = 69).
    pub midi: i32,
    /// The moment from which on.
    pub from_moment: usize,
    /// Whether it is retuned there in a rest, within a movement.
    pub in_a_rest: bool,
}

/// What all strings without discs are tuned to throughout.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct ByKey {
    /// First moment of each stretch, and the key number of each string there.
    stretches: Vec<(usize, Vec<i32>)>,
    /// Retunings in rests.
    pub(crate) retuned: u32,
    /// What the notes of these strings cost at least, retuning included.
    pub(crate) least: u64,
    /// Whether another tuning might be better, as pedals cannot do all that was taken for granted.
    pub(crate) in_doubt: bool,
}

/// A note that a string without discs could play.
struct Head {
    moment: usize,
    midi: i32,
    ways: Vec<Way>,
}

impl ByKey {
    /// The tunings that are worth trying, the likeliest first: that which loses least if pedals do
    /// all that they could do instead, and the others where that is not certain. Where the strings
    /// can be tuned anew on the way there is only the first.
    pub(crate) fn choices(demand: &Demand, strings: &Strings, wishes: &Wishes) -> Vec<Self> {
        let heads = heads(demand, strings, wishes);
        if heads.is_empty() {
            return vec![Self::default()];
        }
        let starts = starts(demand, wishes);
        let options = options(&heads, strings);
        let by_pedal = |head: &Head| head.ways.iter().any(|w| matches!(w.by, By::Pedal { .. }));
        let in_doubt = options.len() > 1 && heads.iter().any(by_pedal);
        if in_doubt && starts.len() == 1 {
            let mut all: Vec<Self> = options
                .into_iter()
                .map(|option| Self {
                    least: heads.iter().map(|head| least(head, &option, wishes)).sum(),
                    stretches: vec![(0, option)],
                    retuned: 0,
                    in_doubt: false,
                })
                .collect();
            all.sort_by_key(|choice| choice.least);
            return all;
        }
        let mut chosen = Self {
            in_doubt,
            ..Self::default()
        };
        chosen.by_stretches(&heads, &starts, &options, wishes);
        vec![chosen]
    }

    fn by_stretches(
        &mut self,
        heads: &[Head],
        starts: &[usize],
        options: &[Vec<i32>],
        wishes: &Wishes,
    ) {
        let mut rows: Vec<Vec<(u64, usize)>> = Vec::new();
        for (stretch, &start) in starts.iter().enumerate() {
            let end = starts.get(stretch + 1).copied().unwrap_or(usize::MAX);
            let within = |head: &&Head| (start..end).contains(&head.moment);
            let within: Vec<&Head> = heads.iter().filter(within).collect();
            let retune = wishes.weights.retuned;
            let row = options.iter().map(|option| {
                let own: u64 = within.iter().map(|head| least(head, option, wishes)).sum();
                let (so_far, from) = cheapest_before(rows.last(), options, option, retune);
                (so_far + own, from)
            });
            let row = row.collect();
            rows.push(row);
        }
        self.trace(starts, &rows, options);
    }

    fn trace(&mut self, starts: &[usize], rows: &[Vec<(u64, usize)>], options: &[Vec<i32>]) {
        let last = rows.last().into_iter().flatten().enumerate();
        let Some((mut at, &(cost, _))) = last.min_by_key(|(_, cell)| cell.0) else {
            return;
        };
        self.least = cost;
        for (row, &start) in rows.iter().zip(starts).rev() {
            self.stretches.push((start, options[at].clone()));
            let from = row[at].1;
            if start > 0 {
                self.retuned += differences(&options[from], &options[at]);
            }
            at = from;
        }
        self.stretches.reverse();
    }

    /// What a string is tuned to at a moment; `None` where no note wants these strings at all.
    pub(crate) fn at(&self, moment: usize, string: usize) -> Option<i32> {
        let until = self
            .stretches
            .partition_point(|&(start, _)| start <= moment);
        self.stretches[..until]
            .last()
            .map(|(_, tuned)| tuned[string])
    }

    /// As the player reads it: every string at the beginning, then only what changes.
    pub(crate) fn told(&self, strings: &Strings) -> Vec<Tuned> {
        let mut told = Vec::new();
        for (index, (from_moment, tuned)) in self.stretches.iter().enumerate() {
            for (string, (&name, &midi)) in strings.by_key.iter().zip(tuned).enumerate() {
                let before = index.checked_sub(1).map(|i| self.stretches[i].1[string]);
                if before != Some(midi) {
                    told.push(Tuned {
                        string: name,
                        midi,
                        from_moment: *from_moment,
                        in_a_rest: index > 0,
                    });
                }
            }
        }
        told
    }
}

fn heads(demand: &Demand, strings: &Strings, wishes: &Wishes) -> Vec<Head> {
    let mut heads = Vec::new();
    if strings.by_key.is_empty() || wishes.any_octave {
        return heads;
    }
    for (index, moment) in demand.moments.iter().enumerate() {
        for attack in &moment.attacks {
            let ways = allowed_ways(moment, attack.pitch, strings, wishes);
            if ways.iter().any(|way| matches!(way.by, By::Key { .. })) {
                heads.push(Head {
                    moment: index,
                    midi: attack.pitch.midi(),
                    ways,
                });
            }
        }
    }
    heads
}

/// Where strings may be tuned anew: before the movement, and in long rests.
fn starts(demand: &Demand, wishes: &Wishes) -> Vec<usize> {
    let mut starts = vec![0];
    for (index, moment) in demand.moments.iter().enumerate().skip(1) {
        if wishes
            .retune_rest_us
            .is_some_and(|least| moment.rest && rest_us(demand, index) >= least)
        {
            starts.push(index);
        }
    }
    starts
}

/// How long it is from a moment to the next note.
fn rest_us(demand: &Demand, index: usize) -> u64 {
    let now = demand.moments[index].at_us;
    let next = demand.moments[index..]
        .iter()
        .find(|moment| !moment.attacks.is_empty());
    next.map_or(0, |next| next.at_us.saturating_sub(now))
}

/// Every way of tuning these strings together that some note could want.
fn options(heads: &[Head], strings: &Strings) -> Vec<Vec<i32>> {
    let mut options = vec![Vec::new()];
    for (string, name) in strings.by_key.iter().enumerate() {
        let wants = |head: &&Head| head.ways.iter().any(|way| way.by == By::Key { string });
        let mut wanted: Vec<i32> = heads.iter().filter(wants).map(|head| head.midi).collect();
        wanted.sort_unstable();
        wanted.dedup();
        if wanted.is_empty() {
            // as it is tuned with all pedals up
            wanted.push(name.key() - 1);
        }
        options = options
            .iter()
            .flat_map(|before| wanted.iter().map(|&midi| [&before[..], &[midi]].concat()))
            .collect();
    }
    options
}

fn least(head: &Head, tuned: &[i32], wishes: &Wishes) -> u64 {
    let price = |way: &Way| u64::from(way.respelled) * u64::from(wishes.weights.respelled);
    let sounds = |way: &&Way| match way.by {
        By::Key { string } => tuned[string] == head.midi,
        By::Pedal { .. } => true,
    };
    let prices = head.ways.iter().filter(sounds).map(price);
    prices
        .min()
        .unwrap_or(wishes.weights.lost)
        .min(wishes.weights.lost)
}

fn cheapest_before(
    before: Option<&Vec<(u64, usize)>>,
    options: &[Vec<i32>],
    option: &[i32],
    retune: u32,
) -> (u64, usize) {
    let Some(before) = before else {
        return (0, 0);
    };
    let costs = before.iter().zip(options).enumerate();
    let costs = costs.map(|(from, (cell, other))| {
        let changed = u64::from(differences(other, option));
        (cell.0 + changed * u64::from(retune), changed, from)
    });
    costs.min().map_or((0, 0), |(cost, _, from)| (cost, from))
}

fn differences(one: &[i32], other: &[i32]) -> u32 {
    one.iter().zip(other).filter(|(a, b)| a != b).count() as u32
}
