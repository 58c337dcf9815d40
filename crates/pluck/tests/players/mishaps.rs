//! What goes wrong in a beginner's round, and that it does so where the script says.

use pitch::Letter;
use pluck::What;
use pluck::player::{Aside, Mishaps, Script, beginner};

use super::{ALL, lasted, middle, order, pedal_harp, plucks};

#[test]
fn a_beginner_has_every_mishap_once() {
    let harp = pedal_harp(440.0);
    let order = order(&harp);
    for seed in 0..20 {
        let script = beginner(&harp, &order[..16], ALL, seed).unwrap();
        assert_eq!(script.asides.len(), 5, "{:?}", script.asides);
        for aside in &script.asides {
            check_mishap(&script, aside);
        }
        assert!(middle(lasted(&script)) > 8.0);
    }
    let script = beginner(&harp, &order[..16], Mishaps::default(), 1).unwrap();
    assert_eq!((script.asides.len(), script.visits.len()), (0, 16));
}

fn stands(script: &Script, name: &str, at_s: f64) -> f64 {
    script.round.off_cents_at(name, at_s).unwrap()
}

fn check_mishap(script: &Script, aside: &Aside) {
    match aside {
        Aside::PedalDown { letter } => check_pedal(script, *letter),
        Aside::WrongOctave {
            at_s,
            meant,
            plucked,
        } => {
            assert_eq!(script.meant_at(*at_s), Some(meant.as_str()));
            assert_eq!(meant.chars().next(), plucked.chars().next());
            let wrong = plucks(script, plucked);
            assert_eq!(wrong.iter().filter(|e| e.at_s == *at_s).count(), 1);
        }
        Aside::OtherPin {
            from_s,
            until_s,
            plucked,
            turned,
        } => check_other_pin(script, (*from_s, *until_s), plucked, turned),
        Aside::Passed {
            at_s,
            string,
            cents,
        } => {
            assert_eq!((stands(script, string, *at_s), *cents), (15.0, 15.0));
            let last = script.visits.iter().rfind(|v| v.string == *string);
            assert!(last.unwrap().left_cents.abs() < 8.0);
        }
        Aside::Interruption { at_s, seconds } => {
            assert_eq!(*seconds, 30.0);
            let meanwhile = script.round.events.iter();
            let mut meanwhile = meanwhile.filter(|e| (*at_s..at_s + 29.9).contains(&e.at_s));
            assert!(meanwhile.clone().count() >= 4);
            assert!(meanwhile.all(|e| matches!(e.what, What::Speech { .. })));
            assert_eq!(script.meant_at(at_s + 15.0), None);
        }
        other => panic!("{other:?}"),
    }
}

fn check_pedal(script: &Script, letter: Letter) {
    assert_eq!(letter, Letter::F);
    let f4 = script.round.strings.iter().find(|s| s.name == "F4");
    // Equal temperament: the F string of an open harp sounds F flat, five semitones under A4; with its pedal down F, four.
    let f_hz = 440.0 * 2f64.powf(-4.0 / 12.0);
    assert!((f4.unwrap().target_hz - f_hz).abs() < 1e-9);
    let high = script.harp_cents_at("F4", 5.0).unwrap() - stands(script, "F4", 5.0);
    assert!((high - 100.0).abs() < 1e-9);
}

fn check_other_pin(script: &Script, (from_s, until_s): (f64, f64), plucked: &str, turned: &str) {
    let meant = plucks(script, plucked);
    let meant = meant.iter().filter(|e| (from_s..until_s).contains(&e.at_s));
    assert_eq!(meant.count(), 3);
    let moved = |name| stands(script, name, until_s) - stands(script, name, from_s);
    assert_eq!(moved(plucked), 0.0);
    assert!(moved(turned) > 8.0, "{}", moved(turned));
    let truth = script.round.perform().unwrap().truth().to_vec();
    let rings = truth
        .iter()
        .find(|p| p.string == turned && (p.at_s - from_s).abs() < 1e-3);
    assert!(
        !rings.unwrap().course.is_empty(),
        "it rings while it is turned"
    );
}
