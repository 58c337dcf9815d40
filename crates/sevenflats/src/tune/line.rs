//! What programs read of a round: one JSON object a line, and a last one that sums it up.

use serde::Serialize;
use tuning::Heard;
use tuning::round::{Say, State, Summary, Warned, Warning};

use super::say_line::{SayLine, names, say_line, way_word};
use crate::json::Line;

/// One line of `sevenflats tune --json`.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum TuneLine {
    /// What was heard, as in `sevenflats hear`.
    Heard(Line),
    /// Everything else.
    Round(RoundLine),
}

/// What belongs to the round.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub enum RoundLine {
    /// Where a ringing string is while its pin is turned; never kept.
    Moving(MovingLine),
    /// Something said.
    Say(SayLine),
    /// Something that may be wrong.
    Warning(WarningLine),
    /// The last line.
    Summary(SummaryLine),
}

/// A string followed live. Cents are above its target, the interval is half of one of 95 %.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(
    missing_docs,
    reason = "the fields are those of tuning::round::Say::Moving"
)]
pub struct MovingLine {
    pub at_s: f64,
    pub string: String,
    pub off_cents: f64,
    pub u95_cents: f64,
    pub way: &'static str,
}

/// A warning of the round, or one of the sound.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the fields are those of tuning::round::Warned")]
pub struct WarningLine {
    pub at_s: f64,
    pub string: Option<String>,
    pub warning: String,
    pub detail: String,
}

/// The round in figures.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SummaryLine {
    /// Every string of the harp, from the bass.
    pub strings: Vec<SummedLine>,
    /// Minutes of the round, pauses left out.
    pub minutes: f64,
    /// Strings to be heard again.
    pub again: Vec<String>,
    /// Every warning, in order.
    pub warnings: Vec<WarningLine>,
}

/// One string: how far above its target it was found and left.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(missing_docs, reason = "the fields are those of tuning::round::Summed")]
pub struct SummedLine {
    pub string: String,
    pub before_cents: Option<f64>,
    pub after_cents: Option<f64>,
    pub u95_cents: Option<f64>,
    pub plucks: usize,
    pub state: &'static str,
}

impl TuneLine {
    /// What was heard: readings and refusals. What the sound itself lacks is told by the round.
    pub fn heard(heard: &Heard) -> Option<TuneLine> {
        match heard {
            Heard::Warning(_) => None,
            other => Some(TuneLine::Heard(Line::from(other))),
        }
    }

    /// Something that the round said at `at_s`, with its sentence.
    pub fn said(at_s: f64, say: &Say, words: String) -> TuneLine {
        TuneLine::Round(match say {
            Say::Moving {
                string,
                off_cents,
                u95_cents,
                way,
            } => RoundLine::Moving(MovingLine {
                at_s,
                string: string.to_string(),
                off_cents: *off_cents,
                u95_cents: *u95_cents,
                way: way_word(*way),
            }),
            Say::Warning(warning) => RoundLine::Warning(warned(at_s, warning, words)),
            Say::Sound(kind) => RoundLine::Warning(WarningLine {
                at_s,
                string: None,
                warning: kind.as_str().to_owned(),
                detail: words,
            }),
            other => RoundLine::Say(say_line(at_s, other, words)),
        })
    }

    /// Something about the sound as a whole.
    pub fn sound(at_s: f64, warning: &str, detail: &str) -> TuneLine {
        TuneLine::Round(RoundLine::Warning(WarningLine {
            at_s,
            string: None,
            warning: warning.to_owned(),
            detail: detail.to_owned(),
        }))
    }

    /// The last line.
    pub fn summary(summary: &Summary, words: impl Fn(&Warned) -> String) -> TuneLine {
        let strings = summary.strings.iter().map(|s| SummedLine {
            string: s.string.to_string(),
            before_cents: s.before.map(|k| k.off_cents),
            after_cents: s.after.map(|k| k.off_cents),
            u95_cents: s.after.map(|k| k.u95_cents),
            plucks: s.plucks,
            state: State::as_str(s.state),
        });
        let warnings = summary.warnings.iter();
        let warnings = warnings.map(|w| warned(w.at_s, &w.warning, words(w)));
        TuneLine::Round(RoundLine::Summary(SummaryLine {
            strings: strings.collect(),
            minutes: summary.minutes,
            again: names(&summary.again),
            warnings: warnings.collect(),
        }))
    }
}

fn warned(at_s: f64, warning: &Warning, detail: String) -> WarningLine {
    let string = match warning {
        Warning::PedalUp { .. } | Warning::Reference { .. } => None,
        Warning::LeverOff { string }
        | Warning::FoundHigh { string, .. }
        | Warning::KeyElsewhere { string, .. }
        | Warning::OverPull { string, .. } => Some(*string),
        Warning::OctaveHigh { expected, .. } => Some(*expected),
        Warning::AnotherMoves { moving, .. } => Some(*moving),
    };
    WarningLine {
        at_s,
        string: string.map(|s| s.to_string()),
        warning: warning.as_str().to_owned(),
        detail,
    }
}
