//! A score meets the harp: what was read of notation becomes what a piece asks.
//!
//! Beside the moments at which something is plucked, the feet get those that a player moves on: the
//! beats of long notes, the beginnings of rests, and the places of marks.

mod alternations;
mod beats;
mod movements;
mod rests;
mod sweeps;
mod tremolos;

use std::collections::BTreeSet;

use harp::Setting;
use score::{Fraction, Letters, MarkKind, Piece, Played};

use crate::{Attack, Demand, Hand, Moment, Quarters, Strength};
use beats::Beats;

/// A place of playing before it is a moment.
struct Place {
    /// Which of the measures in the order of playing.
    turn: usize,
    measure: usize,
    pass: u32,
    offset: Fraction,
    at: Fraction,
    at_us: u64,
    /// Its place among the score's moments, where something is written there.
    written: Option<usize>,
    grace: bool,
}

impl Demand {
    /// What a piece asks of the harp in an order of its measures ([`Piece::order`] or
    /// [`Piece::written_order`]).
    ///
    /// A tie's end is no attack. Notes ring until they are damped; where the part says étouffé, at
    /// once. A glissando's setting holds from its first note until the note it arrives at; the notes of a
    /// tremolo are wanted together for as long as both last; two
    /// strings that sound alike in quick alternation are wanted together, as in a glissando. A
    /// movement begins where the printed numbers of bars begin anew at 1, and nothing rings into it.
    ///
    /// ```
    /// let text = br#"<score-partwise><part-list><score-part id="P1"><part-name>Harp</part-name>
    /// </score-part></part-list><part id="P1"><measure number="1"><attributes><divisions>1</divisions>
    /// <time><beats>2</beats><beat-type>4</beat-type></time></attributes><note><pitch><step>F</step>
    /// <alter>1</alter><octave>4</octave></pitch><duration>2</duration></note></measure></part>
    /// </score-partwise>"#;
    /// let piece = score::read(text, &score::Options::default())?;
    /// let demand = pedals::Demand::of_score(&piece, &piece.order);
    /// assert_eq!(demand.moments.len(), 2); // the note, and the beat on which a foot may move
    /// assert_eq!(demand.moments[0].attacks[0].pitch.to_string(), "F#4");
    /// # Ok::<(), score::ScoreError>(())
    /// ```
    pub fn of_score(piece: &Piece, order: &[Played]) -> Self {
        let written = piece.moments(order);
        let places = places(piece, order, &written);
        let rests = rests::rests(piece, &places, &written);
        let sweeps = sweeps::sweeps(piece, &places, &written);
        let tremolos = tremolos::tremolos(piece, &places, &written);
        let alternations = alternations::alternations(piece, &places, &written);
        let beats = Beats::of(piece);
        let moments = places.iter().enumerate().map(|(index, place)| {
            let notes = place.written.map_or(&[][..], |at| &written[at].notes);
            let first = first_at(&places, index);
            Moment {
                at: quarters(place.at),
                at_us: place.at_us,
                measure: piece.measures[place.measure].index,
                pass: place.pass,
                beat: quarters(place.offset.plus(Fraction::ONE).unwrap_or(place.offset)),
                strength: strength(&beats, place),
                rest: rests[index],
                damped: first && is_damped(piece, place),
                attacks: attacks(piece, notes),
                glissando: setting_of(sweeps[index].letters.or(alternations[index])),
                swept: sweeps[index].strings,
                tremolo: tremolos[index].clone(),
                marks: if first {
                    marks(piece, place)
                } else {
                    Setting::default()
                },
            }
        });
        let mut moments: Vec<Moment> = moments.collect();
        let movements = movements::movements(piece, &moments);
        for &first in &movements {
            moments[first].damped = true;
        }
        Self { moments, movements }
    }
}

/// Whether nothing before in the same playing stands at the same place: marks hold from there.
fn first_at(places: &[Place], index: usize) -> bool {
    let place = &places[index];
    let same = |other: &Place| (other.turn, other.offset) == (place.turn, place.offset);
    index
        .checked_sub(1)
        .is_none_or(|before| !same(&places[before]))
}

/// Every place of playing in time, grace notes before their main note's.
fn places(piece: &Piece, order: &[Played], written: &[score::Moment]) -> Vec<Place> {
    let beats = Beats::of(piece);
    let mut places = Vec::new();
    let mut next = 0;
    let (mut start, mut start_s) = (Fraction::ZERO, 0.0);
    let mut lead_s = None;
    for (turn, &Played { measure, pass }) in order.iter().enumerate() {
        let Some(bar) = piece.measures.get(measure) else {
            continue;
        };
        let seconds = |offset| start_s + piece.tempos.seconds(measure, offset);
        let mut here: Vec<(Fraction, Option<usize>)> = Vec::new();
        // a measure is played through before the next: its moments stand together
        while written.get(next).is_some_and(|moment| {
            (moment.measure, moment.pass) == (measure, pass)
                && moment.at.minus(start) == Some(moment.offset)
        }) {
            here.push((written[next].offset, Some(next)));
            next += 1;
        }
        let lead_s = *lead_s.get_or_insert_with(|| lead(written, &seconds, &here));
        let asked = beats.of_measure(measure).into_iter();
        let asked = asked
            .chain(marked(piece, measure))
            .chain(rests::ends(piece, measure));
        let taken: BTreeSet<Fraction> = here.iter().map(|(offset, _)| *offset).collect();
        let free: BTreeSet<Fraction> = asked
            .filter(|offset| *offset < bar.length && !taken.contains(offset))
            .collect();
        here.extend(free.into_iter().map(|offset| (offset, None)));
        here.sort_by_key(|&(offset, at)| (offset, at));
        for (offset, at) in here {
            let at_s = at.map_or_else(|| seconds(offset) + lead_s, |at| written[at].at_s);
            places.push(Place {
                turn,
                measure,
                pass,
                offset,
                at: start.plus(offset).unwrap_or(start),
                at_us: (at_s * 1e6).round() as u64,
                written: at,
                grace: at.is_some_and(|at| written[at].grace.is_some()),
            });
        }
        start = start.plus(bar.length).unwrap_or(start);
        start_s += piece.tempos.seconds(measure, bar.length);
    }
    without_overtaken(places)
}

/// Seconds by which all is later, as the piece begins with grace notes.
fn lead(
    written: &[score::Moment],
    seconds: &impl Fn(Fraction) -> f64,
    here: &[(Fraction, Option<usize>)],
) -> f64 {
    let main = here.iter().filter_map(|&(offset, at)| Some((offset, at?)));
    let mut main = main.filter(|&(_, at)| written[at].grace.is_none());
    main.next()
        .map_or(0.0, |(offset, at)| written[at].at_s - seconds(offset))
}

/// A place of feet that grace notes reach back over is none, so that time never runs backwards.
fn without_overtaken(places: Vec<Place>) -> Vec<Place> {
    let mut kept = Vec::with_capacity(places.len());
    let mut least_us = u64::MAX;
    for place in places.into_iter().rev() {
        if place.written.is_none() && place.at_us >= least_us {
            continue;
        }
        least_us = least_us.min(place.at_us);
        kept.push(Place {
            at_us: least_us,
            ..place
        });
    }
    kept.reverse();
    kept
}

/// Places of marks in a measure.
fn marked(piece: &Piece, measure: usize) -> impl Iterator<Item = Fraction> + '_ {
    let from = piece.marks.partition_point(|mark| mark.measure < measure);
    let within = piece.marks[from..].iter();
    let within = within.take_while(move |mark| mark.measure == measure);
    let matters = within.filter(|mark| letters(&mark.kind).is_some() || is_damp(&mark.kind));
    matters.map(|mark| mark.offset)
}

fn letters(kind: &MarkKind) -> Option<Letters> {
    match kind {
        MarkKind::Diagram(letters) | MarkKind::PedalWords { letters, .. } => Some(*letters),
        _ => None,
    }
}

fn is_damp(kind: &MarkKind) -> bool {
    matches!(kind, MarkKind::Damp | MarkKind::DampAll)
}

fn marks(piece: &Piece, place: &Place) -> Setting {
    let there = marks_at(piece, place).filter_map(letters);
    setting_of(there.fold(Letters::default(), |all, letters| letters.or(all)))
}

fn is_damped(piece: &Piece, place: &Place) -> bool {
    marks_at(piece, place).any(is_damp)
}

fn marks_at<'a>(piece: &'a Piece, place: &Place) -> impl Iterator<Item = &'a MarkKind> {
    let (measure, offset) = (place.measure, place.offset);
    let from = piece
        .marks
        .partition_point(|mark| (mark.measure, mark.offset) < (measure, offset));
    let there = piece.marks[from..].iter();
    let there = there.take_while(move |mark| (mark.measure, mark.offset) == (measure, offset));
    there.map(|mark| &mark.kind)
}

fn strength(beats: &Beats, place: &Place) -> Strength {
    if place.grace {
        Strength::Off
    } else {
        beats.strength(place.measure, place.offset)
    }
}

fn attacks(piece: &Piece, notes: &[usize]) -> Vec<Attack> {
    let notes = notes.iter().filter_map(|&note| piece.notes.get(note));
    let plucked = notes.filter(|note| note.is_attack());
    let attacks = plucked.map(|note| Attack {
        pitch: note.string,
        rings_us: if note.etouffe { 0 } else { u64::MAX },
        hand: match note.hand {
            score::Hand::Right => Some(Hand::Right),
            score::Hand::Left => Some(Hand::Left),
            score::Hand::Unsaid => None,
        },
    });
    attacks.collect()
}

fn setting_of(letters: Letters) -> Setting {
    let known = letters.known();
    known.fold(Setting::default(), |setting, (letter, alteration)| {
        setting.with(letter, alteration)
    })
}

pub(crate) fn quarters(fraction: Fraction) -> Quarters {
    Quarters::new(fraction.numerator(), fraction.denominator())
}
