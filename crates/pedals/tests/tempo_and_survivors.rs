//! How fast a piece may go, and which of its measures are whole, reckoned a second way.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/judge.rs"]
mod judge;
#[path = "made/passage.rs"]
mod passage;
#[path = "made/second.rs"]
mod second;

use harp::Harp;
use pedals::{Demand, Feet, Wishes, fastest_tempo, plan, surviving_measures};
use pitch::{Alteration, Letter};
use proptest::prelude::*;

fn harp() -> Harp {
    Harp::named("pedal47").unwrap()
}

/// Heads that are lost at least, at so many hundredths of the tempo: a plain table's sum under the
/// preset in which a lost one outweighs all else.
fn lost(demand: &Demand, feet: Feet, hundredths: u64) -> u64 {
    let wishes = Wishes {
        feet: Feet {
            one_notch_us: feet.one_notch_us * hundredths / 100,
            two_notches_us: feet.two_notches_us * hundredths / 100,
            ..feet
        },
        ..Wishes::fewest(demand)
    };
    second::cheapest(demand, &harp(), &wishes) / wishes.weights.lost
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(passage::cases(10)))]

    #[test]
    fn at_the_fastest_tempo_no_more_is_lost_and_just_above_it_more(
        demand in passage::passages(8, 900_000),
        one_notch_us in 100_000_u64..500_000,
    ) {
        let feet = Feet::with_least_time(one_notch_us);
        let wishes = Wishes { feet, ..Wishes::comfortable() };
        let least = lost(&demand, feet, 0);
        match fastest_tempo(&demand, &harp(), &wishes) {
            None => prop_assert_eq!(lost(&demand, feet, 1_600), least),
            Some(fastest) => {
                let fastest = u64::from(fastest);
                prop_assert!(fastest == 0 || lost(&demand, feet, fastest) == least);
                prop_assert!(lost(&demand, feet, fastest + 1) > least);
            }
        }
    }

    #[test]
    fn a_measure_is_whole_where_every_note_of_it_sounds(
        made in passage::passages(12, 300_000),
        stuck in (0_usize..7, 0_usize..3),
    ) {
        let mut demand = made;
        for (index, moment) in demand.moments.iter_mut().enumerate() {
            moment.measure = index as u32 / 3 + 1;
        }
        let mut wishes = Wishes { any_octave: true, ..Wishes::comfortable() };
        wishes.broken.stuck = vec![(Letter::ALL[stuck.0], Alteration::ALL[stuck.1])];
        let plan = plan(&demand, &harp(), &wishes);
        let holds = |(moment, setting): (&pedals::Moment, &harp::Setting)| {
            let stands = |letter: Letter| setting.get(letter).unwrap();
            let sounds = |note: &pedals::Attack| {
                let on = |l: &Letter| judge::sounds(*l, stands(*l).semitones(), note.pitch);
                Letter::ALL.iter().any(on)
            };
            let swept = |l: &Letter| moment.glissando.get(*l).is_none_or(|w| w == stands(*l));
            moment.attacks.iter().all(sounds) && Letter::ALL.iter().all(swept)
        };
        let measures = demand.moments.chunks(3).zip(plan.settings.chunks(3));
        let whole = measures.enumerate().filter(|(_, (moments, settings))| {
            moments.iter().zip(*settings).all(holds)
        });
        let whole: Vec<(u32, u32)> = whole.map(|(index, _)| (index as u32 + 1, 1)).collect();
        prop_assert_eq!(surviving_measures(&demand, &plan), whole);
    }
}
