//! The strings' part of a replay: every note sounds on a string that stands there, at the pitch
//! written, or is said not to; strings without discs keep their pitch.

use std::collections::BTreeMap;

use harp::{Harp, HarpKind, Mechanism, Setting, StringName};
use pitch::{Alteration, Letter, SpelledPitch};

use super::Fault;
use crate::{Demand, Plan, Spelling, Wishes};

pub(super) fn faults(demand: &Demand, harp: &Harp, wishes: &Wishes, plan: &Plan) -> Vec<Fault> {
    let mut faults = retuned(demand, wishes, plan);
    for (index, moment) in demand.moments.iter().enumerate() {
        let by_key = by_key(plan, index);
        let hall = Hall {
            harp,
            wishes,
            setting: &plan.settings[index],
            by_key: &by_key,
        };
        for (attack, note) in moment.attacks.iter().enumerate() {
            let here = |at: usize, place: usize| at == index && place == attack;
            let lost = plan.cannot.iter().any(|c| here(c.moment, c.attack));
            let respelled = plan.respelled.iter().find(|r| here(r.moment, r.attack));
            let written = note.pitch;
            let as_written = hall.sounds(written.letter, written.octave, written.midi());
            let holds = match (lost, respelled) {
                (true, Some(_)) => false,
                (true, None) => !as_written,
                (false, None) => as_written,
                (false, Some(told)) => {
                    told.written == written
                        && told.string == StringName::new(told.played.letter, told.played.octave)
                        && told.played.midi() == written.midi()
                        && told.played != written
                        && hall.sounds(told.string.letter, told.string.octave, written.midi())
                }
            };
            if !holds {
                faults.push(Fault::Note {
                    moment: index,
                    attack,
                    written,
                });
            }
        }
    }
    faults
}

/// How many notes of tremolos do not sound, each counted at every moment that asks for it.
pub(super) fn silent_tremolos(demand: &Demand, harp: &Harp, wishes: &Wishes, plan: &Plan) -> usize {
    let mut silent = 0;
    for (index, moment) in demand.moments.iter().enumerate() {
        let by_key = by_key(plan, index);
        let hall = Hall {
            harp,
            wishes,
            setting: &plan.settings[index],
            by_key: &by_key,
        };
        let attacks = moment.attacks.iter().map(|attack| attack.pitch);
        let all: Vec<SpelledPitch> = attacks.chain(moment.tremolo.iter().copied()).collect();
        let sounds = |written: &&SpelledPitch| {
            let clash = |o: &SpelledPitch| o.letter == written.letter && o.alter != written.alter;
            if hall.written_is_wanted(**written) && !all.iter().any(clash) {
                return hall.sounds(written.letter, written.octave, written.midi());
            }
            Letter::ALL.into_iter().any(|letter| {
                let mut octaves = written.octave - 1..=written.octave + 1;
                octaves.any(|octave| hall.sounds(letter, octave, written.midi()))
            })
        };
        silent += moment.tremolo.iter().filter(|note| !sounds(note)).count();
    }
    silent
}

/// The harp as it stands at a moment.
struct Hall<'a> {
    harp: &'a Harp,
    wishes: &'a Wishes,
    setting: &'a Setting,
    by_key: &'a BTreeMap<StringName, i32>,
}

impl Hall<'_> {
    /// Whether a note may be played on the written string only: it could be had there.
    fn written_is_wanted(&self, written: SpelledPitch) -> bool {
        let name = StringName::new(written.letter, written.octave);
        let broken = &self.wishes.broken;
        let alteration = Alteration::from_semitones(i64::from(written.alter));
        let stands = self.harp.string(name).is_some() || self.wishes.any_octave;
        let works = alteration.is_some_and(|alteration| {
            let mut stuck = broken.stuck.iter();
            let elsewhere =
                |&(letter, at): &(Letter, Alteration)| letter == name.letter && at != alteration;
            !stuck.any(elsewhere) && !broken.dead_discs.contains(&(name, alteration))
        });
        self.wishes.spelling == Spelling::Written
            && stands
            && works
            && !broken.missing.contains(&name)
    }

    /// Whether the string of a letter and octave sounds a key number now.
    fn sounds(&self, letter: Letter, octave: i8, midi: i32) -> bool {
        let name = StringName::new(letter, octave);
        let broken = &self.wishes.broken;
        let stands = self.setting.get(letter).unwrap_or(Alteration::Natural);
        let by_pedal = name.key() + i32::from(stands.semitones()) == midi;
        if self.wishes.any_octave {
            return by_pedal;
        }
        let Some(string) = self.harp.string(name) else {
            return false;
        };
        if broken.missing.contains(&name) || self.harp.kind() != HarpKind::Pedal {
            return false;
        }
        if string.mechanism == Mechanism::Nothing {
            return self.by_key.get(&name) == Some(&midi);
        }
        by_pedal && !broken.dead_discs.contains(&(name, stands))
    }
}

/// What strings without discs are tuned to at a moment.
fn by_key(plan: &Plan, moment: usize) -> BTreeMap<StringName, i32> {
    let so_far = plan
        .tuned
        .iter()
        .filter(|tuned| tuned.from_moment <= moment);
    so_far.map(|tuned| (tuned.string, tuned.midi)).collect()
}

fn retuned(demand: &Demand, wishes: &Wishes, plan: &Plan) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut seen: BTreeMap<StringName, usize> = BTreeMap::new();
    for (index, tuned) in plan.tuned.iter().enumerate() {
        let at = tuned.from_moment;
        let first = seen.insert(tuned.string, at).is_none();
        let between = demand.movements.contains(&at);
        let long_enough = wishes.retune_rest_us.is_some_and(|least| {
            let next = demand.moments[at..].iter().find(|m| !m.attacks.is_empty());
            let rest = next.map_or(0, |next| next.at_us - demand.moments[at].at_us);
            demand.moments[at].rest && rest >= least
        });
        let near = (tuned.midi - tuned.string.key()).abs() <= harp::NEAR_SEMITONES;
        if !near || !(first && at == 0 || between || long_enough) {
            faults.push(Fault::Retuned { tuned: index });
        }
    }
    faults
}
