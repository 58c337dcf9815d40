//! Strings: their names on a tuner, their pins, their octave numbers.

use harp::StringName;
use pitch::{Alteration, Letter};

use super::{Asked, Choice, Facts};
use crate::practice::draws::Draws;

/// Strings in the drawing of the neck.
const NECK: usize = 7;

impl Facts {
    pub(super) fn tuner_asked(&self, draws: &mut Draws) -> Option<Asked> {
        let notches = self.notches();
        let all = notches.flat_map(|notch| Letter::ALL.map(|letter| (letter, notch)));
        let all = all.filter_map(|(letter, notch)| Some((letter, self.at(letter, notch)?, notch)));
        // those that a tuner calls by another letter come twice as often, those of the open harp too
        let times = |&(letter, sounds, notch): &(Letter, Alteration, i8)| {
            let other = place(letter, sounds) != place(letter, Alteration::Natural)
                && is_natural(place(letter, sounds));
            1 + usize::from(other) + usize::from(notch == 0)
        };
        let all = all.flat_map(|one| std::iter::repeat_n(one, times(&one)));
        let all: Vec<_> = all.collect();
        let (letter, sounds, notch) = draws.pick(&all)?;
        Some(match draws.coin() && self.all_at(notch) {
            true => Asked::ShownBy {
                letter,
                sounds,
                notch,
            },
            false => Asked::Shown { letter, sounds },
        })
    }

    /// Whether all seven letters can stand so many notches from open.
    fn all_at(&self, notch: i8) -> bool {
        let mut letters = Letter::ALL.into_iter();
        letters.all(|letter| self.at(letter, notch).is_some())
    }

    pub(super) fn displays(
        &self,
        letter: Letter,
        sounds: Alteration,
        draws: &mut Draws,
    ) -> Vec<Choice> {
        let right = place(letter, sounds);
        let natural = place(letter, Alteration::Natural);
        let below = (natural - 1).rem_euclid(12);
        let above = (natural + 1) % 12;
        let mut wrong = [natural, below, above];
        draws.shuffle(&mut wrong);
        let far = [(right + 2) % 12, (right + 10) % 12, (right + 1) % 12];
        let all = [right].into_iter().chain(wrong).chain(far);
        all.map(Choice::Display).collect()
    }

    pub(super) fn shown_by(&self, letter: Letter, notch: i8, draws: &mut Draws) -> Vec<Choice> {
        let stands = |letter| Some(Choice::Sounds(letter, self.at(letter, notch)?));
        let mut others = Letter::ALL.to_vec();
        others.retain(|other| *other != letter);
        draws.shuffle(&mut others);
        // the neighbours are the likely mistakes
        let near = [(letter.index() + 6) % 7, (letter.index() + 1) % 7];
        let near = near.map(|at| Letter::ALL[at]);
        let all = [letter].into_iter().chain(near).chain(others);
        all.filter_map(stands).collect()
    }

    pub(super) fn pin_asked(&self, draws: &mut Draws) -> Option<Asked> {
        if self.strings.len() < NECK {
            return None;
        }
        let string = draws.pick(&self.strings)?;
        Some(match draws.coin() {
            true => Asked::PinOf(string),
            false => Asked::HeldBy(string),
        })
    }

    pub(super) fn octave_asked(&self, draws: &mut Draws) -> Option<Asked> {
        let string = draws.pick(&self.strings)?;
        // one of two octaves at least, or there is nothing to mistake
        self.strings
            .iter()
            .find(|other| other.letter == string.letter && **other != string)?;
        Some(match draws.coin() {
            true => Asked::Called(string),
            false => Asked::Find(string),
        })
    }

    pub(super) fn names(&self, string: StringName, draws: &mut Draws) -> Vec<Choice> {
        let all = [string].into_iter().chain(self.mistaken(string, draws));
        all.map(Choice::String).collect()
    }

    /// Strings of this harp that are easily taken for this one: its octaves, and its neighbours.
    fn mistaken(&self, string: StringName, draws: &mut Draws) -> Vec<StringName> {
        let mut near = Vec::new();
        for by in [1, -1] {
            near.push(StringName::new(string.letter, string.octave + by));
        }
        let own = self.strings.iter().position(|s| *s == string).unwrap_or(0);
        let neighbours = [own.wrapping_sub(1), own + 1, own + 7, own.wrapping_sub(6)];
        near.extend(neighbours.iter().filter_map(|at| self.strings.get(*at)));
        near.extend((-4..=4).map(|by| StringName::new(string.letter, string.octave + by)));
        near.retain(|other| *other != string && self.strings.contains(other));
        // the first three, in any order
        near.truncate(8);
        let some = near.len().min(4);
        draws.shuffle(&mut near[..some]);
        near
    }

    /// The strings that are drawn beside what is asked, from the bass.
    pub(super) fn drawn_strings(&self, asked: Asked, draws: &mut Draws) -> Vec<StringName> {
        match asked {
            Asked::PinOf(string) | Asked::HeldBy(string) => {
                let own = self.strings.iter().position(|s| *s == string).unwrap_or(0);
                let before = draws.below(NECK);
                let last = self.strings.len().saturating_sub(NECK);
                let first = own.saturating_sub(before).min(last);
                let drawn = self.strings.iter().skip(first).take(NECK);
                drawn.copied().collect()
            }
            Asked::Find(string) => {
                let mut drawn = vec![string];
                for other in self.mistaken(string, draws) {
                    if !drawn.contains(&other) && drawn.len() < 4 {
                        drawn.push(other);
                    }
                }
                drawn.sort();
                drawn
            }
            Asked::Called(string) => vec![string],
            _ => Vec::new(),
        }
    }

    pub(super) fn in_order(&self, asked: Asked, drawn: &[StringName]) -> Vec<Choice> {
        let drawn = drawn.iter().copied();
        match asked {
            Asked::PinOf(_) => drawn.map(Choice::Pin).collect(),
            Asked::HeldBy(_) | Asked::Find(_) => drawn.map(Choice::String).collect(),
            Asked::SoundsIn(_, letter) => {
                let each = Alteration::ALL.into_iter();
                each.map(|sounds| Choice::Sounds(letter, sounds)).collect()
            }
            _ => Vec::new(),
        }
    }
}

/// Semitones above C, 0 to 11, of a letter as it sounds.
pub(super) fn place(letter: Letter, sounds: Alteration) -> i32 {
    (letter.semitones() + i32::from(sounds.semitones())).rem_euclid(12)
}

fn is_natural(place: i32) -> bool {
    Letter::ALL.iter().any(|letter| letter.semitones() == place)
}
