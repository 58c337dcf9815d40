//! The harp's picture of a round.

use harp::{Harp, Naming};
use pitch::Tongue;
use tuning::round::{Round, State, Summed};

use crate::{Mark, Picture, title};

/// The harp as it stands in the round, in a language and its reader's names; `under_way` with the string that is asked for
/// now, otherwise as the round left it.
///
/// ```
/// use harp::{Harp, Naming, Setup};
/// use pitch::{ReferencePitch, Tongue};
/// use sheet::of_round;
/// use tuning::round::{Act, Event, Plan, Round};
/// let harp = Harp::named("lever22")?;
/// let mut round = Round::new(Plan::of(&harp, &Setup::open(ReferencePitch::A440))?);
/// round.step(&Event::Act { at_s: 0.0, act: Act::Begin });
/// let picture = of_round(&round, &harp, Naming::default(), Tongue::English, true);
/// assert_eq!(picture.title, "Levers off, A = 440");
/// assert_eq!(picture.present, round.next());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn of_round(
    round: &Round,
    harp: &Harp,
    naming: Naming,
    tongue: Tongue,
    under_way: bool,
) -> Picture {
    let mut picture = Picture::of(harp);
    let plan = round.plan();
    let a4_hz = plan.reference.a4_hz();
    picture.title = title(&picture.title, plan.kind, plan.open, a4_hz, tongue);
    picture.naming = naming;
    picture.tongue = tongue;
    picture.present = round.next().filter(|_| under_way);
    let summary = round.summary();
    for drawn in &mut picture.strings {
        if let Some(summed) = summary.strings.iter().find(|s| s.string == drawn.name) {
            drawn.before_cents = summed.before.map(|k| k.off_cents);
            drawn.mark = mark(summed);
        }
    }
    picture
}

fn mark(summed: &Summed) -> Mark {
    let last = summed.after.map(|k| (k.off_cents, k.u95_cents));
    let (cents, u95_cents) = match (summed.state, last) {
        (State::Skipped, _) => return Mark::Skipped,
        (State::Broken, _) => return Mark::Broken,
        (State::New, _) => {
            return Mark::New {
                cents: last.map(|l| l.0),
            };
        }
        (_, Some(last)) => last,
        (State::InTuneByEar, None) => (0.0, 0.0),
        (_, None) => return Mark::NotYetHeard,
    };
    match summed.state {
        State::InTune | State::InTuneByEar => Mark::InTune { cents, u95_cents },
        State::Near => Mark::Near { cents, u95_cents },
        State::Again => Mark::Again { cents, u95_cents },
        State::Moving => Mark::Moving {
            cents,
            trail_cents: summed.before.iter().map(|k| k.off_cents).collect(),
        },
        _ => Mark::Off { cents, u95_cents },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use tuning::round::{Kept, Plan};

    fn check(state: State, off_cents: Option<f64>, expected: &Mark) {
        let kept = off_cents.map(|off_cents| Kept {
            at_s: 1.0,
            target_hz: 185.0,
            heard_hz: 185.0,
            off_cents,
            u95_cents: 0.5,
            b: None,
            t60_s: None,
            level_dbfs: None,
            aside: None,
        });
        let summed = Summed {
            string: "G3".parse().unwrap(),
            before: kept,
            after: kept,
            plucks: 1,
            state,
            fitted: false,
        };
        assert_eq!(&mark(&summed), expected);
    }

    #[test]
    fn the_title_says_how_the_harp_stands_and_at_which_pitch() {
        let check = |harp: &str, position: harp::Position, name: &str, expected: &str| {
            let setup = harp::Setup {
                position,
                ..harp::Setup::open(pitch::ReferencePitch::new(442.0).unwrap())
            };
            let harp = Harp::named(harp).unwrap().with_name(name);
            let plan = Plan::of(&harp, &setup).unwrap();
            let naming = Naming::default();
            let picture = of_round(&Round::new(plan), &harp, naming, Tongue::English, false);
            assert_eq!(picture.title, expected);
        };
        let (open, natural) = (harp::Position::Open, harp::Position::Natural);
        check("pedal47", open, "", "Pedals up, A = 442");
        check(
            "lever34",
            open,
            "The small one",
            "The small one. Levers off, A = 442",
        );
        check("pedal47", natural, "", "Not open, A = 442");
    }

    #[test]
    fn every_state_of_a_string_has_its_mark() {
        let (cents, u95_cents) = (-4.0, 0.5);
        check(State::NotYetHeard, None, &Mark::NotYetHeard);
        check(
            State::BeforeKnown,
            Some(cents),
            &Mark::Off { cents, u95_cents },
        );
        check(
            State::InTune,
            Some(cents),
            &Mark::InTune { cents, u95_cents },
        );
        check(State::Near, Some(cents), &Mark::Near { cents, u95_cents });
        check(State::Again, Some(cents), &Mark::Again { cents, u95_cents });
        check(State::Skipped, Some(cents), &Mark::Skipped);
        check(State::Broken, Some(cents), &Mark::Broken);
        check(State::New, None, &Mark::New { cents: None });
        let trail_cents = vec![cents];
        check(
            State::Moving,
            Some(cents),
            &Mark::Moving { cents, trail_cents },
        );
        let nought = Mark::InTune {
            cents: 0.0,
            u95_cents: 0.0,
        };
        check(State::InTuneByEar, None, &nought);
    }
}
