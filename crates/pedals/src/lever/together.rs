//! Several pieces on one lever harp: one open tuning for all of them, so that nothing is turned by key in between.

use harp::{Harp, OpenTuning};

use super::{LeverPlan, LeverWishes, plan_levers};
use crate::Demand;

/// A plan for each piece, all in the one open tuning in which they cost least together; `None` where no open tuning is
/// allowed for all of them, or there is no piece. Of two that cost the same, the one that the first piece names first.
pub fn plan_levers_together(
    pieces: &[(&Demand, &LeverWishes)],
    harp: &Harp,
) -> Option<Vec<LeverPlan>> {
    let allowed = |open: &&OpenTuning| pieces.iter().all(|(_, wishes)| wishes.open.contains(open));
    let (_, first) = pieces.first()?;
    let plans = first.open.iter().filter(allowed).filter_map(|&open| {
        let in_this = pieces.iter().map(|(demand, wishes)| {
            let wishes = LeverWishes {
                open: vec![open],
                ..(*wishes).clone()
            };
            plan_levers(demand, harp, &wishes)
        });
        in_this.collect::<Option<Vec<LeverPlan>>>()
    });
    let total =
        |plans: &Vec<LeverPlan>| -> u64 { plans.iter().map(|plan| plan.cost.total()).sum() };
    plans.min_by_key(total)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(open: &[OpenTuning], expected: Option<OpenTuning>) {
        // alone the first is best in C, where no lever is on; the second wants E flat beside D
        let (one, two) = (
            Demand::of_chords(&[(0.0, "C4 E4 G4")]),
            Demand::of_chords(&[(0.0, "D4 Eb4 A4 Bb4")]),
        );
        let harp = Harp::named("lever34").unwrap();
        let wishes = LeverWishes::default();
        let alone = plan_levers(
            &one,
            &harp,
            &LeverWishes {
                open: vec![OpenTuning::C, OpenTuning::Eb],
                ..wishes.clone()
            },
        );
        assert_eq!(alone.unwrap().open, OpenTuning::C);
        let own = LeverWishes {
            open: open.to_vec(),
            ..wishes.clone()
        };
        let plans = plan_levers_together(&[(&one, &wishes), (&two, &own)], &harp);
        let found = plans.map(|plans| {
            assert_eq!(plans[0].open, plans[1].open);
            plans[0].open
        });
        assert_eq!(found, expected);
    }

    #[test]
    fn one_tuning_serves_all() {
        check(&[OpenTuning::C, OpenTuning::Eb], Some(OpenTuning::Eb));
        check(&[OpenTuning::F], Some(OpenTuning::F));
        check(&[], None);
    }
}
