//! Marks of the part that the plan does not follow, and why.

use pitch::Letter;

use crate::account::sounding;
use crate::asked::allowed_ways;
use crate::code::{Code, alteration, places_of};
use crate::plan::{Because, Contradicted};
use crate::ready::Ready;

/// Every mark that the settings contradict, in order.
pub(crate) fn contradicted(ready: &Ready<'_>, codes: &[Code]) -> Vec<Contradicted> {
    let mut found = Vec::new();
    for (index, moment) in ready.demand.moments.iter().enumerate() {
        for letter in Letter::ALL {
            let planned = alteration(places_of(codes[index])[letter.index()]);
            let Some(marked) = moment.marks.get(letter).filter(|&mark| mark != planned) else {
                continue;
            };
            found.push(Contradicted {
                moment: index,
                letter,
                marked,
                planned,
                because: because(ready, codes[index], index, letter),
            });
        }
    }
    found
}

fn because(ready: &Ready<'_>, code: Code, index: usize, letter: Letter) -> Because {
    let moment = &ready.demand.moments[index];
    let stuck = &ready.wishes.broken.stuck;
    if stuck.iter().any(|&(stuck, _)| stuck == letter) {
        return Because::Stuck;
    }
    let takes_it = moment.attacks.iter().any(|attack| {
        let ways = allowed_ways(moment, attack.pitch, &ready.strings, ready.wishes);
        sounding(ready, code, index, attack.pitch, &ways)
            .is_some_and(|way| way.string.letter == letter)
    });
    if takes_it {
        Because::NotesThere
    } else {
        Because::Dearer
    }
}
