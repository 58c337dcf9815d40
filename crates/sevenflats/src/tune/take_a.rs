//! `sevenflats tune --take-a`: the reference pitch from a note that somebody holds. Nothing is tuned by it.

use std::io::Write;

use harp::HarpKind;
use pitch::{Letter, SpelledPitch, raise};
use serde::Serialize;
use tuning::round::{
    HOLD_S, HearError, HeldEar, Plan, Raise, TakeError, TakenA, strings_that_sound_a,
};

use super::arguments::TuneArguments;
use crate::sound::Sound;
use crate::sound::notes;
use crate::source::{self, OpenInput};
use crate::trouble::Trouble;
use harp::Naming;

/// The one line of `sevenflats tune --take-a --json`.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum TakeLine {
    /// The A that was heard.
    TheA {
        /// The note that was held.
        note: String,
        /// A4 as it was heard, Hz.
        heard_hz: f64,
        /// Half of its 95 % interval, cents.
        u95_cents: f64,
        /// The same, rounded to half a hertz.
        a4_hz: f64,
        /// Whether it is so far above the harp's usual pitch that a technician is to be asked first.
        asks_technician: bool,
    },
    /// No A, and why.
    Refused {
        /// Why, in a word or two.
        reason: &'static str,
        /// The figures, and what to do.
        detail: String,
    },
}

/// Listens to the sound's end and says what A it holds. What cannot be read to its end is returned beside it.
pub fn take_a(
    arguments: &TuneArguments,
    note: SpelledPitch,
    plan: &Plan,
    input: OpenInput<'_>,
    (out, notice): (&mut dyn Write, &mut dyn Write),
) -> Result<Vec<Trouble>, Trouble> {
    let from = &arguments.from;
    source::check_rate(std::slice::from_ref(from), arguments.raw.rate)?;
    let mut sound = source::open(from, arguments.raw, input)?;
    let name = source::name(from);
    let held = |reason| Trouble::Held {
        name: name.clone(),
        reason,
    };
    let ear = HeldEar::new(sound.rate_hz(), note).map_err(held)?;
    let (taken, mut troubles) = listen(ear, &mut sound, &name);
    for of_sound in notes::of_form(&sound)
        .into_iter()
        .chain(notes::of_samples(&sound, false))
    {
        writeln!(notice, "Note, {}: {}.", of_sound.warning, of_sound.detail)?;
    }
    let naming = arguments.shown.names;
    let line = match taken {
        Ok(taken) if !arguments.shown.json => {
            write!(out, "{}", told(arguments, note, plan, taken))?;
            return Ok(troubles);
        }
        Ok(taken) => the_a(note, taken, against_usual(plan, taken)),
        Err(error) => {
            let (reason, detail) = refused(&error, &called(note, naming), &sound);
            let refusal = Trouble::NoA {
                name,
                detail: detail.clone(),
            };
            troubles.push(refusal);
            TakeLine::Refused { reason, detail }
        }
    };
    if arguments.shown.json {
        serde_json::to_writer(&mut *out, &line).map_err(std::io::Error::from)?;
        writeln!(out)?;
    }
    Ok(troubles)
}

/// The sound to its end, or as far as it goes.
fn listen(
    mut ear: HeldEar,
    sound: &mut Sound,
    name: &str,
) -> (Result<TakenA, HearError>, Vec<Trouble>) {
    let mut troubles = Vec::new();
    loop {
        match sound.next_block() {
            Ok(Some(samples)) => {
                ear.push(samples);
            }
            Ok(None) => break,
            Err(reason) => {
                troubles.push(Trouble::Sound {
                    name: name.to_owned(),
                    reason,
                });
                break;
            }
        }
    }
    (ear.finish().take_the_a(), troubles)
}

fn the_a(note: SpelledPitch, taken: TakenA, raise: Option<Raise>) -> TakeLine {
    TakeLine::TheA {
        note: note.to_string(),
        heard_hz: taken.heard_hz,
        u95_cents: taken.u95_cents,
        a4_hz: taken.a4_hz,
        asks_technician: raise.is_some_and(Raise::asks_a_technician),
    }
}

fn against_usual(plan: &Plan, taken: TakenA) -> Option<Raise> {
    let usual_a4_hz = plan.usual_a4_hz?;
    Some(Raise::between(usual_a4_hz, taken.a4_hz))
}

/// What a person reads: the A, how to use it, what it asks of the harp, and what there is to compare it with.
fn told(arguments: &TuneArguments, note: SpelledPitch, plan: &Plan, taken: TakenA) -> String {
    let TakenA {
        heard_hz,
        u95_cents,
        a4_hz,
    } = taken;
    let half_hz = raise(heard_hz, u95_cents) - heard_hz;
    let naming = arguments.shown.names;
    let mut words = format!(
        "A = {heard_hz:.1} Hz, ±{half_hz:.1} Hz (±{u95_cents:.1} cents), by the {} that was held. To the nearest half hertz: {a4_hz}.\n",
        called(note, naming)
    );
    let raise = against_usual(plan, taken);
    if let Some(raise) = raise {
        words += &load(raise);
    }
    words += if raise.is_some_and(Raise::asks_a_technician) {
        "Only if the technician agrees:\n"
    } else {
        "To tune to it:\n"
    };
    words += &format!("  {}\n", command(arguments, a4_hz));
    words + &to_compare(plan, naming)
}

/// The command that tunes to this A, begun: what else belongs to it is the player's.
fn command(arguments: &TuneArguments, a4_hz: f64) -> String {
    let mut command = format!("sevenflats tune --a4 {a4_hz}");
    if let Some(usual) = arguments.usual_a4 {
        command += &format!(" --usual-a4 {}", usual.a4_hz());
    }
    command + " …"
}

/// How much more the strings pull: tension goes with the square of the pitch.
fn load(raise: Raise) -> String {
    let (cents, percent) = (raise.above_cents, raise.load_percent);
    let (way, more) = if cents < 0.0 {
        ("below", "less")
    } else {
        ("above", "more")
    };
    let (cents, percent) = (cents.abs(), percent.abs());
    if cents < 0.05 {
        return "That is this harp's usual pitch.\n".to_owned();
    }
    let asks = if raise.asks_a_technician() {
        ": ask your technician first"
    } else {
        ""
    };
    format!(
        "That is {cents:.1} cents {way} this harp's usual pitch, {percent:.1} % {more} pull on every string{asks}.\n"
    )
}

/// The strings that sound an A as the harp stands; with all pedals up there are none.
fn to_compare(plan: &Plan, naming: Naming) -> String {
    let standing: Vec<_> = plan.strings.iter().map(|s| s.standing).collect();
    let strings = strings_that_sound_a(&standing);
    if !strings.is_empty() {
        let names: Vec<String> = strings.iter().map(|s| naming.string(*s)).collect();
        return format!("As this harp stands, it sounds on {}.\n", names.join(", "));
    }
    let stands = match (plan.open, plan.kind) {
        (true, HarpKind::Pedal) => "With all pedals up",
        (true, _) => "With all levers off",
        (false, _) => "As it stands",
    };
    let an_a = standing.iter().find(|s| s.string.letter == Letter::A);
    let sounds = an_a.map_or(String::new(), |s| {
        format!(": its A strings sound {}", naming.language.name(s.pitch))
    });
    format!("{stands} this harp has no A string to compare{sounds}.\n")
}

/// Why there is no A, in a word or two for programs, and in a sentence that says what to do.
fn refused(error: &HearError, note: &str, sound: &Sound) -> (&'static str, String) {
    let longer = format!("once more, and hold it for {HOLD_S:.0} seconds or longer");
    match error {
        HearError::NotHeard if sound.loudness().is_silent() => {
            let advice = notes::advice(sound);
            ("not heard", format!("no {note} was heard: {advice}"))
        }
        HearError::NotHeard => (
            "not heard",
            format!(
                "no {note} of an A between 380 and 480 Hz was heard: let it be held alone, near the microphone; if it was another note, name it after --take-a"
            ),
        ),
        HearError::HeldTooShort { held_s } => (
            "too short",
            format!("the {note} was held for {held_s:.1} s: {longer}"),
        ),
        HearError::Take(TakeError::TooShort { .. }) => (
            "too short",
            format!("too little of the {note} could be told: {longer}"),
        ),
        HearError::NotAlone { share } => (
            "not alone",
            format!(
                "the {note} stood out only {:.0} % of the time: let it sound alone, everything else still",
                100.0 * share
            ),
        ),
        HearError::Take(TakeError::Unsteady { u95_cents }) => (
            "unsteady",
            format!(
                "the {note} was unsteady, ±{u95_cents:.1} cents: once more, held still, without vibrato"
            ),
        ),
        HearError::Take(TakeError::OutOfRange { a4_hz }) => (
            "out of range",
            format!(
                "that would be an A of {a4_hz:.1} Hz, and only 380 to 480 is taken: was it the {note} that was held? Another note is named after --take-a"
            ),
        ),
    }
}

/// The note as the reader calls it.
fn called(note: SpelledPitch, naming: Naming) -> String {
    format!("{}{}", naming.language.name(note), note.octave)
}
