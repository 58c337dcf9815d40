//! What a check came to: on the screen, on paper, as a table, and as a record.

use std::collections::BTreeMap;

use diary::{Entry, HarpKnown, Moment, Regulation, Writer};
use harp::{Harp, StringName};
use pitch::ReferencePitch;
use serde::{Deserialize, Serialize};
use sheet::{CheckSheet, FontsIn, Style, check_csv, check_pages, found_words, svg};
use tsify::{Ts, Tsify};
use tuning::regulation::{
    Bounds, Regulated, Step, StepSize, Weight, how_to_leave, regulated, whose_work,
};
use wasm_bindgen::prelude::*;

use super::kept::KeptCheck;
use super::past::PastChecks;
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// A check in figures and words.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct FindingsView {
    /// When, RFC 3339, UTC.
    pub at: String,
    /// The reference pitch: A4, Hz.
    pub a4_hz: f64,
    /// Every string that was read, from the bass up.
    pub strings: Vec<CheckedString>,
    /// Plucks that were read.
    pub read: usize,
    /// Plucks that were still to come.
    pub left: usize,
    /// Steps for the technician.
    pub report: usize,
    /// What was found, a sentence each: pedals first; before and after where there was a check before.
    pub found: Vec<String>,
    /// How the harp is to be left.
    pub leave: String,
    /// What is whose work, and what the bounds are worth.
    pub whose: Vec<String>,
}

/// One string of a check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct CheckedString {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// Its colour: `red`, `dark`, `metallic`, `plain`.
    pub colour: String,
    /// The open string against its target, cents.
    pub open_cents: Option<f64>,
    /// From flat to natural.
    pub natural: Option<ShownStep>,
    /// From natural to sharp.
    pub sharp: Option<ShownStep>,
    /// Both together.
    pub sum: Option<ShownStep>,
    /// How far it came back elsewhere of itself, cents.
    pub own_cents: Option<f64>,
    /// Whose the fault is, in words; empty where there is none.
    pub found: String,
    /// Whether it is too new to be judged.
    pub is_new: bool,
}

/// A step of a string, cents.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ShownStep {
    /// How much further than it should go.
    pub error_cents: f64,
    /// Half of the 95 % interval.
    pub u95_cents: f64,
    /// The error in the check before, if it was read there.
    pub before_cents: Option<f64>,
    /// Whether it is for the technician.
    pub is_out: bool,
}

/// A check that is judged.
#[wasm_bindgen]
pub struct Findings {
    name: String,
    harp: Harp,
    when: Moment,
    reference: ReferencePitch,
    kept: Regulation,
    strings: Vec<Regulated>,
    /// the check before that stands beside it
    before: Option<(Moment, Regulation)>,
    left: usize,
}

#[wasm_bindgen]
impl Findings {
    /// What was read so far; `at` is now.
    pub fn of_kept(kept: Ts<KeptCheck>, at: &str) -> Result<Findings, JsError> {
        let kept = kept.to_rust()?;
        let (harp, check) = kept.again()?;
        let (reference, name) = (kept.ask.reference()?, kept.ask.harp.name());
        let age = |string| kept.ask.is_new(string).then_some(0);
        let strings = regulated(&harp, check.plucks(), &Bounds::default(), age);
        let plucks = check.plucks();
        Ok(Findings {
            kept: Regulation::of(&name, &harp, reference, plucks, &strings),
            when: Moment::of(&at.parse()?),
            left: check.left(),
            before: None,
            name,
            harp,
            reference,
            strings,
        })
    }

    /// What a check of the diary says, by its place in the list.
    pub fn of_past(past: &PastChecks, place: usize) -> Result<Findings, JsError> {
        let (when, kept) = nth(past, place)?;
        Ok(Findings {
            name: past.name.clone(),
            harp: past.choice.harp()?,
            reference: ReferencePitch::new(kept.a4_hz)?,
            strings: kept.judged(&past.harp, &Bounds::default()),
            when,
            kept,
            before: None,
            left: 0,
        })
    }

    /// A check of the diary stands beside it from now on, by its place in the list; or none.
    pub fn stand_beside(&mut self, past: &PastChecks, place: Option<usize>) -> Result<(), JsError> {
        self.before = place.map(|place| nth(past, place)).transpose()?;
        Ok(())
    }

    /// On the screen.
    pub fn view(&self, shown: Ts<ShownChoice>) -> Result<Ts<FindingsView>, JsError> {
        Ok(self.viewed(&Voice::of(&shown.to_rust()?)).into_ts()?)
    }

    /// On paper, an SVG a page; `called` is the harp as its owner calls it.
    pub fn pages(&self, called: &str, shown: Ts<ShownChoice>) -> Result<Vec<String>, JsError> {
        let shown = shown.to_rust()?;
        let style = Style {
            naming: shown.naming(),
            tongue: shown.tongue(),
            ..Style::default()
        };
        let pages = check_pages(&self.sheet(called), &style);
        Ok(pages
            .iter()
            .map(|page| svg(page, FontsIn::ThePage))
            .collect())
    }

    /// As comma-separated values, the columns of the command.
    pub fn csv(&self, shown: Ts<ShownChoice>) -> Result<String, JsError> {
        let shown = shown.to_rust()?;
        Ok(check_csv(&self.sheet(""), shown.naming(), shown.tongue()))
    }

    /// As a line of the diary; nothing where nothing was read.
    pub fn record(&self, device: &str, next: u32) -> Result<Option<String>, JsError> {
        if self.kept.strings.is_empty() {
            return Ok(None);
        }
        let entry = Entry::Regulation(self.kept.clone());
        let line = Writer::new(device, u64::from(next))?.line(&self.when.at(), &entry)?;
        Ok(Some(line))
    }
}

fn nth(past: &PastChecks, place: usize) -> Result<(Moment, Regulation), JsError> {
    let checks = past.known.as_ref().map(|known| &known.checks);
    let found = checks.and_then(|checks| checks.get(place)).cloned();
    found.ok_or_else(|| JsError::new("the diary holds no such check"))
}

impl Findings {
    /// The errors of the check before, natural and sharp.
    fn errors_before(&self) -> BTreeMap<StringName, [Option<f64>; 2]> {
        let error = |step: &Option<StepSize>| step.as_ref().map(|step| step.error_cents);
        let before = self.before.iter();
        let judged = before.flat_map(|(_, kept)| kept.judged(&self.harp, &Bounds::default()));
        judged
            .map(|one| (one.string, [error(&one.natural), error(&one.sharp)]))
            .collect()
    }

    fn sheet(&self, called: &str) -> CheckSheet {
        CheckSheet {
            harp: called.to_owned(),
            reference: self.reference,
            strings: self.strings.clone(),
            before: self.errors_before(),
        }
    }

    /// Whole letters, discs and levers, each with what became of it since the check before.
    fn told(&self, voice: &Voice) -> Vec<String> {
        let visit = self.before.as_ref().map(|(when, _)| *when);
        let now = (self.when, self.kept.clone());
        let known = HarpKnown {
            harp: self.name.clone(),
            toml: None,
            strings: BTreeMap::new(),
            pedals: Vec::new(),
            checks: self.before.iter().cloned().chain([now]).collect(),
            a4_hz: None,
            visits: Vec::new(),
            rounds: 0,
        };
        let found = keep::findings(&known, visit);
        let told = found
            .iter()
            .map(|one| voice.with_names(|names| keep::finding(one, names, voice.tongue)));
        told.collect()
    }

    fn viewed(&self, voice: &Voice) -> FindingsView {
        let before = self.errors_before();
        let strings = self.strings.iter().map(|one| {
            let was = before.get(&one.string).copied().unwrap_or_default();
            self.shown(one, was, voice)
        });
        let found = self.strings.iter().flat_map(|one| one.found.values());
        let tongue = voice.tongue;
        FindingsView {
            at: self.when.to_string(),
            a4_hz: self.reference.a4_hz(),
            strings: strings.collect(),
            read: self.kept.plucks().len(),
            left: self.left,
            report: found.filter(|found| is_report(found.weight)).count(),
            found: self.told(voice),
            leave: how_to_leave(tongue).to_owned(),
            whose: whose_work(tongue).map(str::to_owned).to_vec(),
        }
    }

    fn shown(&self, one: &Regulated, was: [Option<f64>; 2], voice: &Voice) -> CheckedString {
        let [natural_was, sharp_was] = was;
        let step = |size: &Option<StepSize>, which: Option<Step>, before_cents| {
            let found = which.and_then(|step| one.found.get(&step));
            size.as_ref().map(|size| ShownStep {
                error_cents: size.error_cents,
                u95_cents: size.u95_cents,
                before_cents,
                is_out: found.is_some_and(|found| is_report(found.weight)),
            })
        };
        CheckedString {
            id: one.string.to_string(),
            name: voice.string(one.string),
            colour: self
                .harp
                .string(one.string)
                .map_or("plain", |found| found.colour.as_str())
                .to_owned(),
            open_cents: one.open_cents,
            natural: step(&one.natural, Some(Step::Natural), natural_was),
            sharp: step(&one.sharp, Some(Step::Sharp), sharp_was),
            sum: step(&one.sum, None, None),
            own_cents: one.own_cents,
            found: found_words(one, voice.tongue),
            is_new: one.new,
        }
    }
}

fn is_report(weight: Weight) -> bool {
    matches!(weight, Weight::Report | Weight::Urgent)
}

#[cfg(test)]
mod tests {
    use super::*;
    use pitch::Alteration::{self, Flat, Natural, Sharp};
    use tuning::regulation::Pluck;

    /// A check of one string, invented: open, natural, sharp and open again.
    fn findings(sharp_off: f64, before: Option<f64>) -> Findings {
        let harp = Harp::named("pedal47").unwrap();
        let check = |sharp_off: f64| {
            let pluck = |stands: Alteration, off_cents| Pluck {
                string: "G4".parse().unwrap(),
                stands,
                off_cents,
                u95_cents: 0.5,
            };
            let plucks = [
                pluck(Flat, 0.0),
                pluck(Natural, 0.0),
                pluck(Sharp, sharp_off),
                pluck(Flat, 0.0),
            ];
            let strings = regulated(&harp, &plucks, &Bounds::default(), |_| None);
            let kept = Regulation::of("big", &harp, ReferencePitch::A440, &plucks, &strings);
            (kept, strings)
        };
        let (kept, strings) = check(sharp_off);
        let when = |at: &str| Moment::of(&at.parse().unwrap());
        Findings {
            before: before.map(|off| (when("2026-03-01T09:00:00Z"), check(off).0)),
            name: "big".to_owned(),
            when: when("2026-11-26T09:00:00Z"),
            reference: ReferencePitch::A440,
            left: 0,
            harp,
            kept,
            strings,
        }
    }

    #[test]
    fn before_and_after_stand_side_by_side_and_what_was_mended_is_said() {
        let voice = Voice::of(&ShownChoice {
            language: "en".to_owned(),
            ..ShownChoice::default()
        });
        let view = findings(0.5, Some(-12.0)).viewed(&voice);
        let sharp = view.strings[0].sharp.as_ref().unwrap();
        assert_eq!((sharp.before_cents, sharp.is_out), (Some(-12.0), false));
        assert_eq!((view.report, view.read), (0, 4));
        assert!(view.found[0].ends_with("mended"), "{:?}", view.found);
        let bad = findings(-12.0, None).viewed(&voice);
        assert!(bad.strings[0].sharp.as_ref().unwrap().is_out);
        assert_eq!((bad.report, bad.found.len()), (1, 1));
        assert!(
            bad.strings[0].found.contains("disc"),
            "{}",
            bad.strings[0].found
        );
    }

    #[test]
    fn the_table_has_what_was_before_in_it() {
        let findings = findings(0.5, Some(-12.0));
        let naming = ShownChoice::default().naming();
        let csv = check_csv(&findings.sheet(""), naming, pitch::Tongue::English);
        let row: Vec<&str> = csv.lines().nth(1).unwrap().split(',').collect();
        assert_eq!((row[6], row[11]), ("0.50", "-12.00"));
    }
}
