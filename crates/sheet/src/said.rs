//! The picture in words: for who cannot see it, and for where no picture can stand.

use crate::length::lengths;
use crate::standing::standing;
use crate::{Drawn, Mark, Picture};

/// The marks whose strings are named one by one: how the sentence begins, and which they are.
const LISTED: [(&str, &str); 7] = [
    ("Off", "off"),
    ("Near, cannot say", "near, cannot say"),
    ("Moving", "moving"),
    ("To be heard again", "hear again"),
    ("New", "new"),
    ("Broken", "broken"),
    ("Skipped", "skipped"),
];

/// What a picture shows, as a few sentences: how many strings are in tune, which are not and by how
/// much, what else is marked, which string is the present one.
///
/// It says where a string stands, low or high; which way to turn is for others to say.
pub fn said(picture: &Picture) -> String {
    let mut sentences = vec![format!("A harp of {}.", strings(picture.strings.len()))];
    if let Some(present) = picture.present {
        let string = picture.strings.iter().find(|string| string.name == present);
        let mark = string.map_or("not on this harp".to_owned(), with_standing);
        let name = picture.names.of(present);
        sentences.push(format!("The present string is {name}: {mark}."));
    }
    sentences.push(format!("{}.", counted(picture)));
    for (word, meaning) in LISTED {
        let of_kind: Vec<String> = picture
            .strings
            .iter()
            .filter(|string| string.mark.meaning() == meaning)
            .map(|string| named(picture, string))
            .collect();
        if !of_kind.is_empty() {
            sentences.push(format!("{word}: {}.", of_kind.join(", ")));
        }
    }
    if has_figures(picture) {
        sentences.push("All figures are cents.".to_owned());
    }
    sentences.join(" ")
}

/// Whether it is said of any string how far off it is.
pub(crate) fn has_figures(picture: &Picture) -> bool {
    picture.strings.iter().any(|string| {
        let in_words = !matches!(string.mark, Mark::InTune { .. });
        let told = in_words || picture.present == Some(string.name);
        told && standing(&string.mark).is_some()
    })
}

/// How many are in tune, and how many were not heard: the line under a picture's title.
pub(crate) fn counted(picture: &Picture) -> String {
    let count = |mark: &Mark| {
        let same = |string: &&Drawn| string.mark.meaning() == mark.meaning();
        picture.strings.iter().filter(same).count()
    };
    let in_tune = count(&Mark::InTune {
        cents: 0.0,
        u95_cents: 0.0,
    });
    let all = picture.strings.len();
    match count(&Mark::NotYetHeard) {
        unheard if unheard == all => "No string heard yet".to_owned(),
        0 => format!("{in_tune} of {all} in tune"),
        unheard => format!("{in_tune} of {all} in tune, {unheard} not yet heard"),
    }
}

/// Where the lengths come from: nobody shall take an invented harp for a measured one.
pub(crate) fn origin_of_lengths(picture: &Picture) -> String {
    let (all, typical) = (picture.strings.len(), lengths(&picture.strings).typical);
    match typical {
        0 => "The lengths are those given for this harp.".to_owned(),
        _ if typical == all => {
            "The lengths are typical: drawn after synthetic figures, not this harp's.".to_owned()
        }
        _ => format!(
            "The lengths of {} are typical: drawn after synthetic figures; the others are those \
             given for this harp.",
            strings(typical)
        ),
    }
}

fn strings(count: usize) -> String {
    match count {
        1 => "1 string".to_owned(),
        _ => format!("{count} strings"),
    }
}

fn named(picture: &Picture, string: &Drawn) -> String {
    let name = picture.names.of(string.name);
    match standing(&string.mark) {
        Some(standing) => format!("{name} {standing}"),
        None => name,
    }
}

fn with_standing(string: &Drawn) -> String {
    match standing(&string.mark) {
        Some(standing) => format!("{}, {standing}", string.mark.meaning()),
        None => string.mark.meaning().to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Names;
    use harp::Harp;

    #[track_caller]
    fn check(change: impl Fn(&mut Picture), expected: &str) {
        let mut picture = Picture::of(&Harp::named("lever22").unwrap());
        change(&mut picture);
        assert_eq!(said(&picture), expected);
    }

    #[test]
    fn an_untouched_harp_is_said_to_be_unheard() {
        check(|_| {}, "A harp of 22 strings. No string heard yet.");
    }

    #[test]
    fn what_is_off_is_named_with_how_far_and_how_sure() {
        let (cents, u95_cents) = (-14.0, 1.0);
        check(
            |picture| {
                picture.strings[4].mark = Mark::Off { cents, u95_cents };
                picture.strings[5].mark = Mark::Off {
                    cents: 3.4,
                    u95_cents: 0.6,
                };
                picture.strings[6].mark = Mark::InTune {
                    cents: 0.2,
                    u95_cents,
                };
                picture.present = Some(picture.strings[4].name);
            },
            "A harp of 22 strings. The present string is 4G: off, 14 low ± 1. 1 of 22 in tune, \
             19 not yet heard. Off: 4G 14 low ± 1, 4A 3.4 high ± 0.6. All figures are cents.",
        );
    }

    #[test]
    fn every_other_mark_is_named_too_in_the_names_chosen() {
        check(
            |picture| {
                picture.names = Names::Scientific;
                let marks = [
                    Mark::Near {
                        cents: -1.0,
                        u95_cents: 6.0,
                    },
                    Mark::Moving {
                        cents: -20.0,
                        trail_cents: vec![-40.0],
                    },
                    Mark::Again {
                        cents: 0.5,
                        u95_cents: 1.0,
                    },
                    Mark::New { cents: None },
                    Mark::Broken,
                    Mark::Skipped,
                ];
                for (string, mark) in picture.strings.iter_mut().zip(marks) {
                    string.mark = mark;
                }
            },
            "A harp of 22 strings. 0 of 22 in tune, 16 not yet heard. Near, cannot say: C3 1 low ± 6. \
             Moving: D3 20 low. To be heard again: E3 0.5 high ± 1. New: F3. Broken: G3. Skipped: A3. \
             All figures are cents.",
        );
    }

    #[test]
    fn typical_lengths_are_never_passed_off_as_the_harps_own() {
        let mut picture = Picture::of(&Harp::named("lever22").unwrap());
        assert!(origin_of_lengths(&picture).contains("synthetic"));
        picture.strings[0].length_mm = Some(1000.0);
        assert!(origin_of_lengths(&picture).contains("of 21 strings are typical"));
        for string in &mut picture.strings {
            string.length_mm = Some(500.0);
        }
        assert!(!origin_of_lengths(&picture).contains("typical"));
    }
}
