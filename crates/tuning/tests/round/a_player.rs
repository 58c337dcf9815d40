//! Made-up players at made-up harps: how often a direction is given to the wrong string, how often a warning comes of
//! nothing, and how near the strings are that were called in tune. Figures of the issue: at most one wrong direction
//! in 1,000 plucks, one false alarm in 20 rounds, 98 in 100 strings within the tolerance and a cent.

use harp::StringName;
use pitch::raise;
use std::collections::BTreeMap;
use tuning::Heard;
use tuning::round::{Act, Event, Moving, Round, Say, State, Turn};

use crate::table::{ear, plan, target};

/// Chance from a seed: Knuth's linear congruential generator (MMIX).
struct Chance(u64);

impl Chance {
    fn unit(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.unit()
    }

    /// Twelve throws less six: near enough to normal.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }
}

#[derive(Debug, Default)]
struct Tally {
    rounds: usize,
    plucks: usize,
    wrong: usize,
    kept_wrong: usize,
    unnamed: usize,
    alarms: usize,
    in_tune: usize,
    within: usize,
    left: usize,
}

/// What a player does.
#[derive(Clone, Copy)]
struct Player {
    /// how often she plucks another string than the one asked for
    wanders: f64,
    /// whether the pitch is followed live
    live: bool,
    /// how far all others sink for each cent that one is raised, cents
    sinks: f64,
}

struct Played {
    chance: Chance,
    round: Round,
    off: BTreeMap<StringName, f64>,
    at_s: f64,
    tally: Tally,
}

impl Played {
    fn new(kind: &str, seed: u64) -> Played {
        let mut chance = Chance(seed);
        // the first throws of near seeds are alike
        for _ in 0..8 {
            chance.unit();
        }
        let plan = plan(kind);
        let common = chance.between(-25.0, 15.0);
        let off = plan
            .strings
            .iter()
            .map(|s| (s.standing.string, common + 6.0 * chance.normal()));
        let off = off.collect();
        let mut round = Round::new(plan);
        round.step(&Event::Act {
            at_s: 0.0,
            act: Act::Begin,
        });
        Played {
            chance,
            round,
            off,
            at_s: 0.0,
            tally: Tally {
                rounds: 1,
                ..Tally::default()
            },
        }
    }

    fn pluck(&mut self, string: StringName) -> Vec<Say> {
        self.at_s += 6.0;
        let heard = self.off[&string] + 0.35 * self.chance.normal();
        let hz = raise(target(&self.round, string), heard);
        let reading = ear(&self.round, self.at_s, hz, 0.7).expect("a string sounds");
        let kept = |round: &Round, own: bool| -> usize {
            let others = self.off.keys().filter(|s| own == (**s == string));
            others.map(|s| round.kept(*s).len()).sum()
        };
        let before = kept(&self.round, false);
        let mut round = self.round.clone();
        let said = round.step(&Event::Heard(Heard::Reading(reading)));
        self.tally.kept_wrong += kept(&round, false) - before;
        self.round = round;
        self.tally.plucks += 1;
        self.judge(string, &said);
        said
    }

    fn judge(&mut self, plucked: StringName, said: &[Say]) {
        for say in said {
            match say {
                Say::Turn(Turn { string, .. })
                | Say::InTune { string, .. }
                | Say::Moving { string, .. } => {
                    self.tally.wrong += usize::from(*string != plucked);
                }
                Say::Which(_) => self.tally.unnamed += 1,
                Say::Warning(_) => self.tally.alarms += 1,
                _ => {}
            }
        }
    }

    /// Turns the pin of the string that she plucked, more or less as she was told.
    fn turn(&mut self, string: StringName, by: f64, player: Player) {
        let from = self.off[&string];
        let to = from + by * self.chance.between(0.6, 1.35);
        for step in 1..=8 {
            if player.live {
                let hz = raise(
                    target(&self.round, string),
                    from + (to - from) * f64::from(step) / 8.0,
                );
                let at_s = self.at_s + 1.0 + 0.2 * f64::from(step);
                let said = self.round.step(&Event::Moving(Moving {
                    at_s,
                    string,
                    hz,
                    u95_cents: 1.5,
                }));
                self.judge(string, &said);
            }
        }
        self.off
            .values_mut()
            .for_each(|off| *off -= player.sinks * (to - from));
        self.off.insert(string, to);
    }

    fn play(&mut self, player: Player) {
        let strings: Vec<StringName> = self.off.keys().copied().collect();
        for _ in 0..400 {
            let Some(asked) = self.round.next() else {
                break;
            };
            let wanders = self.chance.unit() < player.wanders;
            let any = strings[(self.chance.unit() * strings.len() as f64) as usize % strings.len()];
            let string = if wanders { any } else { asked };
            let said = self.pluck(string);
            let told = said.iter().find_map(|s| match s {
                Say::Turn(turn) => Some(turn.by_cents * -turn.off_cents.signum()),
                _ => None,
            });
            match told {
                Some(by) => self.turn(string, by, player),
                // both possible: now and then she names it
                None if said.iter().any(|s| matches!(s, Say::Which(_)))
                    && self.chance.unit() < 0.5 =>
                {
                    let act = Act::ThisOne(string);
                    let said = self.round.step(&Event::Act {
                        at_s: self.at_s,
                        act,
                    });
                    self.judge(string, &said);
                    self.round.step(&Event::Act {
                        at_s: self.at_s,
                        act: Act::LetGo,
                    });
                }
                None => {}
            }
        }
        self.tally.left = self.round.left();
        for (string, off) in &self.off {
            if self.round.state(*string) == Some(State::InTune) {
                self.tally.in_tune += 1;
                let tolerance = self.round.plan().tolerance.of(*string);
                self.tally.within += usize::from(off.abs() <= tolerance + 1.0);
            }
        }
    }
}

fn played(kind: &str, player: Player, rounds: u64) -> Tally {
    let mut all = Tally::default();
    for seed in 0..rounds {
        let mut one = Played::new(kind, 77 + seed);
        one.play(player);
        let t = &one.tally;
        all.rounds += t.rounds;
        all.plucks += t.plucks;
        all.wrong += t.wrong;
        all.kept_wrong += t.kept_wrong;
        all.unnamed += t.unnamed;
        all.alarms += t.alarms;
        all.in_tune += t.in_tune;
        all.within += t.within;
        all.left += t.left;
    }
    all
}

#[track_caller]
fn check(kind: &str, player: Player) {
    let t = played(kind, player, 60);
    assert!(t.plucks > 60 * 34, "{t:?}");
    assert!(1_000 * t.wrong <= t.plucks, "wrong strings: {t:?}");
    assert!(1_000 * t.kept_wrong <= t.plucks, "wrong names: {t:?}");
    assert!(20 * t.alarms <= t.rounds, "alarms of nothing: {t:?}");
    assert!(
        player.sinks > 0.0 || 100 * t.within >= 98 * t.in_tune,
        "in tune and not so: {t:?}"
    );
    assert_eq!(t.left, 0, "strings never done: {t:?}");
}

const PLAYER: Player = Player {
    wanders: 0.0,
    live: true,
    sinks: 0.0,
};

#[test]
fn players_in_order_are_told_right() {
    check("pedal47", PLAYER);
    check("lever34", PLAYER);
}

#[test]
fn players_who_damp_before_they_turn_are_told_right() {
    check(
        "pedal47",
        Player {
            live: false,
            ..PLAYER
        },
    );
}

#[test]
fn players_who_wander_are_told_right() {
    check(
        "pedal47",
        Player {
            wanders: 0.15,
            ..PLAYER
        },
    );
    check(
        "lever34",
        Player {
            wanders: 0.3,
            live: false,
            ..PLAYER
        },
    );
}

// how far a harp gives way is not known for any: half a cent in a hundred is invented
#[test]
fn on_a_harp_that_gives_way_players_are_told_right() {
    check(
        "pedal47",
        Player {
            wanders: 0.05,
            sinks: 0.005,
            ..PLAYER
        },
    );
}
