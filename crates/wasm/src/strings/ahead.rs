//! Where the strings will stand at a time that she chooses.

use diary::Moment;
use forecast::{AirNow, Ask, Because, Minutes, USUAL_S, because_words, learn, weights_of};
use harp::{Setup, StringName};
use pitch::ReferencePitch;
use serde::{Deserialize, Serialize};
use sheet::{Expected, of_ahead, on_page};
use tsify::Tsify;
use tuning::round::Tolerance;

use super::ask::{AskError, Asked};
use crate::foreseen::played;

/// Fewer stretches than this teach little of a harp, as in the command.
const FEW: usize = 5;
/// So many strings are named first.
const FIRST: usize = 12;

/// When, in which air, and how large the picture is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct AheadAsk {
    /// When, RFC 3339, UTC.
    pub at: String,
    /// °C then, where she says it.
    pub temperature_c: Option<f64>,
    /// Per cent of humidity then.
    pub humidity_percent: Option<f64>,
    /// How much each string is played tonight, piece by piece: as in files, `G3`, and its notes. None at all: all alike.
    pub played: Vec<Vec<(String, f64)>>,
    /// Whether that names all notes; else any string may be played, and counts one at least.
    pub all_played: bool,
    /// The A to which it is to stand, Hz, where the diary knows none.
    pub a4_hz: f64,
    /// The string whose reasons are shown, as in files.
    pub open: Option<String>,
    /// The picture's width, CSS pixels.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// The size of letters against those on a phone.
    pub unit: f64,
}

/// What is expected.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct AheadView {
    /// When.
    pub at: String,
    /// The A to which it is to stand, Hz.
    pub a4_hz: f64,
    /// Stretches of the diary that it rests on.
    pub rests_on: usize,
    /// Whether that is little.
    pub is_little: bool,
    /// Whether the air then and as the strings were left is known of most.
    pub air_known: bool,
    /// The strings, from the bass; what is broken or taken off is left out.
    pub strings: Vec<StringAheadShown>,
    /// Strings of which nothing was ever read.
    pub never_read: usize,
    /// How many strings are expected out of tune.
    pub strings_out: f64,
    /// The share of all notes that is expected out of tune, 0 to 1; without a programme that of the strings.
    pub notes_out: f64,
    /// Whether a programme says how much each string is played.
    pub by_programme: bool,
    /// What to touch first, as they are called.
    pub first: Vec<String>,
    /// The picture: elements of SVG without a root.
    pub svg: String,
    /// Where each string lies in the picture: as in files, and x.
    pub places: Vec<(String, f64)>,
}

/// A string.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StringAheadShown {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// Whether anything was ever read of it.
    pub is_read: bool,
    /// Cents above its target.
    pub expected_cents: f64,
    /// Half of the 95 % interval.
    pub u95_cents: f64,
    /// How likely it is to be out of tune, 0 to 1.
    pub p_out: f64,
    /// Why, the most telling first.
    pub why: Vec<String>,
}

impl AheadView {
    pub(super) fn of(asked: &Asked<'_>, ask: &AheadAsk) -> Result<AheadView, AskError> {
        let when = Moment::of(&ask.at.parse::<diary::At>()?);
        let reference = reference(asked, ask.a4_hz)?;
        let standing = asked.harp.standing(&Setup::open(reference))?;
        let targets = standing.iter().map(|s| (s.string, s.target_hz)).collect();
        let learned = learn(&asked.harp, &asked.own, &asked.known.air);
        let ahead = learned.ahead(&Ask {
            known: &asked.own,
            air: &asked.known.air,
            targets: &targets,
            when,
            air_then: AirNow {
                temperature_c: ask.temperature_c,
                humidity_percent: ask.humidity_percent,
            },
        });
        let names: Vec<StringName> = ahead.strings.iter().map(|one| one.string).collect();
        let weights = weights_of(&names, played(&ask.played)?, ask.all_played);
        let by_programme = !weights.is_empty();
        let own = Tolerance::default();
        let minutes = Minutes::new(ahead.joint, weights, |string| own.of(string), USUAL_S);
        let never = |because: &[Because]| because.contains(&Because::NeverRead);
        let air_unknown = |because: &[Because]| because.contains(&Because::AirUnknown);
        let read = || ahead.strings.iter().filter(|one| !never(&one.because));
        let without_air = read().filter(|one| air_unknown(&one.because)).count();
        let expected: Vec<Expected> = ahead
            .strings
            .iter()
            .map(|one| Expected {
                string: one.string,
                cents: (!never(&one.because)).then_some((one.expected_cents, one.u95_cents)),
            })
            .collect();
        let voice = &asked.voice;
        let mut picture = of_ahead(&asked.harp, &expected, voice.naming, voice.tongue);
        picture.side = voice.side;
        picture.present = ask.open.as_ref().and_then(|open| open.parse().ok());
        let drawn = on_page(&picture, ask.width, ask.height, ask.unit);
        Ok(AheadView {
            at: when.to_string(),
            a4_hz: reference.a4_hz(),
            rests_on: learned.stretches,
            is_little: learned.stretches < FEW,
            air_known: 2 * without_air < read().count(),
            never_read: names.len() - read().count(),
            strings_out: names.iter().map(|s| minutes.p_out(*s)).sum(),
            notes_out: minutes.left_out(&[], 0),
            by_programme,
            first: minutes
                .in_turn(&[])
                .iter()
                .take(FIRST)
                .map(|next| voice.string(next.string))
                .collect(),
            strings: ahead
                .strings
                .iter()
                .map(|one| StringAheadShown {
                    id: one.string.to_string(),
                    name: voice.string(one.string),
                    is_read: !never(&one.because),
                    expected_cents: one.expected_cents,
                    u95_cents: one.u95_cents,
                    p_out: minutes.p_out(one.string),
                    why: one
                        .because
                        .iter()
                        .map(|why| because_words(why, voice.tongue))
                        .collect(),
                })
                .collect(),
            svg: drawn.svg,
            places: picture
                .strings
                .iter()
                .zip(&drawn.places)
                .map(|(string, place)| (string.name.to_string(), place.half.x))
                .collect(),
        })
    }
}

/// As the harp was tuned last, else as she says.
pub(super) fn reference(asked: &Asked<'_>, else_hz: f64) -> Result<ReferencePitch, AskError> {
    let last = asked.own.a4_hz.map_or(else_hz, |(_, hz)| hz);
    Ok(ReferencePitch::new(last)?)
}
