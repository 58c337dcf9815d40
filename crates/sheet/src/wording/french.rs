//! The words of a picture in French; what is said of a string is feminine: la corde. The trade's words are from memory, no
//! source: leviers, à vide (all pedals up, all levers off).

use harp::HarpKind;

use super::{Count, Wording, capital};
use crate::kind::Kind;

/// The language.
pub(super) struct French;

impl Wording for French {
    fn harp(&self) -> &'static str {
        "Harpe"
    }

    fn stands(&self, kind: HarpKind, open: bool) -> &'static str {
        match (open, kind) {
            (false, _) => "Pas à vide",
            (true, HarpKind::Pedal) => "Pédales en haut",
            (true, HarpKind::Lever) => "Leviers baissés",
            (true, HarpKind::Free) => "À vide",
        }
    }

    fn reference(&self, a4: &str) -> String {
        format!("la = {a4}")
    }

    fn harp_of(&self, strings: usize) -> String {
        match strings {
            1 => "Une harpe d'1 corde.".to_owned(),
            _ => format!("Une harpe de {strings} cordes."),
        }
    }

    fn present(&self, name: &str, mark: &str) -> String {
        format!("La corde du moment est {name}\u{202f}: {mark}.")
    }

    fn not_on_this_harp(&self) -> &'static str {
        "pas sur cette harpe"
    }

    fn counted(&self, count: Count) -> String {
        let Count {
            in_tune,
            unheard,
            all,
        } = count;
        let right = if in_tune < 2 { "juste" } else { "justes" };
        match unheard {
            _ if unheard == all => "Encore aucune corde entendue".to_owned(),
            0 => format!("{in_tune} sur {all} {right}"),
            _ => format!("{in_tune} sur {all} {right}, {unheard} à entendre"),
        }
    }

    fn meaning(&self, kind: Kind) -> &'static str {
        match kind {
            Kind::NotYetHeard => "à entendre",
            Kind::Off => "désaccordée",
            Kind::InTune => "juste",
            Kind::Near => "proche, pas sûre",
            Kind::Moving => "bouge",
            Kind::Skipped => "laissée de côté",
            Kind::Broken => "cassée",
            Kind::New => "neuve",
            Kind::Again => "à réécouter",
        }
    }

    fn in_list(&self, kind: Kind) -> &'static str {
        match kind {
            Kind::Near => "près",
            other => self.meaning(other),
        }
    }

    fn all_of(&self, kind: Kind, strings: &[String]) -> String {
        // a comma stands in the figures
        let strings = strings.join("\u{202f}; ");
        format!("{}\u{202f}: {strings}.", capital(self.meaning(kind)))
    }

    fn low_or_high(&self, low: bool) -> &'static str {
        if low { "trop bas" } else { "trop haut" }
    }

    fn low_or_high_in_list(&self, low: bool) -> &'static str {
        if low { "bas" } else { "haut" }
    }

    fn figures_are_cents(&self) -> &'static str {
        "Tous les chiffres sont en cents."
    }

    fn figures_in_cents(&self) -> &'static str {
        "chiffres en cents"
    }

    fn and_more(&self, strings: usize) -> String {
        match strings {
            1 => "et 1 autre".to_owned(),
            _ => format!("et {strings} autres"),
        }
    }

    fn before(&self) -> &'static str {
        "avant"
    }

    fn origin_of_lengths(&self, typical: usize, all: usize) -> String {
        let of = match typical {
            0 => return "Les longueurs sont celles données pour cette harpe.".to_owned(),
            _ if typical == all => {
                return "Les longueurs sont typiques\u{202f}: dessinées d'après des chiffres synthétiques, \
                        et non ceux de cette harpe."
                    .to_owned();
            }
            1 => "1 corde".to_owned(),
            _ => format!("{typical} cordes"),
        };
        format!(
            "Les longueurs de {of} sont typiques\u{202f}: dessinées d'après des chiffres synthétiques\u{202f}; les \
             autres sont celles données pour cette harpe."
        )
    }
}
