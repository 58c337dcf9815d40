//! A question drawn, with choices of which one is right.

use super::{About, Asked, Choice, Facts, Question};
use crate::practice::draws::Draws;

/// So many choices there are at most, where not all that is drawn can be chosen.
const CHOICES: usize = 4;

/// How often a draw is tried again that would ask the same as before.
const TRIES: usize = 40;

impl Facts {
    /// Something to ask that is none of these, where that can be; `None` where this harp has nothing of it.
    pub(super) fn fresh(&self, about: About, not: &[Asked], draws: &mut Draws) -> Option<Asked> {
        let mut found = None;
        for _ in 0..TRIES {
            found = self.drawn(about, draws);
            if !found.is_some_and(|found| not.contains(&found)) {
                break;
            }
        }
        found
    }

    fn drawn(&self, about: About, draws: &mut Draws) -> Option<Asked> {
        match about {
            About::TunerName => self.tuner_asked(draws),
            About::Pin => self.pin_asked(draws),
            About::OctaveNumber => self.octave_asked(draws),
            About::DiagramRead => self.read_asked(draws),
            About::DiagramSet => self.set_asked(draws),
        }
    }

    pub(super) fn question(&self, asked: Asked, draws: &mut Draws) -> Question {
        let drawn = self.drawn_strings(asked, draws);
        let all = match asked {
            // all that is drawn can be pointed at, in its order
            Asked::PinOf(_) | Asked::HeldBy(_) | Asked::Find(_) | Asked::SoundsIn(..) => {
                self.in_order(asked, &drawn)
            }
            Asked::SetKey(_) | Asked::SetLetters(_) => Vec::new(),
            _ => self.mixed(asked, draws),
        };
        Question {
            asked,
            drawn,
            choices: all,
        }
    }

    /// The right choice and some that are not, in any order.
    fn mixed(&self, asked: Asked, draws: &mut Draws) -> Vec<Choice> {
        let mut choices: Vec<Choice> = Vec::new();
        for candidate in self.candidates(asked, draws) {
            let new = !choices.contains(&candidate);
            // the first is the right one, and there is no second
            let fits = self.fits(asked, &candidate) == choices.is_empty();
            if new && fits && choices.len() < CHOICES {
                choices.push(candidate);
            }
        }
        draws.shuffle(&mut choices);
        choices
    }

    /// What may be offered: the right one first, then what is easily mistaken for it.
    fn candidates(&self, asked: Asked, draws: &mut Draws) -> Vec<Choice> {
        match asked {
            Asked::Shown { letter, sounds } => self.displays(letter, sounds, draws),
            Asked::ShownBy { letter, notch, .. } => self.shown_by(letter, notch, draws),
            Asked::Called(string) => self.names(string, draws),
            Asked::Read(setting) => self.readings(setting, draws),
            Asked::LeversIn(key) => self.lever_lists(key),
            _ => Vec::new(),
        }
    }
}
