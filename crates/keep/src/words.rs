//! What is due, what is asked, what was found, and what is done, in sentences. Names and figures come in from outside;
//! each language says the same with them.

mod english;
mod french;
mod german;

use pitch::{Alteration, Tongue};
use tuning::round::Names;

use crate::{Age, By, Caution, Covered, DueString, MixedOctave, Shelf, Time};
use crate::{Finding, Mark, Mended, Settling, State, StepKind};
use crate::{Suspected, Suspicion, Whose, YEAR};

/// One language; none can be forgotten in one of them.
struct Words {
    /// A string, what it does, and the question at the end.
    slips: fn(&str, &Slips) -> String,
    /// A string, and how many times as wide.
    wide: fn(&str, &str) -> String,
    strays: fn(&str, &str) -> String,
    rings_shorter: fn(&str, &str) -> String,
    /// A string, and by how many decibels.
    softer: fn(&str, &str) -> String,
    stiffness: fn(&str, &str) -> String,
    /// A string, how many times as stiff as the one before, and whether it is less.
    other_string: fn(&str, &str, bool) -> String,
    /// A string, the gauge written and the harp's.
    gauge: fn(&str, &str, &str) -> String,
    /// A string, its days, the days of the one before, and its speed.
    slower: fn(&str, &str, &str, &str) -> String,
    limits: &'static str,
    age: fn(Age, &dyn Fn(f64) -> String) -> String,
    state: fn(State) -> &'static str,
    mark: fn(Mark) -> &'static str,
    /// Breaks, and the half year that asks for a look.
    again: &'static str,
    position: fn(Alteration) -> &'static str,
    pedal: fn(&str) -> String,
    disc: fn(&str) -> String,
    lever: fn(&str) -> String,
    /// What and where, the cents, what became of it.
    found: fn(&str, &str, &str) -> String,
    mended: fn(Mended) -> &'static str,
    /// The days, or cents a day and half of their interval.
    settling: fn(&Settling, &str, &str) -> String,
    own_spare: &'static str,
    /// The string that the spare was made for, and whether it has another colour.
    thinner: fn(&str, bool) -> String,
    no_cover: &'static str,
    shelf: fn(Shelf) -> &'static str,
    /// The youngest and the oldest, each with its age.
    mixed: fn([&str; 2], [&str; 2]) -> String,
    time: fn(Time) -> &'static str,
    step: fn(StepKind) -> &'static str,
    caution: fn(Caution) -> &'static str,
}

/// How a string slips, as text.
struct Slips {
    cents: String,
    u95: String,
    times: usize,
    of: usize,
    neighbours: String,
}

fn words(tongue: Tongue) -> &'static Words {
    match tongue {
        Tongue::English => &english::WORDS,
        Tongue::German => &german::WORDS,
        Tongue::French => &french::WORDS,
    }
}

/// A suspicion as a question, with what it rests on.
pub fn question(suspicion: &Suspicion, names: &Names<'_>, tongue: Tongue) -> String {
    let words = words(tongue);
    let string = &(names.string)(suspicion.string);
    let one = |figure: f64| tongue.number(figure, 1);
    match suspicion.what {
        Suspected::PinSlips {
            cents,
            u95_cents,
            times,
            of,
            neighbours_cents,
        } => {
            let slips = Slips {
                cents: one(-cents),
                u95: one(u95_cents),
                times,
                of,
                neighbours: tongue.signed(neighbours_cents),
            };
            (words.slips)(string, &slips)
        }
        Suspected::Wide { times } => (words.wide)(string, &one(times)),
        Suspected::Strays { times } => (words.strays)(string, &one(times)),
        Suspected::RingsShorter { times } => {
            (words.rings_shorter)(string, &tongue.number(times, 2))
        }
        Suspected::Softer { db } => (words.softer)(string, &tongue.number(db, 0)),
        Suspected::StiffnessChanged { times, .. } => {
            (words.stiffness)(string, &tongue.number(times, 2))
        }
        Suspected::OtherString { times, .. } => {
            (words.other_string)(string, &tongue.number(times, 2), times < 1.0)
        }
        Suspected::OtherGauge {
            written_mm,
            harp_mm,
        } => {
            let mm = |mm| tongue.number(mm, 2);
            (words.gauge)(string, &mm(written_mm), &mm(harp_mm))
        }
        Suspected::SettlesSlower {
            days,
            before_days,
            cents_per_day,
            ..
        } => {
            let whole = |days| tongue.number(days, 0);
            let speed = tongue.signed(cents_per_day);
            (words.slower)(string, &whole(days), &whole(before_days), &speed)
        }
    }
}

/// What cannot be told, said under every list of questions.
pub fn limits(tongue: Tongue) -> &'static str {
    words(tongue).limits
}

/// A string's age, whether it is due, and what the interval is worth.
pub fn due_words(due: &DueString, tongue: Tongue) -> String {
    let words = words(tongue);
    let years = |days: f64| tongue.number(days / YEAR, 1);
    let (age, state) = ((words.age)(due.age, &years), (words.state)(due.state));
    let mark = (words.mark)(due.interval.mark);
    let again = match due.breaks.again_and_again {
        true => format!(" {}", words.again),
        false => String::new(),
    };
    match due.state {
        State::MayBe | State::Due => format!("{age}: {state} ({mark}).{again}"),
        State::NotYet | State::NotKnown | State::Missing => format!("{age}: {state}.{again}"),
    }
}

/// How long a spare has lain.
pub fn shelf_words(shelf: Shelf, tongue: Tongue) -> &'static str {
    (words(tongue).shelf)(shelf)
}

/// What a figure is worth.
pub fn mark_words(mark: Mark, tongue: Tongue) -> &'static str {
    (words(tongue).mark)(mark)
}

/// What a check found, and what became of it.
pub fn finding(finding: &Finding, names: &Names<'_>, tongue: Tongue) -> String {
    let words = words(tongue);
    let whose = match finding.whose {
        Whose::Pedal(letter) => (words.pedal)(&(names.letter)(letter)),
        Whose::Disc(string) => (words.disc)(&(names.string)(string)),
        Whose::Lever(string) => (words.lever)(&(names.string)(string)),
    };
    let position = (words.position)(finding.position);
    let (cents, mended) = (tongue.signed(finding.cents), (words.mended)(finding.mended));
    let after = finding.after_cents.map(|after| tongue.signed(after));
    let after = after.map_or(String::new(), |after| format!(" → {after}"));
    (words.found)(
        &format!("{whose}, {position}"),
        &format!("{cents}{after}"),
        mended,
    )
}

/// How a new string settles.
pub fn settling_words(settling: &Settling, tongue: Tongue) -> String {
    let (first, second) = match *settling {
        Settling::Settled { after_days } => (tongue.number(after_days, 0), String::new()),
        Settling::Moving {
            cents_per_day,
            u95_cents,
        } => (tongue.signed(cents_per_day), tongue.number(u95_cents, 1)),
        Settling::NotNew | Settling::TooFew { .. } => (String::new(), String::new()),
    };
    (words(tongue).settling)(settling, &first, &second)
}

/// What stands in for a string, and how long it has lain.
pub fn cover_words(covered: &Covered, names: &Names<'_>, tongue: Tongue) -> String {
    let words = words(tongue);
    let by = match covered.by {
        By::Own(_) => words.own_spare.to_owned(),
        By::Thinner {
            made_for,
            same_colour,
            ..
        } => (words.thinner)(&(names.string)(made_for), !same_colour),
        By::Nothing => return words.no_cover.to_owned(),
    };
    format!("{by}; {}", (words.shelf)(covered.shelf))
}

/// An octave of mixed ages.
pub fn mixed_words(mixed: &MixedOctave, names: &Names<'_>, tongue: Tongue) -> String {
    let years = |days: f64| tongue.number(days / YEAR, 1);
    let (youngest, oldest) = (mixed.youngest, mixed.oldest);
    let strings = [youngest.0, oldest.0].map(|string| (names.string)(string));
    let ages = [years(youngest.1), years(oldest.1)];
    (words(tongue).mixed)([&strings[0], &ages[0]], [&strings[1], &ages[1]])
}

/// How much time is left before a regulation.
pub fn time_words(time: Time, tongue: Tongue) -> &'static str {
    (words(tongue).time)(time)
}

/// A step of putting a string on.
pub fn step_words(step: StepKind, tongue: Tongue) -> &'static str {
    (words(tongue).step)(step)
}

/// A caution.
pub fn caution(caution: Caution, tongue: Tongue) -> &'static str {
    (words(tongue).caution)(caution)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_finding_says_whose_it_is_and_what_became_of_it() {
        let names = Names {
            string: &|s| s.harp_number(),
            letter: &|l| l.to_string(),
            pitch: &|p| p.to_string(),
        };
        let found = diary::Moment::of(&"2026-11-26T18:40:00Z".parse().unwrap());
        let pedal = Finding {
            whose: Whose::Pedal(pitch::Letter::F),
            position: Alteration::Natural,
            found,
            cents: 8.1,
            u95_cents: 0.6,
            after_cents: Some(0.4),
            mended: Mended::Mended,
        };
        let told = |tongue| finding(&pedal, &names, tongue);
        assert_eq!(
            told(Tongue::English),
            "The F pedal, natural: +8.1 → +0.4 cents; mended"
        );
        assert_eq!(
            told(Tongue::German),
            "Das F-Pedal, Stammton: +8,1 → +0,4 Cent; behoben"
        );
        assert_eq!(
            told(Tongue::French),
            "La pédale de F, bécarre : +8,1 → +0,4 cents ; réparé"
        );
    }

    #[test]
    fn a_substitute_says_what_it_was_made_for() {
        let names = Names {
            string: &|s| s.harp_number(),
            letter: &|l| l.to_string(),
            pitch: &|p| p.to_string(),
        };
        let covered = Covered {
            string: "3F".parse().unwrap(),
            by: By::Thinner {
                spare: 0,
                made_for: "3G".parse().unwrap(),
                places: 1,
                same_colour: false,
            },
            shelf: Shelf::PassOn,
        };
        assert_eq!(
            cover_words(&covered, &names, Tongue::English),
            "3G, thinner, tuned down, of another colour; better passed on now (one author's guess)"
        );
    }

    #[test]
    fn every_suspicion_is_a_question_in_every_language() {
        let since = diary::Moment::of(&"2026-11-26T18:40:00Z".parse().unwrap());
        let names = Names {
            string: &|s| s.harp_number(),
            letter: &|l| l.to_string(),
            pitch: &|p| p.to_string(),
        };
        let all = [
            Suspected::PinSlips {
                cents: -5.2,
                u95_cents: 1.1,
                times: 8,
                of: 8,
                neighbours_cents: -0.4,
            },
            Suspected::Wide { times: 3.0 },
            Suspected::Strays { times: 5.0 },
            Suspected::StiffnessChanged {
                times: 1.5,
                u95_factor: 1.1,
            },
            Suspected::OtherString {
                times: 0.5,
                u95_factor: 1.1,
                readings: 9,
            },
            Suspected::OtherGauge {
                written_mm: 1.05,
                harp_mm: 1.45,
            },
            Suspected::SettlesSlower {
                days: 20.0,
                before_days: 6.0,
                cents_per_day: -4.0,
                u95_cents: 1.0,
            },
        ];
        for tongue in [Tongue::English, Tongue::German, Tongue::French] {
            for what in all {
                let string = "G3".parse().unwrap();
                let suspicion = Suspicion {
                    string,
                    what,
                    since,
                };
                let words = question(&suspicion, &names, tongue);
                assert!(words.ends_with('?') && words.contains("4G"), "{words}");
                assert!(
                    !words.contains("flat") && !words.contains("sharp"),
                    "{words}"
                );
            }
        }
    }
}
