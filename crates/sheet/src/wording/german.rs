//! The words of a picture in German. The trade's words are from memory, no source: Klappen (levers), offen (all pedals up,
//! all levers off).

use harp::HarpKind;

use super::{Count, Wording, capital};
use crate::kind::Kind;

/// The language.
pub(super) struct German;

impl Wording for German {
    fn harp(&self) -> &'static str {
        "Harfe"
    }

    fn stands(&self, kind: HarpKind, open: bool) -> &'static str {
        match (open, kind) {
            (false, _) => "Nicht offen",
            (true, HarpKind::Pedal) => "Pedale oben",
            (true, HarpKind::Lever) => "Klappen gelöst",
            (true, HarpKind::Free) => "Offen",
        }
    }

    fn reference(&self, a4: &str) -> String {
        format!("A = {a4}")
    }

    fn harp_of(&self, strings: usize) -> String {
        match strings {
            1 => "Eine Harfe mit 1 Saite.".to_owned(),
            _ => format!("Eine Harfe mit {strings} Saiten."),
        }
    }

    fn present(&self, name: &str, mark: &str) -> String {
        format!("Die jetzige Saite ist {name}: {mark}.")
    }

    fn not_on_this_harp(&self) -> &'static str {
        "nicht auf dieser Harfe"
    }

    fn counted(&self, count: Count) -> String {
        let Count {
            in_tune,
            unheard,
            all,
        } = count;
        let are = if in_tune == 1 { "stimmt" } else { "stimmen" };
        match unheard {
            _ if unheard == all => "Noch keine Saite gehört".to_owned(),
            0 => format!("{in_tune} von {all} {are}"),
            _ => format!("{in_tune} von {all} {are}, {unheard} ungehört"),
        }
    }

    fn meaning(&self, kind: Kind) -> &'static str {
        match kind {
            Kind::NotYetHeard => "noch nicht gehört",
            Kind::Off => "verstimmt",
            Kind::InTune => "stimmt",
            Kind::Near => "nahe, nicht sicher",
            Kind::Moving => "bewegt sich",
            Kind::Skipped => "ausgelassen",
            Kind::Broken => "gerissen",
            Kind::New => "neu",
            Kind::Again => "noch einmal hören",
        }
    }

    fn in_list(&self, kind: Kind) -> &'static str {
        match kind {
            Kind::Near => "nahe",
            Kind::Moving => "bewegt",
            Kind::Again => "noch einmal",
            other => self.meaning(other),
        }
    }

    fn all_of(&self, kind: Kind, strings: &[String]) -> String {
        // a comma stands in the figures
        format!("{}: {}.", capital(self.meaning(kind)), strings.join("; "))
    }

    fn low_or_high(&self, low: bool) -> &'static str {
        if low { "zu tief" } else { "zu hoch" }
    }

    fn low_or_high_in_list(&self, low: bool) -> &'static str {
        if low { "tief" } else { "hoch" }
    }

    fn figures_are_cents(&self) -> &'static str {
        "Alle Zahlen sind Cent."
    }

    fn figures_in_cents(&self) -> &'static str {
        "Zahlen in Cent"
    }

    fn and_more(&self, strings: usize) -> String {
        format!("und {strings} weitere")
    }

    fn before(&self) -> &'static str {
        "vorher"
    }

    fn origin_of_lengths(&self, typical: usize, all: usize) -> String {
        let of = match typical {
            0 => return "Die Längen sind die für diese Harfe angegebenen.".to_owned(),
            _ if typical == all => {
                return "Die Längen sind typisch: nach synthetischen Zahlen gezeichnet, nicht nach \
                        denen dieser Harfe."
                    .to_owned();
            }
            1 => "1 Saite".to_owned(),
            _ => format!("{typical} Saiten"),
        };
        format!(
            "Die Längen von {of} sind typisch: nach synthetischen Zahlen gezeichnet; die anderen \
             sind die für diese Harfe angegebenen."
        )
    }
}
