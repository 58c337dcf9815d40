//! How loudly a letter's strings still ring, and so what it costs to move its pedal.

use pitch::SpelledPitch;

use crate::{Demand, Moment};

/// How long a string troubles a pedal that moves under it, in microseconds, by scientific octave
/// from 0 to 8. A rough guess (common practice says only that basses ring long); no source.
const FADES_US: [u64; 9] = [
    8_000_000, 8_000_000, 6_000_000, 4_500_000, 3_000_000, 2_000_000, 1_200_000, 700_000, 500_000,
];

/// For every moment and letter, the share of a full price, in 1024ths, that moving its pedal for
/// that moment costs: 1024 where a string of the letter was struck just now, fading evenly to 0.
///
/// It follows the letters as written, whatever string the plan then takes, so that it can be known
/// before the plan is.
pub(crate) fn ringing(demand: &Demand) -> Vec<[u32; 7]> {
    let mut struck: [[Option<(u64, u64)>; 9]; 7] = Default::default();
    let mut all = Vec::with_capacity(demand.moments.len());
    for moment in &demand.moments {
        if moment.damped {
            struck = Default::default();
        }
        all.push(std::array::from_fn(|letter| {
            let octaves = struck[letter].iter().zip(FADES_US);
            let shares =
                octaves.map(|(struck, fades)| struck.map_or(0, |s| share(s, fades, moment.at_us)));
            shares.max().unwrap_or(0)
        }));
        for attack in &moment.attacks {
            let octave = usize::try_from(attack.pitch.octave.clamp(0, 8)).unwrap_or(0);
            struck[attack.pitch.letter.index()][octave] = Some((moment.at_us, attack.rings_us));
        }
        for (letter, octave) in left_to_ring(moment) {
            struck[letter][octave] = Some((moment.at_us, u64::MAX));
        }
    }
    all
}

/// Letter and octave of every string that a glissando or a tremolo strikes at a moment.
fn left_to_ring(moment: &Moment) -> Vec<(usize, usize)> {
    let height = |pitch: SpelledPitch| 7 * i32::from(pitch.octave) + pitch.letter.index() as i32;
    let swept = moment.swept.into_iter();
    let swept = swept.flat_map(|(low, high)| height(low).max(0)..=height(high).min(62));
    let tremolo = moment
        .tremolo
        .iter()
        .map(|&pitch| height(pitch).clamp(0, 62));
    let heights = swept.chain(tremolo);
    heights
        .map(|height| (height as usize % 7, height as usize / 7))
        .collect()
}

fn share((at_us, rings_us): (u64, u64), fades_us: u64, now_us: u64) -> u32 {
    let age = now_us.saturating_sub(at_us);
    if age >= rings_us || age >= fades_us {
        return 0;
    }
    (1024 * (fades_us - age) / fades_us) as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Attack, Moment};

    fn moment(at_us: u64, note: Option<&str>) -> Moment {
        let attacks = note.map(|note| Attack::of(note.parse().unwrap()));
        Moment {
            at_us,
            attacks: attacks.into_iter().collect(),
            ..Moment::empty()
        }
    }

    #[test]
    fn strings_that_were_swept_ring() {
        let swept = |low: &str, high: &str| {
            let mut demand = Demand {
                moments: vec![moment(0, Some("C3")), moment(1_000_000, None)],
                ..Demand::default()
            };
            demand.moments[0].swept = Some((low.parse().unwrap(), high.parse().unwrap()));
            ringing(&demand)[1]
        };
        // D4 fades in 3 s, D3 in 4.5 s; C3 was plucked
        assert_eq!(swept("D4", "F4"), [796, 682, 682, 682, 0, 0, 0]);
        assert_eq!(swept("C3", "E4"), [796; 7]);
        let mut demand = Demand {
            moments: vec![moment(0, None), moment(1_500_000, None)],
            ..Demand::default()
        };
        demand.moments[0].tremolo = vec!["G4".parse().unwrap()];
        assert_eq!(ringing(&demand)[1], [0, 0, 0, 0, 512, 0, 0]);
    }

    #[test]
    fn a_letter_fades_and_a_damped_one_is_silent() {
        let mut demand = Demand {
            moments: vec![
                moment(0, Some("C4")),
                moment(750_000, None),
                moment(3_000_000, None),
            ],
            ..Demand::default()
        };
        let shares: Vec<u32> = ringing(&demand).iter().map(|letters| letters[0]).collect();
        assert_eq!(shares, [0, 768, 0]);
        demand.moments[1].damped = true;
        assert_eq!(ringing(&demand)[1][0], 0);
        demand.moments[1].damped = false;
        demand.moments[0].attacks[0].rings_us = 0;
        assert_eq!(ringing(&demand)[1][0], 0);
    }
}
