//! Where the measures of a MusicXML text begin and end, found without reading what is in them:
//! so each can be read alone, one that is damaged costs no other, and memory stays small.

mod search;

use std::ops::Range;

use crate::ScoreError;

/// The measures of every part, as places in the text.
#[derive(Debug, Default)]
pub(crate) struct Skeleton {
    /// From the root's tag to the first part or measure.
    pub(crate) head: Range<usize>,
    /// Measures outside, parts inside (`score-timewise`).
    pub(crate) timewise: bool,
    /// The parts, in the order in which their music first comes.
    pub(crate) parts: Vec<PartText>,
    /// The text ends before the score does.
    pub(crate) breaks_off: bool,
    /// The text defines entities.
    pub(crate) entities: bool,
}

/// The measures of one part.
#[derive(Debug)]
pub(crate) struct PartText {
    /// Its id.
    pub(crate) id: String,
    /// Its measures; in a timewise score the n-th is that of the n-th measure, and may be empty.
    pub(crate) measures: Vec<MeasureText>,
}

/// One measure of one part.
#[derive(Clone, Debug, Default)]
pub(crate) struct MeasureText {
    /// The tag that has the measure's number.
    pub(crate) tag: Range<u32>,
    /// The whole element whose children are the music.
    pub(crate) music: Range<u32>,
    /// It has so many attributes, in one tag or in all, that it is not read.
    pub(crate) overloaded: bool,
}

/// Finds the measures of a text.
pub(crate) fn skeleton(text: &str) -> Result<Skeleton, ScoreError> {
    search::Search::new(text).run()
}

/// The value of an attribute in a tag's text, its five usual entities resolved.
pub(crate) fn attribute(tag: &str, name: &str) -> Option<String> {
    let mut rest = tag;
    loop {
        let at = rest.find(name)?;
        let before = rest[..at].chars().next_back();
        let after = rest[at + name.len()..].trim_start();
        rest = &rest[at + name.len()..];
        if !before.is_some_and(char::is_whitespace) {
            continue;
        }
        let Some(after) = after.strip_prefix('=') else {
            continue;
        };
        let after = after.trim_start();
        let quote = after.chars().next().filter(|c| matches!(c, '"' | '\''))?;
        let value = after[1..].split(quote).next()?;
        let resolved = value
            .replace("&lt;", "<")
            .replace("&gt;", ">")
            .replace("&quot;", "\"")
            .replace("&apos;", "'")
            .replace("&amp;", "&");
        return Some(resolved);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &[(&str, &[&str])]) {
        let found = skeleton(text).unwrap();
        let found: Vec<(&str, Vec<&str>)> = found
            .parts
            .iter()
            .map(|part| {
                let music = part.measures.iter();
                let music = music.map(|m| &text[m.music.start as usize..m.music.end as usize]);
                (part.id.as_str(), music.collect())
            })
            .collect();
        let expected: Vec<(&str, Vec<&str>)> =
            expected.iter().map(|(id, m)| (*id, m.to_vec())).collect();
        assert_eq!(found, expected, "{text}");
    }

    #[test]
    fn measures_are_found_part_by_part() {
        check(
            "<score-partwise><part-list/><part id='a'><measure number=\"1\">x</measure><measure/></part><part id='b'><measure><y/></measure></part></score-partwise>",
            &[
                ("a", &["<measure number=\"1\">x</measure>", "<measure/>"]),
                ("b", &["<measure><y/></measure>"]),
            ],
        );
    }

    #[test]
    fn a_timewise_score_gives_the_same_parts() {
        check(
            "<score-timewise><measure number='1'><part id='a'>1</part><part id='b'>2</part></measure><measure number='2'><part id='b'>3</part></measure></score-timewise>",
            &[
                ("a", &["<part id='a'>1</part>"]),
                ("b", &["<part id='b'>2</part>", "<part id='b'>3</part>"]),
            ],
        );
    }

    #[test]
    fn a_part_that_is_silent_at_first_keeps_its_place_in_a_timewise_score() {
        check(
            "<score-timewise><measure><part id='a'>1</part></measure><measure><part id='b'>3</part></measure></score-timewise>",
            &[
                ("a", &["<part id='a'>1</part>"]),
                ("b", &["", "<part id='b'>3</part>"]),
            ],
        );
    }

    #[test]
    fn what_only_looks_like_a_tag_is_passed_over() {
        check(
            "<!DOCTYPE score-partwise PUBLIC 'a>b' [<!ENTITY x '<measure>'>]><score-partwise><!-- <measure> --><part id='a'><measure a='>'><![CDATA[</measure>]]><?m </measure>?></measure></part></score-partwise>",
            &[(
                "a",
                &["<measure a='>'><![CDATA[</measure>]]><?m </measure>?></measure>"],
            )],
        );
    }

    #[test]
    fn a_measure_that_is_never_closed_ends_where_the_next_begins() {
        let text = "<score-partwise><part id='a'><measure><note><measure>2</measure><measure><no";
        check(
            text,
            &[(
                "a",
                &["<measure><note>", "<measure>2</measure>", "<measure><no"],
            )],
        );
        assert!(skeleton(text).unwrap().breaks_off);
    }

    #[test]
    fn attributes_are_read_whole() {
        let tag = "<measure implicit='yes' number=\"&lt;1'\" x-number='3'>";
        assert_eq!(attribute(tag, "number").as_deref(), Some("<1'"));
        assert_eq!(attribute(tag, "implicit").as_deref(), Some("yes"));
        assert_eq!(attribute(tag, "width"), None);
    }

    #[test]
    fn what_is_no_score_is_refused() {
        assert_eq!(skeleton("<html/>").unwrap_err(), ScoreError::NoScore);
        assert_eq!(
            skeleton("<score-partwise/>").unwrap_err(),
            ScoreError::NoMeasures
        );
    }
}
