//! Plans of real scores: those that the package music21 10.5.1 brings. A fixed few of them usually,
//! all with `SEVENFLATS_LONG`.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    clippy::panic,
    reason = "reads the scores of a package, and says what it compared"
)]

#[path = "made/corpus.rs"]
mod corpus;
#[path = "made/piece.rs"]
mod made;
#[path = "made/second.rs"]
mod second;

use harp::Harp;
use made::Dice;
use pedals::{Demand, Feet, Plan, Spelling, Weights, Wishes, plan, replay};

fn long() -> bool {
    std::env::var("SEVENFLATS_LONG").is_ok()
}

fn harp() -> Harp {
    Harp::named("pedal47").unwrap()
}

/// The first small pieces, or all.
fn pieces() -> &'static [&'static str] {
    if long() {
        &corpus::PIECES
    } else {
        &corpus::PIECES[..6]
    }
}

/// 'fewest' without repeats, feet that need no time, every register: as two prototypes counted,
/// independent of each other and of this project.
fn fewest(file: &str, spelling: Spelling) -> Plan {
    let demand = corpus::demand(file, false);
    let wishes = Wishes {
        feet: Feet::with_least_time(0),
        any_octave: true,
        spelling,
        ..Wishes::fewest(&demand)
    };
    let plan = plan(&demand, &harp(), &wishes);
    assert!(plan.optimal);
    assert_eq!(replay(&demand, &harp(), &wishes, &plan), []);
    plan
}

#[test]
fn five_pieces_take_as_many_moves_as_others_found() {
    let check = |file: &str, moves: usize, respelled: usize, lost: usize| {
        let plan = fewest(file, Spelling::Free);
        let found = (plan.changes.len(), plan.respelled.len(), plan.cannot.len());
        assert_eq!(found, (moves, respelled, lost), "{file}");
    };
    check("bach/bwv846.mxl", 21, 4, 0);
    check("verdi/laDonnaEMobile.mxl", 6, 0, 0);
    check("joplin/maple_leaf_rag.mxl", 87, 118, 0);
    check("schoenberg/opus19/movement2.mxl", 16, 10, 0);
    let written = fewest("joplin/maple_leaf_rag.mxl", Spelling::Written);
    assert_eq!(written.changes.len(), 97);
}

#[test]
fn one_chord_of_opus_19_6_loses_a_note() {
    let plan = fewest("schoenberg/opus19/movement6.mxl", Spelling::Free);
    assert_eq!((plan.changes.len(), plan.cannot.len()), (15, 1));
    let demand = corpus::demand("schoenberg/opus19/movement6.mxl", false);
    let chord = &demand.moments[plan.cannot[0].moment];
    assert_eq!(chord.measure, 9);
    let mut notes: Vec<_> = chord.attacks.iter().map(|note| note.pitch).collect();
    notes.sort_by_key(|pitch| pitch.midi());
    let notes: Vec<String> = notes.iter().map(|pitch| pitch.to_string()).collect();
    assert_eq!(notes, ["C#3", "F#3", "Bn3", "Dn4", "En4", "G#4", "Cn5"]);
}

/// Wishes of several kinds.
fn kinds(demand: &Demand) -> Vec<Wishes> {
    let comfortable = Wishes::comfortable();
    let mut quick = Wishes::comfortable();
    quick.feet = Feet {
        crossing: true,
        together: true,
        ..Feet::with_least_time(250_000)
    };
    quick.weights = Weights {
        respelled: 40,
        moved: 700,
        two_notches: 900,
        off_beat: 0,
        crossing: 200,
        together: 150,
        ..quick.weights
    };
    let mut written = Wishes::fewest(demand);
    written.spelling = Spelling::Written;
    written.any_octave = true;
    vec![comfortable, Wishes::fewest(demand), quick, written]
}

#[test]
fn whole_pieces_cost_the_same_reckoned_a_second_way() {
    let mut compared = 0;
    for file in pieces() {
        let mut demand = corpus::demand(file, false);
        demand.movements.clear();
        let kinds = kinds(&demand);
        let kinds = if long() { &kinds[..] } else { &kinds[..2] };
        for wishes in kinds {
            let plan = plan(&demand, &harp(), wishes);
            assert!(plan.optimal, "{file}: {}", plan.gap);
            let second = second::cheapest(&demand, &harp(), wishes);
            assert_eq!(plan.cost.total(), second, "{file}");
        }
        compared += 1;
        println!("{file}: {} moments", demand.moments.len());
    }
    assert!(compared >= if long() { 20 } else { 6 });
}

#[test]
fn no_random_change_makes_a_plan_of_a_piece_cheaper() {
    let changes = if long() { 10_000 } else { 200 };
    for (seed, file) in pieces().iter().enumerate() {
        let mut demand = corpus::demand(file, false);
        demand.movements.clear();
        for wishes in [Wishes::comfortable(), Wishes::fewest(&demand)] {
            let plan = plan(&demand, &harp(), &wishes);
            let played = second::Played::new(&demand, &harp(), &wishes, &plan);
            let told = played.told(&plan);
            assert_eq!(played.cost(&told), Some(plan.cost.total()), "{file}");
            let mut dice = Dice(seed as u64);
            let mut tried = 0;
            while tried < changes {
                let mut stands = told.clone();
                for _ in 0..=dice.roll(2) {
                    let from = dice.roll(stands.len() as u64) as usize;
                    let most = 1 << dice.roll(8);
                    let length = 1 + dice.roll(most) as usize;
                    let (letter, to) = (dice.roll(7) as usize, dice.roll(3) as usize);
                    second::changed(&mut stands, from, length, letter, to);
                }
                let cost = played.cost(&stands).filter(|_| stands != told);
                if let Some(cost) = cost {
                    tried += 1;
                    assert!(cost >= plan.cost.total(), "{file}: {cost}");
                }
            }
        }
    }
}

#[test]
fn plans_of_the_corpus_hold_as_they_are_played() {
    let all = corpus::all();
    let mut held = 0;
    let mut unproven = Vec::new();
    for (index, path) in all.iter().enumerate() {
        // of the small ones one in forty, or all
        if !long() && index % 40 != 0 {
            continue;
        }
        let Ok(piece) = corpus::piece(path) else {
            continue;
        };
        let demand = Demand::of_score(&piece, &piece.order);
        if !long() && demand.moments.len() > 800 {
            continue;
        }
        for wishes in [Wishes::comfortable(), Wishes::fewest(&demand)] {
            let plan = plan(&demand, &harp(), &wishes);
            let faults = replay(&demand, &harp(), &wishes, &plan);
            assert_eq!(faults, [], "{}", path.display());
            if !plan.optimal {
                let total = plan.cost.total();
                unproven.push(format!("{}: {} of {total}", path.display(), plan.gap));
            }
        }
        held += 1;
    }
    println!("{held} scores; not proven: {unproven:#?}");
    assert!(held >= if long() { 600 } else { 10 }, "{held}");
}
