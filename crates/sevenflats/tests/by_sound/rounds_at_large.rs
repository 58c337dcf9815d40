//! Many whole rounds, counted: wrong directions, false alarms, strings declared in tune that are not, readings lost. The
//! players are invented (`pluck::player`), their truth is exact. `SEVENFLATS_LONG` takes twenty rounds a room instead of two.

use crate::played::{At, Played, first, plan, play, standing};
use pluck::Room;
use pluck::player::{professional, whole_harp};
use tuning::round::Say;

/// Cents beyond its tolerance, within which a string that was declared in tune must truly stand.
const WITHIN: f64 = 1.0;
/// Wrong directions in so many plucks: one.
const PLUCKS: usize = 1000;
/// False alarms in so many rounds: one.
const ROUNDS: usize = 20;
/// Strings declared in tune that may stand elsewhere, of a hundred.
const OF_A_HUNDRED: usize = 2;

/// What rounds come to.
#[derive(Debug, Default)]
struct Counted {
    rounds: usize,
    plucks: usize,
    directions: usize,
    in_tune: usize,
    wrong: Vec<String>,
    alarms: Vec<String>,
    not_in_tune: Vec<String>,
    lost: Vec<String>,
}

impl Counted {
    fn add(&mut self, name: &str, played: &Played) {
        let named = |line: String| format!("{name}: {line}");
        self.rounds += 1;
        self.plucks += played.truth.len();
        self.wrong
            .extend(played.wrong_ways().into_iter().map(named));
        self.lost.extend(played.lost().into_iter().map(named));
        for at in &played.all {
            for say in &at.happened.says {
                self.say(name, played, at, say);
            }
        }
    }

    fn say(&mut self, name: &str, played: &Played, at: &At, say: &Say) {
        let at_s = at.happened.event.at_s();
        match say {
            Say::Turn(_) => self.directions += 1,
            // these scripts give no cause for any
            Say::Warning(warning) => self
                .alarms
                .push(format!("{name}: at {at_s:.2} s {warning:?}")),
            Say::InTune {
                string, off_cents, ..
            } => {
                self.in_tune += 1;
                let plucked = played.plucked_at(at_s);
                let own = plucked.filter(|p| p.string == string.to_string());
                let truly = own.map(|p| played.off_at(p, at.known_s));
                let tolerance = played.plan.tolerance.of(*string) + WITHIN;
                if truly.is_none_or(|off| off.abs() > tolerance) {
                    let plucked = plucked.map(|p| (&p.string, truly));
                    self.not_in_tune.push(format!(
                        "{name}: at {at_s:.2} s {string} in tune ({off_cents:+.1}); truly {plucked:?}"
                    ));
                }
            }
            _ => {}
        }
    }
}

fn rounds_a_room() -> u64 {
    if std::env::var("SEVENFLATS_LONG").is_ok() {
        20
    } else {
        2
    }
}

/// A professional's round, then one of a harp 20 cents low, and so on.
fn count(name: &str, room: Room) {
    let plan = plan("pedal47", 440.0);
    let (strings, order) = (standing(&plan), first(&plan, 47));
    let mut all = Counted::default();
    for seed in 1..=rounds_a_room() {
        let (who, script) = match seed % 2 {
            1 => ("professional", professional(&strings, &order, seed)),
            _ => ("whole harp", whole_harp(&strings, &order, seed)),
        };
        let played = play(script.unwrap(), &plan, room, &[]);
        all.add(&format!("{name}, {who}, seed {seed}"), &played);
    }
    judge(name, &all);
}

fn judge(name: &str, all: &Counted) {
    println!(
        "{name}: {} rounds, {} plucks, {} directions, {} strings in tune",
        all.rounds, all.plucks, all.directions, all.in_tune
    );
    assert!(
        all.plucks > 60 * all.rounds && all.directions > 20 * all.rounds,
        "hardly played"
    );
    assert!(
        all.in_tune > 20 * all.rounds,
        "hardly anything was called in tune"
    );
    let mut trouble = Vec::new();
    let mut hold = |what: &str, found: &[String], allowed: usize| {
        println!("  {what}: {} ({allowed} allowed)", found.len());
        found.iter().for_each(|line| println!("    {line}"));
        if found.len() > allowed {
            trouble.push(format!("{what}: {}, {allowed} allowed", found.len()));
        }
    };
    hold("wrong directions", &all.wrong, all.plucks / PLUCKS);
    hold("false alarms", &all.alarms, all.rounds / ROUNDS);
    hold(
        "in tune and not there",
        &all.not_in_tune,
        OF_A_HUNDRED * all.in_tune / 100,
    );
    hold("readings lost", &all.lost, 0);
    assert!(trouble.is_empty(), "{name}: {trouble:?}");
}

#[test]
fn rounds_in_an_ordinary_room() {
    count("real20", Room::REAL20);
}

#[test]
fn rounds_beside_an_orchestra_pit() {
    count("pit10", Room::PIT10);
}
