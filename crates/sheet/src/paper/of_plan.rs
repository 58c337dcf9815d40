//! A sheet made of a plan: what is played twice is printed once.

use std::collections::BTreeMap;

use harp::Setting;
use pedals::{Demand, Foot, Mark, Plan, Quarters};
use pitch::ReferencePitch;
use score::{MarkKind, Piece};

use crate::{
    BarChanges, BeatChanges, BeforePiece, KeyedString, Landmark, MovementSheet, Pencilled,
    PieceSheet, PrintedBar, Remark, RemarkKind,
};

/// What stands over a piece and is in no score.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Head {
    /// Its title, where the score's own is not wanted or missing.
    pub title: Option<String>,
    /// Its composer, likewise.
    pub composer: Option<String>,
    /// The harp in her own words, or nothing.
    pub harp: String,
    /// The pitch of A4.
    pub reference: ReferencePitch,
    /// What is done on stage before it.
    pub before: BeforePiece,
}

impl PieceSheet {
    /// The sheet of a score that was planned: `plan` must be of `demand`, and that of `piece`.
    ///
    /// Movements are the demand's; each is named by its number where there are several. The setting at a rehearsal
    /// mark is that of the first moment in its bar.
    pub fn of_plan(piece: &Piece, demand: &Demand, plan: &Plan, head: Head) -> Self {
        let made = Made {
            piece,
            demand,
            plan,
        };
        Self {
            title: head.title.unwrap_or_else(|| piece.title.clone()),
            composer: head.composer.unwrap_or_else(|| piece.composer.clone()),
            harp: head.harp,
            reference: head.reference,
            movements: made.movements(),
            remarks: made.remarks(),
            before: head.before,
        }
    }
}

struct Made<'a> {
    piece: &'a Piece,
    demand: &'a Demand,
    plan: &'a Plan,
}

/// A piece as it is written, and its moments.
#[derive(Clone, Copy)]
pub(crate) struct Written<'a> {
    pub(crate) piece: &'a Piece,
    pub(crate) demand: &'a Demand,
}

impl Made<'_> {
    fn movements(&self) -> Vec<MovementSheet> {
        let starts: Vec<usize> = std::iter::once(0)
            .chain(self.demand.movements.iter().copied())
            .collect();
        let marks = pedals::written_marks(self.demand, self.plan);
        let landmarks = self.landmarks();
        let mut movements = Vec::new();
        for (at, &start) in starts.iter().enumerate() {
            let end = starts.get(at + 1).copied().unwrap_or(usize::MAX);
            let measures = self.measure(start)
                ..self
                    .demand
                    .moments
                    .get(end)
                    .map_or(u32::MAX, |next| next.measure);
            let in_it = |order: u32| measures.contains(&order);
            // what is set before it begins is in its opening diagram
            let before =
                |mark: &Mark| self.plan.changes[mark.change].moment == start && mark.passes == [1];
            let marks: Vec<&Mark> = marks
                .iter()
                .filter(|mark| in_it(mark.measure) && !before(mark))
                .collect();
            movements.push(MovementSheet {
                name: if starts.len() > 1 {
                    (at + 1).to_string()
                } else {
                    String::new()
                },
                by_key: self.by_key(start..end),
                opening: self.plan.settings.get(start).copied().unwrap_or_default(),
                levers: None,
                landmarks: landmarks
                    .iter()
                    .filter(|mark| in_it(mark.bar.order))
                    .cloned()
                    .collect(),
                bars: self.bars(&marks),
            });
        }
        movements
    }

    fn by_key(&self, moments: std::ops::Range<usize>) -> Vec<KeyedString> {
        let tuned = pedals::tuned_and_played(self.demand, self.plan);
        let tuned = tuned
            .iter()
            .filter(|tuned| moments.contains(&tuned.from_moment));
        let keyed = tuned.map(|tuned| KeyedString {
            string: tuned.string,
            pitch: tuned.pitch(),
            in_rest: tuned
                .in_a_rest
                .then(|| self.bar(self.measure(tuned.from_moment))),
        });
        keyed.collect()
    }

    fn bars(&self, marks: &[&Mark]) -> Vec<BarChanges> {
        let mut bars: BTreeMap<u32, BTreeMap<Quarters, BeatChanges>> = BTreeMap::new();
        for mark in marks {
            let beats = bars.entry(mark.measure).or_default();
            let changes = beats.entry(mark.beat).or_default();
            let foot = match mark.foot {
                Foot::Right => &mut changes.right,
                Foot::Left => &mut changes.left,
            };
            foot.push(Pencilled {
                letter: mark.letter,
                to: mark.to,
                string: None,
                only: if mark.only_then {
                    mark.passes.clone()
                } else {
                    Vec::new()
                },
            });
        }
        let told = bars.into_iter().map(|(measure, beats)| {
            let beats = beats.into_iter().map(|(beat, changes)| BeatChanges {
                beat: self.written().beat(measure, beat),
                ..changes
            });
            BarChanges {
                bar: self.bar(measure),
                beats: beats.collect(),
            }
        });
        told.collect()
    }

    /// Each rehearsal mark with its setting, once where that is the same at all times of playing.
    fn landmarks(&self) -> Vec<Landmark> {
        let mut first: BTreeMap<(u32, u32), Setting> = BTreeMap::new();
        for (moment, setting) in self.demand.moments.iter().zip(&self.plan.settings) {
            first
                .entry((moment.measure, moment.pass))
                .or_insert(*setting);
        }
        let mut landmarks: Vec<Landmark> = Vec::new();
        for mark in &self.piece.marks {
            let MarkKind::Rehearsal(text) = &mark.kind else {
                continue;
            };
            let Some(measure) = self.piece.measures.get(mark.measure) else {
                continue;
            };
            if landmarks
                .iter()
                .any(|other| other.bar.order == measure.index)
            {
                continue;
            }
            let mut there: Vec<Landmark> = Vec::new();
            for (&(_, pass), &setting) in
                first.range((measure.index, 0)..=(measure.index, u32::MAX))
            {
                match there.iter_mut().find(|other| other.setting == setting) {
                    Some(same) => same.times.push(pass),
                    None => there.push(Landmark {
                        bar: self.bar(measure.index),
                        mark: text.clone(),
                        times: vec![pass],
                        setting,
                    }),
                }
            }
            if let [only] = there.as_mut_slice() {
                only.times.clear();
            }
            landmarks.extend(there);
        }
        landmarks
    }

    fn remarks(&self) -> Vec<Remark> {
        let plan = self.plan;
        let other = plan.respelled.iter().map(|head| {
            let (written, played) = (head.written, head.played);
            (head.moment, RemarkKind::OtherString { written, played })
        });
        let lost = plan.cannot.iter().map(|head| {
            let what = RemarkKind::Lost {
                pitch: head.pitch,
                reason: head.reason,
                remedies: head.remedies.clone(),
            };
            (head.moment, what)
        });
        let otherwise = plan.contradicted.iter().map(|mark| {
            let what = RemarkKind::Otherwise {
                letter: mark.letter,
                marked: mark.marked,
                planned: mark.planned,
                because: mark.because,
            };
            (mark.moment, what)
        });
        self.written().remarks(other.chain(lost).chain(otherwise))
    }

    fn measure(&self, moment: usize) -> u32 {
        self.demand
            .moments
            .get(moment)
            .map_or(1, |moment| moment.measure)
    }

    fn written(&self) -> Written<'_> {
        Written {
            piece: self.piece,
            demand: self.demand,
        }
    }

    fn bar(&self, measure: u32) -> PrintedBar {
        self.written().bar(measure)
    }
}

impl Written<'_> {
    /// Each remark at its written place, once, in order.
    pub(crate) fn remarks(self, all: impl Iterator<Item = (usize, RemarkKind)>) -> Vec<Remark> {
        let mut remarks: Vec<((u32, Quarters), Remark)> = Vec::new();
        for (moment, what) in all {
            let Some(there) = self.demand.moments.get(moment) else {
                continue;
            };
            let place = (there.measure, there.beat);
            let remark = Remark {
                bar: Some(self.bar(there.measure)),
                beat: self.beat(there.measure, there.beat),
                what,
            };
            if !remarks
                .iter()
                .any(|(at, other)| *at == place && *other == remark)
            {
                remarks.push((place, remark));
            }
        }
        remarks.sort_by_key(|(place, _)| *place);
        remarks.into_iter().map(|(_, remark)| remark).collect()
    }

    pub(crate) fn bar(self, measure: u32) -> PrintedBar {
        PrintedBar {
            order: measure,
            label: self.piece.bar(measure),
        }
    }

    pub(crate) fn beat(self, measure: u32, beat: Quarters) -> String {
        pedals::counted(self.piece, measure, beat)
    }
}
