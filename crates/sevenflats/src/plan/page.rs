//! The plan for people: a page of letters, the right foot above the left, by bar and rehearsal mark.

use std::collections::BTreeMap;
use std::io::Write;

use harp::{Naming, Numbers, Setting, StringName};
use pedals::{Cost, Foot, Mark, Quarters, Remedy, at_passes};
use pitch::{Alteration, Letter, SpelledPitch};

use super::json::Told;
use super::read::Read;

/// Writes the page.
pub(crate) fn pedals(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let (read, plan) = (told.read, told.plan);
    heading(read, told.name, out)?;
    writeln!(out, "\nBefore the piece")?;
    setting(plan.opening().unwrap_or_default(), naming, "  ", out)?;
    tuned(told, naming, out)?;
    changes(told, naming, out)?;
    other_names(told, naming, out)?;
    lost(told, naming, out)?;
    contradicted(told, naming, out)?;
    if told.broken {
        whole(told, out)?;
    }
    bill(&plan.cost, plan.optimal, plan.gap, out)?;
    tempo(told.fastest, out)?;
    doubts(told.diagnostics, out)
}

/// What was read: title, part, bars and length.
pub(crate) fn heading(read: &Read, harp: &str, out: &mut dyn Write) -> std::io::Result<()> {
    let piece = &read.piece;
    let title = if piece.title.is_empty() {
        "(no title)"
    } else {
        &piece.title
    };
    let parts: Vec<&str> = piece
        .chosen
        .iter()
        .filter_map(|&part| piece.parts.get(part))
        .map(score::Part::label)
        .collect();
    let last_us = read.demand.moments.last().map_or(0, |moment| moment.at_us);
    let seconds = last_us / 1_000_000;
    writeln!(
        out,
        "{title}: {}, {} bars, {}:{:02}; {harp}",
        parts.join(" and "),
        piece.measures.len(),
        seconds / 60,
        seconds % 60
    )
}

/// A setting as it is pencilled: the right foot above the left, each from left to right.
pub(crate) fn setting(
    setting: Setting,
    naming: Naming,
    indent: &str,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    for (foot, word) in [(Foot::Right, "right"), (Foot::Left, "left")] {
        let letters = foot.pedals().iter().filter_map(|&letter| {
            let name = sounding(naming, letter, setting.get(letter)?);
            Some(format!("{name:<4}"))
        });
        let letters: String = letters.collect();
        writeln!(out, "{indent}{word:<7}{}", letters.trim_end())?;
    }
    Ok(())
}

fn tuned(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let demand = &told.read.demand;
    for tuned in pedals::tuned_and_played(demand, told.plan) {
        let Some(moment) = demand.moments.get(tuned.from_moment) else {
            continue;
        };
        let bar = told.read.bar(moment.measure);
        let when = match (tuned.from_moment, tuned.in_a_rest) {
            (0, _) => String::new(),
            (_, true) => format!(", in the rest at bar {bar}"),
            (from, false) => {
                let movement = 1 + demand.movements.partition_point(|&first| first <= from);
                format!(", for movement {movement} (bar {bar})")
            }
        };
        let pitch = tuned.pitch();
        let name = naming.language.name(pitch);
        let natural = if pitch.alter == 0 { "♮" } else { "" };
        let string = naming.string(tuned.string);
        writeln!(out, "  by key {string} to {name}{natural}{when}")?;
    }
    Ok(())
}

fn changes(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let read = told.read;
    let marks = pedals::written_marks(&read.demand, told.plan);
    let mut by_measure: BTreeMap<u32, Vec<&Mark>> = BTreeMap::new();
    for mark in &marks {
        by_measure.entry(mark.measure).or_default().push(mark);
    }
    let mut stands: BTreeMap<u32, Vec<at_passes::AtPasses<Setting>>> = BTreeMap::new();
    for at in at_passes::settings(&read.demand, &told.plan.settings) {
        let measure = read.demand.moments[at.moment].measure;
        if read.rehearsal(measure).is_some() {
            stands.entry(measure).or_default().push(at);
        }
    }
    if marks.is_empty() && read.demand.movements.is_empty() {
        writeln!(out, "\nNo pedal moves in the piece.")?;
    } else {
        writeln!(out, "\nIn the piece")?;
    }
    let movements = movements(read);
    let firsts = movements.iter().map(|(_, first)| first);
    let measures = by_measure.keys().chain(stands.keys()).chain(firsts);
    let mut measures: Vec<u32> = measures.copied().collect();
    measures.sort_unstable();
    measures.dedup();
    let mut movements = movements.into_iter().peekable();
    for measure in measures {
        while let Some((number, _)) = movements.next_if(|&(_, first)| first <= measure) {
            writeln!(out, "  Before movement {number}")?;
            let first = read.demand.movements.get(number - 2);
            let set = first.and_then(|&first| told.plan.settings.get(first));
            setting(set.copied().unwrap_or_default(), naming, "      ", out)?;
        }
        for at in stands.get(&measure).into_iter().flatten() {
            let mark = read.rehearsal(measure).unwrap_or_default();
            let bar = read.bar(measure);
            let when = match at.passes.as_slice() {
                [1] | [] => String::new(),
                passes => format!(", {}", times(passes)),
            };
            writeln!(out, "  [{mark}] at bar {bar}{when}")?;
            setting(at.what, naming, "      ", out)?;
        }
        if let Some(marks) = by_measure.get(&measure) {
            bar(read, measure, marks, naming, out)?;
        }
    }
    Ok(())
}

/// Every movement after the first: its number, and its first written measure.
fn movements(read: &Read) -> Vec<(usize, u32)> {
    let demand = &read.demand;
    let first = |&moment: &usize| demand.moments.get(moment).map(|moment| moment.measure);
    let firsts = demand.movements.iter().filter_map(first);
    (2..).zip(firsts).collect()
}

/// The changes of one bar: beats from left to right, a line for each foot.
fn bar(
    read: &Read,
    measure: u32,
    marks: &[&Mark],
    naming: Naming,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let mut columns: BTreeMap<Quarters, [String; 2]> = BTreeMap::new();
    for mark in marks {
        let feet = columns.entry(mark.beat).or_default();
        let cell = &mut feet[usize::from(mark.foot == Foot::Left)];
        if !cell.is_empty() {
            cell.push(' ');
        }
        cell.push_str(&with_natural(naming, mark.letter, mark.to));
        if mark.only_then {
            cell.push_str(&format!(" ({} only)", times(&mark.passes)));
        }
    }
    let mut lines = [
        format!("  bar {:<6}beat   ", read.bar(measure)),
        format!("  {:<10}right  ", ""),
        format!("  {:<10}left   ", ""),
    ];
    for (beat, [right, left]) in columns {
        let cells = [counted(read, measure, beat), right, left];
        let width = cells.iter().map(|cell| cell.chars().count()).max();
        let width = width.unwrap_or(0).max(2) + 3;
        for (line, cell) in lines.iter_mut().zip(&cells) {
            line.push_str(&format!("{cell:<width$}"));
        }
    }
    lines
        .iter()
        .try_for_each(|line| writeln!(out, "{}", line.trim_end()))
}

/// A beat as it is counted in the bar's own time signature.
pub(crate) fn counted(read: &Read, measure: u32, beat: Quarters) -> String {
    pedals::counted(&read.piece, measure, beat)
}

fn other_names(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let heads = at_passes::respelled(&told.read.demand, &told.plan.respelled);
    if heads.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nPlayed on another string than written")?;
    for at in heads {
        let (_, written, played) = at.what;
        let (place, written) = (where_(told.read, at.moment), pitch(naming, written));
        if played.alter.abs() > 1 {
            // only by key a string goes further than a pedal would move it
            let string = naming.string(StringName::new(played.letter, played.octave));
            writeln!(
                out,
                "  {place}  {written} on {string}, which is tuned to it"
            )?;
        } else {
            writeln!(out, "  {place}  {written} as {}", pitch(naming, played))?;
        }
    }
    Ok(())
}

fn lost(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let heads = at_passes::cannot(&told.read.demand, &told.plan.cannot);
    if heads.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nWhat cannot be had")?;
    for at in heads {
        let (head, place) = (at.what, where_(told.read, at.moment));
        let name = pitch(naming, head.pitch);
        let could = remedies(naming, &head.remedies);
        writeln!(
            out,
            "  {place}  {name}: {}; {could}",
            sheet::why(pitch::Tongue::English, head.reason)
        )?;
    }
    Ok(())
}

/// What could be done about a note that is lost.
pub(crate) fn remedies(naming: Naming, remedies: &[Remedy]) -> String {
    let words: Vec<String> = remedies
        .iter()
        .map(|remedy| match remedy {
            Remedy::Respell(other) => format!("respell it {}", pitch(naming, *other)),
            Remedy::Octave(other) => format!("play {}", pitch(naming, *other)),
            Remedy::LeaveOut => "leave it out".to_owned(),
        })
        .collect();
    words.join(", or ")
}

fn contradicted(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let marks = told.plan.contradicted.iter().map(|mark| {
        let told = (mark.letter, mark.marked, mark.planned, mark.because);
        (mark.moment, told)
    });
    let marks = at_passes::at_passes(&told.read.demand, marks);
    if marks.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nOtherwise than marked in the part")?;
    for at in marks {
        let (letter, marked, planned, because) = at.what;
        let (marked, planned) = (
            with_natural(naming, letter, marked),
            with_natural(naming, letter, planned),
        );
        let because = match because {
            pedals::Because::NotesThere => "a note there needs it",
            pedals::Because::Stuck => "the pedal is stuck",
            pedals::Because::Dearer => "the whole costs less so",
        };
        let place = where_(told.read, at.moment);
        writeln!(out, "  {place}  {planned}, marked {marked}: {because}")?;
    }
    Ok(())
}

fn whole(told: &Told<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    let demand = &told.read.demand;
    let survive = pedals::surviving_measures(demand, told.plan);
    let played = pedals::played_measures(demand);
    let lost: Vec<String> = played
        .iter()
        .filter(|bar| !survive.contains(bar))
        .map(|&(measure, pass)| match pass {
            1 => told.read.bar(measure),
            pass => format!("{} ({})", told.read.bar(measure), times(&[pass])),
        })
        .collect();
    let (of, count) = (played.len(), survive.len());
    if lost.is_empty() {
        writeln!(out, "\nEvery bar survives.")
    } else {
        writeln!(
            out,
            "\n{count} of {of} bars survive whole; not: {}",
            lost.join(", ")
        )
    }
}

fn bill(cost: &Cost, optimal: bool, gap: u64, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "\nWhat it costs")?;
    for (word, item) in cost.items() {
        if item.count > 0 {
            let words = in_words(word);
            writeln!(out, "  {:<48}{:>6} {:>10}", words, item.count, item.price)?;
        }
    }
    writeln!(out, "  {:<48}{:>6} {:>10}", "in all", "", cost.total())?;
    if optimal {
        writeln!(out, "No plan costs less by these prices.")
    } else {
        writeln!(
            out,
            "A plan could cost less, by {gap} at most: not all could be tried."
        )
    }
}

/// The words of a cost item.
fn in_words(item: &str) -> &str {
    match item {
        "lost" => "notes that do not sound",
        "glissando" => "letters that a glissando or tremolo finds elsewhere",
        "respelled" => "notes on another string than written",
        "moved" => "pedals moved",
        "two_notches" => "of these over two notches",
        "off_beat" => "of these neither on a beat nor in a rest",
        "ringing" => "of these under strings that ring",
        "crossing" => "of these by a foot that crosses over",
        "together" => "two pedals by one foot at once",
        "marks" => "marks in the part not followed",
        "retuned" => "strings without discs retuned in a rest",
        "pins" => "choices of yours that cannot be kept",
        "passes_differ" => "marks for some times of a repeat only",
        other => other,
    }
}

fn tempo(fastest: Option<Option<u32>>, out: &mut dyn Write) -> std::io::Result<()> {
    match fastest {
        None => Ok(()),
        Some(None) => writeln!(out, "The feet are no limit up to 16 times this tempo."),
        Some(Some(0)) => writeln!(out, "However slow it goes, the feet lose notes."),
        Some(Some(hundredths)) => writeln!(
            out,
            "The feet keep up to {}.{:02} times this tempo.",
            hundredths / 100,
            hundredths % 100
        ),
    }
}

/// What was doubtful.
pub(crate) fn doubts(
    diagnostics: &[(Option<u32>, String)],
    out: &mut dyn Write,
) -> std::io::Result<()> {
    if !diagnostics.is_empty() {
        writeln!(out, "\nIn doubt")?;
    }
    diagnostics
        .iter()
        .try_for_each(|(_, message)| writeln!(out, "  {message}"))
}

/// Bar and beat of a moment.
pub(crate) fn where_(read: &Read, moment: usize) -> String {
    let there = &read.demand.moments[moment];
    let beat = counted(read, there.measure, there.beat);
    let place = format!("bar {}, beat {beat}", read.bar(there.measure));
    format!("{place:<18}")
}

/// Times of playing: '1st time', '2nd and 3rd time'.
pub(crate) fn times(passes: &[u32]) -> String {
    let ordinals: Vec<String> = passes.iter().map(|&pass| ordinal(pass)).collect();
    format!("{} time", ordinals.join(" and "))
}

fn ordinal(number: u32) -> String {
    let ending = match (number % 10, number % 100) {
        (1, hundreds) if hundreds != 11 => "st",
        (2, hundreds) if hundreds != 12 => "nd",
        (3, hundreds) if hundreds != 13 => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

/// A letter as its pedal stands; a natural is bare.
fn sounding(naming: Naming, letter: Letter, alteration: Alteration) -> String {
    naming
        .language
        .name(SpelledPitch::new(letter, alteration, 4))
}

/// The same for a change, where a natural is said.
pub(crate) fn with_natural(naming: Naming, letter: Letter, alteration: Alteration) -> String {
    let natural = if alteration == Alteration::Natural {
        "♮"
    } else {
        ""
    };
    sounding(naming, letter, alteration) + natural
}

/// A pitch with its octave, in her own counting.
pub(crate) fn pitch(naming: Naming, pitch: SpelledPitch) -> String {
    let name = naming.language.name(pitch);
    match naming.numbers {
        Numbers::Scientific => format!("{name}{}", pitch.octave),
        Numbers::Harp => {
            format!("{}{name}", pitch::harp_octave(pitch.letter, pitch.octave))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_of_playing_are_ordinals() {
        assert_eq!(times(&[1]), "1st time");
        assert_eq!(times(&[2, 3]), "2nd and 3rd time");
        assert_eq!(times(&[11, 22]), "11th and 22nd time");
    }
}
