//! A handout: what one student takes home about her own harp.

mod columns;
mod english;
mod french;
mod german;
mod grid;
mod pages;
mod sections;
mod strings;
mod words;

use harp::{Colour, Harp, HarpKind, Mechanism, Setup, StringName};
use keep::{Step, restringing};
use pitch::{ReferencePitch, SpelledPitch, shown_as};
use tuning::round::Order;

use crate::Picture;

pub use pages::handout_pages;

/// What a handout is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Handout {
    /// The student; may be empty.
    pub student: String,
    /// The harp as its owner calls it; empty where it is called by its kind alone.
    pub harp: String,
    /// Whether it has levers; pedals otherwise.
    pub lever: bool,
    /// Its strings from the bass.
    pub strings: Vec<HandoutString>,
    /// The harp as it is drawn.
    pub picture: Picture,
    /// The reference pitch to which she tunes.
    pub reference: ReferencePitch,
    /// The order in which she tunes.
    pub order: Order,
    /// The steps of putting a string on: a wire's and another's, as far as the harp has them.
    pub steps: Vec<Step>,
}

/// A string as it is tuned: pedals up, levers off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HandoutString {
    /// Its name.
    pub name: StringName,
    /// Its colour.
    pub colour: Colour,
    /// Whether a pedal or a lever moves it.
    pub moves: bool,
    /// What it sounds, as it is spelled.
    pub sounds: SpelledPitch,
    /// The same as a chromatic display names it, with sharps.
    pub shown: SpelledPitch,
}

impl Handout {
    /// A handout for a harp as it is tuned, with nobody's name on it; `None` for an instrument that is no harp.
    ///
    /// ```
    /// use harp::Harp;
    /// use pitch::ReferencePitch;
    /// let harp = Harp::named("pedal47")?;
    /// let handout = sheet::Handout::of(&harp, ReferencePitch::A440).ok_or("no harp")?;
    /// // 4C sounds C flat, and a tuner shows B
    /// assert_eq!(handout.strings[21].name.harp_number(), "4C");
    /// assert_eq!(handout.strings[21].shown.to_string(), "Bn3");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn of(harp: &Harp, reference: ReferencePitch) -> Option<Self> {
        if harp.kind() == HarpKind::Free {
            return None;
        }
        // the open position asks nothing that a harp could refuse
        let standing = harp.standing(&Setup::open(reference)).ok()?;
        let strings = harp.strings().iter().zip(standing);
        let strings = strings.map(|(string, stands)| HandoutString {
            name: string.name,
            colour: string.colour,
            moves: string.mechanism != Mechanism::Nothing,
            sounds: stands.pitch,
            // a target is a pitch, and has a name
            shown: (shown_as(stands.target_hz, reference).name)
                .parse()
                .unwrap_or(stands.pitch),
        });
        let of_each = [true, false].map(|wire| harp.strings().iter().find(|one| one.wire == wire));
        let steps = of_each.into_iter().flatten().flat_map(restringing);
        Some(Self {
            steps: steps.collect(),
            student: String::new(),
            harp: String::new(),
            lever: harp.kind() == HarpKind::Lever,
            strings: strings.collect(),
            picture: Picture::of(harp),
            reference,
            order: Order::default(),
        })
    }
}
