//! Which spare covers which string: its own, else the next thinner one tuned down.
//!
//! The skeleton set of common practice is C, F, E and B (or A) of each octave: an E stands in for a D, a B or an A for a B,
//! an A or a G; the colours by which the hand finds its way are kept. So a string is replaced by one that is one or two
//! places higher, and never by a thicker one, which would be tuned up: that loads the harp and breaks.

use diary::Moment;
use harp::{Harp, HarpString, StringName};

use crate::{Register, Shelf, Spare};

/// How many places higher a substitute may come from (an E for a D, a B for a G).
const MOST_PLACES: usize = 2;

/// What stands in for a string that breaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// Its own spare, the one of this place in the list.
    Own(usize),
    /// One for a thinner string, tuned down.
    Thinner {
        /// The spare's place in the list.
        spare: usize,
        /// The string that it was made for.
        made_for: StringName,
        /// How many places higher that is: 1 or 2.
        places: usize,
        /// Whether it has the same colour.
        same_colour: bool,
    },
    /// Nothing.
    Nothing,
}

/// A string and what stands in for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Covered {
    /// The string.
    pub string: StringName,
    /// By what.
    pub by: By,
    /// How long that spare has lain; `NotKnown` without one.
    pub shelf: Shelf,
}

/// What covers each string of a harp, from the bass, if that string alone broke: one spare may stand there for several. A
/// spare that is too old counts only where there is no other.
pub fn cover(harp: &Harp, spares: &[Spare], now: Moment) -> Vec<Covered> {
    let placed: Vec<Placed> = spares
        .iter()
        .enumerate()
        .filter_map(|(at, spare)| {
            let string = spare.place(harp)?;
            let shelf = spare.shelf(harp, now);
            Some(Placed { at, string, shelf })
        })
        .collect();
    let mut from_it_up = harp.strings();
    let mut covered = Vec::new();
    while let [own, above @ ..] = from_it_up {
        covered.push(of_string(harp, own, from_it_up, &placed));
        from_it_up = above;
    }
    covered
}

struct Placed {
    at: usize,
    string: StringName,
    shelf: Shelf,
}

fn of_string(
    harp: &Harp,
    own: &HarpString,
    from_it_up: &[HarpString],
    placed: &[Placed],
) -> Covered {
    let nothing = Covered {
        string: own.name,
        by: By::Nothing,
        shelf: Shelf::NotKnown,
    };
    let near = from_it_up.iter().take(MOST_PLACES + 1).enumerate();
    let alike = near.filter(|(_, string)| is_alike(harp, own, string));
    let candidates = alike.flat_map(|(places, string)| {
        let its = placed.iter().filter(|spare| spare.string == string.name);
        its.map(move |spare| (places, string, spare))
    });
    let best = candidates.min_by_key(|(places, string, spare)| {
        let too_old = spare.shelf == Shelf::Retire;
        let other_colour = string.colour != own.colour;
        (too_old, other_colour, *places, spare.shelf, spare.at)
    });
    best.map_or(nothing, |(places, string, spare)| Covered {
        by: match places {
            0 => By::Own(spare.at),
            _ => By::Thinner {
                spare: spare.at,
                made_for: string.name,
                places,
                same_colour: string.colour == own.colour,
            },
        },
        shelf: spare.shelf,
        ..nothing
    })
}

/// Whether one may stand for the other: a wire for a wire, gut for gut; where no material was given, within a register.
pub(crate) fn is_alike(harp: &Harp, own: &HarpString, other: &HarpString) -> bool {
    let materials = harp.figures(own).material.zip(harp.figures(other).material);
    match materials {
        Some((own, other)) => own == other,
        None => own.wire == other.wire && Register::of(own) == Register::of(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(text: &str) -> StringName {
        text.parse().unwrap()
    }

    fn now() -> Moment {
        Moment::of(&"2026-11-26T18:40:00Z".parse().unwrap())
    }

    #[track_caller]
    fn check(spares: &[&str], string: &str, expected: &str) {
        let harp = Harp::named("pedal47").unwrap();
        let spares: Vec<Spare> = spares
            .iter()
            .map(|text| Spare {
                string: Some(name(text)),
                ..Spare::default()
            })
            .collect();
        let cover = cover(&harp, &spares, now());
        let one = cover.iter().find(|c| c.string == name(string)).unwrap();
        let told = match one.by {
            By::Own(_) => "own".to_owned(),
            By::Thinner {
                made_for,
                same_colour,
                ..
            } => format!(
                "{}{}",
                made_for.harp_number(),
                if same_colour { "" } else { ", another colour" }
            ),
            By::Nothing => "nothing".to_owned(),
        };
        assert_eq!(told, expected, "{string}");
    }

    // the skeleton set of a harpist's column: 'E for a broken E or D, the B or A for B, A or G'
    #[test]
    fn a_skeleton_set_covers_every_letter_of_its_octave() {
        let set = ["3C", "3F", "3E", "3B"];
        for (string, by) in [
            ("3C", "own"),
            ("3D", "3E"),
            ("3E", "own"),
            ("3F", "own"),
            ("3G", "3B"),
            ("3A", "3B"),
            ("3B", "own"),
        ] {
            check(&set, string, by);
        }
    }

    #[test]
    fn a_thicker_string_and_a_wire_for_gut_are_no_cover() {
        check(&["3D"], "3E", "nothing");
        check(&["5A"], "5G", "nothing");
        check(&["3G"], "3F", "3G, another colour");
        check(&["3A"], "3F", "3A, another colour");
        check(&["3B"], "3F", "nothing");
    }

    #[test]
    fn a_spare_without_a_name_goes_where_its_gauge_is() {
        let harp = Harp::named("pedal47").unwrap();
        let gut =
            |gauge: f64| harp::Figures::of(harp::Material::Gut).with(harp::Field::GaugeMm, gauge);
        let harp = harp.with_figures(name("3C"), gut(1.05)).unwrap();
        let harp = harp.with_figures(name("3D"), gut(1.00)).unwrap();
        let spare = |gauge_mm, material| Spare {
            gauge_mm: Some(gauge_mm),
            material: Some(material),
            ..Spare::default()
        };
        let place = |gauge, material| spare(gauge, material).place(&harp);
        assert_eq!(place(1.05, harp::Material::Gut), Some(name("3C")));
        assert_eq!(place(1.05, harp::Material::Nylon), None);
        assert_eq!(place(1.20, harp::Material::Gut), None);
    }
}
