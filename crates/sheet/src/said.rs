//! The picture in words: for who cannot see it, and for where no picture can stand.

use crate::kind::Kind;
use crate::length::lengths;
use crate::standing::{Room, standing};
use crate::wording::Count;
use crate::{Drawn, Mark, Picture};

/// The marks whose strings are named one by one, in their order.
const LISTED: [Kind; 7] = [
    Kind::Off,
    Kind::Near,
    Kind::Moving,
    Kind::Again,
    Kind::New,
    Kind::Broken,
    Kind::Skipped,
];

/// What a picture shows, as a few sentences in its language: how many strings are in tune, which are not and by how
/// much, what else is marked, which string is the present one.
///
/// It says where a string stands, low or high; which way to turn is for others to say.
pub fn said(picture: &Picture) -> String {
    let words = picture.words();
    let mut sentences = vec![words.harp_of(picture.strings.len())];
    if let Some(present) = picture.present {
        let string = picture.strings.iter().find(|string| string.name == present);
        let mark = string.map_or(words.not_on_this_harp().to_owned(), |string| {
            with_standing(picture, string)
        });
        sentences.push(words.present(&picture.name_of(present), &mark));
    }
    sentences.push(format!("{}.", counted(picture)));
    for kind in LISTED {
        let of_kind: Vec<String> = picture
            .strings
            .iter()
            .filter(|string| string.mark.kind() == kind)
            .map(|string| named(picture, string))
            .collect();
        if !of_kind.is_empty() {
            sentences.push(words.all_of(kind, &of_kind));
        }
    }
    if has_figures(picture) {
        sentences.push(words.figures_are_cents().to_owned());
    }
    sentences.join(" ")
}

/// Whether it is said of any string how far off it is.
pub(crate) fn has_figures(picture: &Picture) -> bool {
    picture.strings.iter().any(|string| {
        let in_words = !matches!(string.mark, Mark::InTune { .. });
        let told = in_words || picture.present == Some(string.name);
        told && string.mark.cents().is_some()
    })
}

/// How many are in tune, and how many were not heard: the line under a picture's title.
pub(crate) fn counted(picture: &Picture) -> String {
    let count = |kind| {
        let strings = picture.strings.iter();
        strings.filter(|string| string.mark.kind() == kind).count()
    };
    picture.words().counted(Count {
        in_tune: count(Kind::InTune),
        unheard: count(Kind::NotYetHeard),
        all: picture.strings.len(),
    })
}

/// Where the lengths come from: nobody shall take an invented harp for a measured one.
pub(crate) fn origin_of_lengths(picture: &Picture) -> String {
    let typical = lengths(&picture.strings).typical;
    let all = picture.strings.len();
    picture.words().origin_of_lengths(typical, all)
}

fn named(picture: &Picture, string: &Drawn) -> String {
    let name = picture.name_of(string.name);
    match standing(&string.mark, picture.tongue, Room::Enough) {
        Some(standing) => format!("{name} {standing}"),
        None => name,
    }
}

fn with_standing(picture: &Picture, string: &Drawn) -> String {
    let meaning = picture.words().meaning(string.mark.kind());
    match standing(&string.mark, picture.tongue, Room::Enough) {
        Some(standing) => format!("{meaning}, {standing}"),
        None => meaning.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use harp::Harp;
    use harp::Numbers;
    use pitch::Tongue;

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
                picture.naming.numbers = Numbers::Scientific;
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
        let check = |tongue, invented: &str, some: &str, typical: &str| {
            let mut picture = Picture::of(&Harp::named("lever22").unwrap());
            picture.tongue = tongue;
            assert!(origin_of_lengths(&picture).contains(invented));
            picture.strings[0].length_mm = Some(1000.0);
            assert!(origin_of_lengths(&picture).contains(some));
            for string in &mut picture.strings {
                string.length_mm = Some(500.0);
            }
            assert!(!origin_of_lengths(&picture).contains(typical));
        };
        let english = "of 21 strings are typical";
        check(Tongue::English, "synthetic", english, "typical");
        let german = "von 21 Saiten sind typisch";
        check(Tongue::German, "synthetisch", german, "typisch");
        let french = "de 21 cordes sont typiques";
        check(Tongue::French, "synthétiques", french, "typiques");
    }
    #[test]
    fn the_account_is_given_in_the_pictures_language_and_notes() {
        let check = |tongue: Tongue, expected: &str| {
            let mut picture = Picture::of(&Harp::named("lever22").unwrap());
            (picture.tongue, picture.naming.language) = (tongue, tongue.notes());
            let (cents, u95_cents) = (-14.0, 1.5);
            picture.strings[4].mark = Mark::Off { cents, u95_cents };
            picture.strings[6].mark = Mark::InTune {
                cents: 0.2,
                u95_cents,
            };
            for broken in [7, 8] {
                picture.strings[broken].mark = Mark::Broken;
            }
            picture.present = Some(picture.strings[4].name);
            // a narrow space is not to be told from none in the source
            assert_eq!(said(&picture).replace('\u{202f}', "_"), expected);
        };
        check(
            Tongue::German,
            "Eine Harfe mit 22 Saiten. Die jetzige Saite ist 4G: verstimmt, 14 zu tief ± 1,5. \
             1 von 22 stimmt, 18 ungehört. Verstimmt: 4G 14 zu tief ± 1,5. Gerissen: 4C; 4D. \
             Alle Zahlen sind Cent.",
        );
        check(
            Tongue::French,
            "Une harpe de 22 cordes. La corde du moment est 4sol_: désaccordée, 14 trop bas ± 1,5. \
             1 sur 22 juste, 18 à entendre. Désaccordée_: 4sol 14 trop bas ± 1,5. Cassée_: 4do_; 4ré. \
             Tous les chiffres sont en cents.",
        );
    }
}
