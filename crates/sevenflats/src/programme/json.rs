//! The evening for programs: one JSON object.

use std::io::Write;

use pedals::{AtFirst, BrokenPart, KeySet, Needs, Retuning, StringUse, lost_tonight};
use serde::Serialize;

use super::made::{Content, Made};
use super::{Told, page};
use crate::plan::json::{
    self, DiagnosticLine, LetterName, LeverLine, MeasureLine, PedalLine, Pedals,
};

/// What `sevenflats programme --json` prints.
#[derive(Serialize)]
struct EveningLine {
    title: String,
    note: String,
    pieces: Vec<PieceLine>,
    retunings: Vec<RetuningLine>,
    strings: Vec<StringLine>,
    harps: Vec<HarpLine>,
}

/// How a harp is tuned before the evening.
#[derive(Serialize)]
struct HarpLine {
    harp: String,
    a4_hz: f64,
    open: Option<&'static str>,
    discless: Vec<FirstLine>,
}

#[derive(Serialize)]
struct FirstLine {
    string: String,
    pitch: String,
}

#[derive(Serialize)]
struct PieceLine {
    number: usize,
    title: String,
    composer: String,
    harp: String,
    a4_hz: f64,
    source: &'static str,
    /// The pitch in which the same harp stood before, where that was another.
    a4_before_hz: Option<f64>,
    whole_harp_cents: Option<f64>,
    opening_setting: Option<Pedals>,
    /// Pedals that are not where the last piece on this harp left them.
    pedals_before: Vec<PedalLineBefore>,
    open: Option<&'static str>,
    open_before: Option<&'static str>,
    opening_levers: Option<Vec<String>>,
    levers_before: Vec<LeverBefore>,
    discless: Vec<KeyLine>,
    /// Strings that may be turned just before it.
    turnable_before: Vec<String>,
    moves: Option<usize>,
    lost: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tonight: Option<TonightLine>,
    plan: Option<PlanLine>,
    shorthand: Option<String>,
    exposed: Vec<String>,
    findings: Vec<FindingLine>,
    unread: Vec<String>,
    diagnostics: Vec<DiagnosticLine>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum PlanLine {
    Pedals(Box<PedalLine>),
    Levers(Box<LeverLine>),
}

#[derive(Serialize)]
struct PedalLineBefore {
    pedal: LetterName,
    from: Option<&'static str>,
    to: &'static str,
}

#[derive(Serialize)]
struct LeverBefore {
    string: String,
    to: &'static str,
}

#[derive(Serialize)]
struct KeyLine {
    string: String,
    pitch: String,
    movement: usize,
    in_a_rest: bool,
}

/// What something broken costs.
#[derive(Serialize)]
struct TonightLine {
    lost: Option<u32>,
    lost_if_whole: Option<usize>,
    measures: Option<u32>,
    broken_measures: Vec<MeasureLine>,
    stretches: Vec<StretchLine>,
}

#[derive(Serialize)]
struct StretchLine {
    broken: String,
    movement: usize,
    from: Option<String>,
    until_movement: Option<usize>,
    until: Option<String>,
}

#[derive(Serialize)]
struct FindingLine {
    movement: usize,
    bar: Option<String>,
    message: String,
}

#[derive(Serialize)]
struct RetuningLine {
    harp: String,
    string: String,
    from: String,
    to: String,
    semitones: i32,
    after_piece: usize,
    after_movement: usize,
    before_piece: usize,
    before_movement: usize,
    in_a_rest: bool,
}

#[derive(Serialize)]
struct StringLine {
    harp: String,
    string: String,
    attacks: u32,
    alone: u32,
    exposed: u32,
    called_exposed: u32,
    pieces: Vec<usize>,
}

pub(super) fn write(told: &Told<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    let pieces = told.pieces.iter().zip(&told.programme.pieces).enumerate();
    let line = EveningLine {
        title: told.evening.title.clone(),
        note: told.evening.note.clone(),
        pieces: pieces
            .map(|(at, (made, needs))| piece(told, at + 1, made, needs))
            .collect(),
        retunings: told.programme.retunings.iter().map(retuning).collect(),
        strings: told.programme.strings.iter().map(string).collect(),
        harps: told.programme.harps.iter().map(harp).collect(),
    };
    json::print(&line, out)
}

fn piece(told: &Told<'_>, number: usize, made: &Made, needs: &Needs) -> PieceLine {
    let levers = needs.levers.as_ref();
    let (moves, lost) = match &made.content {
        Content::Pedals { plan, .. } => (Some(plan.changes.len()), Some(plan.cannot.len())),
        Content::Levers { plan, .. } => (Some(plan.flips.len()), Some(plan.cannot.len())),
        Content::Paper { part, .. } => (Some(page::changes_of(part)), None),
        Content::Nothing => (None, None),
    };
    let broken = *told.broken != pedals::Broken::default();
    PieceLine {
        number,
        title: made.title.clone(),
        composer: made.composer.clone(),
        harp: made.harp_name.clone(),
        a4_hz: made.reference.a4_hz(),
        source: match &made.content {
            Content::Pedals { .. } | Content::Levers { .. } => "score",
            Content::Paper { .. } => "paper",
            Content::Nothing => "unread",
        },
        a4_before_hz: needs.other_reference.map(|before| before.a4_hz()),
        whole_harp_cents: needs
            .other_reference
            .map(|before| page::cents(before, made.reference)),
        opening_setting: match &made.content {
            Content::Pedals { .. } | Content::Paper { .. } => Some(Pedals(needs.opening)),
            Content::Levers { .. } | Content::Nothing => None,
        },
        pedals_before: needs.pedals.iter().map(pedal_before).collect(),
        open: levers.map(|levers| levers.open.as_str()),
        open_before: levers
            .and_then(|levers| levers.other_open)
            .map(|open| open.as_str()),
        opening_levers: levers.map(|levers| levers.on.iter().map(ToString::to_string).collect()),
        levers_before: levers.map(lever_flips).unwrap_or_default(),
        discless: needs.by_key.iter().map(key).collect(),
        turnable_before: told
            .programme
            .offered_before(number - 1)
            .map(|turn| turn.string.to_string())
            .collect(),
        moves,
        lost,
        tonight: broken.then(|| tonight(told, made)),
        plan: plan(made, broken),
        shorthand: match &made.content {
            Content::Paper { part, .. } => Some(part.to_string()),
            _ => None,
        },
        exposed: exposed(made),
        findings: findings(made),
        unread: made.unread.clone(),
        diagnostics: json::diagnostics(&made.doubts),
    }
}

fn pedal_before(moved: &pedals::PedalBefore) -> PedalLineBefore {
    PedalLineBefore {
        pedal: LetterName(moved.letter),
        from: moved.from.map(|from| from.as_str()),
        to: moved.to.as_str(),
    }
}

fn lever_flips(levers: &pedals::LeversBefore) -> Vec<LeverBefore> {
    let flips = levers.flips.iter().map(|&(string, on)| LeverBefore {
        string: string.to_string(),
        to: if on { "on" } else { "off" },
    });
    flips.collect()
}

fn key(set: &KeySet) -> KeyLine {
    KeyLine {
        string: set.string.to_string(),
        pitch: set.pitch.to_string(),
        movement: set.movement + 1,
        in_a_rest: set.in_rest_at.is_some(),
    }
}

fn tonight(told: &Told<'_>, made: &Made) -> TonightLine {
    let lost = lost_tonight(made.what(), told.broken);
    let (read, whole_lost) = match &made.content {
        Content::Pedals {
            read, whole_lost, ..
        }
        | Content::Levers {
            read, whole_lost, ..
        } => (Some(read), Some(*whole_lost)),
        Content::Paper { .. } | Content::Nothing => (None, None),
    };
    let measures = lost.broken_measures.iter().filter_map(|&(measure, pass)| {
        let bar = read?.bar(measure);
        Some(MeasureLine { measure, bar, pass })
    });
    TonightLine {
        lost: lost.notes,
        lost_if_whole: whole_lost,
        measures: lost.notes.map(|_| lost.measures),
        broken_measures: measures.collect(),
        stretches: lost.stretches.iter().map(stretch).collect(),
    }
}

fn stretch((broken, stretch): &(BrokenPart, pedals::Stretch)) -> StretchLine {
    StretchLine {
        broken: match broken {
            BrokenPart::Pedal(letter, at) => format!("{letter}={at}"),
            BrokenPart::Disc(string, at) => format!("{string}={at}"),
            BrokenPart::String(string) => string.to_string(),
        },
        movement: stretch.movement + 1,
        from: stretch.from.as_ref().map(ToString::to_string),
        until_movement: stretch.until.as_ref().map(|(movement, _)| movement + 1),
        until: stretch
            .until
            .as_ref()
            .and_then(|(_, bar)| bar.as_ref())
            .map(ToString::to_string),
    }
}

fn plan(made: &Made, broken: bool) -> Option<PlanLine> {
    match &made.content {
        Content::Pedals {
            read, wishes, plan, ..
        } => {
            let out_of_time = plan.work > wishes.work_limit;
            let fastest = || pedals::fastest_tempo(&read.demand, &made.harp, wishes);
            let told = json::Told {
                name: &made.harp_name,
                read,
                plan,
                feet: &wishes.feet,
                fastest: (!out_of_time).then(fastest),
                broken,
                diagnostics: &made.doubts,
            };
            Some(PlanLine::Pedals(Box::new(json::pedal_line(&told))))
        }
        Content::Levers { read, plan, .. } => {
            let line = json::lever_line(&made.harp_name, read, plan, &made.doubts);
            Some(PlanLine::Levers(Box::new(line)))
        }
        Content::Paper { .. } | Content::Nothing => None,
    }
}

fn exposed(made: &Made) -> Vec<String> {
    let Content::Paper { part, .. } = &made.content else {
        return Vec::new();
    };
    let movements = part.movements.iter();
    let mut strings: Vec<_> = movements
        .flat_map(|movement| movement.exposed.clone())
        .collect();
    strings.sort_unstable();
    strings.dedup();
    strings.iter().map(ToString::to_string).collect()
}

fn findings(made: &Made) -> Vec<FindingLine> {
    let Content::Paper { findings, .. } = &made.content else {
        return Vec::new();
    };
    let lines = findings.iter().map(|finding| FindingLine {
        movement: finding.movement + 1,
        bar: finding.bar.as_ref().map(ToString::to_string),
        message: finding.kind.to_string(),
    });
    lines.collect()
}

fn retuning(turn: &Retuning) -> RetuningLine {
    RetuningLine {
        harp: turn.harp_name.clone(),
        string: turn.string.to_string(),
        from: turn.from.to_string(),
        to: turn.to.to_string(),
        semitones: turn.semitones(),
        after_piece: turn.after.piece + 1,
        after_movement: turn.after.movement + 1,
        before_piece: turn.before.piece + 1,
        before_movement: turn.before.movement + 1,
        in_a_rest: turn.in_rest_at.is_some(),
    }
}

fn harp(first: &AtFirst) -> HarpLine {
    let discless = first.discless.iter().map(|(string, pitch)| FirstLine {
        string: string.to_string(),
        pitch: pitch.to_string(),
    });
    HarpLine {
        harp: first.harp_name.clone(),
        a4_hz: first.reference.a4_hz(),
        open: first.open.map(|open| open.as_str()),
        discless: discless.collect(),
    }
}

fn string(used: &StringUse) -> StringLine {
    StringLine {
        harp: used.harp_name.clone(),
        string: used.string.to_string(),
        attacks: used.played.attacks,
        alone: used.played.alone,
        exposed: used.played.exposed,
        called_exposed: used.called_exposed,
        pieces: used.pieces.iter().map(|piece| piece + 1).collect(),
    }
}
