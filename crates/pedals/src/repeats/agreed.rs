//! Moves shifted to where marks agree, at no price.
//!
//! Where a pedal may as well be moved a little sooner or later, the search takes one of these places
//! at every pass, and not always the same. Nothing that is asked, paid or ruled changes by a shift:
//! steps that were the cheapest still are.

use std::collections::BTreeSet;

use crate::Feet;
use crate::code::{Code, places_of, with};
use crate::filled::Filled;
use crate::playings::{OnlyThen, Playings};
use crate::problem::{Problem, step_price};
use crate::search::Step;

/// So many places are tried at most, sooner and later.
const FAR: usize = 48;

/// Steps that cost the same, with fewer marks that differ; `None` where no shift helps.
pub(super) fn agreed(
    problem: &Problem<'_>,
    (filled, playings): (&Filled, &Playings),
    feet: Feet,
    (steps, codes): (&[Step], &[Code]),
    differ: &BTreeSet<OnlyThen>,
) -> Option<Vec<Step>> {
    let mut shifting = Shifting {
        problem,
        filled,
        playings,
        feet,
        moves: moves(steps),
        stands: codes.iter().map(|&code| *places_of(code)).collect(),
    };
    let mut shifted = false;
    for only in differ {
        for &moment in playings.at(only.written) {
            shifted |= shifting.mend(only, moment);
        }
    }
    shifted.then(|| shifting.steps(steps))
}

/// A foot's movement by what it changes.
#[derive(Clone, Copy)]
struct Move {
    step: Step,
    from: Code,
    /// The letter, if it is one alone.
    letter: Option<usize>,
    notches: u8,
}

struct Shifting<'a> {
    problem: &'a Problem<'a>,
    filled: &'a Filled,
    playings: &'a Playings,
    feet: Feet,
    moves: Vec<Move>,
    /// Where each letter stands at each moment.
    stands: Vec<[u8; 7]>,
}

fn moves(steps: &[Step]) -> Vec<Move> {
    let pairs = steps.windows(2).map(|pair| {
        let (from, to) = (places_of(pair[0].code), places_of(pair[1].code));
        let moved = || (0..7).filter(|&letter| from[letter] != to[letter]);
        Move {
            step: pair[1],
            from: pair[0].code,
            letter: moved().next().filter(|_| moved().count() == 1),
            notches: moved()
                .map(|letter| from[letter].abs_diff(to[letter]))
                .max()
                .unwrap_or(0),
        }
    });
    pairs.collect()
}

impl Shifting<'_> {
    /// Shifts the move that made a mark at a moment to where the fewest marks of its letter differ;
    /// whether that is better than before.
    fn mend(&mut self, only: &OnlyThen, moment: usize) -> bool {
        let letter = only.letter;
        let Some(at) = self.move_at(moment, letter, only.to) else {
            return false;
        };
        let place = self.moves[at].step.moment as usize;
        let mut best = None;
        for to in self.places(at, letter) {
            let fewer = self.fewer(at, letter, to);
            if fewer > best.map_or(0, |(fewer, _)| fewer) {
                best = Some((fewer, to));
            }
        }
        let Some((_, to)) = best else {
            return false;
        };
        self.stand(at, letter, place, to);
        self.moves[at].step.moment = to as u32;
        // in order again; those of one place stay in theirs
        self.moves.sort_by_key(|m| (m.step.moment, m.step.foot));
        true
    }

    /// The move of a letter alone for a moment.
    fn move_at(&self, moment: usize, letter: usize, to: u8) -> Option<usize> {
        let place = self.filled.place[moment];
        let end = self
            .moves
            .partition_point(|m| m.step.moment as usize <= place);
        let here = |m: &&Move| self.filled.origin[m.step.moment as usize] == moment;
        let mut own = self.moves[..end].iter().rev().take_while(here);
        let back = own.position(|m| m.letter == Some(letter))?;
        let at = end - 1 - back;
        (places_of(self.moves[at].step.code)[letter] == to).then_some(at)
    }

    /// The other places at which a move costs the same and hinders nothing.
    fn places(&self, at: usize, letter: usize) -> Vec<usize> {
        let own = &self.moves[at];
        let place = own.step.moment as usize;
        let at_us = &self.problem.at_us;
        let hinders = |other: &&Move| {
            let moved = places_of(other.step.code)[letter] != places_of(other.from)[letter];
            other.step.foot == own.step.foot || moved
        };
        let before = self.moves[..at].iter().rev().find(hinders);
        let after = self.moves[at + 1..].iter().find(hinders);
        let price =
            |at: usize| step_price(self.problem, at, own.from, own.step.code, own.step.foot).0;
        let as_cheap = |at: &usize| price(*at) == price(place);
        let unused = |at: &usize| !self.problem.asked[*at].uses(letter);
        let since = |other: usize, at: usize, notches: u8| {
            at > other && at_us[at] - at_us[other] >= self.feet.least_us(notches) as i64
        };
        let lets_before =
            |at: &usize| before.is_none_or(|m| since(m.step.moment as usize, *at, own.notches));
        let lets_after =
            |at: &usize| after.is_none_or(|m| since(*at, m.step.moment as usize, m.notches));
        let sooner = (1..place).rev().take(FAR);
        let sooner = sooner.take_while(unused).take_while(lets_before);
        // a place later is open as long as the one before it does not ask for the letter
        let last = at_us.len() - 1;
        let later = (place..last).take(FAR).take_while(unused);
        let later = later.map(|at| at + 1).take_while(lets_after);
        sooner.chain(later).filter(as_cheap).collect()
    }

    /// How many marks of the letter fewer would differ if a move were made elsewhere.
    fn fewer(&mut self, at: usize, letter: usize, to: usize) -> usize {
        let place = self.moves[at].step.moment as usize;
        let moments = [place, to].map(|place| self.filled.origin[place]);
        let around = moments[0].min(moments[1])..=moments[0].max(moments[1]);
        let written: BTreeSet<usize> = around.map(|moment| self.playings.written(moment)).collect();
        let before = self.differing(&written, letter);
        self.stand(at, letter, place, to);
        let after = self.differing(&written, letter);
        self.stand(at, letter, to, place);
        before.saturating_sub(after)
    }

    /// How many marks of a letter differ at these written places.
    fn differing(&self, written: &BTreeSet<usize>, letter: usize) -> usize {
        let at = |&written: &usize| {
            let moments = self.playings.at(written);
            let stands = |moment: usize| self.stands[moment][letter];
            if moments
                .iter()
                .all(|&moment| stands(moment) == stands(moments[0]))
            {
                return 0;
            }
            let marked = moments
                .iter()
                .filter(|&&moment| moment > 0 && stands(moment - 1) != stands(moment));
            let marks = marked.fold(0_u8, |marks, &moment| marks | 1 << stands(moment));
            marks.count_ones() as usize
        };
        written.iter().map(at).sum()
    }

    /// A letter stands otherwise where its move is made at another place.
    fn stand(&mut self, at: usize, letter: usize, place: usize, to: usize) {
        let [from, to] = [place, to].map(|place| self.filled.origin[place]);
        let own = &self.moves[at];
        let (stands, moments) = if to > from {
            (own.from, from..to)
        } else {
            (own.step.code, to..from)
        };
        for all in &mut self.stands[moments] {
            all[letter] = places_of(stands)[letter];
        }
    }

    /// The moves as steps.
    fn steps(&self, before: &[Step]) -> Vec<Step> {
        let mut code = before[0].code;
        let mut steps = vec![before[0]];
        for m in &self.moves {
            let (from, to) = (places_of(m.from), places_of(m.step.code));
            for letter in (0..7).filter(|&letter| from[letter] != to[letter]) {
                code = with(code, letter, to[letter]);
            }
            steps.push(Step { code, ..m.step });
        }
        steps
    }
}
