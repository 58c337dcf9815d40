//! What a round knows of one string. Readings are added and never taken away.

use harp::StringName;

use super::Planned;
use crate::Direction;

/// How a string stands in the round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Not yet heard.
    NotYetHeard,
    /// Heard, and to be turned.
    BeforeKnown,
    /// Its pin is being turned, or was and no still pluck has come since.
    Moving,
    /// In tune.
    InTune,
    /// In tune by her ear, not by a reading.
    InTuneByEar,
    /// As near as a reading can tell, which is not near enough to say.
    Near,
    /// Left out.
    Skipped,
    /// Broken, and played without.
    Broken,
    /// A new string that does not hold yet.
    New,
    /// To be heard again.
    Again,
}

impl State {
    /// The words used on screens and in JSON.
    pub fn as_str(self) -> &'static str {
        match self {
            State::NotYetHeard => "not yet heard",
            State::BeforeKnown => "before known",
            State::Moving => "moving",
            State::InTune => "in tune",
            State::InTuneByEar => "in tune by ear",
            State::Near => "near, cannot say",
            State::Skipped => "skipped",
            State::Broken => "broken",
            State::New => "new",
            State::Again => "to be heard again",
        }
    }

    /// Whether nothing more is asked of it for now.
    pub(crate) fn is_settled(self) -> bool {
        matches!(
            self,
            State::InTune | State::InTuneByEar | State::Near | State::Again
        )
    }

    /// Whether it has been brought where it belongs.
    pub fn is_in_tune(self) -> bool {
        matches!(self, State::InTune | State::InTuneByEar)
    }
}

/// Why a reading is kept and yet is no before and no after.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aside {
    /// A pedal or lever stood elsewhere.
    Position,
    /// It was of the string that stood there before it broke.
    OldString,
}

/// One reading as it is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kept {
    /// The onset, seconds.
    pub at_s: f64,
    /// What the string should have sounded, Hz.
    pub target_hz: f64,
    /// What it sounded, Hz.
    pub heard_hz: f64,
    /// The one against the other, cents.
    pub off_cents: f64,
    /// Half of the 95 % interval, cents.
    pub u95_cents: f64,
    /// The string's stiffness B, where the fit gave one.
    pub b: Option<f64>,
    /// How long it would ring, seconds to −60 dB.
    pub t60_s: Option<f64>,
    /// How loud it was, decibels against full scale.
    pub level_dbfs: Option<f64>,
    /// Whether something else than the string was read.
    pub aside: Option<Aside>,
}

/// One string's part of the round.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Record {
    /// What is planned for it.
    pub(crate) plan: Planned,
    /// Every final reading that was given to it.
    pub(crate) kept: Vec<Kept>,
    pub(crate) state: State,
    /// Where it stood at its last pluck, Hz.
    pub(crate) plucked_hz: Option<f64>,
    /// Where it is, as far as is known, Hz: followed live.
    pub(crate) now_hz: Option<f64>,
    /// The last seconds of that: when, Hz.
    pub(crate) live: Vec<(f64, f64)>,
    /// What it was told last.
    pub(crate) told: Option<Direction>,
    /// Plucks in a row that changed nothing while it was told to move.
    pub(crate) unchanged: u32,
    /// Whether its pin was turned since it was last in tune.
    pub(crate) turned: bool,
    /// Whether it stands too far up after its pin was turned, and that was said.
    pub(crate) over: bool,
    /// Whether it was said that it is high enough to turn no more, live.
    pub(crate) enough: bool,
    /// Whether it was asked why it was found high.
    pub(crate) asked: bool,
    /// Whether its pin may have been turned unheard.
    pub(crate) loose: bool,
    /// Half of the 95 % interval, cents, of where it stands, where that is known from a pluck that had two names.
    pub(crate) placed: Option<f64>,
    /// Whether it was moved on purpose.
    pub(crate) on_purpose: bool,
    /// Plucks that could not say, in a row.
    pub(crate) near: u32,
    /// When it was called in tune, seconds of the round's own time.
    pub(crate) done_s: Option<f64>,
    /// A new string: hearings at which it had held.
    pub(crate) holds: u32,
    /// A new string: whether it has reached its pitch, and how many others were done since it was heard.
    pub(crate) reached: bool,
    pub(crate) others: u32,
    /// Whether a new string was put on in this round.
    pub(crate) fitted: bool,
}

impl Record {
    pub(crate) fn new(plan: Planned) -> Record {
        Record {
            plan,
            kept: Vec::new(),
            state: State::NotYetHeard,
            plucked_hz: None,
            now_hz: None,
            live: Vec::new(),
            told: None,
            unchanged: 0,
            turned: false,
            over: false,
            enough: false,
            asked: false,
            loose: false,
            placed: None,
            on_purpose: false,
            near: 0,
            done_s: None,
            holds: 0,
            reached: false,
            others: 0,
            fitted: false,
        }
    }

    pub(crate) fn string(&self) -> StringName {
        self.plan.standing.string
    }

    pub(crate) fn target_hz(&self) -> f64 {
        self.plan.standing.target_hz
    }

    /// How far a frequency lies above the target, cents.
    pub(crate) fn off(&self, hz: f64) -> f64 {
        pitch::cents(self.target_hz(), hz)
    }

    /// How far a frequency lies above where the string is known to be.
    pub(crate) fn moved_to(&self, hz: f64) -> Option<f64> {
        self.now_hz.map(|now| pitch::cents(now, hz))
    }

    /// The first reading of the string in its position.
    pub(crate) fn before(&self) -> Option<Kept> {
        let own = |k: &&Kept| k.aside != Some(Aside::Position);
        self.kept.iter().find(own).or(self.kept.first()).copied()
    }

    /// The last reading of the string in its position.
    pub(crate) fn after(&self) -> Option<Kept> {
        let own = |k: &&Kept| k.aside.is_none();
        let any = self.kept.iter().rev();
        any.clone().find(own).or(self.kept.last()).copied()
    }

    /// Whether it stands where it was heard: nobody was told to turn its pin.
    pub(crate) fn is_settled(&self) -> bool {
        self.state.is_settled() && !self.loose && !self.on_purpose && self.now_hz.is_some()
    }

    /// Forgets where the string is: another stands there now, or it was moved.
    pub(crate) fn forget_place(&mut self) {
        self.now_hz = None;
        self.plucked_hz = None;
        self.placed = None;
        self.live.clear();
        self.told = None;
        self.unchanged = 0;
        self.over = false;
        self.enough = false;
        self.near = 0;
    }
}
