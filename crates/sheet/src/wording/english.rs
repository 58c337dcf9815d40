//! The words of a picture in English.

use harp::HarpKind;

use super::{Count, Wording, capital};
use crate::kind::Kind;

/// The language.
pub(super) struct English;

impl Wording for English {
    fn harp(&self) -> &'static str {
        "Harp"
    }

    fn stands(&self, kind: HarpKind, open: bool) -> &'static str {
        match (open, kind) {
            (false, _) => "Not open",
            (true, HarpKind::Pedal) => "Pedals up",
            (true, HarpKind::Lever) => "Levers off",
            (true, HarpKind::Free) => "Open",
        }
    }

    fn reference(&self, a4: &str) -> String {
        format!("A = {a4}")
    }

    fn harp_of(&self, strings: usize) -> String {
        format!("A harp of {}.", counted(strings))
    }

    fn present(&self, name: &str, mark: &str) -> String {
        format!("The present string is {name}: {mark}.")
    }

    fn not_on_this_harp(&self) -> &'static str {
        "not on this harp"
    }

    fn counted(&self, count: Count) -> String {
        let Count {
            in_tune,
            unheard,
            all,
        } = count;
        match unheard {
            _ if unheard == all => "No string heard yet".to_owned(),
            0 => format!("{in_tune} of {all} in tune"),
            _ => format!("{in_tune} of {all} in tune, {unheard} not yet heard"),
        }
    }

    fn meaning(&self, kind: Kind) -> &'static str {
        match kind {
            Kind::NotYetHeard => "not yet heard",
            Kind::Off => "off",
            Kind::InTune => "in tune",
            Kind::Near => "near, cannot say",
            Kind::Moving => "moving",
            Kind::Skipped => "skipped",
            Kind::Broken => "broken",
            Kind::New => "new",
            Kind::Again => "hear again",
        }
    }

    fn in_list(&self, kind: Kind) -> &'static str {
        match kind {
            Kind::Near => "near",
            Kind::Again => "again",
            other => self.meaning(other),
        }
    }

    fn all_of(&self, kind: Kind, strings: &[String]) -> String {
        let meaning = match kind {
            Kind::Again => "to be heard again",
            other => self.meaning(other),
        };
        format!("{}: {}.", capital(meaning), strings.join(", "))
    }

    fn low_or_high(&self, low: bool) -> &'static str {
        if low { "low" } else { "high" }
    }

    fn figures_are_cents(&self) -> &'static str {
        "All figures are cents."
    }

    fn figures_in_cents(&self) -> &'static str {
        "figures in cents"
    }

    fn and_more(&self, strings: usize) -> String {
        format!("and {strings} more")
    }

    fn before(&self) -> &'static str {
        "before"
    }

    fn origin_of_lengths(&self, typical: usize, all: usize) -> String {
        match typical {
            0 => "The lengths are those given for this harp.".to_owned(),
            _ if typical == all => {
                "The lengths are typical: drawn after synthetic figures, not this harp's."
                    .to_owned()
            }
            _ => format!(
                "The lengths of {} are typical: drawn after synthetic figures; the others are those \
                 given for this harp.",
                counted(typical)
            ),
        }
    }
}

fn counted(strings: usize) -> String {
    match strings {
        1 => "1 string".to_owned(),
        _ => format!("{strings} strings"),
    }
}
