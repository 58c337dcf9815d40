//! English: short, as a teacher would say it.

mod phrases;
mod warned;

use pitch::signed;

use super::speaks::{Phrases, Sentences, Speaks};
use super::told;
use crate::round::{Amount, Raise, TakeError, TakenA, Then, Turn, Why};
use crate::{Direction, Reason, WarningKind};

/// The language.
pub(super) struct English;

impl Speaks for English {}

impl Sentences for English {
    fn begun(&self, strings: usize) -> String {
        format!("{strings} strings.")
    }

    fn second_best(&self, touch_up: bool, open: bool) -> String {
        match (touch_up, open) {
            (true, true) => "A few strings only: second best to a whole round.",
            (true, false) => {
                "A few strings, in the pedals or levers that stand: second best. When there is time, tune the open harp."
            }
            (false, _) => {
                "Pedals are not all up, or levers are on: second best. A harp is tuned open."
            }
        }
        .to_owned()
    }

    fn ask_pitch(&self, strings: &[String]) -> String {
        format!(
            "Without discs: {}. What is to sound there tonight?",
            listed(strings)
        )
    }

    fn next(&self, string: &str, why: Why) -> String {
        match why {
            Why::InOrder | Why::Asked => format!("Now {string}."),
            Why::New => format!("Now {string}: it is new. Has it held?"),
            Why::Again => format!("Now {string} again."),
        }
    }

    fn left(&self, strings: usize, minutes: Option<f64>) -> String {
        match minutes {
            Some(minutes) if minutes < 1.0 => format!("{strings} left, less than a minute."),
            Some(minutes) => format!("{strings} left, about {minutes:.0} min."),
            None => format!("{strings} left."),
        }
    }

    fn sounds(&self, string: &str, off_cents: f64) -> String {
        format!("{string}: {} so far.", high_or_low(off_cents))
    }

    fn turn(&self, string: &str, turn: &Turn) -> String {
        let new = if turn.climbing { " (new)" } else { "" };
        let start = format!("{string}{new}: {}.", high_or_low(turn.off_cents));
        let amount = self.amount(turn.amount);
        let half = || {
            format!(
                "{amount} at most, {:.0} cents; then pluck it again",
                turn.by_cents
            )
        };
        match (turn.way, turn.amount) {
            (Direction::Down, Amount::Half) => format!("{start} Ease it down {}.", half()),
            (Direction::Down, _) => format!("{start} Down {amount}, to just under, then come up."),
            (Direction::Up, Amount::Half) => format!("{start} Up {}.", half()),
            (Direction::Up, _) => format!("{start} Up {amount}."),
            (Direction::There, _) => start,
        }
    }

    fn in_tune(&self, string: &str, off_cents: f64) -> String {
        format!("{string}: in tune ({}).", signed(off_cents))
    }

    fn near(&self, string: &str, u95_cents: f64, octave_above: Option<&str>) -> String {
        let start = format!("{string}: near, cannot say nearer than ±{u95_cents:.1} cents.");
        match octave_above {
            Some(above) => format!("{start} Pluck it again, or compare it by ear with {above}."),
            None => format!("{start} Pluck it again."),
        }
    }

    fn pluck_still(&self, string: &str) -> String {
        format!("{string}: it moved while it rang. Leave the key and pluck it still.")
    }

    fn which(&self, strings: &[String]) -> String {
        match strings {
            [] => "Which string it was cannot be said: pluck its neighbour, or name it.".to_owned(),
            [only] => {
                format!("It may be {only}, but that is not sure: pluck it again alone, or name it.")
            }
            [a, b] => format!(
                "{a} or {b}: each is possible, so no direction. Pluck the other one, then this again; or name it."
            ),
            all => format!(
                "{}: each is possible, so no direction. Pluck a neighbour, or name it.",
                all.join(" or ")
            ),
        }
    }

    fn not_read(&self, string: Option<&str>, reason: Reason) -> String {
        let start = string.map_or(String::new(), |s| format!("{s}: "));
        let (why, advice) = (self.reason(reason), self.advice(reason));
        format!("{start}not read, {why}: {advice}.")
    }

    fn sound(&self, warning: WarningKind) -> String {
        match warning {
            WarningKind::Clipped => "Too loud for the microphone: move it away.",
            WarningKind::AudioBroke => "Sound is missing: close what else is recording.",
        }
        .to_owned()
    }

    fn moving(&self, string: &str, off_cents: f64, way: Direction) -> String {
        let still = match way {
            Direction::Up => "still up",
            Direction::Down => "down",
            Direction::There => "there",
        };
        format!("{string}: {}, {still}.", signed(off_cents))
    }

    fn enough(&self, string: &str) -> String {
        format!("{string}: enough. Leave the key and pluck it still.")
    }

    fn reached_for_now(&self, string: &str, off_cents: f64) -> String {
        format!(
            "{string} (new): there for now ({}). It will be asked for again.",
            signed(off_cents)
        )
    }

    fn holds(&self, string: &str) -> String {
        format!("{string} (new): it holds.")
    }

    fn again(&self, strings: &[String], moved_cents: f64) -> String {
        format!(
            "All heard. Hear {} again: others moved by {moved_cents:.0} cents in all after them.",
            listed(strings)
        )
    }

    fn offer(&self, strings: &[(String, String)]) -> String {
        let each = strings.iter().map(|(s, p)| format!("{s} at {p}"));
        format!(
            "Without discs: {}. Is that right for the next piece?",
            each.collect::<Vec<_>>().join(", ")
        )
    }

    fn will_stand(&self, string: &str, pitch: &str) -> String {
        format!("{string} is to sound {pitch}.")
    }

    fn broke(&self, string: &str, then: Then) -> String {
        let care = "Eyes away from the strings, mind the loose end of a wire, and spare your wrist. \
                    What else gave way, let a harp technician judge.";
        match then {
            Then::PlayWithout => format!("{string} broke. {care} The round goes on without it."),
            Then::FittedNow => format!(
                "{string} is new. {care} Bring it up in small steps, half of the way at most, and pluck after each."
            ),
        }
    }

    fn pinned(&self, string: &str) -> String {
        format!("{string}, however far off it is.")
    }

    fn let_go(&self) -> String {
        "Any string again.".to_owned()
    }

    fn skipped(&self, string: &str) -> String {
        format!("{string}: left out.")
    }

    fn undone(&self, string: &str) -> String {
        format!("{string}: not in tune after all. Pluck it again.")
    }

    fn by_ear(&self, string: &str) -> String {
        format!("{string}: in tune by your ear.")
    }

    fn on_purpose(&self, string: &str) -> String {
        format!("{string}: moved by you.")
    }

    fn not_here(&self, string: &str) -> String {
        format!("{string} cannot be that in this round.")
    }

    fn paused(&self) -> String {
        "Not listening.".to_owned()
    }

    fn resumed(&self) -> String {
        "Listening.".to_owned()
    }

    fn the_a(&self, taken: TakenA, raise: Option<Raise>, strings: &[String]) -> String {
        let start = format!("That A is {:.1}.", taken.a4_hz);
        match (raise.filter(|r| r.asks_a_technician()), strings) {
            (Some(raise), _) => format!("{start} {}", self.ask_technician(raise)),
            (None, []) => format!(
                "{start} Tune to it? This harp has no A as it stands: its A strings sound A flat, so compare by what is shown."
            ),
            (None, own) => format!("{start} Tune to it? On this harp A is {}.", listed(own)),
        }
    }

    fn no_a(&self, error: TakeError) -> String {
        match error {
            TakeError::TooShort { .. } => "Too short for an A: three seconds, held.".to_owned(),
            TakeError::Unsteady { u95_cents } => {
                format!("Too unsteady for an A (±{u95_cents:.1} cents): once more, held still.")
            }
            TakeError::OutOfRange { a4_hz } => format!(
                "That would be an A of {a4_hz:.1}: only 380 to 480 is taken. Is it the note you named?"
            ),
        }
    }

    fn ask_technician(&self, raise: Raise) -> String {
        format!(
            "That is {} cents above this harp's usual pitch, {:.1} % more pull on every string: ask your technician first.",
            signed(raise.above_cents),
            raise.load_percent
        )
    }

    fn uses(&self, a4_hz: f64) -> String {
        format!("A is {a4_hz:.1}.")
    }

    fn all_heard(&self) -> String {
        "All heard.".to_owned()
    }

    fn finished(&self) -> String {
        "The round is over.".to_owned()
    }
}

fn high_or_low(off: f64) -> String {
    let word = if off < 0.0 { "low" } else { "high" };
    format!("{:.1} cents {word}", off.abs())
}

fn listed(strings: &[String]) -> String {
    told::listed(strings, "and")
}
