//! What the settings sound, against counts made by others. Sources: M. R. H. Gotham and I. A. D.
//! Gunn, "Pitch Properties of the Pedal Harp", Music Theory Online 22.4 (2016), for the question;
//! the counts by enumeration outside this project; the named settings from teaching and
//! orchestration texts.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

use std::collections::BTreeMap;

use harp::{OpenTuning, Setting};
use pedals::{
    Sounds, all_settings, names_of, settings_that_sound_at_least, settings_that_sound_exactly,
};
use pitch::{Letter, MajorKey};

/// How many of each size.
fn by_size(sets: impl Iterator<Item = Sounds>) -> BTreeMap<u32, u32> {
    let mut sizes = BTreeMap::new();
    for set in sets {
        *sizes.entry(set.len()).or_insert(0) += 1;
    }
    sizes
}

#[track_caller]
fn check_only(sounds: &[i32], pairs: &[(Letter, i64)]) {
    let found = settings_that_sound_exactly(Sounds::of(sounds));
    assert_eq!(found, [Setting::from_pairs(pairs).unwrap()]);
}

fn letters(alterations: [i64; 7]) -> [(Letter, i64); 7] {
    let mut pairs = Letter::ALL.map(|letter| (letter, 0));
    for (pair, alteration) in pairs.iter_mut().zip(alterations) {
        pair.1 = alteration;
    }
    pairs
}

#[test]
fn there_are_2187_settings_and_977_sets() {
    let sets = || all_settings().map(|setting| Sounds::of_setting(&setting));
    assert_eq!(sets().count(), 2187);
    let settings = by_size(sets());
    assert_eq!(
        settings,
        BTreeMap::from([(4, 42), (5, 495), (6, 1071), (7, 579)])
    );
    let distinct: std::collections::BTreeSet<Sounds> = sets().collect();
    assert_eq!(distinct.len(), 977);
    let distinct = by_size(distinct.into_iter());
    assert_eq!(
        distinct,
        BTreeMap::from([(4, 25), (5, 178), (6, 415), (7, 359)])
    );
}

#[test]
fn so_many_sets_can_be_played_at_once() {
    let settings: Vec<Sounds> = all_settings().map(|s| Sounds::of_setting(&s)).collect();
    let playable = |set: Sounds| settings.iter().any(|&setting| set.within(setting));
    let all = by_size(Sounds::all());
    let counts = by_size(Sounds::all().filter(|&set| playable(set)));
    let shown: Vec<(u32, u32)> = (1..=7).map(|size| (counts[&size], all[&size])).collect();
    assert_eq!(
        shown,
        [
            (12, 12),
            (66, 66),
            (219, 220),
            (482, 495),
            (718, 792),
            (691, 924),
            (359, 792)
        ]
    );
}

#[test]
fn the_sets_out_of_reach_are_these() {
    let out_of_reach = |size: u32| {
        let of_size = Sounds::all().filter(move |set| set.len() == size);
        of_size
            .filter(|&set| settings_that_sound_at_least(set).is_empty())
            .collect::<Vec<_>>()
    };
    let cluster = Sounds::of(&[7, 8, 9]);
    assert_eq!(out_of_reach(3), [cluster]);
    let four = out_of_reach(4);
    assert_eq!(four.len(), 13);
    assert_eq!(four.iter().filter(|set| cluster.within(**set)).count(), 9);
    for other in [[11, 0, 1, 2], [9, 10, 11, 0], [2, 3, 4, 5], [4, 5, 6, 7]] {
        assert!(four.contains(&Sounds::of(&other)), "{other:?}");
    }
}

#[test]
fn each_diminished_seventh_has_one_setting() {
    // C D E F G A B
    check_only(&[0, 3, 6, 9], &letters([0, 1, -1, 1, -1, 0, 1]));
    check_only(&[2, 5, 8, 11], &letters([-1, 0, 1, 0, 1, -1, 0]));
    check_only(&[1, 4, 7, 10], &letters([1, -1, 0, -1, 0, 1, -1]));
}

#[test]
fn whole_tones_pentatonics_ninths_and_triads() {
    let count = |sounds: &[i32]| settings_that_sound_exactly(Sounds::of(sounds)).len();
    assert_eq!(count(&[0, 2, 4, 6, 8, 10]), 5);
    assert_eq!(count(&[1, 3, 5, 7, 9, 11]), 4);
    let on = |root: i32, steps: &[i32]| -> Vec<i32> { steps.iter().map(|s| s + root).collect() };
    for root in 0..12 {
        assert!(count(&on(root, &[0, 2, 4, 7, 9])) > 0, "pentatonic {root}");
        assert!(count(&on(root, &[0, 4, 7, 10, 2])) > 0, "ninth {root}");
        for triad in [[0, 4, 7], [0, 3, 7], [0, 4, 8], [0, 3, 6]] {
            assert_eq!(count(&on(root, &triad)), 0, "triad on {root}");
        }
    }
    let sevenths: Vec<i32> = (0..12)
        .filter(|&root| count(&on(root, &[0, 4, 7, 10])) > 0)
        .collect();
    assert_eq!(sevenths, [1, 4, 6, 8, 11]); // D flat, E, G flat, A flat, B
    // D C B# | E Fb G A
    check_only(&[0, 2, 4, 7, 9], &letters([0, 0, 0, -1, 0, 0, 1]));
}

#[test]
fn nine_sounds_have_two_names_and_three_have_one() {
    let counts: Vec<usize> = (0..12).map(|sound| names_of(sound).len()).collect();
    assert_eq!(counts.iter().filter(|&&count| count == 2).count(), 9);
    for sound in [2, 7, 9] {
        assert_eq!(counts[sound], 1);
    }
}

#[test]
fn keys_lie_as_far_apart_as_harpists_say() {
    let key = |fifths: i8| Setting::of_key(MajorKey::new(fifths).unwrap());
    let moves = |from: i8, to: i8| {
        let moves = key(from).moves_to(&key(to));
        (moves.pedals, moves.notches)
    };
    for fifths in -7..7 {
        assert_eq!(moves(fifths, fifths + 1), (1, 1));
    }
    assert_eq!(moves(-5, 5), (7, 10)); // D flat to B: B. A. Fackler, "Enharmonic Spelling Tricks"
    assert_eq!(moves(-5, -7), (2, 2));
    assert_eq!(moves(-7, 0), (7, 7));
    let e_major = Setting::from_pairs(&letters([1, 1, 0, 1, 1, 0, 0])).unwrap();
    assert_eq!(key(4), e_major);
    let a_major = Setting::from_pairs(&letters([1, 0, 0, 1, 1, 0, 0])).unwrap();
    assert_eq!(key(3), a_major);
}

#[test]
fn lever_harps_play_eight_keys() {
    let keys = |open: OpenTuning| {
        let names: Vec<_> = open.lever_keys().iter().map(ToString::to_string).collect();
        names.join(" ")
    };
    assert_eq!(keys(OpenTuning::Eb), "Eb Bb F C G D A E");
    assert_eq!(keys(OpenTuning::C), "C G D A E B F# C#");
}
