//! Fewer live pitches to keep: of those between two other events a round mostly remembers only the ends.
//!
//! Nothing is left out on trust. A second round is run on the thinned events beside one that is run on all; only when the
//! two are the same value, all that they remember included, are the thinned events taken in the place of all. So a replay
//! gives the same round, whatever comes after. Where the two stay different, all events are kept.

use std::collections::BTreeMap;

use harp::StringName;
use tuning::round::{Event, Moving, Plan, Round, Say};
use tuning::{Heard, Reading};

/// Other events after which two rounds that are still different are no longer waited for: some eight plucks.
const PATIENCE: usize = 24;

/// Events on their way into the diary.
#[derive(Clone, Debug)]
pub struct Thinning {
    whole: Round,
    thin: Round,
    /// everything since both rounds were the same
    all: Vec<Event>,
    /// what is left of it
    left: Vec<Event>,
    /// live pitches since the last other event, and whether anything but the pitch was said of them
    run: Vec<(Moving, bool)>,
    others: usize,
    settled: Vec<Event>,
}

/// The events of a round with fewer live pitches among them; replayed, they give the same [`Round`] value.
pub fn thinned(plan: &Plan, events: &[Event]) -> Vec<Event> {
    let mut thinning = Thinning::new(Round::new(plan.clone()));
    for event in events {
        thinning.push(event);
    }
    thinning.rest()
}

impl Thinning {
    /// For a round as it stands: new, or replayed.
    pub fn new(round: Round) -> Thinning {
        Thinning {
            whole: round.clone(),
            thin: round,
            all: Vec::new(),
            left: Vec::new(),
            run: Vec::new(),
            others: 0,
            settled: Vec::new(),
        }
    }

    /// Takes in what happened.
    pub fn push(&mut self, event: &Event) {
        let says = self.whole.step(event);
        self.all.push(event.clone());
        if let Event::Moving(moving) = event {
            let more = says.iter().any(|say| !matches!(say, Say::Moving { .. }));
            self.run.push((*moving, more));
            return;
        }
        for moving in worth_keeping(&std::mem::take(&mut self.run), event) {
            self.keep(Event::Moving(moving));
        }
        self.keep(event.clone());
        self.others += 1;
        if self.thin == self.whole {
            self.settled.append(&mut self.left);
            self.begin_anew();
        } else if self.others >= PATIENCE {
            self.settle_whole();
        }
    }

    /// What may be stored now, thinned; each event once.
    pub fn settled(&mut self) -> Vec<Event> {
        std::mem::take(&mut self.settled)
    }

    /// All that is not stored yet, the last of it not thinned: before a pause, or when the page may be closed.
    pub fn rest(&mut self) -> Vec<Event> {
        self.settle_whole();
        self.settled()
    }

    fn keep(&mut self, event: Event) {
        self.thin.step(&event);
        self.left.push(event);
    }

    fn settle_whole(&mut self) {
        self.settled.append(&mut self.all);
        self.thin = self.whole.clone();
        self.begin_anew();
    }

    fn begin_anew(&mut self) {
        self.all.clear();
        self.left.clear();
        self.run.clear();
        self.others = 0;
    }
}

/// Of the live pitches before an event: the first, last, lowest and highest of each string, those at which something was
/// said, and those within the listening that the event closes.
fn worth_keeping(run: &[(Moving, bool)], event: &Event) -> Vec<Moving> {
    let mut ends: BTreeMap<StringName, [usize; 4]> = BTreeMap::new();
    for (at, (moving, _)) in run.iter().enumerate() {
        let [_, last, lowest, highest] = ends.entry(moving.string).or_insert([at; 4]);
        *last = at;
        let hz = |at: usize| run.get(at).map_or(f64::NAN, |(m, _)| m.hz);
        if moving.hz < hz(*lowest) {
            *lowest = at;
        }
        if moving.hz > hz(*highest) {
            *highest = at;
        }
    }
    let during = |moving: &Moving| match event {
        Event::Heard(Heard::Reading(Reading { at_s, .. })) => moving.at_s > *at_s,
        _ => false,
    };
    let worth = |(at, (moving, more)): (usize, &(Moving, bool))| {
        let end = ends.get(&moving.string).is_some_and(|e| e.contains(&at));
        (*more || end || during(moving)).then_some(*moving)
    };
    run.iter().enumerate().filter_map(worth).collect()
}
