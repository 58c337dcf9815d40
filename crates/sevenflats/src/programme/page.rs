//! The evening for people: piece by piece, then what lies between them, then the strings that matter.

use std::io::Write;

use harp::{Naming, Setting, StringName};
use pedals::{
    BrokenPart, Lost, Needs, PaperPart, Retuning, Slot, Stretch, StringUse, lost_tonight,
};
use pitch::{ReferencePitch, SpelledPitch};

use super::Told;
use super::made::{Content, Made};
use crate::plan::lever_page;
use crate::plan::page::{setting, with_natural};

/// So many strings are listed as the most exposed.
const MOST_EXPOSED: usize = 12;

/// Writes the page.
pub(super) fn write(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let evening = told.evening;
    for line in [&evening.title, &evening.note] {
        if !line.is_empty() {
            writeln!(out, "{line}")?;
        }
    }
    for (at, (made, needs)) in told.pieces.iter().zip(&told.programme.pieces).enumerate() {
        piece(told, at, made, needs, naming, out)?;
    }
    retunings(told, naming, out)?;
    strings(told, naming, out)?;
    to_tune(told, out)
}

fn piece(
    told: &Told<'_>,
    at: usize,
    made: &Made,
    needs: &Needs,
    naming: Naming,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let composer = if made.composer.is_empty() {
        String::new()
    } else {
        format!(", {}", made.composer)
    };
    writeln!(out, "\n{}. {}{composer}", at + 1, made.title)?;
    let a4 = pitch::Tongue::English.plain(made.reference.a4_hz());
    writeln!(out, "  {}, A = {a4} Hz; {}", made.harp_name, source(made))?;
    for reason in &made.unread {
        writeln!(out, "  not read  {reason}")?;
    }
    if needs.opening != Setting::default() {
        setting(needs.opening, naming, "  ", out)?;
    }
    if let Some(levers) = &needs.levers {
        writeln!(out, "  open tuning {}", levers.open)?;
        let on = lever_page::strings(naming, &levers.on);
        writeln!(out, "  levers on   {on}")?;
    }
    by_key(needs, naming, out)?;
    before(told, at, made, needs, naming, out)?;
    tonight(told, made, naming, out)?;
    if let Content::Paper { findings, .. } = &made.content {
        for finding in findings {
            writeln!(out, "  look again  {finding}")?;
        }
    }
    for (_, doubt) in &made.doubts {
        writeln!(out, "  in doubt  {doubt}")?;
    }
    Ok(())
}

/// Where it comes from, and how much moves in it.
fn source(made: &Made) -> String {
    let many = |count: usize, one: &str| match count {
        1 => format!("1 {one}"),
        count => format!("{count} {one}s"),
    };
    match &made.content {
        Content::Pedals { read, plan, .. } => {
            let (bars, moved) = (
                many(read.piece.measures.len(), "bar"),
                many(plan.changes.len(), "pedal"),
            );
            format!("{bars}, {moved} moved, {}", lost_words(plan.cannot.len()))
        }
        Content::Levers { read, plan, .. } => {
            let (bars, flipped) = (
                many(read.piece.measures.len(), "bar"),
                many(plan.flips.len(), "lever"),
            );
            format!(
                "{bars}, {flipped} flipped, {}",
                lost_words(plan.cannot.len())
            )
        }
        Content::Paper { part, .. } => {
            format!("from paper, {} moved", many(changes_of(part), "pedal"))
        }
        Content::Nothing => "nothing known of it".to_owned(),
    }
}

fn lost_words(lost: usize) -> String {
    match lost {
        0 => "no note lost".to_owned(),
        1 => "1 note lost".to_owned(),
        lost => format!("{lost} notes lost"),
    }
}

/// Pedals moved in a part on paper, as it is written.
pub(super) fn changes_of(part: &PaperPart) -> usize {
    let places = part.movements.iter().flat_map(|movement| &movement.places);
    places.map(|place| place.changes().count()).sum()
}

fn by_key(needs: &Needs, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let movements = needs
        .by_key
        .iter()
        .map(|set| set.movement)
        .max()
        .unwrap_or(0);
    for movement in 0..=movements {
        let sets = needs.by_key.iter().filter(|set| set.movement == movement);
        let told = sets.map(|set| {
            let rest = if set.in_rest_at.is_some() {
                ", in a rest"
            } else {
                ""
            };
            let (string, pitch) = (naming.string(set.string), named(set.pitch, naming));
            format!("{string} to {pitch}{rest}")
        });
        let told: Vec<String> = told.collect();
        if told.is_empty() {
            continue;
        }
        let label = match movement {
            0 => "by key".to_owned(),
            _ => format!("by key, movement {}", movement + 1),
        };
        writeln!(out, "  {label}  {}", told.join(", "))?;
    }
    Ok(())
}

/// What is done on stage before a piece.
fn before(
    told: &Told<'_>,
    at: usize,
    made: &Made,
    needs: &Needs,
    naming: Naming,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    if needs.first || matches!(made.content, Content::Nothing) {
        return Ok(());
    }
    let mut done: Vec<String> = Vec::new();
    if let Some(other) = needs.other_reference {
        let a4 = pitch::Tongue::English.plain(made.reference.a4_hz());
        let cents = pitch::Tongue::English.signed(cents(other, made.reference));
        done.push(format!("the whole harp to A = {a4} Hz ({cents} cents)"));
    }
    let here = told.programme.retunings.iter().filter(|turn| {
        turn.before
            == Slot {
                piece: at,
                movement: 0,
            }
            && turn.in_rest_at.is_none()
    });
    done.extend(here.map(|turn| {
        let string = naming.string(turn.string);
        format!(
            "{string} from {} to {}",
            named(turn.from, naming),
            named(turn.to, naming)
        )
    }));
    let moved = needs.pedals.iter().filter(|moved| moved.from.is_some());
    let moved: Vec<String> = moved
        .map(|moved| with_natural(naming, moved.letter, moved.to))
        .collect();
    if !moved.is_empty() {
        done.push(format!("pedals {}", moved.join(" ")));
    }
    if let Some(levers) = &needs.levers {
        if let Some(other) = levers.other_open {
            done.push(format!(
                "the open strings from {other} to {} by key",
                levers.open
            ));
        }
        for (word, on) in [("on", true), ("off", false)] {
            let flips = levers.flips.iter().filter(|flip| flip.1 == on);
            let flips: Vec<String> = flips.map(|&(string, _)| naming.string(string)).collect();
            if !flips.is_empty() {
                done.push(format!("levers {word}: {}", flips.join(" ")));
            }
        }
    }
    let done = if done.is_empty() {
        "nothing to set".to_owned()
    } else {
        done.join(", ")
    };
    writeln!(out, "  before it   {done}")
}

/// What something broken costs in this piece.
fn tonight(
    told: &Told<'_>,
    made: &Made,
    naming: Naming,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    if *told.broken == pedals::Broken::default() {
        return Ok(());
    }
    let lost = lost_tonight(made.what(), told.broken);
    if let (
        Some(notes),
        Content::Pedals {
            read, whole_lost, ..
        }
        | Content::Levers {
            read, whole_lost, ..
        },
    ) = (lost.notes, &made.content)
    {
        let whole = lost.measures as usize - lost.broken_measures.len();
        let words = lost_words(notes as usize);
        writeln!(
            out,
            "  tonight   {words} ({} with nothing broken); {whole} of {} bars survive whole",
            lost_words(*whole_lost),
            lost.measures
        )?;
        let not: Vec<String> = lost
            .broken_measures
            .iter()
            .map(|&(measure, pass)| match pass {
                1 => read.bar(measure),
                pass => format!(
                    "{} ({})",
                    read.bar(measure),
                    crate::plan::page::times(&[pass])
                ),
            })
            .collect();
        if !not.is_empty() {
            writeln!(out, "            not: {}", not.join(", "))?;
        }
    }
    stretches(made, &lost, naming)
        .iter()
        .try_for_each(|words| writeln!(out, "  tonight   {words}"))
}

/// Where something broken touches a part on paper, in words.
pub(super) fn stretches(made: &Made, lost: &Lost, naming: Naming) -> Vec<String> {
    let Content::Paper { part, .. } = &made.content else {
        return Vec::new();
    };
    let told = lost.stretches.iter().map(|(broken, stretch)| {
        let what = match broken {
            BrokenPart::Pedal(letter, at) => {
                format!(
                    "{} is stuck; it should stand elsewhere",
                    with_natural(naming, *letter, *at)
                )
            }
            BrokenPart::Disc(string, at) => format!(
                "{} cannot sound {}",
                naming.string(*string),
                with_natural(naming, string.letter, *at)
            ),
            BrokenPart::String(string) => {
                format!("{} is missing, and you call for it", naming.string(*string))
            }
        };
        format!("{what} {}", where_(stretch, part.movements.len()))
    });
    told.collect()
}

/// `from bar 12 to bar 20`.
fn where_(stretch: &Stretch, movements: usize) -> String {
    let bar = |bar: &pedals::PaperBar| match bar {
        pedals::PaperBar::Number(..) => format!("bar {bar}"),
        pedals::PaperBar::Mark(..) => bar.to_string(),
    };
    let of_movement = |movement: usize| match movements {
        1 => String::new(),
        _ => format!(" of movement {}", movement + 1),
    };
    let from = match &stretch.from {
        Some(from) => format!("from {}", bar(from)),
        None => "from the beginning".to_owned(),
    };
    let until = match &stretch.until {
        Some((movement, Some(until))) => {
            let there = if *movement == stretch.movement {
                String::new()
            } else {
                of_movement(*movement)
            };
            format!("to {}{there}", bar(until))
        }
        Some((movement, None)) => format!("to the beginning of movement {}", movement + 1),
        None => "to the end".to_owned(),
    };
    format!("{from}{} {until}", of_movement(stretch.movement))
}

fn retunings(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let retunings = &told.programme.retunings;
    if retunings.is_empty() {
        return writeln!(out, "\nNo string without discs is wanted in two ways.");
    }
    writeln!(out, "\nWanted in two ways, and when to turn them")?;
    for turn in retunings {
        writeln!(out, "  {}", retuning(told, turn, naming))?;
    }
    let up = retunings.iter().any(|turn| turn.semitones() > 0);
    if up {
        writeln!(
            out,
            "  Up in small steps, plucking after each, eyes out of the plane of the strings; ease down what goes past.\n  \
             An old wire, or one that has never stood so high, may break: ask your technician before the day."
        )?;
    }
    Ok(())
}

fn retuning(told: &Told<'_>, turn: &Retuning, naming: Naming) -> String {
    let slot = |slot: Slot| {
        let movements = told.programme.pieces[slot.piece].by_key.iter();
        match movements.map(|set| set.movement).max() {
            Some(last) if last > 0 => format!("{} movement {}", slot.piece + 1, slot.movement + 1),
            _ => (slot.piece + 1).to_string(),
        }
    };
    let when = if turn.in_rest_at.is_some() {
        format!("in a rest of {}", slot(turn.before))
    } else {
        format!("after {}, before {}", slot(turn.after), slot(turn.before))
    };
    let semitones = turn.semitones();
    let way = if semitones > 0 { "up" } else { "down" };
    let far = match semitones.abs() {
        1 => "a semitone".to_owned(),
        far => format!("{far} semitones"),
    };
    let (from, to) = (named(turn.from, naming), named(turn.to, naming));
    format!(
        "{}  from {from} to {to}, {when}: {way} {far}",
        naming.string(turn.string)
    )
}

fn strings(told: &Told<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let mut exposed: Vec<&StringUse> = told
        .programme
        .strings
        .iter()
        .filter(|used| used.played.exposed > 0 || used.called_exposed > 0)
        .collect();
    exposed.sort_by_key(|used| {
        std::cmp::Reverse((
            used.called_exposed,
            used.played.exposed,
            used.played.attacks,
        ))
    });
    if exposed.is_empty() {
        return Ok(());
    }
    let harps = told
        .pieces
        .iter()
        .any(|piece| piece.harp_name != told.pieces[0].harp_name);
    writeln!(out, "\nThe most exposed strings")?;
    writeln!(out, "  string  plucked  alone  exposed  you say  pieces")?;
    for used in exposed.iter().take(MOST_EXPOSED) {
        let pieces: Vec<String> = used
            .pieces
            .iter()
            .map(|piece| (piece + 1).to_string())
            .collect();
        let said = if used.called_exposed > 0 { "yes" } else { "" };
        let played = used.played;
        let name = string(used.string, naming);
        let harp = if harps {
            format!("  {}", used.harp_name)
        } else {
            String::new()
        };
        writeln!(
            out,
            "  {name:<6}  {:>7}  {:>5}  {:>7}  {said:>7}  {}{harp}",
            played.attacks,
            played.alone,
            played.exposed,
            pieces.join(" ")
        )?;
    }
    writeln!(
        out,
        "Exposed: plucked alone and ringing on alone for a second, or alone on a wire up to {} or from {} up; ours, no source.",
        string(StringName::new(pitch::Letter::G, 2), naming),
        string(StringName::new(pitch::Letter::F, 6), naming)
    )
}

/// How the harp is tuned before the evening, as it is typed.
fn to_tune(told: &Told<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    for first in &told.programme.harps {
        let a4 = pitch::Tongue::English.plain(first.reference.a4_hz());
        let discless: Vec<String> = first
            .discless
            .iter()
            .map(|(string, pitch)| format!("{string}={pitch}"))
            .collect();
        let discless = match discless.as_slice() {
            [] => String::new(),
            all => format!(" --discless {}", all.join(",")),
        };
        let open = first.open.map(|open| format!(" --open {open}"));
        let open = open.unwrap_or_default();
        let harp = &first.harp_name;
        writeln!(
            out,
            "\nTo tune for it: sevenflats tune --harp {harp} --a4 {a4}{open}{discless}"
        )?;
    }
    Ok(())
}

fn string(name: StringName, naming: Naming) -> String {
    naming.string(name)
}

/// A pitch without its octave, a natural said.
fn named(pitch: SpelledPitch, naming: Naming) -> String {
    let natural = if pitch.alter == 0 { "♮" } else { "" };
    naming.language.name(pitch) + natural
}

/// From one reference pitch to another, in cents.
pub(super) fn cents(from: ReferencePitch, to: ReferencePitch) -> f64 {
    pitch::cents(from.a4_hz(), to.a4_hz())
}
