//! What the page shows of a round at one moment.

use harp::{Harp, StringName};
use pitch::SpelledPitch;
use serde::{Deserialize, Serialize};
use sheet::{Stand, Word, share_of_reach};
use tsify::Tsify;
use tuning::Direction;
use tuning::round::{
    Round, Say, Warning, a_tuner_shows, colour_words, enough_words, how_far, state_words, then,
    way_words,
};

use crate::act::{Deed, PageAct};
use crate::shown::Voice;

/// A round as the page shows it. Cents are above the target; a share is that of a bead's way from the middle line, −1 to 1,
/// positive towards the neck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct View {
    /// Listening, paused, over.
    pub phase: Phase,
    /// The string that is shown large, if one is.
    pub string: Option<ShownString>,
    /// The one word about it.
    pub word: ShownWord,
    /// The string to pluck next.
    pub next: Option<ShownNext>,
    /// Strings in tune.
    pub in_tune: usize,
    /// Strings of the harp.
    pub of: usize,
    /// Strings that are still asked for.
    pub left: usize,
    /// Minutes left at her own pace.
    pub minutes: Option<f64>,
    /// Tonight's A4, Hz.
    pub a4_hz: f64,
    /// Whether every pedal is up and every lever off.
    pub open: bool,
    /// What waits for an answer or is to be known, the latest last.
    pub notices: Vec<Notice>,
    /// The string that every pluck is taken for.
    pub pinned: Option<String>,
    /// Breaks in the sound so far.
    pub breaks: usize,
}

/// Where a round is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Phase {
    /// Not begun.
    NotBegun,
    /// Listening.
    Listening,
    /// Paused.
    Paused,
    /// Over.
    Over,
}

/// A string as it is called and looks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ShownString {
    /// As in files: `C4`.
    pub id: String,
    /// As it is called: 4C.
    pub name: String,
    /// Its colour: `red`, `dark`, `metallic`, `plain`.
    pub colour: String,
    /// Whether it is a wire.
    pub wire: bool,
    /// The red string.
    pub looks: String,
    /// What it sounds: C♭.
    pub sounds: String,
    /// What any chromatic display would show: a tuner shows B.
    pub tuner_shows: String,
    /// Its plucks in this round, cents, the last one last.
    pub plucks_cents: Vec<f64>,
    /// The same as shares.
    pub plucks_shares: Vec<f64>,
}

/// The one word about a string.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ShownWord {
    /// What kind of word, for looks and tones.
    pub kind: WordKind,
    /// The word, large: up.
    pub large: String,
    /// Under it: a little, then pluck.
    pub hand: String,
    /// Where the string is, cents.
    pub off_cents: Option<f64>,
    /// Half of its 95 % interval, cents.
    pub u95_cents: Option<f64>,
    /// The share of its way at which the bead stands.
    pub share: Option<f64>,
}

/// Kinds of word.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum WordKind {
    /// Nothing yet.
    #[default]
    None,
    /// Asked for.
    Pluck,
    /// It sounds.
    Sounds,
    /// Turn up.
    Up,
    /// Turn down.
    Down,
    /// Its pin turns.
    Moving,
    /// Leave the key.
    Enough,
    /// Pluck it still.
    Still,
    /// In tune.
    InTune,
    /// Cannot say nearer.
    Near,
    /// Which string?
    Which,
    /// Not read.
    NotRead,
    /// Look first.
    Look,
    /// Stop.
    Stop,
    /// Not listening.
    Paused,
    /// Over.
    Over,
}

/// The string to pluck next.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ShownNext {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// Then 4B below.
    pub words: String,
}

/// Something to answer or to know.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Notice {
    /// Whether the hand is to stop.
    pub stop: bool,
    /// What it is, in a sentence or a few.
    pub words: String,
    /// What may be answered.
    pub answers: Vec<PageAct>,
    /// Strings without discs whose pitch is asked for, and what each may sound.
    pub pitches: Vec<PitchAsked>,
}

/// A string without discs and what it may sound.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PitchAsked {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// As in files, and as they are called: `Cb1`, C♭.
    pub pitches: Vec<(String, String)>,
    /// The one it has now.
    pub now: String,
}

/// Builds the view of a round.
pub(crate) struct Viewer<'a> {
    pub(crate) round: &'a Round,
    pub(crate) stand: &'a Stand,
    pub(crate) harp: &'a Harp,
    pub(crate) voice: Voice,
}

impl Viewer<'_> {
    pub(crate) fn view(&self, phase: Phase, breaks: usize) -> View {
        let plan = self.round.plan();
        let in_tune = |s: &&tuning::round::Planned| {
            let state = self.round.state(s.standing.string);
            state.is_some_and(tuning::round::State::is_in_tune)
        };
        View {
            phase,
            string: self.stand.string.and_then(|s| self.string(s)),
            word: self.word(),
            next: self.next(),
            in_tune: plan.strings.iter().filter(in_tune).count(),
            of: plan.strings.len(),
            left: self.round.left(),
            minutes: self.stand.minutes,
            a4_hz: plan.reference.a4_hz(),
            open: plan.open,
            notices: self.stand.notices.iter().map(|n| self.notice(n)).collect(),
            pinned: self.round.pinned().map(|s| s.to_string()),
            breaks,
        }
    }

    fn string(&self, name: StringName) -> Option<ShownString> {
        let planned = self.round.plan().strings.iter();
        let standing = planned.map(|s| s.standing).find(|s| s.string == name)?;
        let string = self.harp.string(name)?;
        let plucks_cents: Vec<f64> = self.round.kept(name).iter().map(|k| k.off_cents).collect();
        let (voice, tongue) = (&self.voice, self.voice.tongue);
        Some(ShownString {
            id: name.to_string(),
            name: voice.string(name),
            colour: string.colour.as_str().to_owned(),
            wire: string.wire,
            looks: colour_words(string.colour, string.wire, tongue).to_owned(),
            sounds: voice.pitch(standing.pitch),
            tuner_shows: self.tuner_shows(standing.target_hz),
            plucks_shares: plucks_cents.iter().map(|c| share_of_reach(*c)).collect(),
            plucks_cents,
        })
    }

    /// What any chromatic display at tonight's A4 would show.
    fn tuner_shows(&self, target_hz: f64) -> String {
        let tongue = self.voice.tongue;
        let shown = pitch::shown_as(target_hz, self.round.plan().reference);
        let shown = shown.name.parse::<SpelledPitch>();
        shown.map_or(String::new(), |p| a_tuner_shows(p, tongue.notes(), tongue))
    }

    fn word(&self) -> ShownWord {
        let Some(word) = &self.stand.word else {
            return ShownWord::default();
        };
        let (kind, large, hand) = self.words(word);
        let off = self.stand.off_cents;
        ShownWord {
            kind,
            large,
            hand,
            off_cents: off.map(|o| o.0),
            u95_cents: off.map(|o| o.1).filter(|u95| *u95 > 0.0),
            share: off.map(|o| share_of_reach(o.0)),
        }
    }

    /// The kind, the large word and what stands under it; words that the page has itself are left empty.
    fn words(&self, word: &Word) -> (WordKind, String, String) {
        let tongue = self.voice.tongue;
        let none = String::new;
        match word {
            Word::Turn(turn) => {
                let kind = if turn.way == Direction::Up {
                    WordKind::Up
                } else {
                    WordKind::Down
                };
                let hand = how_far(turn.way, turn.amount, tongue);
                (kind, way_words(turn.way, tongue).to_owned(), hand)
            }
            Word::Moving(way) => (WordKind::Moving, way_words(*way, tongue).to_owned(), none()),
            Word::Enough => (WordKind::Enough, enough_words(tongue).to_owned(), none()),
            Word::InTune | Word::ByEar | Word::ThereForNow => {
                let words = state_words(tuning::round::State::InTune, tongue);
                (WordKind::InTune, words.to_owned(), none())
            }
            Word::Near(above) => {
                let above = above.map_or_else(none, |s| self.voice.string(s));
                (WordKind::Near, none(), above)
            }
            Word::Which(strings) => {
                let names: Vec<String> = strings.iter().map(|s| self.voice.string(*s)).collect();
                (WordKind::Which, names.join("  "), none())
            }
            Word::Pluck => (WordKind::Pluck, none(), none()),
            Word::Sounds => (WordKind::Sounds, none(), none()),
            Word::PluckStill => (WordKind::Still, none(), none()),
            Word::NotRead(_) => (WordKind::NotRead, none(), none()),
            Word::Question(_) => (WordKind::Look, none(), none()),
            Word::Stop(_) => (WordKind::Stop, none(), none()),
            Word::Paused => (WordKind::Paused, none(), none()),
            Word::Finished => (WordKind::Over, none(), none()),
        }
    }

    fn next(&self) -> Option<ShownNext> {
        let next = self.stand.next?;
        let now = self.stand.string.unwrap_or(next);
        Some(ShownNext {
            id: next.to_string(),
            name: self.voice.string(next),
            words: self
                .voice
                .with_names(|names| then(now, next, names, self.voice.tongue)),
        })
    }

    fn notice(&self, say: &Say) -> Notice {
        let asked: Vec<StringName> = match say {
            Say::AskPitch(strings) => strings.clone(),
            Say::Offer(strings) => strings.iter().map(|(s, _)| *s).collect(),
            _ => Vec::new(),
        };
        Notice {
            stop: matches!(say, Say::Warning(w) if w.is_stop()),
            words: self.voice.sentence(say),
            answers: self.answers(say),
            pitches: asked.iter().filter_map(|s| self.asked(*s)).collect(),
        }
    }

    /// A string without discs may be set flat, natural or sharp.
    fn asked(&self, string: StringName) -> Option<PitchAsked> {
        let planned = self.round.plan().strings.iter();
        let now = planned.map(|s| s.standing).find(|s| s.string == string)?;
        let pitches = (-1..=1).map(|alter| SpelledPitch {
            letter: string.letter,
            alter,
            octave: string.octave,
        });
        Some(PitchAsked {
            id: string.to_string(),
            name: self.voice.string(string),
            pitches: pitches
                .map(|p| (p.to_string(), self.voice.pitch(p)))
                .collect(),
            now: now.pitch.to_string(),
        })
    }
}

impl Viewer<'_> {
    /// What may be answered to something said.
    fn answers(&self, say: &Say) -> Vec<PageAct> {
        match (say, self.round.plan().usual_a4_hz) {
            (Say::AskTechnician(raise), Some(usual_a4_hz)) => vec![PageAct {
                // as it was asked for: to a tenth of a hertz, for the way over cents is not exact
                technician_asked: Some(true),
                ..PageAct::use_a(
                    (10.0 * pitch::raise(usual_a4_hz, raise.above_cents)).round() / 10.0,
                )
            }],
            _ => answers(say),
        }
    }
}

fn answers(say: &Say) -> Vec<PageAct> {
    match say {
        Say::Warning(Warning::PedalUp { letter, .. }) => vec![PageAct::as_said(*letter)],
        Say::Warning(Warning::LeverOff { string }) => vec![PageAct::as_said(string.letter)],
        Say::Warning(Warning::FoundHigh { string, .. }) => {
            vec![PageAct::to(Deed::MovedOnPurpose, *string)]
        }
        Say::Warning(Warning::OctaveHigh { expected, .. }) => {
            vec![PageAct::to(Deed::ThisOne, *expected)]
        }
        Say::Warning(Warning::Reference { a4_hz, .. }) => vec![PageAct::use_a(*a4_hz)],
        Say::Which(strings) => {
            let each = strings.iter().map(|s| PageAct::to(Deed::ThisOne, *s));
            each.collect()
        }
        Say::Near { string, .. } => vec![PageAct::to(Deed::InTuneByEar, *string)],
        Say::TheA { taken, .. } => vec![PageAct::use_a(taken.a4_hz)],
        Say::AllHeard | Say::Again { .. } => vec![PageAct::of(Deed::Finish)],
        _ => Vec::new(),
    }
}
