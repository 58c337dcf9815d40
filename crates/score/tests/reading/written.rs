//! Scores written for a test: MusicXML around the measures' own text.

use score::{Note, Options, Piece, read};

/// A score of one part, a text a measure.
pub(crate) fn score(measures: &[&str]) -> String {
    parts(&[("P1", "Harp", measures)])
}

/// A score of several parts: id, name, measures.
pub(crate) fn parts(parts: &[(&str, &str, &[&str])]) -> String {
    let list: String = parts
        .iter()
        .map(|(id, name, _)| {
            format!("<score-part id=\"{id}\"><part-name>{name}</part-name></score-part>")
        })
        .collect();
    let music: String = parts
        .iter()
        .map(|(id, _, measures)| {
            let measures = measures.iter().enumerate().map(|(place, inside)| {
                format!("<measure number=\"{}\">{inside}</measure>", place + 1)
            });
            format!("<part id=\"{id}\">{}</part>", measures.collect::<String>())
        })
        .collect();
    format!(
        "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list>{list}</part-list>{music}</score-partwise>"
    )
}

/// A note of so many divisions: its pitch in file form (`Cb4`), and whatever else is in it.
pub(crate) fn note(pitch: &str, duration: u32, more: &str) -> String {
    let chord = if more.contains("<chord/>") {
        "<chord/>"
    } else {
        ""
    };
    let rest = more.replace("<chord/>", "");
    format!(
        "<note>{chord}{}<duration>{duration}</duration>{rest}</note>",
        pitch_of(pitch)
    )
}

/// A grace note.
pub(crate) fn grace(pitch: &str, more: &str) -> String {
    format!("<note><grace/>{more}{}</note>", pitch_of(pitch))
}

/// A rest.
pub(crate) fn rest(duration: u32) -> String {
    format!("<note><rest/><duration>{duration}</duration></note>")
}

/// A direction around its types.
pub(crate) fn direction(types: &str) -> String {
    format!("<direction><direction-type>{types}</direction-type></direction>")
}

/// `<attributes>` with divisions and 4/4.
pub(crate) fn divisions(divisions: u32) -> String {
    format!(
        "<attributes><divisions>{divisions}</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>"
    )
}

fn pitch_of(pitch: &str) -> String {
    let pitch: pitch::SpelledPitch = pitch.parse().unwrap();
    let alter = match pitch.alter {
        0 => String::new(),
        alter => format!("<alter>{alter}</alter>"),
    };
    format!(
        "<pitch><step>{}</step>{alter}<octave>{}</octave></pitch>",
        pitch.letter, pitch.octave
    )
}

/// Reads a text with the usual options.
#[track_caller]
pub(crate) fn piece(text: &str) -> Piece {
    read(text.as_bytes(), &Options::default()).unwrap()
}

/// What sounds, with measure and offset: `Cb4@1:0 E4@1:3/2`.
pub(crate) fn sounds(piece: &Piece) -> String {
    let told = |note: &Note| {
        let measure = note.measure + 1;
        let name = note.sounding.to_string().replace('n', "");
        format!("{name}@{measure}:{}", note.offset)
    };
    piece.notes.iter().map(told).collect::<Vec<_>>().join(" ")
}

/// The playing order, measures counted from 1.
pub(crate) fn order(piece: &Piece) -> String {
    let measures = piece
        .order
        .iter()
        .map(|played| (played.measure + 1).to_string());
    measures.collect::<Vec<_>>().join(" ")
}

/// All diagnostics as one text, a line each.
pub(crate) fn doubts(piece: &Piece) -> String {
    let told = piece.diagnostics.iter().map(ToString::to_string);
    told.collect::<Vec<_>>().join("\n")
}
