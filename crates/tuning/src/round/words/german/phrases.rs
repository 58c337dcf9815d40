//! Standing words and short forms in German.

use harp::Colour;

use super::German;
use crate::round::words::speaks::{Phrases, Side};
use crate::round::{Amount, State};
use crate::{Direction, Reason};

impl Phrases for German {
    fn care(&self) -> &'static str {
        "Bevor ein Schlüssel weit gedreht wird: Sitzt er auf dem Wirbel der Saite, die Sie zupfen? Die Augen
aus der Ebene der Saiten halten, in kleinen Schritten drehen und nach jedem zupfen. Was sich nicht
erklären lässt, ausgebildeten Harfentechnikerinnen oder Harfentechnikern überlassen."
    }

    fn which_way_the_key_turns(&self, way: Direction) -> &'static str {
        match way {
            Direction::Up => {
                "Höher geht es meist von Ihnen weg, zur Säule hin; manche Harfen sind anders. Eine Spur drehen und hinhören."
            }
            Direction::Down => {
                "Tiefer geht es meist zu Ihnen her, von der Säule weg; manche Harfen sind anders. Eine Spur drehen und hinhören."
            }
            Direction::There => "Den Schlüssel in Ruhe lassen.",
        }
    }

    fn reason(&self, reason: Reason) -> &'static str {
        match reason {
            Reason::TooShort => "zu kurz",
            Reason::TwoStrings => "zwei Saiten zugleich",
            Reason::TooNoisy => "zu laut ringsum",
            Reason::AudioBroke => "Ton unterbrochen",
            Reason::NoString => "keine Saite dieser Harfe",
            Reason::NotSure => "Saite nicht sicher",
        }
    }

    fn advice(&self, reason: Reason) -> &'static str {
        match reason {
            Reason::TooShort => "noch einmal zupfen und klingen lassen",
            Reason::TwoStrings => "die anderen abdämpfen und diese allein zupfen",
            Reason::TooNoisy => {
                "einen ruhigeren Augenblick abwarten oder das Mikrofon näher stellen"
            }
            Reason::AudioBroke => "schließen, was sonst noch aufnimmt, und noch einmal zupfen",
            Reason::NoString => {
                "stehen Pedale und Klappen wie angesagt? Eine neue Saite ist zuerst zu nennen"
            }
            Reason::NotSure => "die Nachbarsaite zupfen oder diese nennen",
        }
    }

    fn way(&self, way: Direction) -> &'static str {
        match way {
            Direction::Up => "höher",
            Direction::Down => "tiefer",
            Direction::There => "am Ziel",
        }
    }

    fn amount(&self, amount: Amount) -> &'static str {
        match amount {
            Amount::Hair => "eine Spur",
            Amount::Little => "ein wenig",
            Amount::More => "ein Stück",
            Amount::Half => "um die Hälfte davon",
        }
    }

    fn how_far(&self, way: Direction, amount: Amount) -> String {
        match way {
            Direction::There => self.way(way).to_owned(),
            _ => format!("{} {}", self.amount(amount), self.way(way)),
        }
    }

    fn state(&self, state: State) -> &'static str {
        match state {
            State::NotYetHeard => "noch nicht gehört",
            State::BeforeKnown => "zu stimmen",
            State::Moving => "bewegt sich",
            State::InTune => "stimmt",
            State::InTuneByEar => "stimmt nach Gehör",
            State::Near => "nahe, nicht sicher",
            State::Skipped => "ausgelassen",
            State::Broken => "gerissen",
            State::New => "neu",
            State::Again => "noch einmal hören",
        }
    }

    fn enough_at_a_glance(&self) -> &'static str {
        "genug"
    }

    fn by_colour(&self, colour: Colour, wire: bool) -> &'static str {
        match (colour, wire) {
            (Colour::Red, false) => "die rote Saite",
            (Colour::Red, true) => "die rote Drahtsaite",
            (Colour::Dark, false) => "die schwarze oder blaue Saite",
            (Colour::Dark, true) => "die dunkle Drahtsaite",
            (Colour::Metallic, _) | (Colour::Plain, true) => "eine Drahtsaite",
            (Colour::Plain, false) => "eine weiße Saite",
        }
    }

    /// Many devices write B for the tone that German calls H (common experience, no source).
    fn a_tuner_shows(&self, pitch: &str) -> String {
        let other = if pitch == "H" { " (oft als B)" } else { "" };
        format!("ein Stimmgerät zeigt {pitch}{other}")
    }

    fn then(&self, string: &str, side: Option<Side>) -> String {
        match side {
            Some(Side::Below) => format!("dann {string} darunter"),
            Some(Side::Above) => format!("dann {string} darüber"),
            None => format!("dann noch einmal {string}"),
        }
    }
}
