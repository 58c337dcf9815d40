//! From what is to be said to the sentence for it, the same way for every language.

use harp::StringName;
use pitch::Alteration;

use super::Names;
use super::speaks::Speaks;
use crate::round::{Say, Warning};

/// One thing to say, in one language.
pub(super) fn told(say: &Say, names: &Names, words: &dyn Speaks) -> String {
    let name = |s: &StringName| (names.string)(*s);
    let all = |strings: &[StringName]| strings.iter().map(name).collect::<Vec<String>>();
    match say {
        Say::Begun { strings } => words.begun(*strings),
        Say::SecondBest { touch_up, open } => words.second_best(*touch_up, *open),
        Say::AskPitch(strings) => words.ask_pitch(&all(strings)),
        Say::Next { string, why } => words.next(&name(string), *why),
        Say::Left { strings, minutes } => words.left(*strings, *minutes),
        Say::Sounds {
            string, off_cents, ..
        } => words.sounds(&name(string), *off_cents),
        Say::Turn(turn) => words.turn(&name(&turn.string), turn),
        Say::InTune {
            string, off_cents, ..
        } => words.in_tune(&name(string), *off_cents),
        Say::Near {
            string,
            u95_cents,
            octave_above,
            ..
        } => {
            let above = octave_above.as_ref().map(name);
            words.near(&name(string), *u95_cents, above.as_deref())
        }
        Say::PluckStill(string) => words.pluck_still(&name(string)),
        Say::Which(strings) => words.which(&all(strings)),
        Say::NotRead { string, reason } => {
            words.not_read(string.as_ref().map(name).as_deref(), *reason)
        }
        Say::Sound(warning) => words.sound(*warning),
        Say::Moving {
            string,
            off_cents,
            way,
            ..
        } => words.moving(&name(string), *off_cents, *way),
        Say::Enough(string) => words.enough(&name(string)),
        Say::Warning(warning) => warned(warning, names, words),
        Say::ReachedForNow {
            string, off_cents, ..
        } => words.reached_for_now(&name(string), *off_cents),
        Say::Holds(string) => words.holds(&name(string)),
        Say::Again {
            strings,
            moved_cents,
        } => words.again(&all(strings), *moved_cents),
        Say::Offer(strings) => {
            let each = strings.iter().map(|(s, p)| (name(s), (names.pitch)(*p)));
            words.offer(&each.collect::<Vec<_>>())
        }
        Say::WillStand(string, pitch) => words.will_stand(&name(string), &(names.pitch)(*pitch)),
        Say::Broke(string, then) => words.broke(&name(string), *then),
        Say::Pinned(string) => words.pinned(&name(string)),
        Say::LetGo => words.let_go(),
        Say::Skipped(string) => words.skipped(&name(string)),
        Say::Undone(string) => words.undone(&name(string)),
        Say::ByEar(string) => words.by_ear(&name(string)),
        Say::OnPurpose(string) => words.on_purpose(&name(string)),
        Say::NotHere(string) => words.not_here(&name(string)),
        Say::Paused => words.paused(),
        Say::Resumed => words.resumed(),
        Say::TheA {
            taken,
            raise,
            strings,
        } => words.the_a(*taken, *raise, &all(strings)),
        Say::NoA(error) => words.no_a(*error),
        Say::AskTechnician(raise) => words.ask_technician(*raise),
        Say::Uses(a4_hz) => words.uses(*a4_hz),
        Say::AllHeard => words.all_heard(),
        Say::Finished => words.finished(),
    }
}

fn warned(warning: &Warning, names: &Names, words: &dyn Speaks) -> String {
    let name = |s: &StringName| (names.string)(*s);
    match warning {
        Warning::PedalUp {
            letter,
            semitones,
            position,
            strings,
        } => {
            let all: Vec<String> = strings.iter().map(name).collect();
            let up = *position == Alteration::Flat;
            words.pedal_up(&(names.letter)(*letter), *semitones, up, &all)
        }
        Warning::LeverOff { string } => words.lever_off(&name(string)),
        Warning::FoundHigh { string, off_cents } => words.found_high(&name(string), *off_cents),
        Warning::KeyElsewhere { string, plucks } => words.key_elsewhere(&name(string), *plucks),
        Warning::OctaveHigh { expected, heard_as } => {
            words.octave_high(&name(expected), &name(heard_as))
        }
        Warning::Reference {
            off_cents,
            a4_hz,
            strings,
        } => words.reference(*off_cents, *a4_hz, *strings),
        Warning::AnotherMoves {
            expected,
            moving,
            by_cents,
        } => words.another_moves(&name(expected), &name(moving), *by_cents),
        Warning::OverPull {
            string,
            off_cents,
            limit,
        } => words.over_pull(&name(string), *off_cents, *limit),
    }
}

/// Several names in a row, the last joined by a word of the language: A4, G4 and F4; one alone; none at all.
pub(super) fn listed(all: &[String], and: &str) -> String {
    match all.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} {and} {last}", rest.join(", ")),
        None => String::new(),
    }
}

/// A phrase as it begins a sentence.
pub(super) fn capital(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}
