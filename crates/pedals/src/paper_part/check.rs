//! A part on paper looked over: what moves nothing, what no foot can do, what the harp does not have.

use std::fmt;

use harp::{Harp, HarpKind, Mechanism, StringName};
use pitch::{Alteration, Letter};

use super::{PaperBar, PaperChange, PaperPart, PaperPlace};
use crate::Foot;

/// Something to look at again. None of it keeps a part from being used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The movement, from 0.
    pub movement: usize,
    /// The bar, where it has one.
    pub bar: Option<PaperBar>,
    /// Which of the movement's places, from 0, where it is about one.
    pub place: Option<usize>,
    /// What.
    pub kind: FindingKind,
}

/// What may be found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FindingKind {
    /// The part begins without opening pedals.
    NoOpening,
    /// The pedal stands there already.
    ChangesNothing(Letter, Alteration),
    /// A foot has two pedals to move at one place.
    TwoPlaces(Foot, Letter, Letter),
    /// One pedal is to stand in two positions at one place.
    TwoPositions(Letter),
    /// Two pedals joined by + that do not lie side by side.
    NotNeighbours(Letter, Letter),
    /// A foot takes the other foot's pedal.
    Crosses(Foot, Letter),
    /// A bar comes after a later one.
    OutOfOrder(PaperBar),
    /// A rehearsal mark stands at two bars.
    MarkTwice(String),
    /// The harp has no such string.
    NoSuchString(StringName),
    /// A string that has discs is to be tuned by key.
    HasDiscs(StringName),
}

impl PaperPart {
    /// Everything to look at again on this harp, movement by movement in the order of the part.
    pub fn check(&self, harp: &Harp) -> Vec<Finding> {
        let mut findings = Vec::new();
        if self
            .movements
            .first()
            .is_none_or(|first| first.opening.is_none())
        {
            findings.push(Finding {
                movement: 0,
                bar: None,
                place: None,
                kind: FindingKind::NoOpening,
            });
        }
        for (at, movement) in self.movements.iter().enumerate() {
            let found = |kind| Finding {
                movement: at,
                bar: None,
                place: None,
                kind,
            };
            let keyed = movement.by_key.iter().map(|&(string, _)| (string, true));
            let exposed = movement.exposed.iter().map(|&string| (string, false));
            for (string, by_key) in keyed.chain(exposed) {
                match harp.string(string) {
                    None => findings.push(found(FindingKind::NoSuchString(string))),
                    Some(stands) if by_key && stands.mechanism != Mechanism::Nothing => {
                        findings.push(found(FindingKind::HasDiscs(string)));
                    }
                    Some(_) => {}
                }
            }
            self.check_order(at, &mut findings);
        }
        if harp.kind() == HarpKind::Pedal {
            self.check_feet(&mut findings);
        }
        findings.sort_by_key(|finding| finding.movement);
        findings
    }

    fn check_order(&self, at: usize, findings: &mut Vec<Finding>) {
        let mut marks: Vec<(&str, &PaperBar)> = Vec::new();
        let mut last: Option<((u32, Option<char>), &PaperPlace)> = None;
        for (nth, place) in self.movements[at].places.iter().enumerate() {
            let mut found = |kind| {
                let bar = Some(place.bar.clone());
                findings.push(Finding {
                    movement: at,
                    bar,
                    place: Some(nth),
                    kind,
                });
            };
            if let Some(mark) = &place.mark {
                match marks.iter().find(|(other, _)| other == mark) {
                    Some(&(_, bar)) if *bar != place.bar => {
                        found(FindingKind::MarkTwice(mark.clone()));
                    }
                    Some(_) => {}
                    None => marks.push((mark, &place.bar)),
                }
            }
            let PaperBar::Number(number, letter) = place.bar else {
                continue;
            };
            if let Some((before, other)) = &last {
                let back = (number, letter) < *before;
                let back = back || (number, letter) == *before && place.beat < other.beat;
                if back {
                    found(FindingKind::OutOfOrder(other.bar.clone()));
                }
            }
            last = Some(((number, letter), place));
        }
    }

    fn check_feet(&self, findings: &mut Vec<Finding>) {
        for standing in self.standing() {
            let place = standing.place;
            let mut found = |kind| {
                let bar = Some(place.bar.clone());
                findings.push(Finding {
                    movement: standing.movement,
                    bar,
                    place: Some(standing.nth),
                    kind,
                });
            };
            let mut moved: Vec<Letter> = Vec::new();
            for (foot, change) in place.changes() {
                if Foot::of(change.letter) != foot {
                    found(FindingKind::Crosses(foot, change.letter));
                }
                if moved.contains(&change.letter) {
                    found(FindingKind::TwoPositions(change.letter));
                } else if standing.before.get(change.letter) == Some(change.to) {
                    found(FindingKind::ChangesNothing(change.letter, change.to));
                }
                moved.push(change.letter);
            }
            for (foot, changes) in [(Foot::Right, &place.right), (Foot::Left, &place.left)] {
                at_once(foot, changes, &mut found);
            }
        }
    }
}

/// What one foot has to do at one place.
fn at_once(foot: Foot, changes: &[PaperChange], found: &mut impl FnMut(FindingKind)) {
    for pair in changes.windows(2) {
        let (one, other) = (pair[0].letter, pair[1].letter);
        if one == other {
            continue;
        }
        match (pair[1].together, neighbours(foot, one, other)) {
            (false, _) => found(FindingKind::TwoPlaces(foot, one, other)),
            (true, false) => found(FindingKind::NotNeighbours(one, other)),
            (true, true) => {}
        }
    }
}

fn neighbours(foot: Foot, one: Letter, other: Letter) -> bool {
    let pedals = foot.pedals();
    let place = |letter| pedals.iter().position(|&pedal| pedal == letter);
    matches!((place(one), place(other)), (Some(one), Some(other)) if one.abs_diff(other) == 1)
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(bar) = &self.bar {
            match bar {
                PaperBar::Number(..) => write!(f, "bar {bar}: ")?,
                PaperBar::Mark(..) => write!(f, "at {bar}: ")?,
            }
        }
        write!(f, "{}", self.kind)
    }
}

impl fmt::Display for FindingKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoOpening => f.write_str(
                "no opening pedals are given; write them on a line of their own: opening E♭ F G A♭ | D C B♭",
            ),
            Self::ChangesNothing(letter, to) => write!(
                f,
                "{letter} stands in {to} already; leave it out, or see whether an earlier change is missing"
            ),
            Self::TwoPlaces(foot, one, other) => write!(
                f,
                "the {} foot has {one} and {other} at one place; say which beat each has (12:1, 12:3), or join neighbours with + if your foot takes both",
                foot.as_str()
            ),
            Self::TwoPositions(letter) => write!(
                f,
                "{letter} is to stand in two positions at one place; say which beat each has"
            ),
            Self::NotNeighbours(one, other) => write!(
                f,
                "{one} and {other} do not lie side by side; one foot cannot take both at once"
            ),
            Self::Crosses(foot, letter) => {
                write!(f, "the {} foot crosses over to {letter}", foot.as_str())
            }
            Self::OutOfOrder(other) => {
                write!(f, "it comes after {other}; put the bars in their order")
            }
            Self::MarkTwice(mark) => write!(f, "mark {mark} stands at another bar already"),
            Self::NoSuchString(string) => write!(
                f,
                "this harp has no string {} ({string})",
                string.harp_number()
            ),
            Self::HasDiscs(string) => write!(
                f,
                "{} ({string}) has discs on this harp: its pedal moves it too, whatever it is tuned to",
                string.harp_number()
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &[&str]) {
        let read = PaperPart::read(text);
        assert_eq!(read.errors, [], "{text}");
        let found = read.part.check(&Harp::named("pedal46").unwrap());
        let told: Vec<String> = found.iter().map(Finding::to_string).collect();
        assert_eq!(told.len(), expected.len(), "{told:?}");
        for (told, expected) in told.iter().zip(expected) {
            assert!(told.starts_with(expected), "{told}");
        }
    }

    #[test]
    fn a_part_in_order_has_nothing_to_look_at() {
        check(
            "opening Bb Eb\n7D = Db\n12 F# | B\n12:3 G#\n13a [A] F\n[B] Eb+F#",
            &["at [B]: E stands in flat"],
        );
        check(
            "opening Bb Eb\nexposed 3A\n12 F# | B\n12:3 G#\n[A] E+F | C#",
            &[],
        );
    }

    #[test]
    fn what_moves_nothing_is_found() {
        check("opening Bb\n12 F", &["bar 12: F stands in natural already"]);
        check(
            "opening Bb\n12 F#\n14 F#",
            &["bar 14: F stands in sharp already"],
        );
        check("12 F", &["no opening pedals"]);
    }

    #[test]
    fn a_foot_is_in_one_place_only() {
        check(
            "opening Bb\n12 F# G#",
            &["bar 12: the right foot has F and G at one place"],
        );
        check("opening Bb\n12 F#+G# | B", &[]);
        check(
            "opening Bb\n12 | D#+B",
            &["bar 12: D and B do not lie side by side"],
        );
        check(
            "opening Bb\n12 F# F",
            &["bar 12: F is to stand in two positions"],
        );
        check(
            "opening Bb\n12 B |",
            &["bar 12: the right foot crosses over to B"],
        );
    }

    #[test]
    fn bars_keep_their_order() {
        check("opening Bb\n12 F#\n9 F", &["bar 9: it comes after 12"]);
        check(
            "opening Bb\n12:3 F#\n12:2 F",
            &["bar 12: it comes after 12"],
        );
        check(
            "opening Bb\n12 [A] F#\n14 [A] F",
            &["bar 14: mark A stands at another bar"],
        );
        check("opening Bb\n12 F#\nmovement II\n1 F", &[]);
    }

    #[test]
    fn strings_are_the_harps_own() {
        check("opening Bb\n7C = C#", &["this harp has no string 7C"]);
        check("opening Bb\n6D = D#", &["6D (D2) has discs"]);
    }
}
