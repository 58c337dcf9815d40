//! Which strings can play a note, and with what.

use harp::{Harp, HarpKind, Mechanism, NEAR_SEMITONES, StringName};
use pitch::{Alteration, Letter, SpelledPitch};

use crate::Wishes;
use crate::code::place;

/// What makes a string sound a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum By {
    /// Its pedal, at this place.
    Pedal { place: u8 },
    /// The tuning key, set beforehand: the how-manieth string without discs.
    Key { string: usize },
}

/// A string that can play a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Way {
    pub(crate) string: StringName,
    pub(crate) by: By,
    /// Whether she reads another name than the string's.
    pub(crate) respelled: bool,
}

/// The strings that stand on a pedal harp, as far as they can be played.
#[derive(Clone, Debug)]
pub(crate) struct Strings {
    any_octave: bool,
    /// Strings with discs: a bit for every place that works.
    with_discs: Vec<(StringName, u8)>,
    /// Strings without.
    pub(crate) by_key: Vec<StringName>,
}

impl Strings {
    /// The strings of a pedal harp; of any other, those that its pedals would move.
    pub(crate) fn of(harp: &Harp, wishes: &Wishes) -> Self {
        let broken = &wishes.broken;
        let mut strings = Self {
            any_octave: wishes.any_octave,
            with_discs: Vec::new(),
            by_key: Vec::new(),
        };
        for string in harp.strings() {
            let name = string.name;
            if broken.missing.contains(&name) || harp.kind() != HarpKind::Pedal {
                continue;
            }
            if string.mechanism == Mechanism::Nothing {
                strings.by_key.push(name);
            } else {
                let works = |a: &&Alteration| !broken.dead_discs.contains(&(name, **a));
                let places = Alteration::ALL.iter().filter(works);
                let bits = places.fold(0, |bits, &a| bits | 1 << place(a));
                strings.with_discs.push((name, bits));
            }
        }
        strings
    }

    /// Every way to play a note, the written one first.
    pub(crate) fn ways(&self, written: SpelledPitch) -> Vec<Way> {
        let mut ways: Vec<Way> = Vec::new();
        for letter in Letter::ALL {
            for alteration in Alteration::ALL {
                if let Some(string) = string_for(written.midi(), letter, alteration) {
                    let respelled =
                        letter != written.letter || alteration.semitones() != written.alter;
                    ways.extend(self.by_of(string, place(alteration)).map(|by| Way {
                        string,
                        by,
                        respelled,
                    }));
                }
            }
        }
        if ways.is_empty() {
            ways.extend(self.far_by_key(written));
        }
        ways.sort_by_key(|way| way.respelled);
        ways
    }

    /// Whether any string of that name stands there, working or not.
    pub(crate) fn stands(&self, name: StringName) -> bool {
        self.any_octave
            || self.by_key.contains(&name)
            || self.with_discs.iter().any(|&(with, _)| with == name)
    }

    fn by_of(&self, name: StringName, place: u8) -> Option<By> {
        if self.any_octave {
            return Some(By::Pedal { place });
        }
        if let Some(string) = self.by_key.iter().position(|&key| key == name) {
            return Some(By::Key { string });
        }
        let with = self.with_discs.iter().find(|&&(with, _)| with == name);
        with.filter(|&&(_, bits)| bits & 1 << place != 0)
            .map(|_| By::Pedal { place })
    }

    /// Strings without discs are sometimes asked further than a semitone, where nothing else can.
    fn far_by_key(&self, written: SpelledPitch) -> Option<Way> {
        let near = |name: &StringName| (written.midi() - name.key()).abs() <= NEAR_SEMITONES;
        let string = self.by_key.iter().position(near)?;
        Some(Way {
            string: self.by_key[string],
            by: By::Key { string },
            respelled: self.by_key[string] != StringName::new(written.letter, written.octave),
        })
    }
}

/// The string of a letter that sounds a key number at an alteration, whether a harp has it or not.
fn string_for(midi: i32, letter: Letter, alteration: Alteration) -> Option<StringName> {
    let above = midi - letter.semitones() - i32::from(alteration.semitones());
    let octave = i8::try_from(above.div_euclid(12) - 1).ok()?;
    (above.rem_euclid(12) == 0).then(|| StringName::new(letter, octave))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(written: &str, ways: &[&str]) {
        let harp = Harp::named("pedal47").unwrap();
        let strings = Strings::of(&harp, &Wishes::comfortable());
        let found = strings.ways(written.parse().unwrap());
        let names: Vec<_> = found.iter().map(|way| way.string.to_string()).collect();
        assert_eq!(names, ways, "{written}");
    }

    #[test]
    fn a_note_has_the_strings_that_stand_there() {
        check("C#4", &["C4", "D4"]);
        check("Db4", &["D4", "C4"]);
        check("Cb4", &["C4", "B3"]);
        check("A4", &["A4"]);
        check("F##4", &["G4"]);
        check("B0", &["C1"]);
        check("A0", &["C1"]);
        check("F#7", &["F7", "G7"]);
        check("C8", &[]);
    }
}
