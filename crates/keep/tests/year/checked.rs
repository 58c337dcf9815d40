//! The invented mechanism, checked as a player checks it: every string open, natural, sharp, and open again.

use diary::{Entry, Found, Moment, PedalFound, PositionRead, Regulation, StringChecked};
use harp::{Harp, Mechanism};
use pitch::{Alteration, Letter};
use tuning::regulation::{Bounds, Cause, Pluck, Regulated, Step, regulated};

use crate::draws::Draws;
use crate::hidden::Hidden;
use crate::written::{HARP, Written};

impl Written {
    pub(crate) fn checked(
        &mut self,
        when: Moment,
        harp: &Harp,
        strings: &[Hidden],
        draws: &mut Draws,
    ) {
        let has_discs = |s: &&Hidden| {
            harp.string(s.name)
                .is_some_and(|string| string.mechanism == Mechanism::Discs)
        };
        let mut plucks = Vec::new();
        for string in strings.iter().filter(has_discs) {
            let [natural, sharp] = string.steps;
            for (stands, raised) in [
                (Alteration::Flat, 0.0),
                (Alteration::Natural, natural),
                (Alteration::Sharp, natural + sharp),
                (Alteration::Flat, 0.0),
            ] {
                let read = string.read(draws);
                plucks.push(Pluck {
                    string: string.name,
                    stands,
                    off_cents: read.off + raised + 0.3 * draws.normal(),
                    u95_cents: read.u95,
                });
            }
        }
        let age = |name| {
            let string = strings.iter().find(|s| s.name == name)?;
            string.age.map(|days| days as u32)
        };
        let found = regulated(harp, &plucks, &Bounds::default(), age);
        let regulation = Regulation {
            harp: HARP.to_owned(),
            a4_hz: 440.0,
            pedals: pedals(&found),
            strings: found.iter().map(|one| checked(one, &plucks)).collect(),
            note: String::new(),
        };
        self.write(when, &Entry::Regulation(regulation));
    }
}

fn pedals(all: &[Regulated]) -> Vec<PedalFound> {
    let mut pedals = Vec::new();
    for letter in Letter::ALL {
        for (step, position) in [
            (Step::Natural, Alteration::Natural),
            (Step::Sharp, Alteration::Sharp),
        ] {
            let out = all.iter().filter(|one| one.string.letter == letter);
            let out = out.filter(|one| {
                one.found.get(&step).and_then(|found| found.cause) == Some(Cause::Pedal)
            });
            let mut sizes: Vec<_> = out.filter_map(|one| one.step(step)).collect();
            sizes.sort_by(|a, b| a.error_cents.total_cmp(&b.error_cents));
            if let Some(size) = sizes.get(sizes.len() / 2) {
                pedals.push(PedalFound {
                    letter,
                    position,
                    off_cents: size.error_cents,
                    u95_cents: size.u95_cents,
                });
            }
        }
    }
    pedals
}

fn checked(one: &Regulated, plucks: &[Pluck]) -> StringChecked {
    let causes: Vec<Cause> = one.found.values().filter_map(|found| found.cause).collect();
    let found = if one.new {
        Found::TooNew
    } else if causes.contains(&Cause::Disc) || causes.contains(&Cause::NoStep) {
        Found::Disc
    } else if causes.contains(&Cause::Pedal) {
        Found::Pedal
    } else if causes.contains(&Cause::Own) {
        Found::OwnString
    } else {
        Found::Right
    };
    let own = plucks.iter().filter(|pluck| pluck.string == one.string);
    StringChecked {
        string: one.string,
        positions: own
            .map(|pluck| PositionRead {
                position: pluck.stands,
                off_cents: pluck.off_cents,
                u95_cents: pluck.u95_cents,
            })
            .collect(),
        own_cents: one.own_cents,
        found,
    }
}
