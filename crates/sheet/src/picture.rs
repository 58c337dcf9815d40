//! What a picture of the harp is made from: plain values, each string's state among them.

use harp::{Colour, Field, Harp, Naming, StringName};
use pitch::Tongue;

use crate::wording::{Wording, wording};

/// What is known of a harp, ready to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// What stands above it: the harp, its pedals, the pitch. May be empty.
    pub title: String,
    /// The strings from the bass to the treble.
    pub strings: Vec<Drawn>,
    /// The string that sounds or is to be tuned now.
    pub present: Option<StringName>,
    /// From which side the harp is seen.
    pub side: Side,
    /// How strings are called.
    pub naming: Naming,
    /// The language of the words.
    pub tongue: Tongue,
}

/// One string as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Its name.
    pub name: StringName,
    /// Its colour.
    pub colour: Colour,
    /// Whether it is a wire.
    pub wire: bool,
    /// Speaking length in mm, where the player gave it; otherwise a typical one is drawn.
    pub length_mm: Option<f64>,
    /// Outer diameter in mm, where the player gave it; otherwise a typical one is drawn.
    pub gauge_mm: Option<f64>,
    /// How far off it was when it was first heard, in cents; drawn where the mark has a place of
    /// its own.
    pub before_cents: Option<f64>,
    /// What is known of it now.
    pub mark: Mark,
}

/// What is known of one string. Cents are positive where it is too high; `u95_cents` is half the
/// width of the 95 % interval.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// Not heard yet.
    NotYetHeard,
    /// Out of tune.
    Off {
        /// How far above its target.
        cents: f64,
        /// How sure that is.
        u95_cents: f64,
    },
    /// In tune.
    InTune {
        /// How far above its target, inside the tolerance.
        cents: f64,
        /// How sure that is.
        u95_cents: f64,
    },
    /// Near, but too uncertain to say in tune.
    Near {
        /// How far above its target, as far as can be said.
        cents: f64,
        /// How sure that is.
        u95_cents: f64,
    },
    /// Its pin is being turned.
    Moving {
        /// Where it is.
        cents: f64,
        /// Where it was, the latest last.
        trail_cents: Vec<f64>,
    },
    /// Passed over.
    Skipped,
    /// Broken.
    Broken,
    /// New: still giving way, so no reading of it holds.
    New {
        /// Where it was last heard.
        cents: Option<f64>,
    },
    /// Was in tune, and is to be heard again.
    Again {
        /// Where it was.
        cents: f64,
        /// How sure that was.
        u95_cents: f64,
    },
}

/// The side from which a harp is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Side {
    /// The player's: the bass to the left.
    #[default]
    Player,
    /// The other: the bass to the right.
    Other,
}

impl Picture {
    /// A harp of which no string has been heard, with the lengths and gauges that were given.
    pub fn of(harp: &Harp) -> Self {
        let strings = harp.strings().iter().map(|string| {
            let figures = harp.figures(string);
            Drawn {
                name: string.name,
                colour: string.colour,
                wire: string.wire,
                length_mm: figures.get(Field::LengthMm),
                gauge_mm: figures.get(Field::GaugeMm),
                before_cents: None,
                mark: Mark::NotYetHeard,
            }
        });
        Self {
            title: harp.name().unwrap_or_default().to_owned(),
            strings: strings.collect(),
            present: None,
            side: Side::default(),
            naming: Naming::default(),
            tongue: Tongue::default(),
        }
    }

    /// What one of its strings is called.
    ///
    /// ```
    /// use pitch::Tongue;
    /// let mut picture = sheet::Picture::of(&harp::Harp::named("lever34")?);
    /// picture.tongue = Tongue::German;
    /// picture.naming.language = picture.tongue.notes();
    /// assert_eq!(picture.name_of("B3".parse()?), "4H");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn name_of(&self, string: StringName) -> String {
        self.naming.string(string)
    }

    pub(crate) fn words(&self) -> &'static dyn Wording {
        wording(self.tongue)
    }
}

impl Mark {
    /// Where it was last heard, in cents above the target, if that is known.
    pub fn cents(&self) -> Option<f64> {
        match *self {
            Self::Off { cents, .. }
            | Self::InTune { cents, .. }
            | Self::Near { cents, .. }
            | Self::Moving { cents, .. }
            | Self::Again { cents, .. } => Some(cents),
            Self::New { cents } => cents,
            Self::NotYetHeard | Self::Skipped | Self::Broken => None,
        }
    }

    /// How sure that is, in cents, if that is known.
    pub fn u95_cents(&self) -> Option<f64> {
        match *self {
            Self::Off { u95_cents, .. }
            | Self::InTune { u95_cents, .. }
            | Self::Near { u95_cents, .. }
            | Self::Again { u95_cents, .. } => Some(u95_cents),
            _ => None,
        }
    }
}
