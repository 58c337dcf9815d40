//! How loudly a letter's strings still ring, and so what it costs to move its pedal.

use crate::Demand;

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
    }
    all
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
