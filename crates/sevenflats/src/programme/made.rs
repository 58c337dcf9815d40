//! One piece of the evening, read and planned; where something of it cannot be read, the rest stands.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use harp::{Harp, HarpKind, OpenTuning, StringName};
use pedals::{
    Broken, Demand, Feet, Finding, LeverPlan, LeverWishes, PaperError, PaperPart, Plan, Wishes,
};
use pitch::ReferencePitch;

use super::evening_file::{Entry, From};
use crate::plan::of_the_score;
use crate::plan::read::{Read, ReadAs, read};
use crate::situation;
use crate::trouble::Trouble;

/// No part on paper is longer than this, in bytes.
const LONGEST_PAPER: u64 = 1 << 20;

/// One piece.
pub(super) struct Made {
    pub(super) title: String,
    pub(super) composer: String,
    pub(super) harp_name: String,
    pub(super) harp: Harp,
    pub(super) reference: ReferencePitch,
    pub(super) content: Content,
    /// What could not be read, in words.
    pub(super) unread: Vec<String>,
    /// What is doubtful, each with its written measure where it has one.
    pub(super) doubts: Vec<(Option<u32>, String)>,
}

/// What is known of it.
pub(super) enum Content {
    /// Planned for pedals; `whole_lost` is how many notes are lost with nothing broken.
    Pedals {
        read: Box<Read>,
        wishes: Box<Wishes>,
        plan: Plan,
        whole_lost: usize,
    },
    /// Planned for levers.
    Levers {
        read: Box<Read>,
        wishes: LeverWishes,
        plan: LeverPlan,
        whole_lost: usize,
    },
    /// Pencilled by hand.
    Paper {
        part: PaperPart,
        findings: Vec<Finding>,
    },
    /// Nothing.
    Nothing,
}

impl Made {
    /// Reads and plans a piece. Files lie beside the evening's.
    pub(super) fn of(entry: &Entry, beside: &Path, broken: &Broken) -> Result<Self, Trouble> {
        let harp = harp(&entry.harp, beside);
        let mut made = Self {
            title: entry.title.clone().unwrap_or_default(),
            composer: entry.composer.clone().unwrap_or_default(),
            harp_name: entry.harp.clone(),
            // where none can be had nothing is known of the piece, and no harp is asked
            harp: Harp::named("pedal47")?,
            reference: entry.reference,
            content: Content::Nothing,
            unread: Vec::new(),
            doubts: Vec::new(),
        };
        let filled = harp.and_then(|harp| {
            made.harp = harp;
            made.fill(&entry.from, beside, broken)
        });
        made.unread
            .extend(filled.err().map(|trouble| trouble.to_string()));
        if made.title.is_empty() {
            made.title = name_of(&entry.from);
        }
        Ok(made)
    }

    fn fill(&mut self, from: &From, beside: &Path, broken: &Broken) -> Result<(), Trouble> {
        match from {
            From::Score {
                path,
                part,
                harmonics,
                repeats,
                open,
                tau_s,
            } => {
                let how = ReadAs {
                    part: part.clone(),
                    harmonics: *harmonics,
                    repeats: *repeats,
                    again: false,
                };
                let read = read(&beside.join(path), &how)?;
                if self.title.is_empty() {
                    self.title.clone_from(&read.piece.title);
                }
                if self.composer.is_empty() {
                    self.composer.clone_from(&read.piece.composer);
                }
                self.doubts = of_the_score(&read);
                match self.harp.kind() {
                    HarpKind::Lever => self.of_levers(read, open),
                    HarpKind::Pedal => self.of_pedals(read, *tau_s, open, broken),
                    HarpKind::Free => Err(Trouble::NotForThisHarp(
                        "this instrument has neither pedals nor levers to plan",
                    )),
                }
            }
            From::PaperFile(path) => {
                let path = beside.join(path);
                let text = paper(&path)?;
                self.of_paper(&text, 1, &format!("{}: ", path.display()))
            }
            From::Pencilled { text, line } => self.of_paper(text, *line, ""),
        }
    }

    fn of_pedals(
        &mut self,
        read: Read,
        tau_s: f64,
        open: &[OpenTuning],
        broken: &Broken,
    ) -> Result<(), Trouble> {
        if !open.is_empty() {
            return Err(Trouble::NotForThisHarp(
                "open tunings are for lever harps: a pedal harp stands open in C flat",
            ));
        }
        let mut wishes = Wishes {
            feet: Feet::with_least_time((tau_s * 1e6).round() as u64),
            ..Wishes::comfortable()
        };
        let mut plan = pedals::plan(&read.demand, &self.harp, &wishes);
        let whole_lost = plan.cannot.len();
        let broken = on_this(broken, &self.harp);
        if broken != Broken::default() {
            wishes.broken = broken;
            plan = pedals::plan(&read.demand, &self.harp, &wishes);
        }
        pedals::stand_as_in_the_key(&read.piece, &read.demand, &wishes, &mut plan);
        self.content = Content::Pedals {
            read: Box::new(read),
            wishes: Box::new(wishes),
            plan,
            whole_lost,
        };
        Ok(())
    }

    fn of_levers(&mut self, read: Read, open: &[OpenTuning]) -> Result<(), Trouble> {
        let mut wishes = LeverWishes::default();
        if !open.is_empty() {
            wishes.open = open.to_vec();
        }
        let whole = pedals::plan_levers(&read.demand, &self.harp, &wishes);
        if let Some(plan) = whole {
            self.content = Content::Levers {
                read: Box::new(read),
                wishes,
                whole_lost: plan.cannot.len(),
                plan,
            };
        }
        Ok(())
    }

    fn of_paper(&mut self, text: &str, first: usize, file: &str) -> Result<(), Trouble> {
        if self.harp.kind() != HarpKind::Pedal {
            return Err(Trouble::NotForThisHarp(
                "a part on paper is written down in pedals; for a lever harp give a score",
            ));
        }
        let read = PaperPart::read(text);
        let told = read.errors.iter().map(|error| {
            let line = error.line + first - 1;
            format!(
                "{file}{}",
                PaperError {
                    line,
                    ..error.clone()
                }
            )
        });
        self.unread.extend(told);
        let findings = read.part.check(&self.harp);
        self.content = Content::Paper {
            part: read.part,
            findings,
        };
        Ok(())
    }

    fn levers(&self) -> Option<(&Harp, &Demand, &LeverWishes)> {
        match &self.content {
            Content::Levers { read, wishes, .. } => Some((&self.harp, &read.demand, wishes)),
            _ => None,
        }
    }

    /// What could not be read, for the exit code.
    pub(super) fn troubles(&self, number: usize) -> impl Iterator<Item = Trouble> + '_ {
        self.unread.iter().map(move |reason| Trouble::Piece {
            number,
            title: self.title.clone(),
            reason: reason.clone(),
        })
    }
}

/// Gives all pieces on one lever harp one open tuning, and plans them round what is missing.
pub(super) fn share_open_tunings(pieces: &mut [Made], broken: &Broken) -> Result<(), Trouble> {
    let names: BTreeSet<String> = pieces.iter().map(|piece| piece.harp_name.clone()).collect();
    for name in names {
        let mut plans = {
            let of_levers = pieces.iter().filter(|piece| piece.harp_name == name);
            let of_levers: Vec<_> = of_levers.filter_map(Made::levers).collect();
            let Some((harp, ..)) = of_levers.first() else {
                continue;
            };
            let asked: Vec<_> = of_levers
                .iter()
                .map(|&(_, demand, wishes)| (demand, wishes))
                .collect();
            let broken_harp = harp.without(&on_this(broken, harp).missing)?;
            let planned = |harp: &Harp| {
                pedals::plan_levers_together(&asked, harp).or_else(|| {
                    let each = asked
                        .iter()
                        .map(|(demand, wishes)| pedals::plan_levers(demand, harp, wishes));
                    each.collect()
                })
            };
            let (Some(whole), Some(tonight)) = (planned(harp), planned(&broken_harp)) else {
                continue;
            };
            whole.into_iter().zip(tonight)
        };
        let contents = pieces.iter_mut().filter(|piece| piece.harp_name == name);
        for piece in contents {
            if let Content::Levers {
                plan, whole_lost, ..
            } = &mut piece.content
                && let Some((whole, tonight)) = plans.next()
            {
                *whole_lost = whole.cannot.len();
                *plan = tonight;
            }
        }
    }
    Ok(())
}

/// The harp of a name, or of a file beside the evening's.
fn harp(name: &str, beside: &Path) -> Result<Harp, Trouble> {
    if harp::BUILT_IN.iter().any(|built_in| built_in.name == name) {
        return situation::harp_named(name);
    }
    let path = beside.join(name);
    if !path.exists() {
        return Err(Trouble::NoSuchHarp {
            name: name.to_owned(),
        });
    }
    situation::harp_named(&path.to_string_lossy())
}

fn paper(path: &Path) -> Result<String, Trouble> {
    let failed = |reason: String| Trouble::Evening {
        path: path.to_owned(),
        reason: format!(
            "the part cannot be read: {reason}; check its name and that you may read it"
        ),
    };
    let bytes = std::fs::metadata(path)
        .map_err(|reason| failed(reason.to_string()))?
        .len();
    if bytes > LONGEST_PAPER {
        return Err(failed(format!("{bytes} bytes is no part")));
    }
    std::fs::read_to_string(path).map_err(|reason| failed(reason.to_string()))
}

/// What is broken of the strings that this harp has.
fn on_this(broken: &Broken, harp: &Harp) -> Broken {
    let has = |string: &StringName| harp.string(*string).is_some();
    Broken {
        stuck: broken.stuck.clone(),
        dead_discs: broken
            .dead_discs
            .iter()
            .filter(|(string, _)| has(string))
            .copied()
            .collect(),
        missing: broken
            .missing
            .iter()
            .filter(|string| has(string))
            .copied()
            .collect(),
    }
}

/// A piece without a title is called by its file.
fn name_of(from: &From) -> String {
    let named = |path: &PathBuf| {
        path.file_stem()
            .map(|name| name.to_string_lossy().into_owned())
    };
    let name = match from {
        From::Score { path, .. } | From::PaperFile(path) => named(path),
        From::Pencilled { .. } => None,
    };
    name.unwrap_or_else(|| "(no title)".to_owned())
}
