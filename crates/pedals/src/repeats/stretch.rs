//! Stretches of written places in which a letter is not asked for: wherever in one a pedal moves, it
//! moves for the place at its end.
//!
//! If a letter has marks in a stretch that are the same at every pass, all passes stand as the last
//! of them says from there to its end. So either it has none in all of the stretch, or at its end it
//! stands at the same place at every pass, or a mark is paid for. To ask that first tells more than
//! to ask it place by place, where a move that is forbidden at one is as good at the next.

use super::Branching;
use super::rule::{How, Rule};
use crate::playings::OnlyThen;

impl Branching<'_> {
    /// The five ways on from a mark that differs: for its stretch, or where that has been asked for
    /// its place alone.
    pub(super) fn five_ways(&self, only: &OnlyThen, rules: &[Rule]) -> [Rule; 5] {
        let stretch = self.stretch(only);
        let mut of_it = rules.iter().filter(|rule| rule.holds_for(only));
        let (first, written) = match of_it.any(|rule| (rule.first, rule.written) == stretch) {
            true => (only.written, only.written),
            false => stretch,
        };
        [How::Unmoved, How::At(0), How::At(1), How::At(2), How::Paid].map(|how| Rule {
            first,
            written,
            letter: only.letter,
            how,
        })
    }

    /// From just after where the letter is asked for to where it is asked for again, at any pass;
    /// all passes go through it from each place to its end.
    fn stretch(&self, only: &OnlyThen) -> (usize, usize) {
        let (mut first, mut last) = (only.written, only.written);
        while first > 0 && self.goes_on(first - 1, only.letter) {
            first -= 1;
        }
        while self.goes_on(last, only.letter) {
            last += 1;
        }
        (first, last)
    }

    /// Whether a letter is not asked for at a written place, and every pass goes on to the next.
    fn goes_on(&self, written: usize, letter: usize) -> bool {
        let (here, next) = (self.playings.at(written), self.playings.at(written + 1));
        let place = &self.ready.filled.place;
        let asked = |moment: &usize| self.ready.problem.asked[place[*moment]].uses(letter);
        here.len() == next.len()
            && here.iter().zip(next).all(|(here, next)| here + 1 == *next)
            && !here.iter().any(asked)
    }
}
