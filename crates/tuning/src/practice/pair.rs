//! Which two strings are tuned to each other by ear.

use harp::{Harp, HarpError, HarpKind, Mechanism, Setup, Standing, StringName};
use pitch::{Alteration, Letter, harp_octave};

use super::ByEar;

/// What is practised.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drill {
    /// Octaves: each string of one of the harp's octaves against its letter an octave nearer to the middle.
    Octave(i32),
    /// Unisons: each string of one of the harp's octaves against the string below it, which its pedal or lever makes sound
    /// the same.
    Unison(i32),
    /// Fifths: each string of one of the harp's octaves against the one a fifth below, or above where none is below.
    Fifth(i32),
    /// All strings of a letter, from the middle outwards, each against the one before it.
    Letter(Letter),
}

/// The middle: the harp's octave from which octaves are tuned outwards (common practice, no source).
const MIDDLE: i32 = 4;
/// Semitones of a fifth.
const FIFTH: i32 = 7;

/// Two strings, one of which stays.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// The string that stays.
    pub stays: StringName,
    /// Where the pedal of its letter, or its lever, is to stand meanwhile; `None`: open, as all others.
    pub moved: Option<Alteration>,
    /// The string that is tuned.
    pub tuned: StringName,
    /// What both should sound.
    pub by_ear: ByEar,
    /// What every string should sound meanwhile.
    pub standing: Vec<Standing>,
}

/// The pairs of a drill, on a harp that stands open (pedals up, levers off) but for what a pair itself asks; `setup` says the
/// reference pitch and what strings without discs are tuned to. Empty where the harp has none.
///
/// Errors: the setup is not possible on this harp.
pub fn pairs(harp: &Harp, setup: &Setup, drill: Drill) -> Result<Vec<Pair>, HarpError> {
    let open = harp.standing(setup)?;
    let chosen: Vec<(StringName, StringName, Option<Alteration>)> = match drill {
        Drill::Octave(octave) => of_octave(&open, octave)
            .filter_map(|tuned| Some((octave_of(&open, tuned.string)?, tuned.string, None)))
            .collect(),
        Drill::Fifth(octave) => of_octave(&open, octave)
            .filter_map(|tuned| Some((fifth_of(&open, tuned)?, tuned.string, None)))
            .collect(),
        Drill::Letter(letter) => outwards(&open, letter)
            .into_iter()
            .map(|(stays, tuned)| (stays, tuned, None))
            .collect(),
        Drill::Unison(octave) => of_octave(&open, octave)
            .filter_map(|tuned| {
                let (stays, moved) = unison_of(harp, &open, tuned)?;
                Some((stays, tuned.string, Some(moved)))
            })
            .collect(),
    };
    let pair = |(stays, tuned, moved): (StringName, StringName, Option<Alteration>)| {
        let standing = match moved {
            None => open.clone(),
            Some(moved) => harp.standing(&with_moved(harp, setup, stays, moved))?,
        };
        let hz = |string: StringName| {
            let found = standing.iter().find(|standing| standing.string == string);
            found
                .map(|standing| standing.target_hz)
                .ok_or(HarpError::NoSuchString { string })
        };
        Ok(Pair {
            by_ear: ByEar {
                stays_hz: hz(stays)?,
                tuned_hz: hz(tuned)?,
            },
            stays,
            moved,
            tuned,
            standing,
        })
    };
    chosen.into_iter().map(pair).collect()
}

/// The strings of one of the harp's octaves, from the top down, as octaves are counted.
fn of_octave(open: &[Standing], octave: i32) -> impl Iterator<Item = &Standing> {
    let of = move |s: &&Standing| harp_octave(s.string.letter, s.string.octave) == octave;
    open.iter().rev().filter(of)
}

fn find(open: &[Standing], letter: Letter, octave: i8) -> Option<StringName> {
    let of = |s: &&Standing| s.string.letter == letter && s.string.octave == octave;
    open.iter().find(of).map(|standing| standing.string)
}

/// The same letter an octave nearer to the middle; in the middle, above, or below where there is none above.
fn octave_of(open: &[Standing], tuned: StringName) -> Option<StringName> {
    let above = find(open, tuned.letter, tuned.octave + 1);
    let below = find(open, tuned.letter, tuned.octave - 1);
    match harp_octave(tuned.letter, tuned.octave) < MIDDLE {
        true => below,
        false => above.or(below),
    }
}

fn fifth_of(open: &[Standing], tuned: &Standing) -> Option<StringName> {
    let key = tuned.pitch.midi();
    let at = |key: i32| {
        let of = |s: &&Standing| s.pitch.midi() == key;
        open.iter().find(of).map(|standing| standing.string)
    };
    at(key - FIFTH).or_else(|| at(key + FIFTH))
}

/// A string of another letter below, and where its pedal or lever makes it sound what this one sounds open.
fn unison_of(harp: &Harp, open: &[Standing], tuned: &Standing) -> Option<(StringName, Alteration)> {
    let key = tuned.pitch.midi();
    let below = open
        .iter()
        .filter(|s| s.string.letter != tuned.string.letter);
    let below = below.filter(|s| (1..=2).contains(&(key - s.pitch.midi())));
    let with = |stays: &Standing| {
        let mechanism = harp.string(stays.string)?.mechanism;
        let most = match mechanism {
            Mechanism::Discs => 2,
            Mechanism::Lever => 1,
            Mechanism::Nothing => 0,
        };
        let up = key - stays.pitch.midi();
        let semitones = i64::from(stays.alteration.semitones()) + i64::from(up);
        let moved = Alteration::from_semitones(semitones)?;
        (up <= most).then_some((stays.string, moved))
    };
    // the nearer the better: one disc rather than two
    below.rev().find_map(with)
}

fn with_moved(harp: &Harp, setup: &Setup, stays: StringName, moved: Alteration) -> Setup {
    let mut setup = setup.clone();
    if harp.kind() == HarpKind::Lever {
        setup.levers.push(stays);
    } else {
        let setting = setup.setting.unwrap_or_default();
        setup.setting = Some(setting.with(stays.letter, moved));
    }
    setup
}

/// Each string of a letter but one, after the one against which it is tuned, from the middle outwards: up, then down.
fn outwards(open: &[Standing], letter: Letter) -> Vec<(StringName, StringName)> {
    let of = open.iter().map(|standing| standing.string);
    let of: Vec<StringName> = of.filter(|string| string.letter == letter).collect();
    let far = |at: &usize| {
        of.get(*at)
            .map_or(i32::MAX, |s| (harp_octave(letter, s.octave) - MIDDLE).abs())
    };
    let Some(middle) = (0..of.len()).min_by_key(far) else {
        return Vec::new();
    };
    let steps = |pair: &[StringName]| (pair.first().copied(), pair.last().copied());
    let up = of.get(middle..).unwrap_or_default().windows(2).map(steps);
    let down = of.get(..=middle).unwrap_or_default().windows(2).rev();
    let down = down.map(|pair| (pair.last().copied(), pair.first().copied()));
    up.chain(down)
        .filter_map(|(stays, tuned)| Some((stays?, tuned?)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use pitch::ReferencePitch;

    #[track_caller]
    fn check(harp: &str, drill: Drill, expected: &str) {
        let harp = Harp::named(harp).unwrap();
        let setup = Setup::open(ReferencePitch::A440);
        let told: Vec<String> = pairs(&harp, &setup, drill)
            .unwrap()
            .iter()
            .map(|pair| {
                let moved = pair.moved.map_or("", |moved| match moved {
                    Alteration::Flat => "b",
                    Alteration::Natural => "n",
                    Alteration::Sharp => "#",
                });
                format!("{}{moved}>{}", pair.stays, pair.tuned)
            })
            .collect();
        assert_eq!(told.join(" "), expected);
    }

    #[test]
    fn octaves_go_towards_the_middle() {
        check(
            "pedal47",
            Drill::Octave(4),
            "E5>E4 D5>D4 C5>C4 B4>B3 A4>A3 G4>G3 F4>F3",
        );
        check("pedal47", Drill::Octave(0), "G6>G7 F6>F7");
        check("pedal47", Drill::Octave(7), "E2>E1 D2>D1 C2>C1");
        check("lever22", Drill::Octave(1), "");
        check("lever22", Drill::Octave(2), "C5>C6 B4>B5 A4>A5 G4>G5 F4>F5");
    }

    #[test]
    fn fifths_are_fifths() {
        // all pedals up: B and F are a diminished fifth apart, so F is tuned to the C above it
        check(
            "pedal47",
            Drill::Fifth(4),
            "A3>E4 G3>D4 F3>C4 E3>B3 D3>A3 C3>G3 C4>F3",
        );
    }

    #[test]
    fn unisons_are_made_by_pedals_or_levers() {
        check(
            "pedal47",
            Drill::Unison(4),
            "D4#>E4 C4#>D4 B3n>C4 A3#>B3 G3#>A3 F3#>G3 E3n>F3",
        );
        // open in E flat a lever makes D sharp of D, and G sharp of G
        check("lever34", Drill::Unison(4), "D4#>E4 G3#>A3");
    }

    #[test]
    fn a_letter_goes_from_the_middle_outwards() {
        check(
            "pedal47",
            Drill::Letter(Letter::C),
            "C4>C5 C5>C6 C6>C7 C4>C3 C3>C2 C2>C1",
        );
    }

    #[test]
    fn both_strings_of_a_unison_should_sound_the_same() {
        let harp = Harp::named("pedal47").unwrap();
        let setup = Setup::open(ReferencePitch::A440);
        for octave in 0..=7 {
            for pair in pairs(&harp, &setup, Drill::Unison(octave)).unwrap() {
                assert!((pair.by_ear.stays_hz - pair.by_ear.tuned_hz).abs() < 1e-9);
            }
        }
    }
}
