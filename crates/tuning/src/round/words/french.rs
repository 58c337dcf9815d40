//! French: what to do stands in the infinitive, 'vous' where a person is meant. The way to turn is 'plus haut' or 'plus
//! bas', where a string stands is 'trop haut' or 'trop bas'. What is said of a string is feminine: la corde.
//!
//! The trade's words are from memory, no source: levier, cheville, clef, corde filée (a wire), fourchettes (discs), à vide
//! (all pedals up), tour des cordes (a round), technicien de la harpe.

mod phrases;
mod warned;

use pitch::Tongue;

use super::speaks::{Phrases, Sentences, Speaks};
use super::told;
use crate::round::{Amount, Raise, TakeError, TakenA, Then, Turn, Why};
use crate::{Direction, Reason, WarningKind};

/// The language.
pub(super) struct French;

impl Speaks for French {
    /// A narrow space that does not break stands before : ; ! ? and %.
    fn set(&self, sentence: String) -> String {
        [" :", " ;", " !", " ?", " %"]
            .into_iter()
            .fold(sentence, |set, mark| {
                set.replace(mark, &mark.replace(' ', "\u{202f}"))
            })
    }
}

impl Sentences for French {
    fn begun(&self, strings: usize) -> String {
        match strings {
            1 => "1 corde.".to_owned(),
            _ => format!("{strings} cordes."),
        }
    }

    fn second_best(&self, touch_up: bool, open: bool) -> String {
        match (touch_up, open) {
            (true, true) => "Quelques cordes seulement : moins bien qu'un tour complet.",
            (true, false) => {
                "Quelques cordes, pédales ou leviers tels quels : faute de mieux. Quand il y a le temps, accorder la harpe à vide."
            }
            (false, _) => {
                "Les pédales ne sont pas toutes en haut, ou des leviers sont engagés : faute de mieux. Une harpe s'accorde à vide."
            }
        }
        .to_owned()
    }

    fn ask_pitch(&self, strings: &[String]) -> String {
        format!(
            "Sans fourchettes : {}. Que doit-on y entendre ce soir ?",
            listed(strings)
        )
    }

    fn next(&self, string: &str, why: Why) -> String {
        match why {
            Why::InOrder | Why::Asked => format!("Maintenant {string}."),
            Why::New => format!("Maintenant {string}, corde neuve. A-t-elle tenu ?"),
            Why::Again => format!("Maintenant {string}, encore une fois."),
        }
    }

    fn left(&self, strings: usize, minutes: Option<f64>) -> String {
        match minutes {
            Some(minutes) if minutes < 1.0 => format!("Il en reste {strings}, moins d'une minute."),
            Some(minutes) => format!("Il en reste {strings}, environ {} min.", number(minutes, 0)),
            None => format!("Il en reste {strings}."),
        }
    }

    fn sounds(&self, string: &str, off_cents: f64) -> String {
        format!("{string} : pour l'instant {}.", high_or_low(off_cents))
    }

    fn turn(&self, string: &str, turn: &Turn) -> String {
        let new = if turn.climbing { " (neuve)" } else { "" };
        let start = format!("{string}{new} : {}.", high_or_low(turn.off_cents));
        let amount = self.amount(turn.amount);
        let half = || {
            let cents = cents(turn.by_cents, 0);
            format!("{amount} au plus, {cents} ; puis la pincer encore une fois")
        };
        let begins = told::capital(amount);
        match (turn.way, turn.amount) {
            (Direction::Down, Amount::Half) => format!("{start} Doucement plus bas, {}.", half()),
            (Direction::Down, _) => {
                format!("{start} {begins} plus bas, jusqu'à juste en dessous, puis remonter.")
            }
            (Direction::Up, Amount::Half) => format!("{start} Plus haut, {}.", half()),
            (Direction::Up, _) => format!("{start} {begins} plus haut."),
            (Direction::There, _) => start,
        }
    }

    fn in_tune(&self, string: &str, off_cents: f64) -> String {
        format!("{string} : juste ({}).", signed(off_cents))
    }

    fn near(&self, string: &str, u95_cents: f64, octave_above: Option<&str>) -> String {
        let u95 = cents(u95_cents, 1);
        let start = format!("{string} : proche, impossible de dire mieux que ±{u95}.");
        match octave_above {
            Some(above) => {
                format!(
                    "{start} La pincer encore une fois, ou la comparer à l'oreille avec {above}."
                )
            }
            None => format!("{start} La pincer encore une fois."),
        }
    }

    fn pluck_still(&self, string: &str) -> String {
        format!("{string} : elle a bougé pendant qu'elle sonnait. {STILL}")
    }

    fn which(&self, strings: &[String]) -> String {
        match strings {
            [] => "Impossible de dire quelle corde c'était : pincer sa voisine, ou la nommer."
                .to_owned(),
            [only] => format!(
                "Peut-être {only}, mais ce n'est pas sûr : la pincer encore une fois, seule, ou la nommer."
            ),
            [a, b] => format!(
                "{a} ou {b} : les deux sont possibles, donc pas de direction. Pincer l'autre, puis celle-ci encore une fois ; ou la nommer."
            ),
            all => format!(
                "{} : toutes sont possibles, donc pas de direction. Pincer une voisine, ou la nommer.",
                all.join(" ou ")
            ),
        }
    }

    fn not_read(&self, string: Option<&str>, reason: Reason) -> String {
        let start = string.map_or("Non mesurée".to_owned(), |s| format!("{s} : non mesurée"));
        let (why, advice) = (self.reason(reason), self.advice(reason));
        format!("{start} ({why}) : {advice}.")
    }

    fn sound(&self, warning: WarningKind) -> String {
        match warning {
            WarningKind::Clipped => "Trop fort pour le micro : l'éloigner.",
            WarningKind::AudioBroke => "Il manque du son : fermer ce qui enregistre par ailleurs.",
        }
        .to_owned()
    }

    fn moving(&self, string: &str, off_cents: f64, way: Direction) -> String {
        let still = match way {
            Direction::Up => "encore plus haut",
            Direction::Down | Direction::There => self.way(way),
        };
        format!("{string} : {} ; {still}.", signed(off_cents))
    }

    fn enough(&self, string: &str) -> String {
        format!("{string} : assez. {STILL}")
    }

    fn reached_for_now(&self, string: &str, off_cents: f64) -> String {
        format!(
            "{string} (neuve) : à sa place pour l'instant ({}). Elle sera redemandée.",
            signed(off_cents)
        )
    }

    fn holds(&self, string: &str) -> String {
        format!("{string} (neuve) : elle tient.")
    }

    fn again(&self, strings: &[String], moved_cents: f64) -> String {
        format!(
            "Toutes entendues. Réécouter {} : d'autres ont bougé ensuite, de {} en tout.",
            listed(strings),
            cents(moved_cents, 0)
        )
    }

    fn offer(&self, strings: &[(String, String)]) -> String {
        let each = strings.iter().map(|(s, p)| format!("{s} à {p}"));
        format!(
            "Sans fourchettes : {}. Est-ce bon pour le morceau suivant ?",
            each.collect::<Vec<_>>().join(", ")
        )
    }

    fn will_stand(&self, string: &str, pitch: &str) -> String {
        format!("{string} doit sonner {pitch}.")
    }

    fn broke(&self, string: &str, then: Then) -> String {
        let care = "Éloigner les yeux des cordes, prendre garde au bout libre d'une corde filée et ménager le poignet. \
                    Si autre chose a cédé, laisser un technicien de la harpe en juger.";
        match then {
            Then::PlayWithout => {
                format!("{string} a cassé. {care} Le tour des cordes continue sans elle.")
            }
            Then::FittedNow => format!(
                "{string} est neuve. {care} L'amener plus haut par petites étapes, la moitié du chemin au plus à chaque fois, et pincer après chacune."
            ),
        }
    }

    fn pinned(&self, string: &str) -> String {
        format!("{string}, si loin qu'elle soit de sa note.")
    }

    fn let_go(&self) -> String {
        "De nouveau n'importe quelle corde.".to_owned()
    }

    fn skipped(&self, string: &str) -> String {
        format!("{string} : laissée de côté.")
    }

    fn undone(&self, string: &str) -> String {
        format!("{string} : finalement pas juste. La pincer encore une fois.")
    }

    fn by_ear(&self, string: &str) -> String {
        format!("{string} : juste, d'après votre oreille.")
    }

    fn on_purpose(&self, string: &str) -> String {
        format!("{string} : changée par vous.")
    }

    fn not_here(&self, string: &str) -> String {
        format!("{string} ne peut pas l'être dans ce tour.")
    }

    fn paused(&self) -> String {
        "Écoute suspendue.".to_owned()
    }

    fn resumed(&self) -> String {
        "Écoute reprise.".to_owned()
    }

    fn the_a(&self, taken: TakenA, raise: Option<Raise>, strings: &[String]) -> String {
        let start = format!("Ce la est à {}.", number(taken.a4_hz, 1));
        match (raise.filter(|r| r.asks_a_technician()), strings) {
            (Some(raise), _) => format!("{start} {}", self.ask_technician(raise)),
            (None, []) => format!(
                "{start} L'adopter ? Telle quelle, cette harpe n'a pas de la : ses cordes de la sonnent la bémol ; comparer donc avec ce qui est affiché."
            ),
            (None, own) => format!(
                "{start} L'adopter ? Sur cette harpe, le la est {}.",
                listed(own)
            ),
        }
    }

    fn no_a(&self, error: TakeError) -> String {
        match error {
            TakeError::TooShort { .. } => {
                "Trop court pour un la : trois secondes, tenues.".to_owned()
            }
            TakeError::Unsteady { u95_cents } => format!(
                "Trop instable pour un la (±{}) : encore une fois, bien tenu.",
                cents(u95_cents, 1)
            ),
            TakeError::OutOfRange { a4_hz } => format!(
                "Ce serait un la à {} : seul un la de 380 à 480 est accepté. Est-ce bien la note que vous avez nommée ?",
                number(a4_hz, 1)
            ),
        }
    }

    fn ask_technician(&self, raise: Raise) -> String {
        let above = raise.above_cents;
        format!(
            "C'est {} {} au-dessus du diapason habituel de cette harpe, {} % de traction en plus sur chaque corde : demander d'abord à votre technicien de la harpe.",
            signed(above),
            unit(above, 1),
            number(raise.load_percent, 1)
        )
    }

    fn uses(&self, a4_hz: f64) -> String {
        format!("Le la est à {}.", number(a4_hz, 1))
    }

    fn all_heard(&self) -> String {
        "Toutes entendues.".to_owned()
    }

    fn finished(&self) -> String {
        "Le tour des cordes est terminé.".to_owned()
    }
}

/// Pluck it with the key left alone.
const STILL: &str = "Ne plus toucher la clef et pincer la corde.";

fn high_or_low(off: f64) -> String {
    let word = if off < 0.0 { "bas" } else { "haut" };
    format!("{} trop {word}", cents(off.abs(), 1))
}

/// A number of cents with its unit.
fn cents(value: f64, decimals: usize) -> String {
    format!("{} {}", number(value, decimals), unit(value, decimals))
}

/// The unit after a number with so many decimals: in the singular below two, as French has it.
fn unit(cents: f64, decimals: usize) -> &'static str {
    let half_a_step = 0.5 * 10_f64.powi(-(decimals as i32));
    if cents.abs() < 2.0 - half_a_step {
        "cent"
    } else {
        "cents"
    }
}

fn listed(strings: &[String]) -> String {
    told::listed(strings, "et")
}

fn number(value: f64, decimals: usize) -> String {
    Tongue::French.number(value, decimals)
}

fn signed(cents: f64) -> String {
    Tongue::French.signed(cents)
}
