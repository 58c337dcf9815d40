//! The shorthand written again: reading it gives the same part.

use std::fmt;

use pitch::Alteration;

use super::{PaperBar, PaperChange, PaperMovement, PaperPart, PaperPlace};
use crate::{Foot, Quarters};

impl fmt::Display for PaperPart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, movement) in self.movements.iter().enumerate() {
            if at > 0 || !movement.name.is_empty() {
                writeln!(f, "{}", format!("movement {}", movement.name).trim_end())?;
            }
            write_movement(movement, f)?;
        }
        Ok(())
    }
}

impl fmt::Display for PaperBar {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(number, None) => write!(f, "{number}"),
            Self::Number(number, Some(letter)) => write!(f, "{number}{letter}"),
            Self::Mark(mark, 0) => write!(f, "[{mark}]"),
            Self::Mark(mark, bars) => write!(f, "[{mark}]+{bars}"),
        }
    }
}

impl fmt::Display for PaperPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.bar)?;
        if let Some(beat) = self.beat {
            write!(f, ":{}", counted(beat))?;
        }
        if let Some(mark) = &self.mark {
            write!(f, " [{mark}]")?;
        }
        for change in &self.right {
            write_change(change, f)?;
        }
        if !self.left.is_empty() {
            f.write_str(" |")?;
        } else if self
            .right
            .iter()
            .any(|change| Foot::of(change.letter) == Foot::Left)
        {
            // without it a letter would find its own foot
            f.write_str(" |")?;
        }
        for change in &self.left {
            write_change(change, f)?;
        }
        if !self.note.is_empty() {
            write!(f, " -- {}", self.note)?;
        }
        Ok(())
    }
}

fn write_movement(movement: &PaperMovement, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    if let Some(opening) = movement.opening {
        f.write_str("opening")?;
        for foot in [Foot::Right, Foot::Left] {
            f.write_str(if foot == Foot::Left { " |" } else { "" })?;
            for &letter in foot.pedals() {
                let to = opening.get(letter).unwrap_or(Alteration::Natural);
                write!(f, " {letter}{}", sign(to))?;
            }
        }
        writeln!(f)?;
    }
    for &(string, pitch) in &movement.by_key {
        writeln!(f, "{} = {}", string.harp_number(), pitch)?;
    }
    if !movement.exposed.is_empty() {
        f.write_str("exposed")?;
        for string in &movement.exposed {
            write!(f, " {}", string.harp_number())?;
        }
        writeln!(f)?;
    }
    movement
        .places
        .iter()
        .try_for_each(|place| writeln!(f, "{place}"))
}

fn write_change(change: &PaperChange, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    let between = if change.together { "+" } else { " " };
    write!(f, "{between}{}", change)
}

impl fmt::Display for PaperChange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.letter, sign(self.to))
    }
}

fn sign(alteration: Alteration) -> &'static str {
    match alteration {
        Alteration::Flat => "♭",
        Alteration::Natural => "",
        Alteration::Sharp => "♯",
    }
}

/// `3`, `2½`, `17/6`.
pub(super) fn counted(beat: Quarters) -> String {
    let (num, den) = (beat.numerator(), beat.denominator());
    let (whole, rest) = (num / den, num % den);
    let part = match (rest, den) {
        (0, _) => "",
        (1, 2) => "½",
        (1, 3) => "⅓",
        (2, 3) => "⅔",
        (1, 4) => "¼",
        (3, 4) => "¾",
        _ => return format!("{num}/{den}"),
    };
    format!("{whole}{part}")
}

#[cfg(test)]
mod tests {
    use harp::{Setting, StringName};
    use pitch::{Letter, SpelledPitch};
    use proptest::prelude::*;

    use super::*;

    fn some_letter() -> impl Strategy<Value = (Letter, Alteration)> {
        (0..7usize, 0..3usize).prop_map(|(letter, to)| (Letter::ALL[letter], Alteration::ALL[to]))
    }

    fn some_changes(foot: Foot) -> impl Strategy<Value = Vec<PaperChange>> {
        proptest::collection::vec((some_letter(), any::<bool>()), 0..4).prop_map(move |all| {
            let mut changes: Vec<PaperChange> = Vec::new();
            for ((letter, to), together) in all {
                if Foot::of(letter) == foot || foot.crosses_to() == letter {
                    let together = together && !changes.is_empty();
                    changes.push(PaperChange {
                        letter,
                        to,
                        together,
                    });
                }
            }
            changes
        })
    }

    fn some_bar() -> impl Strategy<Value = (PaperBar, Option<String>)> {
        prop_oneof![
            (
                0..99_999u32,
                proptest::option::of("[a-z]"),
                proptest::option::of("[A-Z][A-Za-z0-9]{0,3}")
            )
                .prop_map(|(bar, letter, mark)| {
                    let letter = letter.and_then(|letter| letter.chars().next());
                    (PaperBar::Number(bar, letter), mark)
                }),
            ("[A-Z][A-Za-z ]{0,4}[0-9]", 0..300u32)
                .prop_map(|(mark, bars)| (PaperBar::Mark(mark, bars), None)),
        ]
    }

    fn some_place() -> impl Strategy<Value = PaperPlace> {
        let beat = proptest::option::of((1..9i64, 0..12i64, 1..13i64));
        let note = "[a-z]{0,6}( [a-z=#]{1,6}){0,2}";
        (
            some_bar(),
            beat,
            some_changes(Foot::Right),
            some_changes(Foot::Left),
            note,
        )
            .prop_map(|((bar, mark), beat, right, left, note)| PaperPlace {
                bar,
                beat: beat.map(|(whole, above, below)| {
                    Quarters::new(whole * below + above % below, below)
                }),
                mark,
                right,
                left,
                note: note.trim().to_owned(),
            })
            .prop_filter("something must stand there", |place| {
                place.changes().next().is_some()
                    || place.landmark().is_some()
                    || !place.note.is_empty()
            })
    }

    fn some_setting() -> impl Strategy<Value = Setting> {
        proptest::collection::vec(0..3usize, 7).prop_map(|places| {
            let letters = Letter::ALL.into_iter().zip(places);
            letters.fold(Setting::default(), |setting, (letter, to)| {
                setting.with(letter, Alteration::ALL[to])
            })
        })
    }

    fn some_movement() -> impl Strategy<Value = PaperMovement> {
        let by_key = proptest::collection::vec((0..3usize, -3..4i32), 0..3).prop_map(|keys| {
            let mut by_key: Vec<(StringName, SpelledPitch)> = Vec::new();
            for (at, semitones) in keys {
                let string = harp::DISCLESS_BY_DEFAULT[at];
                let spelled = Letter::ALL.into_iter().flat_map(|letter| {
                    Alteration::ALL.map(|to| SpelledPitch::new(letter, to, string.octave))
                });
                let mut spelled = spelled.filter(|pitch| pitch.midi() == string.key() + semitones);
                if let (Some(pitch), false) = (
                    spelled.next(),
                    by_key.iter().any(|&(other, _)| other == string),
                ) {
                    by_key.push((string, pitch));
                }
            }
            by_key
        });
        let exposed = proptest::sample::subsequence(vec!["A4", "E3", "G2", "F7"], 0..=4);
        let name = "([A-Z][a-z]{0,5}( [IV]{1,3})?)?";
        let places = proptest::collection::vec(some_place(), 0..6);
        (
            name,
            proptest::option::of(some_setting()),
            by_key,
            exposed,
            places,
        )
            .prop_map(|(name, opening, by_key, exposed, places)| PaperMovement {
                name,
                opening,
                by_key,
                exposed: exposed.iter().map(|name| name.parse().unwrap()).collect(),
                places,
            })
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_again_as_it_was(
            movements in proptest::collection::vec(some_movement(), 1..4)
        ) {
            let part = PaperPart { movements };
            // an empty first movement and its name cannot be told from none
            prop_assume!(part.movements.len() == 1 || part.movements[0] != PaperMovement::default());
            let text = part.to_string();
            let read = PaperPart::read(&text);
            prop_assert_eq!(&read.errors, &[], "{}", text);
            prop_assert_eq!(read.part, part, "{}", text);
        }
    }
}
