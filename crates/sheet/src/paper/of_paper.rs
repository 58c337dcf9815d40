//! A sheet made of a part on paper: what she pencilled, engraved.

use pedals::{PaperBar, PaperChange, PaperMovement, PaperPart, Standing};

use super::of_plan::Head;
use crate::{
    BarChanges, BeatChanges, KeyedString, Landmark, MovementSheet, Pencilled, PieceSheet,
    PrintedBar, Remark, RemarkKind,
};

impl PieceSheet {
    /// The sheet of a part on paper. Where a mark stands, so does the setting for its first notes.
    ///
    /// ```
    /// let part = pedals::PaperPart::read("opening Bb Eb\n12 F# | B\n17 [A] F").part;
    /// let sheet = sheet::PieceSheet::of_paper(&part, sheet::Head::default());
    /// assert_eq!((sheet.movements[0].bars.len(), sheet.movements[0].landmarks.len()), (2, 1));
    /// ```
    pub fn of_paper(part: &PaperPart, head: Head) -> Self {
        let standing = part.standing();
        let movements = part.movements.iter().enumerate().map(|(at, movement)| {
            let places: Vec<&Standing<'_>> = standing
                .iter()
                .filter(|standing| standing.movement == at)
                .collect();
            MovementSheet {
                name: name(movement, at, part.movements.len()),
                by_key: movement.by_key.iter().map(keyed).collect(),
                opening: part.opening(at),
                levers: None,
                landmarks: landmarks(&places),
                bars: bars(&places),
            }
        });
        Self {
            title: head.title.unwrap_or_default(),
            composer: head.composer.unwrap_or_default(),
            harp: head.harp,
            reference: head.reference,
            movements: movements.collect(),
            remarks: remarks(part, &standing),
            before: head.before,
        }
    }
}

fn name(movement: &PaperMovement, at: usize, of: usize) -> String {
    if movement.name.is_empty() && of > 1 {
        (at + 1).to_string()
    } else {
        movement.name.clone()
    }
}

fn keyed(&(string, pitch): &(harp::StringName, pitch::SpelledPitch)) -> KeyedString {
    KeyedString {
        string,
        pitch,
        in_rest: None,
    }
}

fn printed(standing: &Standing<'_>) -> PrintedBar {
    let label = match &standing.place.bar {
        PaperBar::Mark(_, 0) => String::new(),
        PaperBar::Mark(mark, bars) => format!("{mark} + {bars}"),
        number => number.to_string(),
    };
    PrintedBar {
        order: standing.order,
        label,
    }
}

fn landmarks(places: &[&Standing<'_>]) -> Vec<Landmark> {
    let mut landmarks: Vec<Landmark> = Vec::new();
    for standing in places {
        let Some(mark) = standing.place.landmark() else {
            continue;
        };
        let bar = printed(standing);
        if landmarks.iter().any(|other| other.bar == bar) {
            continue;
        }
        // a change on a later beat is not there yet
        let at_once = standing
            .place
            .beat
            .is_none_or(|beat| beat <= pedals::Quarters::new(1, 1));
        let setting = if at_once {
            standing.after
        } else {
            standing.before
        };
        landmarks.push(Landmark {
            bar,
            mark: mark.to_owned(),
            times: Vec::new(),
            setting,
        });
    }
    landmarks
}

fn bars(places: &[&Standing<'_>]) -> Vec<BarChanges> {
    let mut bars: Vec<BarChanges> = Vec::new();
    for standing in places {
        let place = standing.place;
        if place.changes().next().is_none() {
            continue;
        }
        let bar = printed(standing);
        let beat = BeatChanges {
            beat: place
                .beat
                .map(|beat| pedals::counted_in(beat, 4))
                .unwrap_or_default(),
            right: place.right.iter().map(pencilled).collect(),
            left: place.left.iter().map(pencilled).collect(),
        };
        match bars.last_mut() {
            Some(last) if last.bar == bar => last.beats.push(beat),
            _ => bars.push(BarChanges {
                bar,
                beats: vec![beat],
            }),
        }
    }
    bars
}

fn pencilled(change: &PaperChange) -> Pencilled {
    Pencilled {
        letter: change.letter,
        to: change.to,
        string: None,
        only: Vec::new(),
    }
}

fn remarks(part: &PaperPart, standing: &[Standing<'_>]) -> Vec<Remark> {
    let mut exposed = Vec::new();
    for movement in &part.movements {
        let new = movement
            .exposed
            .iter()
            .filter(|string| !exposed.contains(*string));
        let new: Vec<harp::StringName> = new.copied().collect();
        exposed.extend(new);
    }
    exposed.sort_unstable();
    let mut remarks = Vec::new();
    if !exposed.is_empty() {
        remarks.push(Remark {
            bar: None,
            beat: String::new(),
            what: RemarkKind::Exposed(exposed),
        });
    }
    for standing in standing
        .iter()
        .filter(|standing| !standing.place.note.is_empty())
    {
        let mut bar = printed(standing);
        if let PaperBar::Mark(..) = &standing.place.bar {
            bar.label = standing.place.bar.to_string();
        }
        remarks.push(Remark {
            bar: Some(bar),
            beat: standing
                .place
                .beat
                .map(|beat| pedals::counted_in(beat, 4))
                .unwrap_or_default(),
            what: RemarkKind::Caution(standing.place.note.clone()),
        });
    }
    remarks
}
