//! A mark that is to be written into a score.

use pitch::{Alteration, Letter};

use crate::{Fraction, Letters, Piece};

/// The order of the pedals in a diagram, from the left (MusicXML 4.0, `<harp-pedals>`).
const DIAGRAM: [Letter; 7] = [
    Letter::D,
    Letter::C,
    Letter::B,
    Letter::E,
    Letter::F,
    Letter::G,
    Letter::A,
];

/// A mark and its written place.
#[derive(Clone, Debug, PartialEq)]
pub struct NewMark {
    /// Index in [`Piece::measures`].
    pub measure: usize,
    /// Quarters from the beginning of the measure, not negative.
    pub offset: Fraction,
    /// What is written.
    pub kind: NewMarkKind,
    /// Above or below its staff, where the source is to say.
    pub placement: Option<Placement>,
    /// The staff in its part, from 1, where the source is to say.
    pub staff: Option<u32>,
}

/// What is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NewMarkKind {
    /// A diagram of the letters that are known, `<harp-pedals>`. At the beginning of the piece it is
    /// the opening setting.
    Diagram(Letters),
    /// Words as a player pencils them in, `<words>`.
    Pencilled {
        /// Such as `F♯` or `F♯ B♭`.
        words: String,
        /// Such as `1st time`, put behind in brackets. With it [`read`](crate::read()) no longer takes
        /// the words for pedal letters: they do not hold at every playing.
        addition: Option<String>,
    },
}

/// On which side of its staff a mark stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Placement {
    /// Above.
    Above,
    /// Below.
    Below,
}

impl NewMark {
    /// A mark below the first staff: between the staves where the part that is marked has two.
    /// `measure` is an index in [`Piece::measures`]; `offset` counts quarters from its beginning.
    pub fn between_staves(
        piece: &Piece,
        measure: usize,
        offset: Fraction,
        kind: NewMarkKind,
    ) -> Self {
        let part = piece.marked_part().and_then(|part| piece.parts.get(part));
        Self {
            measure,
            offset,
            kind,
            placement: Some(Placement::Below),
            staff: part.filter(|part| part.staves > 1).map(|_| 1),
        }
    }

    /// Whether there is anything to write.
    pub(crate) fn is_empty(&self) -> bool {
        match &self.kind {
            NewMarkKind::Diagram(letters) => letters.known().next().is_none(),
            NewMarkKind::Pencilled { words, addition } => {
                words.trim().is_empty() && addition.is_none()
            }
        }
    }

    /// The mark as an element, `offset` divisions after its place; its parts in the order of the
    /// schema.
    pub(crate) fn element(&self, offset: Option<&str>) -> String {
        let placement = match self.placement {
            Some(Placement::Above) => " placement=\"above\"",
            Some(Placement::Below) => " placement=\"below\"",
            None => "",
        };
        let kind = match &self.kind {
            NewMarkKind::Diagram(letters) => diagram(letters),
            NewMarkKind::Pencilled { words, addition } => pencilled(words, addition.as_deref()),
        };
        let wrapped = |name: &str, inside: Option<String>| {
            inside.map_or(String::new(), |inside| format!("<{name}>{inside}</{name}>"))
        };
        let offset = wrapped("offset", offset.map(str::to_owned));
        let staff = wrapped("staff", self.staff.map(|staff| staff.to_string()));
        format!(
            "<direction{placement}><direction-type>{kind}</direction-type>{offset}{staff}</direction>"
        )
    }
}

fn diagram(letters: &Letters) -> String {
    let tunings = DIAGRAM.into_iter().filter_map(|letter| {
        let alter = match letters.get(letter)? {
            Alteration::Flat => -1,
            Alteration::Natural => 0,
            Alteration::Sharp => 1,
        };
        Some(format!(
            "<pedal-tuning><pedal-step>{letter}</pedal-step><pedal-alter>{alter}</pedal-alter></pedal-tuning>"
        ))
    });
    format!("<harp-pedals>{}</harp-pedals>", tunings.collect::<String>())
}

fn pencilled(words: &str, addition: Option<&str>) -> String {
    let words = match addition {
        Some(addition) => format!("{words} ({addition})"),
        None => words.to_owned(),
    };
    format!("<words>{}</words>", escaped(words.trim()))
}

/// Text as XML has it; signs that XML forbids are left out.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '\u{fffe}' | '\u{ffff}' => {}
            sign if sign.is_control() => escaped.push(' '),
            sign => escaped.push(sign),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_diagram_has_the_pedals_in_their_order_and_its_parts_in_the_schemas() {
        let natural = |letters: Letters, letter| letters.with(letter, Alteration::Natural);
        let letters = Letter::ALL.into_iter().fold(Letters::default(), natural);
        let mark = NewMark {
            measure: 0,
            offset: Fraction::ZERO,
            kind: NewMarkKind::Diagram(letters.with(Letter::F, Alteration::Sharp)),
            placement: Some(Placement::Below),
            staff: Some(1),
        };
        let text = mark.element(Some("1.5"));
        let steps = text.split("<pedal-step>").skip(1).map(|rest| &rest[..1]);
        assert_eq!(steps.collect::<String>(), "DCBEFGA");
        assert!(text.contains("<pedal-step>F</pedal-step><pedal-alter>1<"));
        assert!(
            text.ends_with("</direction-type><offset>1.5</offset><staff>1</staff></direction>")
        );
    }

    #[test]
    fn words_are_escaped() {
        assert_eq!(
            pencilled("a < b & c > d\u{1}\u{ffff}", Some("1st time")),
            "<words>a &lt; b &amp; c &gt; d  (1st time)</words>"
        );
    }
}
