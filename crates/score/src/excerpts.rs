//! A score cut into excerpts that an engraver can set one by one.

use std::ops::Range;

use crate::musicxml::CutPart;
use crate::read::musicxml_text;
use crate::{NewMark, NewMarkKind, Piece, ScoreError, musicxml};

/// Stands before and after the place of a mark in its words, so that it is found again in what the engraver draws: a
/// sign that nobody sees (U+2063, invisible separator).
pub const FINDER: char = '\u{2063}';

/// A MusicXML score, ready to be cut: of the parts that were read, any measures, as a small score by themselves.
///
/// Clefs, keys and what else holds from measure to measure stand at the beginning of every excerpt. A measure that cannot
/// be read is a rest there. Measures bear the name `bar-` and their place from 1; a pencilled mark is ringed, and its
/// words begin with its place among the marks between two [`FINDER`]s.
///
/// ```
/// let text = "<score-partwise><part id='P1'><measure number='1'><attributes><divisions>1</divisions></attributes>\
///     <note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration></note></measure>\
///     <measure number='2'><note><rest/><duration>1</duration></note></measure></part></score-partwise>";
/// let piece = score::read(text.as_bytes(), &score::Options::default())?;
/// let excerpts = score::Excerpts::of(text.as_bytes(), &piece)?;
/// let second = excerpts.music(1..2);
/// assert!(second.contains("<divisions>1</divisions>") && second.contains("id=\"bar-2\""));
/// # Ok::<(), score::ScoreError>(())
/// ```
#[derive(Clone, Debug)]
pub struct Excerpts {
    text: String,
    parts: Vec<CutPart>,
    /// Which of the parts bears the marks.
    marked: Option<usize>,
    /// Printed number, and whether it counts, of each measure.
    numbers: Vec<(String, bool)>,
    insertions: Vec<(usize, String)>,
}

impl Excerpts {
    /// Of the source and what [`read`](crate::read()) made of it; not of MIDI.
    pub fn of(bytes: &[u8], piece: &Piece) -> Result<Self, ScoreError> {
        if crate::midi::is_midi(bytes) {
            return Err(ScoreError::NoMarksInMidi);
        }
        let text = musicxml_text(bytes)?;
        let parts = musicxml::cut(&text, piece)?;
        let marked = piece.marked_part();
        let marked = piece.chosen.iter().position(|&part| Some(part) == marked);
        let numbers = piece.measures.iter();
        Ok(Self {
            text,
            parts,
            marked,
            numbers: numbers.map(|m| (m.number.clone(), m.implicit)).collect(),
            insertions: Vec::new(),
        })
    }

    /// How many measures there are.
    pub fn measures(&self) -> usize {
        self.numbers.len()
    }

    /// Puts these marks in place of the ones before. Those in measures that cannot be read are left out.
    pub fn mark(&mut self, piece: &Piece, marks: &[NewMark]) -> Result<(), ScoreError> {
        let part = self.marked.and_then(|part| self.parts.get(part));
        let whole = |mark: &&(usize, NewMark)| part.is_some_and(|part| part.takes(mark.1.measure));
        let found = |(place, mark): (usize, &NewMark)| {
            let mut mark = mark.clone();
            if let NewMarkKind::Pencilled { words, .. } = &mut mark.kind {
                words.insert_str(0, &format!("{FINDER}{place}{FINDER}"));
            }
            (place, mark)
        };
        let marks: Vec<(usize, NewMark)> = marks.iter().enumerate().map(found).collect();
        let marks: Vec<NewMark> = marks.iter().filter(whole).map(|(_, m)| m.clone()).collect();
        self.insertions = musicxml::insertions(&self.text, piece, &marks)?;
        let (plain, ringed) = (
            format!("<words>{FINDER}"),
            format!("<words enclosure=\"oval\" font-style=\"italic\">{FINDER}"),
        );
        for (_, text) in &mut self.insertions {
            *text = text.replace(&plain, &ringed);
        }
        Ok(())
    }

    /// These measures, counted from 0, as a MusicXML score.
    pub fn music(&self, measures: Range<usize>) -> String {
        let measures = measures.start.min(self.measures())..measures.end.min(self.measures());
        let mut music = String::from(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<score-partwise version=\"4.0\" xmlns:xlink=\"http://www.w3.org/1999/xlink\"><part-list>",
        );
        for part in 0..self.parts.len() {
            music.push_str(&format!(
                "<score-part id=\"part-{part}\"><part-name print-object=\"no\"/></score-part>"
            ));
        }
        music.push_str("</part-list>");
        for (place, part) in self.parts.iter().enumerate() {
            music.push_str(&format!("<part id=\"part-{place}\">"));
            let marks = if self.marked == Some(place) {
                self.insertions.as_slice()
            } else {
                &[]
            };
            for measure in measures.clone() {
                let name = if place == 0 {
                    format!(" id=\"bar-{}\"", measure + 1)
                } else {
                    String::new()
                };
                music.push_str(&self.opened(measure, &name));
                let first = measure == measures.start;
                part.write(&self.text, measure, first, marks, &mut music);
                music.push_str("</measure>");
            }
            music.push_str("</part>");
        }
        music.push_str("</score-partwise>");
        music
    }

    fn opened(&self, measure: usize, name: &str) -> String {
        let (number, implicit) = &self.numbers[measure];
        let number = number
            .replace('&', "&amp;")
            .replace('<', "&lt;")
            .replace('"', "&quot;");
        let implicit = if *implicit { " implicit=\"yes\"" } else { "" };
        format!("<measure{name} number=\"{number}\"{implicit}>")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Fraction, Options, read};

    const NOTE: &str = "<note><pitch><step>F</step><alter>1</alter><octave>4</octave></pitch><duration>2</duration></note>";

    fn cut(source: &str) -> (Piece, Excerpts) {
        let piece = read(source.as_bytes(), &Options::default()).unwrap();
        let excerpts = Excerpts::of(source.as_bytes(), &piece).unwrap();
        (piece, excerpts)
    }

    fn source() -> String {
        format!(
            "<score-partwise><part-list><score-part id='V'><part-name>Voice</part-name></score-part><score-part id='H'><part-name>Harp</part-name></score-part></part-list><part id='V'><measure number='1'>{NOTE}</measure></part><part id='H'>\
            <measure number='0' implicit='yes'><attributes><divisions>2</divisions><key><fifths>1</fifths></key><time><beats>1</beats><beat-type>4</beat-type></time><clef><sign>G</sign></clef></attributes>{NOTE}</measure>\
            <measure number='1'><attributes><clef><sign>F</sign></clef></attributes>{NOTE}</measure>\
            <measure number='2'><note><oops></measure>\
            <measure number='3'>{NOTE}</measure></part></score-partwise>"
        )
    }

    /// An excerpt is a score that reads as the whole does.
    #[test]
    fn an_excerpt_reads_as_the_whole_does() {
        let (whole, excerpts) = cut(&source());
        assert_eq!(excerpts.measures(), 4);
        let (part, _) = cut(&excerpts.music(1..4));
        assert_eq!(part.parts.len(), 1);
        let pitches = |piece: &Piece, from: u32| -> Vec<_> {
            let notes = piece.notes.iter();
            let notes = notes.filter(|note| piece.measures[note.measure].index >= from);
            notes.map(|note| (note.sounding, note.duration)).collect()
        };
        assert_eq!(pitches(&part, 1), pitches(&whole, 2));
        assert_eq!(part.measures[0].key, whole.measures[1].key);
        assert_eq!(part.measures[0].number, "1");
    }

    #[test]
    fn what_holds_stands_once_at_the_beginning() {
        let (_, excerpts) = cut(&source());
        let check = |measures: Range<usize>, has: &str, times: usize| {
            let music = excerpts.music(measures);
            assert_eq!(music.matches(has).count(), times, "{has} in {music}");
        };
        check(1..2, "<sign>F</sign>", 1);
        check(1..2, "<sign>G</sign>", 0);
        check(3..4, "<sign>F</sign>", 1);
        check(0..2, "<sign>", 2);
        check(3..4, "<time print-object=\"no\">", 1);
        check(0..1, "<time>", 1);
        check(0..4, "id=\"bar-3\" number=\"2\"", 1);
        check(2..3, "<rest measure=\"yes\"/>", 1);
    }

    #[test]
    fn marks_are_ringed_and_found_again() {
        let (piece, mut excerpts) = cut(&source());
        let mark = |measure, words: &str| {
            let words = words.to_owned();
            let addition = None;
            let kind = NewMarkKind::Pencilled { words, addition };
            NewMark::between_staves(&piece, measure, Fraction::ZERO, kind)
        };
        let marks = [mark(1, "F♯"), mark(2, "G♯"), mark(3, "A♭")];
        excerpts.mark(&piece, &marks).unwrap();
        let music = excerpts.music(0..4);
        let ringed = |words: &str| {
            format!("<words enclosure=\"oval\" font-style=\"italic\">{words}</words>")
        };
        assert!(music.contains(&ringed("\u{2063}0\u{2063}F♯")), "{music}");
        assert!(music.contains(&ringed("\u{2063}2\u{2063}A♭")));
        assert!(!music.contains("G♯"), "that bar cannot be read");
        assert!(!excerpts.music(0..1).contains("F♯"));
    }
}
