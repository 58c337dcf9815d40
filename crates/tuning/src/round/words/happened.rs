//! Sentences of everything that is neither a direction nor a warning.

use pitch::signed;

use super::{Names, listed};
use crate::round::{Raise, Say, TakeError, Then, Why};
use crate::{Reason, WarningKind};

pub(super) fn sentence(say: &Say, names: &Names) -> String {
    let name = |s: &harp::StringName| (names.string)(*s);
    match say {
        Say::Begun { strings } => format!("{strings} strings."),
        Say::SecondBest { touch_up, open } => second_best(*touch_up, *open).to_owned(),
        Say::AskPitch(strings) => {
            format!(
                "Without discs: {}. What is to sound there tonight?",
                listed(strings, names)
            )
        }
        Say::Next { string, why } => match why {
            Why::InOrder | Why::Asked => format!("Now {}.", name(string)),
            Why::New => format!("Now {}: it is new. Has it held?", name(string)),
            Why::Again => format!("Now {} again.", name(string)),
        },
        Say::Left { strings, minutes } => left(*strings, *minutes),
        Say::NotRead { string, reason } => not_read(string.map(|s| name(&s)), *reason),
        Say::Sound(WarningKind::Clipped) => "Too loud for the microphone: move it away.".to_owned(),
        Say::Sound(WarningKind::AudioBroke) => {
            "Sound is missing: close what else is recording.".to_owned()
        }
        Say::ReachedForNow {
            string, off_cents, ..
        } => {
            format!(
                "{} (new): there for now ({}). It will be asked for again.",
                name(string),
                signed(*off_cents)
            )
        }
        Say::Holds(string) => format!("{} (new): it holds.", name(string)),
        Say::Again {
            strings,
            moved_cents,
        } => format!(
            "All heard. Hear {} again: others moved by {moved_cents:.0} cents in all after them.",
            listed(strings, names)
        ),
        Say::Offer(strings) => {
            let each = strings
                .iter()
                .map(|(s, p)| format!("{} at {}", name(s), (names.pitch)(*p)));
            let each: Vec<String> = each.collect();
            format!(
                "Without discs: {}. Is that right for the next piece?",
                each.join(", ")
            )
        }
        Say::WillStand(string, pitch) => {
            format!("{} is to sound {}.", name(string), (names.pitch)(*pitch))
        }
        Say::Broke(string, then) => broke(&name(string), *then),
        Say::Pinned(string) => format!("{}, however far off it is.", name(string)),
        Say::LetGo => "Any string again.".to_owned(),
        Say::Skipped(string) => format!("{}: left out.", name(string)),
        Say::Undone(string) => format!("{}: not in tune after all. Pluck it again.", name(string)),
        Say::ByEar(string) => format!("{}: in tune by your ear.", name(string)),
        Say::OnPurpose(string) => format!("{}: moved by you.", name(string)),
        Say::NotHere(string) => format!("{} cannot be that in this round.", name(string)),
        Say::Paused => "Not listening.".to_owned(),
        Say::Resumed => "Listening.".to_owned(),
        Say::TheA {
            taken,
            raise,
            strings,
        } => the_a(taken.a4_hz, *raise, &listed(strings, names)),
        Say::NoA(error) => no_a(error),
        Say::AskTechnician(raise) => ask_technician(raise),
        Say::Uses(a4_hz) => format!("A is {a4_hz:.1}."),
        Say::AllHeard => "All heard.".to_owned(),
        Say::Finished => "The round is over.".to_owned(),
        // directions and warnings have their own files
        _ => String::new(),
    }
}

fn second_best(touch_up: bool, open: bool) -> &'static str {
    match (touch_up, open) {
        (true, true) => "A few strings only: second best to a whole round.",
        (true, false) => {
            "A few strings, in the pedals or levers that stand: second best. When there is time, tune the open harp."
        }
        (false, _) => "Pedals are not all up, or levers are on: second best. A harp is tuned open.",
    }
}

fn left(strings: usize, minutes: Option<f64>) -> String {
    match minutes {
        Some(minutes) if minutes < 1.0 => format!("{strings} left, less than a minute."),
        Some(minutes) => format!("{strings} left, about {minutes:.0} min."),
        None => format!("{strings} left."),
    }
}

fn not_read(string: Option<String>, reason: Reason) -> String {
    let start = string.map_or(String::new(), |s| format!("{s}: "));
    format!("{start}not read, {}: {}.", reason.as_str(), advice(reason))
}

/// What to do about a pluck that was not read.
pub fn advice(reason: Reason) -> &'static str {
    match reason {
        Reason::TooShort => "pluck it again and let it ring",
        Reason::TwoStrings => "damp the others and pluck it alone",
        Reason::TooNoisy => "wait for a quieter moment, or bring the microphone nearer",
        Reason::AudioBroke => "close what else is recording, and pluck it again",
        Reason::NoString => "are pedals and levers as you said? A new string is to be named first",
        Reason::NotSure => "pluck its neighbour, or name it",
    }
}

fn broke(string: &str, then: Then) -> String {
    let care = "Eyes away from the strings, mind the loose end of a wire, and spare your wrist. \
                What else gave way, let a harp technician judge.";
    match then {
        Then::PlayWithout => format!("{string} broke. {care} The round goes on without it."),
        Then::FittedNow => format!(
            "{string} is new. {care} Bring it up in small steps, half of the way at most, and pluck after each."
        ),
    }
}

fn the_a(a4_hz: f64, raise: Option<Raise>, strings: &str) -> String {
    let own = if strings.is_empty() {
        " This harp has no A as it stands: its A strings sound A flat, so compare by what is shown."
            .to_owned()
    } else {
        format!(" On this harp A is {strings}.")
    };
    let asks = raise
        .filter(|r| r.asks_a_technician())
        .map(|r| ask_technician(&r));
    match asks {
        Some(asks) => format!("That A is {a4_hz:.1}. {asks}"),
        None => format!("That A is {a4_hz:.1}. Tune to it?{own}"),
    }
}

fn ask_technician(raise: &Raise) -> String {
    format!(
        "That is {} cents above this harp's usual pitch, {:.1} % more pull on every string: ask your technician first.",
        signed(raise.above_cents),
        raise.load_percent
    )
}

fn no_a(error: &TakeError) -> String {
    match error {
        TakeError::TooShort { .. } => "Too short for an A: three seconds, held.".to_owned(),
        TakeError::Unsteady { u95_cents } => {
            format!("Too unsteady for an A (±{u95_cents:.1} cents): once more, held still.")
        }
        TakeError::OutOfRange { a4_hz } => {
            format!(
                "That would be an A of {a4_hz:.1}: only 380 to 480 is taken. Is it the note you named?"
            )
        }
    }
}
