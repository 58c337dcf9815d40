//! A whole harp moved to another pitch: how far each string, in how many passes, how far past, and from when.
//!
//! How far a harp's strings fall back after being turned up is published for no harp; so it is measured on this one or not
//! told. That many passes are needed, because strings that come up let others down, is common practice, no source.

use std::collections::BTreeMap;

use diary::{Air, HarpKnown, Moment};
use harp::{Harp, Setup, StringName};
use pitch::ReferencePitch;
use tuning::round::{ASK_ABOVE_CENTS, Raise};

use crate::DAY_S;
use crate::ahead::{Ahead, Ask, Because};
use crate::air_at::AirNow;
use crate::fall_back::{CALLED_IN_TUNE, FellBack, Share, measured};
use crate::learned::Learned;
use crate::prior::Prior;
use crate::usual::usual_a4_hz;

/// What is asked.
#[derive(Clone, Copy, Debug)]
pub struct ChangeAsk<'a> {
    /// The harp, with the figures of the strings that are on it now.
    pub harp: &'a Harp,
    /// The harp as its diary knows it.
    pub known: &'a HarpKnown,
    /// The air as it was read, in order.
    pub air: &'a [(Moment, Air)],
    /// The pitch at which it stands.
    pub from: ReferencePitch,
    /// The pitch that is wanted.
    pub to: ReferencePitch,
    /// Its usual A4, Hz, where she says it; otherwise what the diary shows.
    pub usual_a4_hz: Option<f64>,
    /// What time it is.
    pub now: Moment,
    /// When it is to be played.
    pub when: Moment,
}

/// A harp moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// The pitch at which it stands, A4 in Hz.
    pub from_a4_hz: f64,
    /// The pitch that is wanted, A4 in Hz.
    pub to_a4_hz: f64,
    /// The harp's usual pitch, A4 in Hz.
    pub usual_a4_hz: f64,
    /// From the one to the other, cents; down is below nought.
    pub cents: f64,
    /// What it asks of the harp against its usual pitch.
    pub above_usual: Raise,
    /// Whether the harp would stand so far above its usual pitch that a technician is to be asked first.
    pub ask_technician: bool,
    /// What the strings pull.
    pub load: LoadChange,
    /// Each string, from the bass; what is broken or taken off is left out.
    pub strings: Vec<StringChange>,
    /// The strings in the order of each pass: the middle before the ends, both ways by turns.
    pub order: Vec<StringName>,
    /// The passes.
    pub passes: Vec<Pass>,
    /// Why so many.
    pub because: PassesBecause,
    /// What wires fell back by after being turned up; `None` where nothing goes up.
    pub wires: Option<FellBack>,
    /// The same of all other strings.
    pub others: Option<FellBack>,
    /// Days between two passes.
    pub days_between: f64,
    /// Whether these days are what this harp needed to settle; otherwise they are common practice, no source.
    pub days_are_measured: bool,
    /// When to begin.
    pub start_by: Moment,
    /// Whether that is past.
    pub late: bool,
    /// What can hurt or break.
    pub cautions: Vec<ChangeCaution>,
}

/// The pull of the strings whose figures were given, N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadChange {
    /// Before.
    pub before_n: f64,
    /// After.
    pub after_n: f64,
    /// Of so many strings.
    pub strings_known: usize,
    /// Of so many it is not known.
    pub strings_unknown: usize,
}

/// A string moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringChange {
    /// The string.
    pub string: StringName,
    /// From where it is expected now to its place, cents; the whole change where the diary does not know where it stands.
    pub move_cents: f64,
    /// How far past its place in the first pass; `None` where none is called for, or nothing measured says how far.
    pub overshoot: Option<Overshoot>,
}

/// How far a string is brought past its place, so that it falls back to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overshoot {
    /// Cents.
    pub cents: f64,
    /// Half of its 95 % interval, cents.
    pub u95_cents: f64,
}

/// A pass over all strings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pass {
    /// No later than this.
    pub by: Moment,
    /// Whether strings are brought past their places in it.
    pub overshoots: bool,
}

/// Why so many passes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PassesBecause {
    /// It is no more than a round may leave.
    OneRound,
    /// It goes down: the second finds what came up again.
    Down,
    /// Two or three over several days: common practice, no source.
    CommonPractice,
    /// What this harp's strings fall back by, at most, leaves less than is called in tune, and one more looks.
    Measured {
        /// The upper end of the share's interval.
        at_most: f64,
    },
}

/// What can hurt or break.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ChangeCaution {
    /// It is so far above the usual pitch that a technician is to be asked first.
    AskTechnician,
    /// Strings may break on the way up.
    StringsMayBreak,
    /// Face and eyes.
    Eyes,
    /// Pedals up or levers off, small turns, a pluck after each.
    SmallTurns,
    /// Wrist, shoulder, and where she stands.
    Body,
    /// Noises and cracks: slacken and ask.
    StopAndAsk,
}

/// More than this is no fall-back to be gone past: something else moves these strings. Strings of pianos fall back by 20 to
/// 33 % (piano technicians); of harps nothing is known.
pub(crate) const MOST_SHARE: f64 = 1.0 / 3.0;
/// Days between two passes, where nothing is measured: 'over several days', common practice.
const USUAL_DAYS: f64 = 2.0;
/// A measured settling counts no less than this, days: a night.
const LEAST_DAYS: f64 = 0.5;
/// Further than this from the pitch that the diary knows, cents, the diary does not know where the strings stand: half a
/// hertz of A4.
const SAME_PITCH: f64 = 2.0;

/// What moving the harp asks for. `learned` is of the same diary.
pub fn change(ask: &ChangeAsk<'_>, learned: &Learned) -> Change {
    let (from_a4_hz, to_a4_hz) = (ask.from.a4_hz(), ask.to.a4_hz());
    let cents = pitch::cents(from_a4_hz, to_a4_hz);
    let usual = ask.usual_a4_hz.or_else(|| usual_a4_hz(ask.harp, ask.known));
    let usual_a4_hz = usual.unwrap_or(from_a4_hz);
    let above_usual = Raise::between(usual_a4_hz, to_a4_hz);
    let ask_technician = above_usual.asks_a_technician();
    let up = cents > 0.0;
    let of = measured(ask.harp, ask.known, ask.air, learned, cents.max(1.0));
    let share = |wire: bool| {
        let of = if wire { of.wires } else { of.others };
        of.share
            .filter(|share| up && share.share - share.u95 > 0.0 && share.share <= MOST_SHARE)
    };
    let room = ASK_ABOVE_CENTS - above_usual.above_cents;
    let strings: Vec<StringChange> = moves(ask, learned, cents)
        .into_iter()
        .map(|(string, wire, move_cents)| StringChange {
            string,
            move_cents,
            overshoot: share(wire).and_then(|share| overshoot(share, wire, move_cents, room)),
        })
        .collect();
    let (count, because) = passes(cents, of.others.share);
    let settles = of.settles_days.filter(|_| up);
    let days_between = settles.map_or(USUAL_DAYS, |days| days.max(LEAST_DAYS));
    let overshoots = strings.iter().any(|one| one.overshoot.is_some());
    let before = |passes: usize| ask.when.plus_s(-DAY_S * days_between * passes as f64);
    let passes: Vec<Pass> = (0..count)
        .map(|at| Pass {
            by: before(count - 1 - at),
            overshoots: at == 0 && overshoots,
        })
        .collect();
    let start_by = before(count - 1);
    let names: Vec<StringName> = strings.iter().map(|one| one.string).collect();
    Change {
        from_a4_hz,
        to_a4_hz,
        usual_a4_hz,
        cents,
        above_usual,
        ask_technician,
        load: load(ask),
        order: middle_first(&names),
        strings,
        passes,
        because,
        wires: up.then_some(of.wires),
        others: up.then_some(of.others),
        days_between,
        days_are_measured: settles.is_some(),
        start_by,
        late: start_by < ask.now,
        cautions: cautions(ask_technician, up),
    }
}

/// Each string that is there, whether it is a wire, and how far it goes.
fn moves(ask: &ChangeAsk<'_>, learned: &Learned, cents: f64) -> Vec<(StringName, bool, f64)> {
    let standing = ask.harp.standing(&Setup::open(ask.to)).unwrap_or_default();
    let targets: BTreeMap<_, _> = standing.iter().map(|s| (s.string, s.target_hz)).collect();
    let Ahead { strings, .. } = learned.ahead(&Ask {
        known: ask.known,
        air: ask.air,
        targets: &targets,
        when: ask.now,
        air_then: AirNow::default(),
    });
    let known_hz = ask.known.a4_hz.map(|(_, hz)| hz);
    let as_known =
        known_hz.is_some_and(|hz| pitch::cents(hz, ask.from.a4_hz()).abs() <= SAME_PITCH);
    let wire = |name| ask.harp.string(name).is_some_and(|string| string.wire);
    let all = strings.iter().map(|one| {
        let stands = as_known && !one.because.contains(&Because::NeverRead);
        let moves = if stands { -one.expected_cents } else { cents };
        (one.string, wire(one.string), moves)
    });
    all.collect()
}

/// So far past that what falls back of the whole way leaves it in its place; never into what a technician is asked about.
fn overshoot(share: Share, wire: bool, move_cents: f64, room: f64) -> Option<Overshoot> {
    let prior = if wire { Prior::wire() } else { Prior::other() };
    let falls = share.share;
    let cents = (falls * move_cents / (1.0 - falls)).min(room);
    // of the kind, and of each string beside it
    let u95 = share.u95.hypot(1.96 * prior.falls_back.2);
    (move_cents > 0.0 && cents > 0.0).then_some(Overshoot {
        cents,
        u95_cents: u95 * move_cents / (1.0 - falls).powi(2),
    })
}

fn passes(cents: f64, others: Option<Share>) -> (usize, PassesBecause) {
    if cents.abs() <= CALLED_IN_TUNE {
        return (1, PassesBecause::OneRound);
    }
    if cents < 0.0 {
        return (2, PassesBecause::Down);
    }
    let Some(share) = others.filter(|share| share.share <= MOST_SHARE) else {
        return (3, PassesBecause::CommonPractice);
    };
    let at_most = (share.share + share.u95).max(0.0);
    let still = |passes: &usize| cents * at_most.powi(*passes as i32) > CALLED_IN_TUNE;
    let rough = (1..3).find(|passes| !still(passes)).unwrap_or(3);
    (rough + 1, PassesBecause::Measured { at_most })
}

fn load(ask: &ChangeAsk<'_>) -> LoadChange {
    let (before, after) = (ask.harp.load(ask.from), ask.harp.load(ask.to));
    let strings_unknown = after.unknown.len();
    LoadChange {
        before_n: before.known_n,
        after_n: after.known_n,
        strings_known: ask.harp.strings().len() - strings_unknown,
        strings_unknown,
    }
}

/// From the middle of these to both ends by turns, the lower first: the load grows evenly. That the middle comes before the
/// ends is common practice; the turns are ours.
fn middle_first(names: &[StringName]) -> Vec<StringName> {
    let middle = names.len() / 2;
    let mut places: Vec<usize> = (0..names.len()).collect();
    places.sort_by_key(|at| (at.abs_diff(middle), *at));
    places
        .iter()
        .filter_map(|at| names.get(*at).copied())
        .collect()
}

fn cautions(ask_technician: bool, up: bool) -> Vec<ChangeCaution> {
    use ChangeCaution::{AskTechnician, Body, Eyes, SmallTurns, StopAndAsk, StringsMayBreak};
    let first = ask_technician.then_some(AskTechnician).into_iter();
    let rest: &[ChangeCaution] = match up {
        true => &[StringsMayBreak, Eyes, SmallTurns, Body, StopAndAsk],
        false => &[Eyes, SmallTurns, Body, StopAndAsk],
    };
    first.chain(rest.iter().copied()).collect()
}
