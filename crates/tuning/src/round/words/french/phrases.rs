//! Standing words and short forms in French.

use harp::Colour;

use super::French;
use crate::round::words::speaks::{Phrases, Side};
use crate::round::{Amount, State};
use crate::{Direction, Reason};

impl Phrases for French {
    fn care(&self) -> &'static str {
        "Avant de tourner beaucoup la clef\u{202f}: est-elle sur la cheville de la corde que vous pincez\u{202f}? Garder
les yeux hors du plan des cordes, tourner par petites étapes et pincer après chacune. Ce que vous ne
pouvez pas expliquer, le laisser à un technicien de la harpe qualifié."
    }

    fn which_way_the_key_turns(&self, way: Direction) -> &'static str {
        match way {
            Direction::Up => {
                "Plus haut, c'est d'habitude en s'éloignant de vous, vers la colonne\u{202f}; certaines harpes diffèrent. Tourner d'un cheveu et écouter."
            }
            Direction::Down => {
                "Plus bas, c'est d'habitude vers vous, en s'éloignant de la colonne\u{202f}; certaines harpes diffèrent. Tourner d'un cheveu et écouter."
            }
            Direction::There => "Ne plus toucher la clef.",
        }
    }

    fn reason(&self, reason: Reason) -> &'static str {
        match reason {
            Reason::TooShort => "trop court",
            Reason::TwoStrings => "deux cordes à la fois",
            Reason::TooNoisy => "trop de bruit",
            Reason::AudioBroke => "son interrompu",
            Reason::NoString => "aucune corde de cette harpe",
            Reason::NotSure => "corde pas sûre",
        }
    }

    fn advice(&self, reason: Reason) -> &'static str {
        match reason {
            Reason::TooShort => "la pincer encore une fois et laisser sonner",
            Reason::TwoStrings => "étouffer les autres et la pincer seule",
            Reason::TooNoisy => "attendre un moment plus calme, ou rapprocher le micro",
            Reason::AudioBroke => {
                "fermer ce qui enregistre par ailleurs, et la pincer encore une fois"
            }
            Reason::NoString => {
                "pédales et leviers sont-ils comme annoncé\u{202f}? Une corde neuve est à nommer d'abord"
            }
            Reason::NotSure => "pincer sa voisine, ou la nommer",
        }
    }

    fn way(&self, way: Direction) -> &'static str {
        match way {
            Direction::Up => "plus haut",
            Direction::Down => "plus bas",
            Direction::There => "à sa place",
        }
    }

    fn amount(&self, amount: Amount) -> &'static str {
        match amount {
            Amount::Hair => "un cheveu",
            Amount::Little => "un peu",
            Amount::More => "nettement",
            Amount::Half => "de la moitié",
        }
    }

    fn how_far(&self, way: Direction, amount: Amount) -> String {
        let (turn, by) = (self.way(way), self.amount(amount));
        match (way, amount) {
            (Direction::There, _) => turn.to_owned(),
            (_, Amount::Half) => format!("{turn} {by}"),
            _ => format!("{by} {turn}"),
        }
    }

    fn state(&self, state: State) -> &'static str {
        match state {
            State::NotYetHeard => "pas encore entendue",
            State::BeforeKnown => "à accorder",
            State::Moving => "bouge",
            State::InTune => "juste",
            State::InTuneByEar => "juste à l'oreille",
            State::Near => "proche, pas sûre",
            State::Skipped => "laissée de côté",
            State::Broken => "cassée",
            State::New => "neuve",
            State::Again => "à réécouter",
        }
    }

    fn enough_at_a_glance(&self) -> &'static str {
        "assez"
    }

    fn by_colour(&self, colour: Colour, wire: bool) -> &'static str {
        match (colour, wire) {
            (Colour::Red, false) => "la corde rouge",
            (Colour::Red, true) => "la corde filée rouge",
            (Colour::Dark, false) => "la corde noire ou bleue",
            (Colour::Dark, true) => "la corde filée foncée",
            (Colour::Metallic, _) | (Colour::Plain, true) => "une corde filée",
            (Colour::Plain, false) => "une corde blanche",
        }
    }

    fn a_tuner_shows(&self, pitch: &str) -> String {
        format!("un accordeur affiche {pitch}")
    }

    fn then(&self, string: &str, side: Option<Side>) -> String {
        match side {
            Some(Side::Below) => format!("puis {string} en dessous"),
            Some(Side::Above) => format!("puis {string} au-dessus"),
            None => format!("puis encore {string}"),
        }
    }
}
