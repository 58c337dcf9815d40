//! Some of a diary, for somebody else: what she chooses of it, and what that needs to be read.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::str::FromStr;

use crate::known::by_day;
use crate::truths::Truths;
use crate::{Day, Device, Diary, Entry, Moment, Now, Record, RecordId};

/// Records that are given or kept back together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Rounds with all that happened in them, single readings, the A that was taken.
    Rounds,
    /// Practice by ear.
    Practice,
    /// Strings put on, broken, taken off.
    Strings,
    /// Checks of the mechanism, its faults, the technician's visits.
    Regulation,
    /// Temperature and humidity.
    Air,
    /// What lies in the drawer.
    Spares,
    /// Notes.
    Notes,
    /// Pieces and evenings.
    Programmes,
}

/// A word that names no group.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "'{word}' is none of rounds, practice, strings, regulation, air, spares, notes, programmes"
)]
pub struct UnknownGroup {
    /// What was given, at most 40 characters.
    word: String,
}

/// What is to be given.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Giving {
    /// Of these groups.
    pub groups: BTreeSet<Group>,
    /// From this day on; `None` for all. A round counts by its beginning.
    pub since: Option<Day>,
    /// Only of this harp, and what is said of no harp; `None` for every harp.
    pub harp: Option<String>,
    /// By how many minutes her clock is ahead of UTC, for [`Giving::since`].
    pub ahead_min: i32,
}

/// What is given. Records are whole and unchanged.
#[derive(Clone, Debug, PartialEq)]
pub struct Given<'a> {
    /// The records, by device and place, as an export has them.
    pub records: Vec<&'a Record>,
    /// How many of each kind.
    pub kinds: BTreeMap<&'a str, usize>,
    /// Records kept back because a newer version of this program wrote them: what they say is not known here.
    pub not_understood: usize,
}

impl Group {
    /// Every group.
    pub const ALL: [Group; 8] = [
        Group::Rounds,
        Group::Practice,
        Group::Strings,
        Group::Regulation,
        Group::Air,
        Group::Spares,
        Group::Notes,
        Group::Programmes,
    ];

    /// Whether it is given unless somebody says otherwise: all but notes, and but pieces and evenings.
    pub fn is_usual(self) -> bool {
        !matches!(self, Group::Notes | Group::Programmes)
    }

    /// The group of a kind of record; `None` for harps, corrections and clocks, which go with what needs them, and for kinds
    /// that are not known here.
    pub fn of(kind: &str) -> Option<Group> {
        Some(match kind {
            "round" | "round_events" | "round_over" | "reading" | "reference" => Group::Rounds,
            "practice" => Group::Practice,
            "string_fitted" | "string_broken" | "string_removed" => Group::Strings,
            "regulation" | "fault" | "visit" => Group::Regulation,
            "air" => Group::Air,
            "spares" => Group::Spares,
            "note" => Group::Notes,
            "programme" | "plan" => Group::Programmes,
            _ => return None,
        })
    }

    /// Its word.
    pub fn as_str(self) -> &'static str {
        match self {
            Group::Rounds => "rounds",
            Group::Practice => "practice",
            Group::Strings => "strings",
            Group::Regulation => "regulation",
            Group::Air => "air",
            Group::Spares => "spares",
            Group::Notes => "notes",
            Group::Programmes => "programmes",
        }
    }
}

impl fmt::Display for Group {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

impl FromStr for Group {
    type Err = UnknownGroup;

    fn from_str(word: &str) -> Result<Group, UnknownGroup> {
        let own = Group::ALL.into_iter().find(|group| group.as_str() == word);
        own.ok_or_else(|| UnknownGroup {
            word: word.chars().take(40).collect(),
        })
    }
}

impl Diary {
    /// What she chooses of her diary, to be read by somebody else.
    ///
    /// With the records of the groups go the harps that they belong to, the corrections that hold, and what is known of the
    /// clocks of their devices. What was first written of a corrected record goes too, for records are never changed. What was withdrawn is kept back, and so is what a correction made a record of another group,
    /// harp or day, what is kept apart, and what is not understood here. A round goes with all its records or not at all.
    pub fn given(&self, giving: &Giving) -> Given<'_> {
        let timed = self.timed();
        let truths = Truths::of(timed.iter().map(|(_, record)| *record));
        let written: BTreeMap<&RecordId, Moment> =
            timed.iter().map(|(when, r)| (r.id(), *when)).collect();
        let mut chosen = Chosen {
            giving,
            truths: &truths,
            ids: BTreeSet::new(),
            rounds: BTreeSet::new(),
            harps: giving.harp.iter().cloned().collect(),
            not_understood: 0,
        };
        for (when, record) in by_day(timed.clone(), &truths) {
            let day = match written.get(record.id()) == Some(&when) {
                true => local_day(when, giving.ahead_min),
                false => Day::of(&when.at()),
            };
            chosen.look(record, &day);
        }
        chosen.look_beside(self);
        let Chosen {
            ids,
            not_understood,
            ..
        } = chosen;
        let records: Vec<&Record> = self.records().filter(|r| ids.contains(r.id())).collect();
        let mut kinds = BTreeMap::new();
        for record in &records {
            *kinds.entry(record.kind()).or_default() += 1;
        }
        Given {
            records,
            kinds,
            not_understood,
        }
    }
}

/// The day of a moment, by a clock so many minutes ahead of UTC.
fn local_day(when: Moment, ahead_min: i32) -> Day {
    Day::of(&when.plus_s(60.0 * f64::from(ahead_min)).at())
}

struct Chosen<'a> {
    giving: &'a Giving,
    truths: &'a Truths,
    ids: BTreeSet<&'a RecordId>,
    /// those of them that begin rounds
    rounds: BTreeSet<&'a RecordId>,
    harps: BTreeSet<String>,
    not_understood: usize,
}

impl<'a> Chosen<'a> {
    /// Whether a record is wanted for itself; the records of a round go by its first.
    fn look(&mut self, record: &'a Record, day: &Day) {
        let now = self.truths.now(record.id());
        if matches!(now, Some(Now::Withdrawn)) {
            return;
        }
        if record.is_unknown() || matches!(now, Some(Now::Unknown(_))) {
            self.not_understood += 1;
            return;
        }
        if self.giving.since.as_ref().is_some_and(|since| day < since) {
            return;
        }
        let kind = match now {
            Some(Now::Entry(entry)) => entry.kind(),
            _ => record.kind(),
        };
        let wanted = Group::of(kind).is_some_and(|group| self.giving.groups.contains(&group));
        if !wanted || matches!(kind, "round_events" | "round_over") {
            return;
        }
        let Some(entry) = self.truths.entry(record) else {
            return;
        };
        let harps = harps_of(&entry);
        let own = |name: &String| harps.is_empty() || harps.contains(&name.as_str());
        if self.giving.harp.as_ref().is_none_or(own) {
            self.harps.extend(harps.into_iter().map(str::to_owned));
            self.ids.insert(record.id());
            if matches!(entry, Entry::Round(_)) {
                self.rounds.insert(record.id());
            }
        }
    }

    /// What goes with what is wanted: the rest of rounds, harps, clocks; then the corrections of all these.
    fn look_beside(&mut self, diary: &'a Diary) {
        let devices: BTreeSet<&Device> = self.ids.iter().map(|id| &id.device).collect();
        let mut beside = Vec::new();
        for record in diary.records() {
            let goes = match record.kind() {
                "harp" | "met" => match self.truths.entry(record) {
                    Some(Entry::Harp(kept)) => self.harps.contains(&kept.harp),
                    Some(Entry::Met(met)) => devices.contains(&met.device),
                    _ => false,
                },
                _ => {
                    let of_round = record.round().is_some_and(|id| self.rounds.contains(id));
                    of_round && !matches!(self.truths.now(record.id()), Some(Now::Withdrawn))
                }
            };
            if goes {
                beside.push(record.id());
            }
        }
        if self.ids.is_empty() {
            return;
        }
        self.ids.extend(beside);
        let corrections = self
            .ids
            .iter()
            .filter_map(|id| self.truths.correction(id))
            .collect::<Vec<_>>();
        self.ids.extend(corrections);
    }
}

/// The harps that a record says something of; none where it is of no harp, or of all.
fn harps_of(entry: &Entry) -> Vec<&str> {
    let harp: Option<&str> = match entry {
        Entry::Harp(kept) => Some(&kept.harp),
        Entry::Round(begun) => Some(&begun.harp),
        Entry::Plan(plan) => Some(&plan.harp),
        Entry::Reading(reading) => Some(&reading.harp),
        Entry::Reference(taken) => taken.harp.as_deref(),
        Entry::Air(air) => air.harp.as_deref(),
        Entry::StringFitted(fitted) => Some(&fitted.harp),
        Entry::StringBroken(broken) => Some(&broken.harp),
        Entry::StringRemoved(gone) => Some(&gone.harp),
        Entry::Spares(spares) => spares.harp.as_deref(),
        Entry::Visit(visit) => Some(&visit.harp),
        Entry::Regulation(check) => Some(&check.harp),
        Entry::Fault(fault) => Some(&fault.harp),
        Entry::Note(note) => note.harp.as_deref(),
        Entry::Practice(practice) => practice.harp.as_deref(),
        Entry::Programme(programme) => {
            return programme.pieces.iter().map(|p| p.harp.as_str()).collect();
        }
        Entry::RoundEvents(_) | Entry::RoundOver(_) | Entry::Correction(_) | Entry::Met(_) => None,
    };
    harp.into_iter().collect()
}
