//! The diary as the page shows it: what each record says, in values that the page's words are put around.

use diary::{
    Diary, Does, Entry, Fault, Found, Leaf, Leaves, Now, Part, ReadingKept, Regulation, Says,
    StringFitted,
};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use crate::shown::Voice;

/// A record of the list.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct LeafView {
    /// The device that wrote it.
    pub device: String,
    /// Its place.
    pub seq: u64,
    /// When it counts, RFC 3339, UTC.
    pub at: String,
    /// Whether only the day is known.
    pub day_only: bool,
    /// Whether it was written otherwise first.
    pub corrected: bool,
    /// Whether it can be taken back by a correction.
    pub can_be_withdrawn: bool,
    /// What it says.
    pub told: Told,
}

/// What a record says; strings by the reader's names.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[serde(tag = "is", rename_all = "snake_case")]
#[expect(
    missing_docs,
    reason = "the fields are those of the diary's own records"
)]
pub enum Told {
    Note {
        harp: Option<String>,
        string: Option<String>,
        /// the string as files name it
        string_id: Option<String>,
        text: String,
    },
    Air {
        harp: Option<String>,
        temperature_c: Option<f64>,
        humidity_percent: Option<f64>,
    },
    StringFitted {
        harp: String,
        string: String,
        material: Option<String>,
        gauge_mm: Option<f64>,
        used: bool,
        by: String,
    },
    StringBroken {
        harp: String,
        string: String,
        place: String,
    },
    StringRemoved {
        harp: String,
        string: String,
    },
    Spares {
        harp: Option<String>,
        string: Option<String>,
        material: Option<String>,
        gauge_mm: Option<f64>,
        /// how many more; fewer is below nought
        change: f64,
    },
    Visit {
        harp: String,
        who: String,
        done: String,
        note: String,
    },
    Regulation {
        harp: String,
        strings: usize,
        right: usize,
        /// strings of which something is to be mended
        to_mend: Vec<String>,
        /// letters whose pedal as a whole is off
        pedals: Vec<String>,
        note: String,
    },
    Fault {
        harp: String,
        part: PartView,
        /// `fails`, `buzzes`, `slips`, `off`; none: mended
        does: Option<String>,
        note: String,
    },
    Reference {
        a4_hz: f64,
        u95_cents: Option<f64>,
        from: String,
    },
    Programme {
        title: String,
        place: String,
        pieces: Vec<String>,
    },
    Plan {
        title: String,
        source: String,
        harp: String,
        on_paper: bool,
    },
    Reading {
        harp: String,
        string: Option<String>,
        off_cents: f64,
        u95_cents: f64,
    },
    Harp {
        harp: String,
    },
    /// Another record was corrected, or withdrawn.
    Correction {
        of: String,
        withdrawn: bool,
        why: String,
    },
    Practice {
        harp: Option<String>,
        took_s: f64,
        /// strings tuned by ear
        by_ear: Vec<String>,
        /// made strings told apart
        sizes: usize,
        asked: usize,
        counted: usize,
    },
    Met {
        device: String,
        ahead_s: f64,
    },
    /// Of a newer version of this program.
    Unknown {
        kind: String,
    },
    Withdrawn {
        kind: String,
    },
}

/// A part of the mechanism.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PartView {
    /// `disc`, `lever`, `pedal`.
    pub part: String,
    /// The string's name, or the letter.
    pub name: String,
    /// Of a disc: `natural` or `sharp`.
    pub position: Option<String>,
}

impl LeafView {
    /// A leaf as it is shown; none where its record is gone.
    pub(crate) fn of(diary: &Diary, leaves: &Leaves, leaf: &Leaf, voice: Voice) -> Option<Self> {
        let record = diary.record(&leaf.id)?;
        let kind = || record.kind().to_owned();
        let (told, corrected) = match leaves.says(record) {
            Says::Entry(entry) => (told(*entry, voice), false),
            Says::Corrected(entry) => (told(*entry, voice), true),
            Says::Withdrawn => (Some(Told::Withdrawn { kind: kind() }), false),
            Says::Unknown => (Some(Told::Unknown { kind: kind() }), false),
        };
        let told = told?;
        let fixed = matches!(
            told,
            Told::Unknown { .. }
                | Told::Withdrawn { .. }
                | Told::Met { .. }
                | Told::Correction { .. }
                | Told::Harp { .. }
        );
        Some(Self {
            device: leaf.id.device.to_string(),
            seq: leaf.id.seq,
            at: leaf.when.to_string(),
            day_only: leaf.day_only,
            corrected,
            can_be_withdrawn: !fixed,
            told,
        })
    }
}

fn told(entry: Entry, voice: Voice) -> Option<Told> {
    Some(match entry {
        Entry::Note(note) => Told::Note {
            harp: note.harp,
            string: note.string.map(|string| voice.string(string)),
            string_id: note.string.map(|string| string.to_string()),
            text: note.text,
        },
        Entry::Air(air) => Told::Air {
            harp: air.harp,
            temperature_c: air.temperature_c,
            humidity_percent: air.humidity_percent,
        },
        Entry::StringFitted(fitted) => of_fitted(fitted, voice),
        Entry::StringBroken(broken) => Told::StringBroken {
            string: voice.string(broken.string),
            harp: broken.harp,
            place: broken.place,
        },
        Entry::StringRemoved(removed) => Told::StringRemoved {
            string: voice.string(removed.string),
            harp: removed.harp,
        },
        Entry::Spares(spares) => Told::Spares {
            string: spares.string.map(|string| voice.string(string)),
            harp: spares.harp,
            material: spares.material.map(|material| material.as_str().to_owned()),
            gauge_mm: spares.gauge_mm,
            change: spares.change as f64,
        },
        Entry::Visit(visit) => Told::Visit {
            harp: visit.harp,
            who: visit.who,
            done: visit.done,
            note: visit.note,
        },
        Entry::Regulation(checked) => of_check(checked, voice),
        Entry::Fault(fault) => of_fault(fault, voice),
        Entry::Reference(reference) => Told::Reference {
            a4_hz: reference.a4_hz,
            u95_cents: reference.u95_cents,
            from: reference.from,
        },
        Entry::Programme(programme) => Told::Programme {
            title: programme.title,
            place: programme.place,
            pieces: programme
                .pieces
                .into_iter()
                .map(|piece| piece.title)
                .collect(),
        },
        Entry::Plan(plan) => Told::Plan {
            title: plan.title,
            source: plan.source,
            harp: plan.harp,
            on_paper: plan.paper.is_some(),
        },
        Entry::Reading(reading) => of_reading(&reading, voice),
        Entry::Harp(kept) => Told::Harp { harp: kept.harp },
        Entry::Correction(correction) => Told::Correction {
            of: correction.of.to_string(),
            withdrawn: correction.now == Now::Withdrawn,
            why: correction.why,
        },
        Entry::Practice(practice) => Told::Practice {
            by_ear: (practice.by_ear.iter())
                .map(|one| voice.string(one.string))
                .collect(),
            harp: practice.harp,
            took_s: practice.took_s,
            sizes: practice.sizes.len(),
            asked: practice.asked.len(),
            counted: practice.counted.len(),
        },
        Entry::Met(met) => Told::Met {
            device: met.device.to_string(),
            ahead_s: met.ahead_s,
        },
        Entry::Round(_) | Entry::RoundEvents(_) | Entry::RoundOver(_) => return None,
    })
}

fn of_fitted(fitted: StringFitted, voice: Voice) -> Told {
    Told::StringFitted {
        string: voice.string(fitted.string),
        harp: fitted.harp,
        material: fitted.material.map(|material| material.as_str().to_owned()),
        gauge_mm: fitted.gauge_mm,
        used: fitted.used,
        by: fitted.by,
    }
}

fn of_reading(kept: &ReadingKept, voice: Voice) -> Told {
    Told::Reading {
        harp: kept.harp.clone(),
        string: kept.reading.string.map(|string| voice.string(string)),
        off_cents: kept.reading.off_cents,
        u95_cents: kept.reading.u95_cents,
    }
}

fn of_check(checked: Regulation, voice: Voice) -> Told {
    let right = |found: Found| matches!(found, Found::Right);
    let to_mend = |found: Found| matches!(found, Found::Disc | Found::Lever);
    let strings = &checked.strings;
    Told::Regulation {
        strings: strings.len(),
        right: strings.iter().filter(|s| right(s.found)).count(),
        to_mend: (strings.iter().filter(|s| to_mend(s.found)))
            .map(|s| voice.string(s.string))
            .collect(),
        pedals: (checked.pedals.iter())
            .map(|pedal| pedal.letter.to_string())
            .collect(),
        harp: checked.harp,
        note: checked.note,
    }
}

fn of_fault(fault: Fault, voice: Voice) -> Told {
    let (part, name, position) = match &fault.part {
        Part::Disc { string, position } => ("disc", voice.string(*string), Some(*position)),
        Part::Lever { string } => ("lever", voice.string(*string), None),
        Part::Pedal { letter } => ("pedal", letter.to_string(), None),
    };
    let does = fault.does.map(|does| match does {
        Does::Fails => "fails",
        Does::Buzzes => "buzzes",
        Does::Slips => "slips",
        Does::Off => "off",
    });
    let side = |alteration| match alteration {
        pitch::Alteration::Flat => "flat",
        pitch::Alteration::Natural => "natural",
        pitch::Alteration::Sharp => "sharp",
    };
    Told::Fault {
        harp: fault.harp,
        part: PartView {
            part: part.to_owned(),
            name,
            position: position.map(|position| side(position).to_owned()),
        },
        does: does.map(str::to_owned),
        note: fault.note,
    }
}
