//! No sound makes it fall, and the size of the pieces changes nothing.

use proptest::prelude::*;
use tuning::round::HeldEar;

use crate::sounds::{Voice, note};

fn any_sample() -> impl Strategy<Value = f32> {
    prop_oneof![
        Just(f32::NAN),
        Just(f32::INFINITY),
        Just(f32::MAX),
        Just(0.0f32),
        -1.0f32..1.0
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_sound_makes_it_fall(
        sound in proptest::collection::vec(any_sample(), 0..40_000),
        rate in 8_000u32..=192_000,
        named in prop_oneof![Just("C1"), Just("C4"), Just("A4"), Just("B6"), Just("B9"), Just("C0")],
    ) {
        if let Ok(mut ear) = HeldEar::new(rate, named.parse().unwrap()) {
            for held in ear.push(&sound) {
                prop_assert!(held.hz.is_finite() && held.u95_cents > 0.0);
            }
            let _ = ear.finish().take_the_a();
        }
    }

    #[test]
    fn the_size_of_the_pieces_changes_nothing(
        size in 1usize..9_000,
        rate in prop_oneof![Just(8_000u32), Just(44_100), Just(96_000), Just(192_000)],
    ) {
        let sound: Vec<f32> = note(Voice::Oboe, 442.0, 0.8, rate, 1).iter().map(|y| *y as f32).collect();
        let mut whole = HeldEar::new(rate, "A4".parse().unwrap()).unwrap();
        let mut pieces = HeldEar::new(rate, "A4".parse().unwrap()).unwrap();
        let at_once = whole.push(&sound);
        let by_pieces: Vec<_> = sound.chunks(size).flat_map(|piece| pieces.push(piece)).collect();
        prop_assert!(at_once.len() >= 6);
        prop_assert_eq!(at_once, by_pieces);
        prop_assert_eq!(whole.finish(), pieces.finish());
    }
}
