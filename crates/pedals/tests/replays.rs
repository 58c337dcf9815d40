//! Plans for random passages, replayed note by note; spoilt plans, which a replay must not accept.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/passage.rs"]
mod passage;

use harp::{Harp, Setting};
use passage::{passages, wishes};
use pedals::{Demand, Fault, Wishes, plan, replay};
use pitch::{Alteration, Letter};
use proptest::prelude::*;

fn harp() -> Harp {
    Harp::named("pedal47").unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(passage::cases(150)))]

    #[test]
    fn every_plan_holds(
        demand in passages(12, 900_000),
        change in wishes(),
    ) {
        let wishes = change.on(&demand);
        let plan = plan(&demand, &harp(), &wishes);
        prop_assert_eq!(replay(&demand, &harp(), &wishes, &plan), vec![]);
        prop_assert!(plan.optimal);
    }

    #[test]
    fn slower_feet_never_make_it_cheaper(demand in passages(10, 400_000)) {
        let mut before = 0;
        for one_notch_us in [0, 100_000, 250_000, 400_000, 700_000] {
            let feet = pedals::Feet::with_least_time(one_notch_us);
            let wishes = Wishes { feet, ..Wishes::comfortable() };
            let cost = plan(&demand, &harp(), &wishes).cost.total();
            prop_assert!(before <= cost, "{} then {} at {}", before, cost, one_notch_us);
            before = cost;
        }
    }
}

fn spoilt(spoil: impl Fn(&mut pedals::Plan)) -> Vec<Fault> {
    let demand = passage::of(&[
        (0, &["C4", "E4"]),
        (500_000, &["C#4", "E4"]),
        (1_000_000, &["C4", "D#4", "D4"]),
        (1_500_000, &["F#4", "F4", "G4"]),
    ]);
    let demand = Demand {
        moments: demand,
        ..Demand::default()
    };
    let wishes = Wishes::comfortable();
    let mut plan = plan(&demand, &harp(), &wishes);
    assert_eq!(replay(&demand, &harp(), &wishes, &plan), []);
    assert!(plan.changes.len() > 1);
    spoil(&mut plan);
    replay(&demand, &harp(), &wishes, &plan)
}

#[test]
fn a_spoilt_plan_is_found_out() {
    let has = |faults: Vec<Fault>, which: &dyn Fn(&Fault) -> bool| {
        assert!(faults.iter().any(which), "{faults:?}");
    };
    has(spoilt(|plan| plan.settings.truncate(1)), &|f| {
        *f == Fault::Settings
    });
    has(spoilt(|plan| plan.changes.truncate(0)), &|f| {
        matches!(f, Fault::Setting { .. })
    });
    has(spoilt(|plan| plan.changes[0].at_us += 600_000), &|f| {
        matches!(f, Fault::Time { .. })
    });
    has(
        spoilt(|plan| {
            for change in &mut plan.changes {
                change.foot = match change.foot {
                    pedals::Foot::Left => pedals::Foot::Right,
                    pedals::Foot::Right => pedals::Foot::Left,
                };
            }
        }),
        &|f| matches!(f, Fault::Foot { .. }),
    );
    has(spoilt(|plan| plan.cost.moved.price += 1), &|f| {
        matches!(f, Fault::Item { item: "moved", .. })
    });
    has(
        spoilt(|plan| {
            let all = Letter::ALL.into_iter();
            let flat = all.fold(Setting::default(), |s, l| s.with(l, Alteration::Flat));
            plan.settings.fill(flat);
            plan.changes.clear();
        }),
        &|f| matches!(f, Fault::Note { .. }),
    );
}
