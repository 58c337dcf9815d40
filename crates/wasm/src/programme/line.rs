//! What is told of a score and of a plan, in the words of the command's JSON, and by name for people.

use harp::{Naming, Setting};
use pedals::{Cost, Item};
use pitch::{Alteration, Letter};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use super::doubt::DoubtLine;

/// What was read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ScoreLine {
    /// The title, or nothing.
    pub title: String,
    /// The composer, or nothing.
    pub composer: String,
    /// The parts.
    pub parts: Vec<PartLine>,
    /// The written bars.
    pub bars: Vec<BarLine>,
    /// How long it lasts in playing order, seconds.
    pub seconds: f64,
    /// What was doubtful.
    pub diagnostics: Vec<DoubtLine>,
    /// Whether it can be engraved.
    pub engraved: bool,
}

/// A part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PartLine {
    /// Its id in the source.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Whether it is named as a harp's.
    pub is_harp: bool,
    /// Whether it was read.
    pub chosen: bool,
}

/// A written bar.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct BarLine {
    /// Counted from 1.
    pub measure: u32,
    /// As printed.
    pub bar: String,
    /// Its rehearsal mark.
    pub mark: Option<String>,
}

/// Where something stands in the written part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PlaceLine {
    /// Counted from 1.
    pub measure: u32,
    /// As printed.
    pub bar: String,
    /// Quarters from 1, an exact fraction.
    pub beat: String,
    /// The same as it is counted in the bar.
    pub counted: String,
    /// The times of playing.
    pub passes: Vec<u32>,
}

/// Where a pedal stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// Up.
    Flat,
    /// In the middle.
    Natural,
    /// Down.
    Sharp,
}

/// Seven pedals: −1 flat, 0 natural, 1 sharp.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "UPPERCASE")]
pub struct SevenPedals {
    /// Left foot.
    pub d: i8,
    /// Left foot.
    pub c: i8,
    /// Left foot.
    pub b: i8,
    /// Right foot.
    pub e: i8,
    /// Right foot.
    pub f: i8,
    /// Right foot.
    pub g: i8,
    /// Right foot.
    pub a: i8,
}

impl SevenPedals {
    /// Each with its letter.
    pub(crate) fn by_letter(self) -> [(Letter, i8); 7] {
        [
            (Letter::D, self.d),
            (Letter::C, self.c),
            (Letter::B, self.b),
            (Letter::E, self.e),
            (Letter::F, self.f),
            (Letter::G, self.g),
            (Letter::A, self.a),
        ]
    }
}

/// How often, and at what price in all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
pub struct ItemLine {
    /// How often.
    pub count: u32,
    /// The price of all of them.
    pub price: u64,
}

/// What something costs, by the items' words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
pub struct Bill {
    /// Word, how often, price in all; in the order in which they are told.
    pub items: Vec<(String, ItemLine)>,
    /// The sum.
    pub total: u64,
}

impl From<Alteration> for Place {
    fn from(alteration: Alteration) -> Self {
        match alteration {
            Alteration::Flat => Self::Flat,
            Alteration::Natural => Self::Natural,
            Alteration::Sharp => Self::Sharp,
        }
    }
}

impl From<Place> for Alteration {
    fn from(place: Place) -> Self {
        match place {
            Place::Flat => Self::Flat,
            Place::Natural => Self::Natural,
            Place::Sharp => Self::Sharp,
        }
    }
}

impl From<Setting> for SevenPedals {
    fn from(setting: Setting) -> Self {
        let at = |letter| setting.get(letter).map_or(0, Alteration::semitones);
        Self {
            d: at(Letter::D),
            c: at(Letter::C),
            b: at(Letter::B),
            e: at(Letter::E),
            f: at(Letter::F),
            g: at(Letter::G),
            a: at(Letter::A),
        }
    }
}

impl From<Item> for ItemLine {
    fn from(item: Item) -> Self {
        Self {
            count: item.count,
            price: item.price,
        }
    }
}

impl Bill {
    /// The same without the items that do not occur.
    pub(crate) fn of_what_counts(cost: &Cost) -> Self {
        let mut bill = Self::from(cost);
        bill.items.retain(|(_, item)| item.count > 0);
        bill
    }
}

impl From<&Cost> for Bill {
    fn from(cost: &Cost) -> Self {
        let items = cost.items().into_iter();
        Self {
            items: items
                .map(|(word, item)| (word.to_owned(), item.into()))
                .collect(),
            total: cost.total(),
        }
    }
}

/// Where a pedal goes, by its name in the reader's language; a natural is said.
pub(crate) fn pedal_name(naming: Naming, letter: Letter, alteration: Alteration) -> String {
    let name = naming
        .language
        .name(pitch::SpelledPitch::new(letter, alteration, 4));
    let natural = if alteration == Alteration::Natural {
        "♮"
    } else {
        ""
    };
    name + natural
}
