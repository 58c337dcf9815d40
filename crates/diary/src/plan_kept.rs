//! A plan of a piece, as it stood when it was kept: which score it was made of, what was wished, what came out.
//!
//! The score itself is not in it: its name and its hash tell whether a file is the same. A part on paper has no file: what
//! was typed of it is kept.

use harp::{Setting, StringName};
use pitch::{Alteration, Letter, SpelledPitch};
use serde::{Deserialize, Serialize};

use crate::text::Text;
use crate::twin::twin;

/// A plan for a pedal harp. A later record of the same source takes its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanKept {
    /// The file's name.
    pub source: String,
    /// Its SHA-256 (FIPS 180-4), 64 hexadecimal digits.
    pub sha256: String,
    /// The piece's title, or nothing.
    pub title: String,
    /// The part, by its name.
    pub part: String,
    /// The name by which the diary knows the harp.
    pub harp: String,
    /// Least time between two moves of one foot, microseconds.
    pub foot_us: u64,
    /// Whether notes go to other strings only where there is no other way.
    pub written_spelling: bool,
    /// Prices by their words.
    pub prices: Vec<(String, u64)>,
    /// Pedals that were stuck, and where.
    pub stuck: Vec<(Letter, Alteration)>,
    /// Strings that were missing.
    pub missing: Vec<StringName>,
    /// Discs that failed, and where.
    pub dead: Vec<(StringName, Alteration)>,
    /// What she chose herself.
    pub pins: Vec<PlanPlace>,
    /// Where the pedals stand before the piece.
    pub opening: Setting,
    /// What strings without discs are tuned to, and from which written measure on.
    pub discless: Vec<(StringName, SpelledPitch, u32)>,
    /// Every change.
    pub changes: Vec<PlanPlace>,
    /// What it costs by these prices.
    pub total: u64,
    /// Whether no plan costs less.
    pub optimal: bool,
    /// Of a part on paper: the shorthand as it was typed. Its changes stand there and nowhere else, nothing was planned, and
    /// `sha256` is the shorthand's own.
    pub paper: Option<String>,
}

/// A pedal at a written place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanPlace {
    /// The written measure, from 1.
    pub measure: u32,
    /// Quarters from 1, an exact fraction: `5/2`.
    pub beat: String,
    /// The pedal.
    pub pedal: Letter,
    /// Where it stands then.
    pub to: Alteration,
    /// The times of playing at which it holds only; none: every time.
    pub only: Vec<u32>,
}

twin! {
    /// A letter.
    LetterBody is Letter { C = "C", D = "D", E = "E", F = "F", G = "G", A = "A", B = "B" }
}

twin! {
    /// Where a pedal stands.
    PlaceBody is Alteration { Flat = "flat", Natural = "natural", Sharp = "sharp" }
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct PlanBody {
    source: String,
    sha256: String,
    title: String,
    part: String,
    harp: String,
    foot_us: u64,
    written_spelling: bool,
    prices: Vec<(String, u64)>,
    stuck: Vec<(LetterBody, PlaceBody)>,
    missing: Vec<Text<StringName>>,
    dead: Vec<(Text<StringName>, PlaceBody)>,
    pins: Vec<ThereBody>,
    opening: Text<Setting>,
    discless: Vec<(Text<StringName>, Text<SpelledPitch>, u32)>,
    changes: Vec<ThereBody>,
    total: u64,
    optimal: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    paper: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct ThereBody {
    measure: u32,
    beat: String,
    pedal: LetterBody,
    to: PlaceBody,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    only: Vec<u32>,
}

impl From<&PlanKept> for PlanBody {
    fn from(kept: &PlanKept) -> Self {
        let pedal = |&(letter, at): &(Letter, Alteration)| (letter.into(), at.into());
        let dead = |&(string, at): &(StringName, Alteration)| (Text(string), at.into());
        let discless = |&(string, pitch, from): &(StringName, SpelledPitch, u32)| {
            (Text(string), Text(pitch), from)
        };
        Self {
            source: kept.source.clone(),
            sha256: kept.sha256.clone(),
            title: kept.title.clone(),
            part: kept.part.clone(),
            harp: kept.harp.clone(),
            foot_us: kept.foot_us,
            written_spelling: kept.written_spelling,
            prices: kept.prices.clone(),
            stuck: kept.stuck.iter().map(pedal).collect(),
            missing: kept.missing.iter().copied().map(Text).collect(),
            dead: kept.dead.iter().map(dead).collect(),
            pins: kept.pins.iter().map(ThereBody::from).collect(),
            opening: Text(kept.opening),
            discless: kept.discless.iter().map(discless).collect(),
            changes: kept.changes.iter().map(ThereBody::from).collect(),
            total: kept.total,
            optimal: kept.optimal,
            paper: kept.paper.clone(),
        }
    }
}

impl From<PlanBody> for PlanKept {
    fn from(body: PlanBody) -> Self {
        let pedal = |(letter, at): (LetterBody, PlaceBody)| (letter.into(), at.into());
        let dead = |(string, at): (Text<StringName>, PlaceBody)| (string.0, at.into());
        let discless = |(string, pitch, from): (Text<StringName>, Text<SpelledPitch>, u32)| {
            (string.0, pitch.0, from)
        };
        Self {
            source: body.source,
            sha256: body.sha256,
            title: body.title,
            part: body.part,
            harp: body.harp,
            foot_us: body.foot_us,
            written_spelling: body.written_spelling,
            prices: body.prices,
            stuck: body.stuck.into_iter().map(pedal).collect(),
            missing: body.missing.into_iter().map(|string| string.0).collect(),
            dead: body.dead.into_iter().map(dead).collect(),
            pins: body.pins.into_iter().map(PlanPlace::from).collect(),
            opening: body.opening.0,
            discless: body.discless.into_iter().map(discless).collect(),
            changes: body.changes.into_iter().map(PlanPlace::from).collect(),
            total: body.total,
            optimal: body.optimal,
            paper: body.paper,
        }
    }
}

impl From<&PlanPlace> for ThereBody {
    fn from(there: &PlanPlace) -> Self {
        Self {
            measure: there.measure,
            beat: there.beat.clone(),
            pedal: there.pedal.into(),
            to: there.to.into(),
            only: there.only.clone(),
        }
    }
}

impl From<ThereBody> for PlanPlace {
    fn from(body: ThereBody) -> Self {
        Self {
            measure: body.measure,
            beat: body.beat,
            pedal: body.pedal.into(),
            to: body.to.into(),
            only: body.only,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Diary, Entry, Writer};

    fn kept() -> PlanKept {
        let there = |measure, beat: &str, pedal, to, only: &[u32]| PlanPlace {
            measure,
            beat: beat.to_owned(),
            pedal,
            to,
            only: only.to_vec(),
        };
        PlanKept {
            source: "two lakes.musicxml".to_owned(),
            sha256: "0123456789abcdef".repeat(4),
            title: "Two Lakes".to_owned(),
            part: "Harp".to_owned(),
            harp: "pedal C1 G7".to_owned(),
            foot_us: 400_000,
            written_spelling: false,
            prices: vec![("moved".to_owned(), 1_000)],
            stuck: vec![(Letter::F, Alteration::Sharp)],
            missing: vec![StringName::new(Letter::A, 4)],
            dead: vec![(StringName::new(Letter::F, 3), Alteration::Natural)],
            pins: vec![there(3, "5/2", Letter::G, Alteration::Flat, &[])],
            opening: Setting::of_key(pitch::MajorKey::new(-3).unwrap()),
            discless: vec![(
                StringName::new(Letter::C, 1),
                SpelledPitch::new(Letter::C, Alteration::Flat, 1),
                1,
            )],
            changes: vec![there(4, "1", Letter::E, Alteration::Natural, &[2])],
            total: 4_000,
            optimal: true,
            paper: None,
        }
    }

    #[test]
    fn a_plan_reads_back_as_it_was_kept() {
        let entry = Entry::Plan(kept());
        let mut writer = Writer::new("desk", 1).unwrap();
        let at = "2026-11-26T18:40:00Z".parse().unwrap();
        let line = writer.line(&at, &entry).unwrap();
        assert!(line.contains(r#""kind":"plan","v":1,"body":{"source":"two lakes.musicxml""#));
        let mut diary = Diary::default();
        let read = diary.import(line.as_bytes());
        assert_eq!(read.troubles, []);
        let record = diary.record(&read.merged.taken[0]).unwrap();
        assert_eq!(record.entry(), Some(entry));
    }

    #[test]
    fn a_part_on_paper_keeps_its_shorthand() {
        let mut writer = Writer::new("desk", 1).unwrap();
        let at = "2026-11-26T18:40:00Z".parse().unwrap();
        let plan = PlanKept {
            paper: Some("opening Bb\n12 F#\n".to_owned()),
            ..kept()
        };
        let line = writer.line(&at, &Entry::Plan(plan.clone())).unwrap();
        let mut diary = Diary::default();
        let read = diary.import(line.as_bytes());
        let record = diary.record(&read.merged.taken[0]).unwrap();
        assert_eq!(record.entry(), Some(Entry::Plan(plan)));
    }

    /// A line of the first version: it must read for ever.
    #[test]
    fn the_first_version_is_read() {
        let line = r#"{"device":"desk","seq":1,"at":"2026-11-26T18:40:00Z","kind":"plan","v":1,"body":{"source":"a.mxl","sha256":"00","title":"","part":"Harp","harp":"pedal C1 G7","foot_us":400000,"written_spelling":true,"prices":[["moved",1000]],"stuck":[["F","sharp"]],"missing":["A4"],"dead":[["F3","natural"]],"pins":[{"measure":3,"beat":"5/2","pedal":"G","to":"flat"}],"opening":"{\"D\":0,\"C\":0,\"B\":-1,\"E\":-1,\"F\":0,\"G\":0,\"A\":-1}","discless":[["C1","Cb1",1]],"changes":[{"measure":4,"beat":"1","pedal":"E","to":"natural","only":[2]}],"total":4000,"optimal":true}}"#;
        let mut diary = Diary::default();
        let read = diary.import(line.as_bytes());
        assert_eq!(read.troubles, []);
        let Some(Entry::Plan(plan)) = diary.record(&read.merged.taken[0]).unwrap().entry() else {
            panic!("no plan");
        };
        assert_eq!((plan.pins.len(), plan.changes[0].only.len()), (1, 1));
        assert_eq!(plan.paper, None);
        assert_eq!(plan.opening.get(Letter::B), Some(Alteration::Flat));
    }
}
