//! The harp as it is chosen on the page.

use harp::{Harp, HarpKind, OpenTuning, StringName};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

/// Why a choice cannot be used.
#[derive(Debug, thiserror::Error)]
pub(crate) enum ChoiceError {
    #[error(transparent)]
    Harp(#[from] harp::HarpError),
    #[error(transparent)]
    String(#[from] harp::StringNameError),
    #[error(transparent)]
    Pitch(#[from] pitch::SpellingError),
    #[error(transparent)]
    Reference(#[from] pitch::ReferenceError),
    #[error("{0} is no letter of a string")]
    Letter(String),
    #[cfg(feature = "programme")]
    #[error("{0} is no beat")]
    Beat(String),
    #[cfg(feature = "tune")]
    #[error("this is done to {0}, and none is named")]
    Without(&'static str),
    #[cfg(feature = "desk")]
    #[error("{0} is nothing that is practised")]
    Practice(String),
    #[error("{0} is no open tuning")]
    Open(String),
}

/// Pedals or levers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Seven pedals.
    Pedal,
    /// A lever a string.
    Lever,
}

/// A harp as it is chosen on the page; strings as in files, `G3`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct HarpChoice {
    /// What moves its strings.
    pub kind: Kind,
    /// Lowest string.
    pub lowest: String,
    /// Highest string.
    pub highest: String,
    /// Open tuning of a lever harp: `Eb`, `C`, `F`, `Ab`.
    pub open: Option<String>,
    /// Strings without discs or without a lever.
    pub unmoved: Vec<String>,
}

impl HarpChoice {
    /// The name by which the diary knows it: a chosen harp has no other yet.
    pub(crate) fn name(&self) -> String {
        let kind = match self.kind {
            Kind::Pedal => "pedal",
            Kind::Lever => "lever",
        };
        format!("{kind} {} {}", self.lowest, self.highest)
    }

    pub(crate) fn harp(&self) -> Result<Harp, ChoiceError> {
        let kind = match self.kind {
            Kind::Pedal => HarpKind::Pedal,
            Kind::Lever => HarpKind::Lever,
        };
        let mut harp = Harp::between(kind, self.lowest.parse()?, self.highest.parse()?)?;
        if let (Kind::Lever, Some(open)) = (self.kind, &self.open) {
            let known = OpenTuning::from_name(open);
            harp = harp.with_open(known.ok_or_else(|| ChoiceError::Open(open.clone()))?)?;
        }
        let unmoved: Result<Vec<StringName>, _> = self.unmoved.iter().map(|s| s.parse()).collect();
        let unmoved = unmoved?.into_iter().filter(|s| harp.string(*s).is_some());
        let unmoved: Vec<StringName> = unmoved.collect();
        Ok(harp.with_unmoved(&unmoved)?)
    }

    /// The harp, and how it is set up open: its strings without discs where they are set, as in `C1` and `Cb1`.
    #[cfg(feature = "desk")]
    pub(crate) fn open(
        &self,
        reference: pitch::ReferencePitch,
        discless: &[(String, String)],
    ) -> Result<(Harp, harp::Setup), ChoiceError> {
        let harp = self.harp()?;
        let mut setup = harp::Setup::open(reference);
        for (string, pitch) in discless {
            let (string, pitch) = (string.parse()?, pitch.parse()?);
            let moved = harp.string(string).map(|found| found.mechanism);
            if moved == Some(harp::Mechanism::Nothing) {
                setup.discless.push((string, pitch));
            }
        }
        Ok((harp, setup))
    }
}

#[cfg(all(test, feature = "desk"))]
mod tests {
    use super::*;

    #[test]
    fn a_chosen_harp_has_the_name_that_the_command_gives_it() {
        for kind in [Kind::Pedal, Kind::Lever] {
            let choice = HarpChoice {
                kind,
                lowest: "C2".to_owned(),
                highest: "A6".to_owned(),
                open: None,
                unmoved: Vec::new(),
            };
            let usual = diary::HarpKept::usual_name(&choice.harp().unwrap());
            assert_eq!(choice.name(), usual);
        }
    }
}
