//! Some of the diary for a teacher: what she chooses, looked at before it is given.

use std::collections::BTreeSet;

use diary::{Given, Giving, Group, Record, RecordId};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use crate::leaves::LeafView;
use crate::reader::Reader;
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// What is to be given.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct GivingAsk {
    /// `rounds`, `practice`, `strings`, `regulation`, `air`, `spares`, `notes`, `programmes`.
    pub groups: Vec<String>,
    /// From this day on, `2026-11-26`; none is all of it.
    pub since: Option<String>,
    /// Only of this harp; none is of all.
    pub harp: Option<String>,
    /// By how many minutes her clock is ahead of UTC.
    pub ahead_min: i32,
}

/// What would be given.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct GivenView {
    /// How many records.
    pub records: usize,
    /// How long the file would be, bytes.
    pub bytes: usize,
    /// How many of them are of rounds, their events and ends.
    pub of_rounds: usize,
    /// Rounds.
    pub rounds: usize,
    /// When the first and the last of them were begun, RFC 3339, UTC.
    pub rounds_from_to: Option<(String, String)>,
    /// Records that are kept back because a newer version wrote them.
    pub not_understood: usize,
    /// What all others say, the latest first, as many as were asked for.
    pub leaves: Vec<LeafView>,
    /// How many others there are.
    pub of: usize,
}

/// Groups, and whether each is given unless she says otherwise.
#[wasm_bindgen]
pub fn usual_groups() -> Vec<String> {
    let usual = Group::ALL.into_iter().filter(|group| group.is_usual());
    usual.map(|group| group.to_string()).collect()
}

/// Every group that can be given.
#[wasm_bindgen]
pub fn all_groups() -> Vec<String> {
    Group::ALL.iter().map(Group::to_string).collect()
}

#[wasm_bindgen]
impl Reader {
    /// The harps of which something can be given, by name.
    pub fn harps(&self) -> Vec<String> {
        let kept = self.diary.harps().into_iter().map(|kept| kept.harp);
        let of_rounds = self.diary.rounds().into_iter().map(|round| round.harp);
        let all: BTreeSet<String> = kept.chain(of_rounds).collect();
        all.into_iter().collect()
    }

    /// What would be given, with so many of its leaves.
    pub fn given(
        &self,
        ask: Ts<GivingAsk>,
        count: usize,
        shown: Ts<ShownChoice>,
    ) -> Result<Ts<GivenView>, JsError> {
        let (ask, shown) = (giving(ask.to_rust()?)?, shown.to_rust()?);
        let given = self.diary.given(&ask);
        Ok(self.given_view(&given, count, &shown).into_ts()?)
    }

    /// The file: a line for each record, unchanged.
    pub fn given_file(&self, ask: Ts<GivingAsk>) -> Result<String, JsError> {
        let given = self.diary.given(&giving(ask.to_rust()?)?);
        let records = given.records.iter();
        Ok(records.flat_map(|r| [r.line(), "\n"]).collect())
    }
}

fn giving(ask: GivingAsk) -> Result<Giving, JsError> {
    let groups: Result<BTreeSet<Group>, _> = ask.groups.iter().map(|word| word.parse()).collect();
    let since = ask.since.filter(|day| !day.is_empty());
    Ok(Giving {
        groups: groups?,
        since: since.map(|day| day.parse()).transpose()?,
        harp: ask.harp,
        ahead_min: ask.ahead_min,
    })
}

impl Reader {
    fn given_view(&self, given: &Given<'_>, count: usize, shown: &ShownChoice) -> GivenView {
        let voice = Voice::of(shown);
        let of_round = |record: &&&Record| record.round().is_some();
        let rounds = given.records.iter().filter(|r| r.kind() == "round");
        let begun = || rounds.clone().map(|record| record.at());
        let from_to = begun().min().zip(begun().max());
        let ids: BTreeSet<&RecordId> = given.records.iter().map(|r| r.id()).collect();
        let leaves: Vec<_> = self
            .leaves
            .leaves()
            .iter()
            .rev()
            .filter(|leaf| ids.contains(&leaf.id))
            .collect();
        GivenView {
            records: given.records.len(),
            bytes: given.records.iter().map(|r| r.line().len() + 1).sum(),
            of_rounds: given.records.iter().filter(of_round).count(),
            rounds: rounds.clone().count(),
            rounds_from_to: from_to
                .map(|(from, to)| (from.as_str().to_owned(), to.as_str().to_owned())),
            not_understood: given.not_understood,
            of: leaves.len(),
            leaves: leaves
                .into_iter()
                .take(count)
                .filter_map(|leaf| LeafView::of(&self.diary, &self.leaves, leaf, voice))
                .collect(),
        }
    }
}
