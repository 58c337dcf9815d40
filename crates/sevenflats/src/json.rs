//! What programs read: one JSON object a line. Field names carry their unit at the end.

use harp::StringName;
use serde::Serialize;
use tuning::{Heard, Reading, Refused, Warning};

/// One line of `sevenflats hear --json`.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub enum Line {
    /// A pluck that was measured.
    Reading(ReadingLine),
    /// A pluck that could not be measured.
    Refused(RefusedLine),
    /// Something to know beside the readings.
    Warning(WarningLine),
    /// The last line.
    Summary(SummaryLine),
}

/// A line, and which of several files it is about: nothing is added where there is only one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FileLine<'a> {
    /// The line.
    #[serde(flatten)]
    pub line: &'a Line,
    /// The file's name as it was given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub file: Option<&'a str>,
}

/// A measured pluck.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(
    missing_docs,
    reason = "the fields are those of tuning::Reading, where they are told"
)]
pub struct ReadingLine {
    #[serde(rename = "final")]
    pub last: bool,
    pub at_s: f64,
    pub string: Option<String>,
    pub candidates: Vec<String>,
    pub position: Option<&'static str>,
    pub target_hz: f64,
    pub heard_hz: f64,
    pub off_cents: f64,
    pub u95_cents: f64,
    pub shows_as: String,
    pub shows_off_cents: f64,
    pub f1_hz: f64,
    pub f1_u95_cents: f64,
    pub f0_hz: f64,
    pub b: f64,
    pub glide_cents: f64,
    pub partials: Vec<PartialLine>,
    pub listened_s: f64,
    pub string_certainty: f64,
}

/// A partial as measured by itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(
    missing_docs,
    reason = "the fields are those of tuning::Partial, where they are told"
)]
pub struct PartialLine {
    pub n: u32,
    pub hz: f64,
    pub u95_cents: f64,
}

/// A refused pluck.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(
    missing_docs,
    reason = "the fields are those of tuning::Refused, where they are told"
)]
pub struct RefusedLine {
    pub at_s: f64,
    pub string: Option<String>,
    pub reason: &'static str,
    pub detail: String,
}

/// A warning, about the sound or about the harp.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(
    missing_docs,
    reason = "the fields are those of tuning::Warning, where they are told"
)]
pub struct WarningLine {
    pub at_s: f64,
    pub string: Option<String>,
    pub warning: String,
    pub detail: String,
}

/// The last line: everything heard, over all files.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SummaryLine {
    /// Plucks heard: each has one final reading or one refusal.
    pub plucks: usize,
    /// Final readings.
    pub readings: usize,
    /// Refusals.
    pub refused: usize,
    /// The strings that were read, from the bass to the treble, each once.
    pub strings: Vec<String>,
}

impl From<&Heard> for Line {
    fn from(heard: &Heard) -> Line {
        match heard {
            Heard::Reading(reading) => Line::Reading(reading.into()),
            Heard::Refused(refused) => Line::Refused(refused.into()),
            Heard::Warning(warning) => Line::Warning(warning.into()),
        }
    }
}

impl From<&Reading> for ReadingLine {
    fn from(reading: &Reading) -> ReadingLine {
        let partial = |partial: &tuning::Partial| PartialLine {
            n: partial.n,
            hz: partial.hz,
            u95_cents: partial.u95_cents,
        };
        ReadingLine {
            last: reading.last,
            at_s: reading.at_s,
            string: name(reading.string),
            candidates: reading
                .candidates
                .iter()
                .map(StringName::to_string)
                .collect(),
            position: reading.position.map(pitch::Alteration::as_str),
            target_hz: reading.target_hz,
            heard_hz: reading.heard_hz,
            off_cents: reading.off_cents,
            u95_cents: reading.u95_cents,
            shows_as: reading.shows_as.clone(),
            shows_off_cents: reading.shows_off_cents,
            f1_hz: reading.f1_hz,
            f1_u95_cents: reading.f1_u95_cents,
            f0_hz: reading.f0_hz,
            b: reading.b,
            glide_cents: reading.glide_cents,
            partials: reading.partials.iter().map(partial).collect(),
            listened_s: reading.listened_s,
            string_certainty: reading.string_certainty,
        }
    }
}

impl From<&Refused> for RefusedLine {
    fn from(refused: &Refused) -> RefusedLine {
        RefusedLine {
            at_s: refused.at_s,
            string: name(refused.string),
            reason: refused.reason.as_str(),
            detail: refused.detail.clone(),
        }
    }
}

impl From<&Warning> for WarningLine {
    fn from(warning: &Warning) -> WarningLine {
        WarningLine {
            at_s: warning.at_s,
            string: name(warning.string),
            warning: warning.warning.as_str().to_owned(),
            detail: warning.detail.clone(),
        }
    }
}

fn name(string: Option<StringName>) -> Option<String> {
    string.map(|string| string.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::example;

    fn check(line: &Line, expected: &str) {
        let alone = FileLine { line, file: None };
        assert_eq!(serde_json::to_string(&alone).unwrap(), expected);
        let file = Some("a \"b\".wav");
        let told = serde_json::to_string(&FileLine { line, file }).unwrap();
        let start = expected.trim_end_matches('}');
        assert_eq!(told, format!(r#"{start},"file":"a \"b\".wav"}}"#));
    }

    #[test]
    fn a_reading_has_these_fields_in_this_order() {
        let mut reading = example::reading("G3", 0.0, 0.5, None);
        reading.string = None;
        reading.target_hz = 185.0;
        reading.heard_hz = 185.0;
        reading.f1_hz = 185.0;
        reading.f0_hz = 184.75;
        reading.partials = vec![tuning::Partial {
            n: 1,
            hz: 185.0,
            u95_cents: 0.25,
        }];
        check(
            &Line::from(&Heard::Reading(reading)),
            r##"{"kind":"reading","final":true,"at_s":0.1,"string":null,"candidates":["G3"],"position":"flat","target_hz":185.0,"heard_hz":185.0,"off_cents":0.0,"u95_cents":0.5,"shows_as":"F#3","shows_off_cents":0.0,"f1_hz":185.0,"f1_u95_cents":0.5,"f0_hz":184.75,"b":0.00023,"glide_cents":0.4,"partials":[{"n":1,"hz":185.0,"u95_cents":0.25}],"listened_s":0.6,"string_certainty":0.99}"##,
        );
    }

    #[test]
    fn a_refusal_and_a_warning_have_these_fields_in_this_order() {
        check(
            &Line::from(&Heard::Refused(Refused {
                at_s: 1.5,
                string: None,
                reason: tuning::Reason::TooShort,
                detail: "0.04 s".to_owned(),
            })),
            r#"{"kind":"refused","at_s":1.5,"string":null,"reason":"too short","detail":"0.04 s"}"#,
        );
        check(
            &Line::from(&Heard::Warning(Warning {
                at_s: 2.0,
                string: "C4".parse().ok(),
                warning: tuning::WarningKind::Clipped,
                detail: "3 times".to_owned(),
            })),
            r#"{"kind":"warning","at_s":2.0,"string":"C4","warning":"clipped","detail":"3 times"}"#,
        );
    }

    #[test]
    fn the_summary_has_these_fields_in_this_order() {
        let strings = vec!["C1".to_owned()];
        check(
            &Line::Summary(SummaryLine {
                plucks: 3,
                readings: 2,
                refused: 1,
                strings,
            }),
            r#"{"kind":"summary","plucks":3,"readings":2,"refused":1,"strings":["C1"]}"#,
        );
    }
}
