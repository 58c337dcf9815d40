//! What a student's file says, in values that the page's words are put around.

use diary::AskedAbout;
use harp::{Harp, HarpString};
use keep::{EarWeek, Guesses, HarpProgress, HarpWeek, Middle, Questions, Share, WorstString};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use crate::shelf::BadLine;
use crate::shown::Voice;

/// Most strings that are told of.
const WORST: usize = 8;

/// What a file says of its student, or a diary of its reader.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StudentView {
    /// Records that were read, each once.
    pub records: usize,
    /// How many devices wrote them.
    pub devices: usize,
    /// Records of a newer version: counted, not understood.
    pub not_understood: usize,
    /// Their kinds.
    pub newer_kinds: Vec<String>,
    /// Records that claim the place of another and say something else: kept apart, not used.
    pub apart: usize,
    /// Lines that are no records.
    pub bad: usize,
    /// The first of them.
    pub troubles: Vec<BadLine>,
    /// The first and the last round or practice, RFC 3339, UTC.
    pub from_to: Option<(String, String)>,
    /// Each harp, by name; what was practised without one stands first.
    pub harps: Vec<HarpTold>,
    /// Harps that are not told of, for there are too many.
    pub more_harps: usize,
    /// Made strings, week by week, the latest first.
    pub ear: Vec<EarWeekTold>,
    /// Questions, by what they were about.
    pub questions: Vec<QuestionsTold>,
    /// By how many a second beats were counted wrong.
    pub counted: Option<MiddleTold>,
}

/// One harp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct HarpTold {
    /// Its name; none for practice without a harp.
    pub harp: Option<String>,
    /// `pedal`, `lever`, `free`, where its file is known.
    pub kind: Option<String>,
    /// How many strings it has, where its file is known.
    pub strings: Option<usize>,
    /// Its lowest and its highest string, as the reader names them.
    pub from_to: Option<(String, String)>,
    /// Its weeks, the latest first.
    pub weeks: Vec<WeekTold>,
    /// Strings that were found out of tune, the worst first.
    pub worst: Vec<WorstTold>,
    /// How many there are.
    pub worst_of: usize,
    /// Guesses of all weeks.
    pub guesses: GuessesTold,
}

/// A week with one harp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct WeekTold {
    /// Its Monday, `2026-11-23`.
    pub monday: String,
    /// Rounds that were begun.
    pub rounds: usize,
    /// Those of them that have no end.
    pub open_rounds: usize,
    /// Minutes of rounds.
    pub rounds_min: f64,
    /// Strings that whole rounds left in tune, of all of theirs.
    pub in_tune: Option<(usize, usize)>,
    /// Minutes of practice.
    pub practised_min: f64,
    /// Guesses.
    pub guesses: GuessesTold,
    /// How far off strings lay that were tuned by ear, cents.
    pub near_cents: Option<MiddleTold>,
}

/// Guesses, held against a measurement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct GuessesTold {
    /// It was so.
    pub right: usize,
    /// It was the other way.
    pub wrong: usize,
    /// Too near to be called either.
    pub too_near: usize,
    /// The share of the right ones.
    pub share: Option<ShareTold>,
}

/// A share.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ShareTold {
    /// So many.
    pub count: usize,
    /// Of so many.
    pub of: usize,
    /// Per cent.
    pub percent: f64,
    /// The ends of the 95 % interval, per cent.
    pub lower_percent: f64,
    /// The upper one.
    pub upper_percent: f64,
}

/// A median.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct MiddleTold {
    /// It.
    pub middle: f64,
    /// The ends of its 95 % interval; none where there are too few figures.
    pub interval: Option<(f64, f64)>,
    /// Of how many figures.
    pub of: usize,
}

/// A string that was found out of tune.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct WorstTold {
    /// The string, as the reader names it.
    pub string: String,
    /// How often it was out, of how many times that it was found.
    pub out: ShareTold,
    /// The median of how far off it was found, with its sign, cents.
    pub way_cents: f64,
    /// The median without the sign, cents.
    pub off_cents: f64,
    /// The farthest, with its sign, cents.
    pub farthest_cents: f64,
}

/// Made strings of a week.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EarWeekTold {
    /// Its Monday.
    pub monday: String,
    /// Answers.
    pub answers: usize,
    /// The threshold, cents.
    pub cents: f64,
    /// The lower end of its 95 % interval, cents.
    pub lower_cents: f64,
    /// The upper end, cents.
    pub upper_cents: f64,
}

/// Questions about one thing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct QuestionsTold {
    /// `tuner_name`, `pin`, `octave_number`, `diagram_read`, `diagram_set`.
    pub about: String,
    /// The right answers.
    pub right: ShareTold,
}

impl HarpTold {
    pub(super) fn of(own: HarpProgress, voice: Voice) -> HarpTold {
        let harp = own.toml.as_deref();
        let harp = harp.and_then(|toml| Harp::from_toml(toml).ok());
        let ends = harp.as_ref().and_then(|harp| {
            let strings = harp.strings();
            let name = |string: &HarpString| voice.string(string.name);
            Some((name(strings.first()?), name(strings.last()?)))
        });
        HarpTold {
            harp: own.harp,
            kind: harp.as_ref().map(|harp| harp.kind().as_str().to_owned()),
            strings: harp.as_ref().map(|harp| harp.strings().len()),
            from_to: ends,
            weeks: own.weeks.into_iter().rev().map(WeekTold::of).collect(),
            worst_of: own.worst.len(),
            worst: (own.worst.iter().take(WORST))
                .map(|one| WorstTold::of(one, voice))
                .collect(),
            guesses: GuessesTold::of(own.guesses),
        }
    }
}

impl WeekTold {
    pub(super) fn of(week: HarpWeek) -> WeekTold {
        WeekTold {
            monday: week.monday.to_string(),
            rounds: week.rounds,
            open_rounds: week.open_rounds,
            rounds_min: week.rounds_min,
            in_tune: week.in_tune,
            practised_min: week.practised_min,
            guesses: GuessesTold::of(week.guesses),
            near_cents: week.near_cents.map(MiddleTold::of),
        }
    }
}

impl GuessesTold {
    pub(super) fn of(guesses: Guesses) -> GuessesTold {
        GuessesTold {
            right: guesses.right,
            wrong: guesses.wrong,
            too_near: guesses.too_near,
            share: guesses.share().as_ref().map(ShareTold::of),
        }
    }
}

impl ShareTold {
    pub(super) fn of(share: &Share) -> ShareTold {
        ShareTold {
            count: share.count,
            of: share.of,
            percent: 100.0 * share.share(),
            lower_percent: 100.0 * share.lower,
            upper_percent: 100.0 * share.upper,
        }
    }
}

impl MiddleTold {
    pub(super) fn of(middle: Middle) -> MiddleTold {
        MiddleTold {
            middle: middle.middle,
            interval: middle.interval,
            of: middle.of,
        }
    }
}

impl WorstTold {
    pub(super) fn of(worst: &WorstString, voice: Voice) -> WorstTold {
        WorstTold {
            string: voice.string(worst.string),
            out: ShareTold::of(&worst.out),
            way_cents: worst.way_cents,
            off_cents: worst.off_cents.middle,
            farthest_cents: worst.farthest_cents,
        }
    }
}

impl EarWeekTold {
    pub(super) fn of(week: &EarWeek) -> EarWeekTold {
        EarWeekTold {
            monday: week.monday.to_string(),
            answers: week.answers,
            cents: week.threshold.cents,
            lower_cents: week.threshold.lower_cents,
            upper_cents: week.threshold.upper_cents,
        }
    }
}

fn about(about: AskedAbout) -> &'static str {
    match about {
        AskedAbout::TunerName => "tuner_name",
        AskedAbout::Pin => "pin",
        AskedAbout::OctaveNumber => "octave_number",
        AskedAbout::DiagramRead => "diagram_read",
        AskedAbout::DiagramSet => "diagram_set",
    }
}

impl QuestionsTold {
    pub(super) fn of(questions: &Questions) -> QuestionsTold {
        QuestionsTold {
            about: about(questions.about).to_owned(),
            right: ShareTold::of(&questions.right),
        }
    }
}
