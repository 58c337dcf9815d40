//! One sentence for each thing heard: what it is, and what to do about it.
//!
//! Directions are up and down. 'Flat' and 'sharp' are positions here: every string is called flat.

use harp::{Mechanism, StringName};
use pitch::{Tongue, signed};
use tuning::round::{Amount, advice};
use tuning::{Reading, Reason, Refused};

use crate::verdict::Verdict;
use harp::Naming;

/// From here on, in cents, it is said how much of a reading is stiffness.
const STIFFNESS_CENTS: f64 = 2.0;

/// A reading as a sentence.
pub fn reading(reading: &Reading, naming: Naming, mechanism: Mechanism) -> String {
    let off = cents(reading.off_cents.abs());
    let mut sentence = match Verdict::of(reading) {
        Verdict::InTune => "In tune.".to_owned(),
        Verdict::Near => format!(
            "Near, but cannot say nearer than ±{}: pluck it again, or compare it with the octave above.",
            cents(reading.u95_cents)
        ),
        Verdict::Up(Amount::Half) => {
            format!("{off} low. A new string? Up by half of that at most, then pluck it again.")
        }
        Verdict::Up(amount) => format!("{off} low: up {}.", amount.as_str()),
        Verdict::Down(amount) => {
            format!(
                "{off} high: down {}, to just under, then come up.",
                amount.as_str()
            )
        }
        Verdict::High(amount) => {
            format!(
                "{off} high. {}ease it down {}.",
                question(mechanism),
                eased(amount)
            )
        }
        Verdict::WhichString => which_string(reading, naming),
    };
    if reading.stiffness_cents.abs() > STIFFNESS_CENTS {
        sentence += &format!(
            " Stiffness makes {} cents of the reading.",
            signed(reading.stiffness_cents)
        );
    }
    sentence += &format!(
        " (a tuner shows {} {})",
        naming.display(&reading.shows_as),
        whole(reading.shows_off_cents)
    );
    sentence
}

/// A refusal as a sentence, with what to do about it.
pub fn refused(refused: &Refused) -> String {
    let advice = match refused.reason {
        Reason::NoString => {
            "are harp, pedals and levers as you said? A new string far off is named with --string"
        }
        Reason::NotSure => "pluck its neighbour, or name it with --string",
        reason => advice(reason, Tongue::English),
    };
    format!(
        "Not read, {} ({}): {advice}.",
        refused.reason.as_str(),
        refused.detail
    )
}

fn which_string(reading: &Reading, naming: Naming) -> String {
    let mut possible: Vec<StringName> = reading.candidates.clone();
    if let Some(string) = reading.string.filter(|string| !possible.contains(string)) {
        possible.insert(0, string);
    }
    match possible.as_slice() {
        [] => "Which string it is cannot be said: name it with --string.".to_owned(),
        [only] => format!(
            "It may be {}, but that is not sure, so no direction. Pluck its neighbour, or name it with --string {}.",
            naming.string(*only),
            naming.typed(*only)
        ),
        [first, ..] => format!(
            "{}: both are possible, so no direction. Pluck the string beside it, or name it with --string {}.",
            naming.strings(&possible),
            naming.typed(*first)
        ),
    }
}

fn question(mechanism: Mechanism) -> &'static str {
    match mechanism {
        Mechanism::Discs => "Is its pedal where you said? If it is, ",
        Mechanism::Lever => "Is its lever where you said? If it is, ",
        Mechanism::Nothing => "Is it set to the pitch you said? If it is, ",
    }
}

fn eased(amount: Amount) -> &'static str {
    match amount {
        Amount::Half => "by half of that, then pluck it again",
        _ => "to just under, then come up",
    }
}

fn cents(value: f64) -> String {
    format!("{value:.1} cents")
}

fn whole(value: f64) -> String {
    let text = format!("{value:+.0}").replace('-', "−");
    if text == "−0" || text == "+0" {
        "0".to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::example;
    use tuning::Direction;

    fn check(off: f64, u95: f64, direction: Option<Direction>, expected: &str) {
        let heard = example::reading("G3", off, u95, direction);
        assert_eq!(
            reading(&heard, Naming::default(), Mechanism::Discs),
            expected
        );
    }

    #[test]
    fn a_low_string_is_sent_up() {
        check(
            -4.2,
            0.5,
            Some(Direction::Up),
            "4.2 cents low: up a hair. (a tuner shows F♯ −4)",
        );
    }

    #[test]
    fn a_high_string_goes_just_under_and_comes_up() {
        let expected =
            "12.0 cents high: down a little, to just under, then come up. (a tuner shows F♯ +12)";
        check(12.0, 0.5, Some(Direction::Down), expected);
    }

    #[test]
    fn a_very_high_string_is_asked_about_before_any_down() {
        let expected = "34.0 cents high. Is its pedal where you said? If it is, ease it down to just under, then come up. (a tuner shows F♯ +34)";
        check(34.0, 0.5, Some(Direction::Down), expected);
    }

    #[test]
    fn where_two_strings_are_possible_both_are_named_and_no_direction_is() {
        let mut heard = example::reading("C4", 52.0, 0.5, None);
        heard.candidates = vec!["C4".parse().unwrap(), "B3".parse().unwrap()];
        let sentence = reading(&heard, Naming::default(), Mechanism::Discs);
        assert!(
            sentence.starts_with("4C or 4B: both are possible, so no direction."),
            "{sentence}"
        );
        assert!(
            !sentence.contains("up") && !sentence.contains("down"),
            "{sentence}"
        );
    }

    #[test]
    fn stiffness_is_said_where_it_is_more_than_two_cents() {
        let mut heard = example::reading("G3", -4.2, 0.5, Some(Direction::Up));
        heard.stiffness_cents = 2.6;
        let sentence = reading(&heard, Naming::default(), Mechanism::Discs);
        assert!(
            sentence.contains("Stiffness makes +2.6 cents of the reading."),
            "{sentence}"
        );
    }

    #[test]
    fn no_direction_is_ever_called_sharp_or_flat() {
        for off in [-80.0, -30.0, -10.0, -4.0, 0.0, 4.0, 10.0, 30.0, 80.0] {
            let direction = if off < 0.0 {
                Direction::Up
            } else {
                Direction::Down
            };
            let heard = example::reading("G3", off, 0.5, Some(direction));
            let sentence = reading(&heard, Naming::default(), Mechanism::Lever);
            assert!(
                !sentence.contains("flat") && !sentence.contains("sharp"),
                "{sentence}"
            );
        }
    }
}
