//! An invented round to show the tool with.

use harp::Standing;

use crate::RoundError;
use crate::concert_harp::strings;
use crate::generator::Generator;
use crate::player::whole_harp;
use crate::round::{Event, Round, RoundString, What};

/// The order of the demonstration: from the middle down, then up, at about two seconds a string.
const ORDER: [&str; 19] = [
    "F4", "E4", "D4", "C4", "A3", "G3", "E3", "C3", "F2", "A2", "D2", "E1", "G4", "B4", "D5", "A5",
    "E6", "C7", "G7",
];
/// Strings found in tune: a round that finds nothing in tune teaches nothing.
const IN_TUNE: [&str; 3] = ["D4", "A2", "D5"];

/// An invented round of about 45 s: a pedal harp of 47 strings stands open (all flats) at A4 = 442 Hz, every string some cents
/// off. Twenty-one plucks over the whole compass: wires of the lowest octaves, the top string, G3 turned into tune while it
/// rings and plucked once more, and one string damped. No such harp exists.
///
/// ```
/// let round = pluck::demo_round(1);
/// assert_eq!(round.strings.len(), 47);
/// let names: Vec<String> = round.perform()?.truth().iter().map(|p| p.string.clone()).collect();
/// assert!(["E1", "G7", "G3"].iter().all(|name| names.iter().any(|n| n == name)));
/// # Ok::<(), pluck::RoundError>(())
/// ```
#[must_use]
pub fn demo_round(seed: u64) -> Round {
    let mut draws = Generator::new(&[seed, 0x5e7e_f1a7]);
    let flat = 442.0 / 440.0 * 2f64.powf(-1.0 / 12.0);
    let harp = strings().into_iter().map(|(name, natural_hz)| {
        let chance = 9.0 * draws.normal();
        let off_cents = match name.as_str() {
            "G3" => -21.0,
            known if IN_TUNE.contains(&known) => chance / 20.0,
            _ => chance.clamp(-25.0, 25.0),
        };
        RoundString {
            false_cents: 0.5,
            ..RoundString::new(&name, natural_hz * flat, off_cents)
        }
    });
    let harp = harp.collect();
    let mut events = Vec::new();
    let mut at_s = 1.0;
    for name in ORDER {
        let level_db = draws.between(-4.0, 2.0);
        events.push(Event {
            at_s,
            what: What::Pluck {
                string: name.to_owned(),
                level_db,
            },
        });
        if name == "G3" {
            events.push(Event::turn(at_s + 1.2, name, -2.5, 2.0));
            events.push(Event::pluck(at_s + 4.0, name));
            at_s += 4.0;
        }
        at_s += draws.between(1.9, 2.3);
    }
    events.push(Event::damp(at_s, "C3"));
    events.push(Event::pluck(at_s + 0.5, "F4"));
    Round::new(harp, events, seed)
}

/// The strings that are tuned in the demonstration of tuning, in the order in which a round asks for them.
const TUNED: [&str; 12] = [
    "G3", "F3", "E3", "D3", "C3", "B2", "A2", "G2", "F2", "E2", "D2", "C2",
];
/// Of 24 seeds that were tried, and of the four after which every string is called in tune, the one that begins most plainly.
/// It shows the tool, and is no evidence of how often it is right.
const TUNED_SEED: u64 = 21;

/// An invented round of about 75 s in which a dozen strings of a pedal harp that has sunk are tuned: each plucked, turned
/// while it rings, and plucked again. `standing` is the harp as it should stand. No such harp or player exists.
///
/// ```
/// use harp::{Harp, Setup};
/// let standing = Harp::named("pedal47")?.standing(&Setup::open(pitch::ReferencePitch::A440))?;
/// assert_eq!(pluck::tuned_demo(&standing)?.strings.len(), 47);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn tuned_demo(standing: &[Standing]) -> Result<Round, RoundError> {
    Ok(whole_harp(standing, &TUNED, TUNED_SEED)?.round)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_demonstration_stands_as_an_open_pedal_harp_at_442() {
        let reference = pitch::ReferencePitch::new(442.0).unwrap();
        let pedal47 = harp::Harp::named("pedal47").unwrap();
        let standing = pedal47.standing(&harp::Setup::open(reference)).unwrap();
        let expected = RoundString::of_harp(&standing);
        let round = demo_round(1);
        assert_eq!(round.strings.len(), expected.len());
        for (mine, theirs) in round.strings.iter().zip(&expected) {
            assert_eq!(mine.name, theirs.name);
            assert!(
                (mine.target_hz / theirs.target_hz - 1.0).abs() < 1e-12,
                "{}",
                mine.name
            );
        }
    }
}
