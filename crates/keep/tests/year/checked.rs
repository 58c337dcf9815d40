//! The invented mechanism, checked as a player checks it: every string open, natural, sharp, and open again.

use diary::{Entry, Moment, Regulation};
use harp::{Harp, Mechanism};
use pitch::{Alteration, ReferencePitch};
use tuning::regulation::{Bounds, Pluck, regulated};

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
        let kept = Regulation::of(HARP, harp, ReferencePitch::A440, &plucks, &found);
        self.write(when, &Entry::Regulation(kept));
    }
}
