//! A string is put on: the steps as data, each with its cautions and its wait.
//!
//! The way up (a tone low, a semitone low, to pitch, again, with two minutes between) is one workshop's. Coils at the pin
//! are not told: three sources say two, three, and four to five.

use harp::HarpString;

use crate::Mark;

/// What can hurt, or break.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Glasses on, the face out of the string's plane: a string or a wire's end can spring.
    Eyes,
    /// The string can break while it comes up.
    BreakingString,
    /// Ends of wires scratch hands and wood; palms and wrists tire on a big job.
    Hands,
    /// The harp is to stand upright on its feet, the player on the floor or a stable low step.
    Standing,
    /// Never all strings slack at once, and wires one at a time.
    OneAtATime,
    /// A pin is never hammered in; a loose or broken one is the technician's.
    PinIsTheTechnicians,
}

/// What is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StepKind {
    /// All pedals up, or the levers off.
    PedalsUp,
    /// Slacken what is left of the old string, and take it off.
    TakeOff,
    /// See that the packet is for this string: letter and octave.
    RightString,
    /// Knot with its anchor (above middle C), or the wire's own end, seated at the soundboard.
    Knot,
    /// Through the pin; coils side by side, not against the neck.
    Wind,
    /// Up to a whole tone below.
    ToneBelow,
    /// Up to a semitone below.
    SemitoneBelow,
    /// Up to pitch.
    ToPitch,
    /// To pitch again.
    Again,
    /// Cut the end, hold the tail.
    Cut,
    /// Write the day into the diary.
    Write,
    /// Tune several times a day until it holds.
    Often,
}

/// A step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// What is done.
    pub kind: StepKind,
    /// Its cautions.
    pub cautions: &'static [Caution],
    /// Minutes to wait afterwards.
    pub wait_minutes: f64,
    /// The pitch to stop at, semitones from its own; `None` where none is asked for.
    pub stop_semitones: Option<f64>,
    /// What that is worth.
    pub mark: Mark,
}

/// The steps for one string. A wire has no anchor, and its way up the same waits.
///
/// ```
/// use keep::{Caution, restringing};
/// let harp = harp::Harp::named("pedal47")?;
/// let steps = restringing(&harp.strings()[0]);
/// let stops: Vec<f64> = steps.iter().filter_map(|step| step.stop_semitones).collect();
/// assert_eq!(stops, [-2.0, -1.0, 0.0, 0.0]);
/// let rising = steps.iter().filter(|step| step.stop_semitones.is_some());
/// assert!(rising.clone().all(|step| step.cautions.contains(&Caution::Eyes)));
/// # Ok::<(), harp::HarpError>(())
/// ```
pub fn restringing(string: &HarpString) -> Vec<Step> {
    const UP: &[Caution] = &[Caution::Eyes, Caution::BreakingString];
    const OFF: &[Caution] = &[Caution::Eyes, Caution::OneAtATime, Caution::Standing];
    const WIRE_OFF: &[Caution] = &[
        Caution::Eyes,
        Caution::Hands,
        Caution::OneAtATime,
        Caution::Standing,
    ];
    const WIND: &[Caution] = &[Caution::Hands, Caution::PinIsTheTechnicians];
    const CUT: &[Caution] = &[Caution::Eyes, Caution::Hands];
    const WIRE_END: &[Caution] = &[Caution::Hands];
    let plain = |kind, cautions| Step {
        kind,
        cautions,
        wait_minutes: 0.0,
        stop_semitones: None,
        mark: Mark::CommonPractice,
    };
    let up = |kind, semitones, wait_minutes| Step {
        kind,
        cautions: UP,
        wait_minutes,
        stop_semitones: Some(semitones),
        mark: Mark::OneGuess,
    };
    // ends of wires scratch
    let (off, knot) = match string.wire {
        true => (WIRE_OFF, WIRE_END),
        false => (OFF, &[] as &[Caution]),
    };
    vec![
        plain(StepKind::PedalsUp, &[]),
        plain(StepKind::TakeOff, off),
        plain(StepKind::RightString, &[]),
        plain(StepKind::Knot, knot),
        plain(StepKind::Wind, WIND),
        up(StepKind::ToneBelow, -2.0, 2.0),
        up(StepKind::SemitoneBelow, -1.0, 2.0),
        up(StepKind::ToPitch, 0.0, 2.0),
        up(StepKind::Again, 0.0, 0.0),
        plain(StepKind::Cut, CUT),
        plain(StepKind::Write, &[]),
        plain(StepKind::Often, &[]),
    ]
}
