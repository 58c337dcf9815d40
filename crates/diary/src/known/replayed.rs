//! All records, one after the other, as far as they say something of harps and strings.

use std::collections::BTreeMap;

use harp::StringName;
use tuning::round::Summary;

use super::drawer::Drawer;
use super::round_told::Raised;
use super::string_told::fault;
use super::{CheckedKnown, FittedKnown, HarpKnown, Known, Point, StringKnown, VisitKnown};
use crate::truths::Truths;
use crate::{
    Day, Diary, Entry, Fault, HeardKept, KeptRound, Moment, PracticeKept, ReadingKept, Record,
    RecordId, Regulation, RoundBegun, RoundOver, StringFitted,
};

impl Diary {
    /// What is known of every harp and string now.
    ///
    /// A round that is over is told by what it came to; one that is not is run again. What was done on an earlier day than
    /// it was written counts from the beginning of that day.
    pub fn known(&self) -> Known {
        let timed = self.timed();
        let records: Vec<&Record> = timed.iter().map(|(_, record)| *record).collect();
        let truths = Truths::of(records.iter().copied());
        let mut replayed = Replayed::new(self, &timed);
        for (when, record) in by_day(timed, &truths) {
            if let Some(entry) = truths.entry(record) {
                replayed.tell(when, record.id(), entry);
            }
            if record.is_unknown() {
                replayed.known.not_understood.push(record.id().clone());
            }
            if truths.has(record.id()) {
                replayed.known.corrected.push(record.id().clone());
            }
        }
        replayed.into_known(&records, &truths)
    }
}

/// The same records, those of an earlier day put there.
pub(crate) fn by_day<'a>(
    mut timed: Vec<(Moment, &'a Record)>,
    truths: &Truths,
) -> Vec<(Moment, &'a Record)> {
    for (when, record) in &mut timed {
        let has_day = matches!(
            record.kind(),
            "string_fitted" | "string_broken" | "string_removed" | "fault" | "visit"
        );
        let day = has_day.then(|| truths.entry(record)).flatten();
        let day = day.and_then(|entry| day_of(&entry).cloned());
        if let Some(begins) = day
            .filter(|day| *day != Day::of(record.at()))
            .and_then(|d| d.begins())
        {
            *when = Moment::of(&begins);
        }
    }
    timed.sort_by_key(|(when, _)| *when);
    timed
}

fn day_of(entry: &Entry) -> Option<&Day> {
    match entry {
        Entry::StringFitted(fitted) => fitted.on.as_ref(),
        Entry::StringBroken(broken) => broken.on.as_ref(),
        Entry::StringRemoved(removed) => removed.on.as_ref(),
        Entry::Fault(fault) => fault.on.as_ref(),
        Entry::Visit(visit) => visit.on.as_ref(),
        _ => None,
    }
}

struct Replayed<'a> {
    diary: &'a Diary,
    known: Known,
    harps: BTreeMap<String, HarpKnown>,
    rounds: BTreeMap<RecordId, (Moment, RoundBegun)>,
    /// the last record of each round
    last: BTreeMap<&'a RecordId, (Moment, &'a RecordId)>,
    raised: Raised,
    drawer: Drawer,
}

impl<'a> Replayed<'a> {
    fn new(diary: &'a Diary, timed: &[(Moment, &'a Record)]) -> Self {
        let of_round =
            |(when, record): &(Moment, &'a Record)| Some((record.round()?, (*when, record.id())));
        Self {
            diary,
            known: Known::default(),
            harps: BTreeMap::new(),
            rounds: BTreeMap::new(),
            last: timed.iter().filter_map(of_round).collect(),
            raised: Raised::default(),
            drawer: Drawer::default(),
        }
    }

    fn harp(&mut self, name: &str) -> &mut HarpKnown {
        let new = || HarpKnown {
            harp: name.to_owned(),
            toml: None,
            strings: BTreeMap::new(),
            pedals: Vec::new(),
            checks: Vec::new(),
            visits: Vec::new(),
            a4_hz: None,
            rounds: 0,
        };
        // looked for twice: most are there, and need no name of their own
        if !self.harps.contains_key(name) {
            self.harps.insert(name.to_owned(), new());
        }
        self.harps.entry(name.to_owned()).or_insert_with(new)
    }

    fn string(&mut self, harp: &str, string: StringName) -> &mut StringKnown {
        self.harp(harp).strings.entry(string).or_default()
    }

    fn tell(&mut self, when: Moment, id: &RecordId, entry: Entry) {
        match entry {
            Entry::Harp(kept) => self.harp(&kept.harp).toml = Some(kept.toml),
            Entry::Round(begun) => self.begun(when, id, begun),
            Entry::RoundOver(over) => self.over(when, id, &over),
            Entry::Reading(reading) => self.reading(when, &reading),
            Entry::Reference(taken) => self.reference(when, taken.harp.as_deref(), taken.a4_hz),
            Entry::Air(air) => self.known.air.push((when, air)),
            Entry::Practice(practice) => self.practice(when, practice),
            Entry::StringFitted(fitted) => self.fitted(when, fitted),
            Entry::StringBroken(broken) => self.string(&broken.harp, broken.string).broke(when),
            Entry::StringRemoved(gone) => self.string(&gone.harp, gone.string).removed(),
            Entry::Regulation(regulation) => self.regulation(when, regulation),
            Entry::Spares(told) => self.drawer.tell(told),
            Entry::Visit(visit) => self.harp(&visit.harp).visits.push(VisitKnown {
                when,
                who: visit.who,
                done: visit.done,
                note: visit.note,
            }),
            Entry::Fault(told) => self.fault(when, &told),
            Entry::RoundEvents(_)
            | Entry::Plan(_)
            | Entry::Programme(_)
            | Entry::Correction(_)
            | Entry::Note(_)
            | Entry::Met(_) => {}
        }
    }

    fn begun(&mut self, when: Moment, id: &RecordId, begun: RoundBegun) {
        let harp = self.harp(&begun.harp);
        harp.rounds += 1;
        harp.a4_hz = Some((when, begun.setup.reference.a4_hz()));
        // a round's harp is the harp of that day, unless a later record of it says otherwise
        harp.toml.get_or_insert_with(|| begun.toml.clone());
        self.rounds.insert(id.clone(), (when, begun));
    }

    fn over(&mut self, when: Moment, id: &RecordId, over: &RoundOver) {
        let last = self.last.get(&over.round);
        if last.is_none_or(|(_, last)| *last != id) {
            // more was written of it after this end: it is run again when all else is told
            return;
        }
        if let Some((began, begun)) = self.rounds.remove(&over.round) {
            self.round(&begun, (began, when), &over.strings);
        }
    }

    fn round(
        &mut self,
        begun: &RoundBegun,
        times: (Moment, Moment),
        strings: &[crate::StringOver],
    ) {
        let mut raised = std::mem::take(&mut self.raised);
        let harp = self.harp(&begun.harp);
        harp.round(begun, times, strings, &mut raised);
        self.raised = raised;
    }

    fn reading(&mut self, when: Moment, kept: &ReadingKept) {
        let reading = &kept.reading;
        if let (Some(string), true) = (reading.string, reading.last) {
            self.string(&kept.harp, string).heard(Point {
                when,
                heard_hz: reading.heard_hz,
                target_hz: reading.target_hz,
                off_cents: reading.off_cents,
                u95_cents: reading.u95_cents,
                b: reading.b.is_finite().then_some(reading.b),
                t60_s: reading.t60_s,
                level_dbfs: reading.level_dbfs,
                raised: kept.raised,
                found: false,
                left: false,
                string: 0,
            });
        }
    }

    /// A string that was tuned by ear was turned: as it was found and as it was left it is known, or else not any more.
    fn practice(&mut self, when: Moment, practice: PracticeKept) {
        if let Some(harp) = &practice.harp {
            for tuned in &practice.by_ear {
                let string = self.string(harp, tuned.string);
                let point = |heard: HeardKept| Point::by_ear(when, tuned.target_hz, heard);
                let found = tuned.found.map(|heard| Point {
                    when: when.plus_s(-tuned.took_s),
                    found: true,
                    ..point(heard)
                });
                let left = tuned.left.map(|heard| Point {
                    left: true,
                    ..point(heard)
                });
                for point in found.into_iter().chain(left) {
                    string.heard(point);
                }
            }
        }
        self.known.practice.push((when, practice));
    }

    fn reference(&mut self, when: Moment, harp: Option<&str>, a4_hz: f64) {
        match harp {
            Some(harp) => self.harp(harp).a4_hz = Some((when, a4_hz)),
            None => {
                for harp in self.harps.values_mut() {
                    harp.a4_hz = Some((when, a4_hz));
                }
            }
        }
    }

    fn fitted(&mut self, when: Moment, told: StringFitted) {
        let fitted = FittedKnown {
            when,
            used: told.used,
            material: told.material,
            gauge_mm: told.gauge_mm,
            by: told.by,
        };
        self.string(&told.harp, told.string).fitted(fitted);
    }

    fn regulation(&mut self, when: Moment, regulation: Regulation) {
        let kept = regulation.clone();
        self.harp(&kept.harp).checks.push((when, kept));
        let (harp, a4_hz) = (regulation.harp, regulation.a4_hz);
        for checked in regulation.strings {
            let string = self.string(&harp, checked.string);
            string.regulation = Some(CheckedKnown {
                when,
                a4_hz,
                checked,
            });
        }
    }

    fn fault(&mut self, when: Moment, told: &Fault) {
        let faults = match told.part.string() {
            Some(string) => &mut self.string(&told.harp, string).faults,
            None => &mut self.harp(&told.harp).pedals,
        };
        fault(faults, told, when);
    }

    /// Rounds that are not over, as far as they went; then all is put in its order.
    fn into_known(mut self, records: &[&Record], truths: &Truths) -> Known {
        for (id, (began, begun)) in std::mem::take(&mut self.rounds) {
            let last = self.last.get(&id).map_or(began, |(when, _)| *when);
            let record = self.diary.record(&id);
            let round = record.map(|r| KeptRound::of(r, begun.clone(), records, truths));
            let Some(Ok(round)) = round else {
                continue;
            };
            let Summary { strings, .. } = round.replayed().summary();
            let strings: Vec<_> = strings.iter().map(crate::StringOver::of).collect();
            self.round(&begun, (began, last), &strings);
        }
        for harp in self.harps.values_mut() {
            harp.all_strings();
            for string in harp.strings.values_mut() {
                string.history.sort_by_key(|point| point.when);
            }
        }
        self.known.spares = self.drawer.into_spares();
        self.known.harps = self.harps.into_values().collect();
        self.known
    }
}

impl HarpKnown {
    /// Its strings of which nothing was written are known too.
    fn all_strings(&mut self) {
        let harp = self.toml.as_deref().map(harp::Harp::from_toml);
        for string in harp.iter().flatten().flat_map(|harp| harp.strings()) {
            self.strings.entry(string.name).or_default();
        }
    }
}
