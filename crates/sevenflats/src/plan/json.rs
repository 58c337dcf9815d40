//! The plan for programs: one JSON object.

use std::io::Write;

use harp::{Setting, StringName};
use pedals::at_passes::{self, AtPasses};
use pedals::{Change, Demand, Feet, Hand, LeverPlan, Mark, Plan, Remedy, discless};
use pitch::{Letter, SpelledPitch};
use serde::{Serialize, Serializer};

use super::bill::{Bill, bill, lever_bill};
use super::read::Read;

/// What `sevenflats plan --json` prints for a pedal harp.
#[derive(Serialize)]
pub(crate) struct PedalLine {
    harp: String,
    opening_setting: Pedals,
    changes: Vec<ChangeLine>,
    respelled: Vec<RespelledLine>,
    cannot: Vec<CannotLine>,
    contradicted: Vec<ContradictedLine>,
    discless: Vec<DisclessLine>,
    settings: Vec<SettingLine>,
    cost: Bill,
    moves: usize,
    optimal: bool,
    gap: u64,
    fastest_tempo_factor: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    whole_measures: Option<Vec<MeasureLine>>,
    diagnostics: Vec<DiagnosticLine>,
}

/// The same for a lever harp.
#[derive(Serialize)]
pub(crate) struct LeverLine {
    harp: String,
    open: &'static str,
    opening_levers: Vec<String>,
    changes: Vec<FlipLine>,
    respelled: Vec<RespelledLine>,
    cannot: Vec<CannotLine>,
    cost: Bill,
    moves: usize,
    optimal: bool,
    gap: u64,
    diagnostics: Vec<DiagnosticLine>,
}

/// Where something stands in the written part.
#[derive(Serialize)]
struct PlaceLine {
    measure: u32,
    bar: String,
    beat: String,
    passes: Vec<u32>,
}

#[derive(Serialize)]
struct ChangeLine {
    #[serde(flatten)]
    place: PlaceLine,
    at_s: f64,
    foot: &'static str,
    pedal: LetterName,
    from: &'static str,
    to: &'static str,
    only_then: bool,
    /// The movement before which it is set, in the pause.
    #[serde(skip_serializing_if = "Option::is_none")]
    before_movement: Option<usize>,
}

#[derive(Serialize)]
struct FlipLine {
    #[serde(flatten)]
    place: PlaceLine,
    at_s: f64,
    hand: &'static str,
    string: String,
    to: &'static str,
}

#[derive(Serialize)]
struct RespelledLine {
    #[serde(flatten)]
    place: PlaceLine,
    written: String,
    played: String,
}

#[derive(Serialize)]
struct CannotLine {
    #[serde(flatten)]
    place: PlaceLine,
    pitch: String,
    reason: &'static str,
    remedies: Vec<RemedyLine>,
}

#[derive(Serialize)]
struct RemedyLine {
    what: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pitch: Option<String>,
}

#[derive(Serialize)]
struct ContradictedLine {
    #[serde(flatten)]
    place: PlaceLine,
    pedal: LetterName,
    marked: &'static str,
    planned: &'static str,
    reason: &'static str,
}

#[derive(Serialize)]
struct DisclessLine {
    string: String,
    pitch: String,
    movement: usize,
    measure: u32,
    in_a_rest: bool,
}

#[derive(Serialize)]
struct SettingLine {
    measure: u32,
    bar: String,
    passes: Vec<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    mark: Option<String>,
    setting: Pedals,
}

#[derive(Serialize)]
pub(crate) struct MeasureLine {
    pub(crate) measure: u32,
    pub(crate) bar: String,
    pub(crate) pass: u32,
}

#[derive(Serialize)]
pub(crate) struct DiagnosticLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    measure: Option<u32>,
    message: String,
}

/// A setting as `{"D":0,…}`, in the order of the pedals.
pub(crate) struct Pedals(pub(crate) Setting);

/// A letter by its name.
pub(crate) struct LetterName(pub(crate) Letter);

/// Everything that is told of a plan for a pedal harp.
pub(crate) struct Told<'a> {
    pub(crate) name: &'a str,
    pub(crate) read: &'a Read,
    pub(crate) plan: &'a Plan,
    pub(crate) feet: &'a Feet,
    pub(crate) fastest: Option<Option<u32>>,
    pub(crate) broken: bool,
    pub(crate) diagnostics: &'a [(Option<u32>, String)],
}

pub(crate) fn pedals(told: &Told<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    print(&pedal_line(told), out)
}

pub(crate) fn pedal_line(told: &Told<'_>) -> PedalLine {
    let (read, plan) = (told.read, told.plan);
    let demand = &read.demand;
    let between = pedals::set_between(demand, plan, told.feet);
    PedalLine {
        harp: told.name.to_owned(),
        opening_setting: Pedals(plan.opening().unwrap_or_default()),
        changes: changes(read, plan, &between),
        respelled: respelled(read, at_passes::respelled(demand, &plan.respelled)),
        cannot: at_passes::cannot(demand, &plan.cannot)
            .into_iter()
            .map(|at| CannotLine {
                place: place(read, at.moment, &at.passes),
                pitch: at.what.pitch.to_string(),
                reason: at.what.reason.as_str(),
                remedies: remedies(&at.what.remedies),
            })
            .collect(),
        contradicted: contradicted(read, plan),
        discless: discless(demand, plan),
        settings: settings(read, plan),
        cost: bill(&plan.cost),
        moves: plan.changes.len() + between.len(),
        optimal: plan.optimal,
        gap: plan.gap,
        fastest_tempo_factor: told
            .fastest
            .flatten()
            .map(|hundredths| f64::from(hundredths) / 100.0),
        whole_measures: told.broken.then(|| whole(read, plan)),
        diagnostics: diagnostics(told.diagnostics),
    }
}

/// The same for a lever harp.
pub(crate) fn levers(
    name: &str,
    read: &Read,
    plan: &LeverPlan,
    told: &[(Option<u32>, String)],
    out: &mut dyn Write,
) -> std::io::Result<()> {
    print(&lever_line(name, read, plan, told), out)
}

pub(crate) fn lever_line(
    name: &str,
    read: &Read,
    plan: &LeverPlan,
    told: &[(Option<u32>, String)],
) -> LeverLine {
    let demand = &read.demand;
    let other_names = plan
        .respelled
        .iter()
        .map(|head| (head.moment, (head.attack, head.written, head.played)));
    LeverLine {
        harp: name.to_owned(),
        open: plan.open.as_str(),
        opening_levers: plan.levers.iter().map(StringName::to_string).collect(),
        changes: flips(read, plan),
        respelled: respelled(read, at_passes::at_passes(demand, other_names)),
        cannot: at_passes::lever_cannot(demand, &plan.cannot)
            .into_iter()
            .map(|at| CannotLine {
                place: place(read, at.moment, &at.passes),
                pitch: at.what.pitch.to_string(),
                reason: at.what.reason.as_str(),
                remedies: remedies(&at.what.remedies),
            })
            .collect(),
        cost: lever_bill(&plan.cost),
        moves: plan.flips.len(),
        optimal: plan.optimal,
        gap: plan.gap,
        diagnostics: diagnostics(told),
    }
}

pub(crate) fn print(line: &impl Serialize, out: &mut dyn Write) -> std::io::Result<()> {
    serde_json::to_writer(&mut *out, line)?;
    writeln!(out)
}

fn place(read: &Read, moment: usize, passes: &[u32]) -> PlaceLine {
    let there = &read.demand.moments[moment];
    PlaceLine {
        measure: there.measure,
        bar: read.bar(there.measure),
        beat: there.beat.to_string(),
        passes: passes.to_vec(),
    }
}

/// What is set between movements stands with the changes, so that all of them together lead from setting to setting.
fn changes(read: &Read, plan: &Plan, between: &[Change]) -> Vec<ChangeLine> {
    let marks = pedals::written_marks(&read.demand, plan);
    let in_pauses = between.iter().map(|change| {
        let there = &read.demand.moments[change.moment];
        let firsts = &read.demand.movements;
        let before = 1 + firsts.partition_point(|&first| first <= change.moment);
        let line = ChangeLine {
            place: place(read, change.moment, &[there.pass]),
            at_s: seconds(change.at_us),
            foot: change.foot.as_str(),
            pedal: LetterName(change.letter),
            from: change.from.as_str(),
            to: change.to.as_str(),
            only_then: false,
            before_movement: Some(before),
        };
        ((there.measure, there.beat), line)
    });
    let in_the_piece = marks.iter().map(|mark| {
        let line = written(read, plan, mark);
        ((mark.measure, mark.beat), line)
    });
    let mut lines: Vec<_> = in_pauses.chain(in_the_piece).collect();
    lines.sort_by_key(|&(at, _)| at);
    lines.into_iter().map(|(_, line)| line).collect()
}

fn written(read: &Read, plan: &Plan, mark: &Mark) -> ChangeLine {
    ChangeLine {
        place: PlaceLine {
            measure: mark.measure,
            bar: read.bar(mark.measure),
            beat: mark.beat.to_string(),
            passes: mark.passes.clone(),
        },
        at_s: seconds(plan.changes[mark.change].at_us),
        foot: mark.foot.as_str(),
        pedal: LetterName(mark.letter),
        from: mark.from.as_str(),
        to: mark.to.as_str(),
        only_then: mark.only_then,
        before_movement: None,
    }
}

fn flips(read: &Read, plan: &LeverPlan) -> Vec<FlipLine> {
    let flips = plan.flips.iter().enumerate();
    let flips = flips.map(|(index, flip)| (flip.moment, (index, flip.hand, flip.string, flip.on)));
    let told = at_passes::at_passes_by(&read.demand, flips, |one, other| {
        (one.1, one.2, one.3) == (other.1, other.2, other.3)
    });
    let lines = told.iter().map(|at| {
        let (index, hand, string, on) = at.what;
        FlipLine {
            place: place(read, at.moment, &at.passes),
            at_s: seconds(plan.flips[index].at_us),
            hand: match hand {
                Hand::Left => "left",
                Hand::Right => "right",
            },
            string: string.to_string(),
            to: if on { "on" } else { "off" },
        }
    });
    lines.collect()
}

fn respelled(read: &Read, heads: Vec<AtPasses<at_passes::OtherName>>) -> Vec<RespelledLine> {
    let lines = heads.into_iter().map(|at| {
        let (_, written, played) = at.what;
        RespelledLine {
            place: place(read, at.moment, &at.passes),
            written: written.to_string(),
            played: discless::on_its_string(played),
        }
    });
    lines.collect()
}

fn remedies(remedies: &[Remedy]) -> Vec<RemedyLine> {
    let line = |what, pitch: Option<SpelledPitch>| RemedyLine {
        what,
        pitch: pitch.map(|pitch| pitch.to_string()),
    };
    let lines = remedies.iter().map(|remedy| match remedy {
        Remedy::Respell(pitch) => line("respell", Some(*pitch)),
        Remedy::Octave(pitch) => line("octave", Some(*pitch)),
        Remedy::LeaveOut => line("leave_out", None),
    });
    lines.collect()
}

fn contradicted(read: &Read, plan: &Plan) -> Vec<ContradictedLine> {
    let marks = plan.contradicted.iter().map(|mark| {
        let told = (mark.letter, mark.marked, mark.planned, mark.because);
        (mark.moment, told)
    });
    let told = at_passes::at_passes(&read.demand, marks);
    let lines = told.iter().map(|at| {
        let (letter, marked, planned, because) = at.what;
        ContradictedLine {
            place: place(read, at.moment, &at.passes),
            pedal: LetterName(letter),
            marked: marked.as_str(),
            planned: planned.as_str(),
            reason: because.as_str(),
        }
    });
    lines.collect()
}

fn discless(demand: &Demand, plan: &Plan) -> Vec<DisclessLine> {
    let lines = pedals::tuned_and_played(demand, plan)
        .into_iter()
        .filter_map(|tuned| {
            let there = demand.moments.get(tuned.from_moment)?;
            let before = demand
                .movements
                .partition_point(|&first| first <= tuned.from_moment);
            Some(DisclessLine {
                string: tuned.string.to_string(),
                pitch: tuned.pitch().to_string(),
                movement: before + 1,
                measure: there.measure,
                in_a_rest: tuned.in_a_rest,
            })
        });
    lines.collect()
}

fn settings(read: &Read, plan: &Plan) -> Vec<SettingLine> {
    let all = at_passes::settings(&read.demand, &plan.settings);
    let lines = all.into_iter().map(|at| {
        let measure = read.demand.moments[at.moment].measure;
        SettingLine {
            measure,
            bar: read.bar(measure),
            passes: at.passes,
            mark: read.rehearsal(measure),
            setting: Pedals(at.what),
        }
    });
    lines.collect()
}

fn whole(read: &Read, plan: &Plan) -> Vec<MeasureLine> {
    let whole = pedals::surviving_measures(&read.demand, plan);
    let lines = whole.into_iter().map(|(measure, pass)| MeasureLine {
        measure,
        bar: read.bar(measure),
        pass,
    });
    lines.collect()
}

pub(crate) fn diagnostics(told: &[(Option<u32>, String)]) -> Vec<DiagnosticLine> {
    let lines = told.iter().map(|(measure, message)| DiagnosticLine {
        measure: *measure,
        message: message.clone(),
    });
    lines.collect()
}

fn seconds(us: u64) -> f64 {
    us as f64 / 1e6
}

impl Serialize for Pedals {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let known = Setting::PEDAL_ORDER.into_iter();
        let known =
            known.filter_map(|letter| Some((LetterName(letter), self.0.get(letter)?.semitones())));
        serializer.collect_map(known)
    }
}

impl Serialize for LetterName {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}
