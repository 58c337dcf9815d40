//! The harp's strings as the page shows them, from the bass: what each is, and what it needs.

use std::collections::BTreeMap;

use diary::{Moment, SparesKnown, Stands, StringKnown};
use harp::{Colour, Field, Harp, StringName};
use keep::{By, Covered, DueString, Register, Settling, Spare, State};
use pitch::ReferencePitch;
use serde::{Deserialize, Serialize};
use tsify::Tsify;
use tuning::round::Names;

use super::ask::Asked;

/// The whole page.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct HarpView {
    /// The harp's name in the diary.
    pub name: String,
    /// How many rounds it had.
    pub rounds: usize,
    /// How many readings.
    pub readings: usize,
    /// The strings, from the bass.
    pub strings: Vec<StringView>,
    /// What cannot be told, said under the questions.
    pub limits: String,
    /// Octaves of mixed ages.
    pub mixed: Vec<String>,
    /// After how long strings are renewed: octaves 0 to 2, below, wires.
    pub intervals: Vec<IntervalShown>,
    /// What lies in the drawer.
    pub spares: Vec<SpareShown>,
    /// What to order.
    pub orders: Vec<OrderShown>,
    /// The technician's visits, the last first.
    pub visits: Vec<VisitShown>,
    /// What the checks before and after the last visit found; without a visit, what the last check found.
    pub findings: Vec<String>,
    /// Records of a newer version, not shown.
    pub not_understood: usize,
}

/// A string.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StringView {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// `red`, `dark`, `metallic` or `plain`.
    pub colour: String,
    /// Whether it is a wire.
    pub wire: bool,
    /// `on`, `broken` or `off`.
    pub stands: String,
    /// `not_yet`, `not_known`, `may_be`, `due` or `missing`.
    pub due: String,
    /// Its age, whether it is due, and what the interval is worth.
    pub due_words: String,
    /// Its material, in the diary's word.
    pub material: Option<String>,
    /// Its outer diameter, millimetres.
    pub gauge_mm: Option<f64>,
    /// When it was put on.
    pub fitted: Option<String>,
    /// Whether it had been played before.
    pub used: bool,
    /// Who put it on.
    pub by: String,
    /// How many broke in its place.
    pub breaks: usize,
    /// When the last did.
    pub broke: Option<String>,
    /// How far off it was heard last, cents.
    pub off_cents: Option<f64>,
    /// Half of that reading's 95 % interval.
    pub u95_cents: Option<f64>,
    /// When that was.
    pub heard: Option<String>,
    /// How many readings there are.
    pub readings: usize,
    /// How far it moved by itself last, cents.
    pub moved_cents: Option<f64>,
    /// Half of its 95 % interval.
    pub moved_u95_cents: Option<f64>,
    /// How a string that was put on settles; none of one that is not known to be new, or has long settled.
    pub settling: Option<String>,
    /// Whether it is new and not settled yet.
    pub settles: bool,
    /// What is asked about it.
    pub questions: Vec<String>,
    /// What stands in for it.
    pub cover: String,
    /// The place of that spare among the spares.
    pub spare: Option<usize>,
    /// Its tension at the pitch that was tuned to last, the harp open, newtons; where her figures give it.
    pub tension_n: Option<f64>,
}

/// An interval of renewal.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct IntervalShown {
    /// From this age on it may be time, years.
    pub from_years: f64,
    /// At this age it is.
    pub to_years: f64,
    /// What that is worth.
    pub worth: String,
}

/// Spares of one kind and day.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct SpareShown {
    /// Whether they are kept for any harp.
    pub for_any: bool,
    /// The string that they are for, in files.
    pub string: Option<String>,
    /// The string where they belong on this harp, as it is called.
    pub place: Option<String>,
    /// The material, in the diary's word.
    pub material: Option<String>,
    /// Their outer diameter, millimetres.
    pub gauge_mm: Option<f64>,
    /// The day they were bought.
    pub bought: Option<String>,
    /// How many there are.
    pub count: u32,
    /// How long they keep.
    pub keeps: String,
}

/// A string to order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct OrderShown {
    /// The string.
    pub name: String,
    /// The strings that it will cover.
    pub covers: Vec<String>,
}

/// A visit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct VisitShown {
    /// When.
    pub at: String,
    /// Who came.
    pub who: String,
    /// What was done.
    pub done: String,
    /// What else was written.
    pub note: String,
}

impl HarpView {
    pub(super) fn of(asked: &Asked<'_>) -> HarpView {
        asked.voice.with_names(|names| whole(asked, names))
    }
}

fn whole(asked: &Asked<'_>, names: &Names<'_>) -> HarpView {
    let (harp, own, now) = (&asked.harp, &*asked.own, asked.now);
    let tongue = asked.voice.tongue;
    let lots: Vec<&SparesKnown> = asked.known.spares_of(&own.harp).collect();
    let spares: Vec<Spare> = lots.iter().map(|lot| spare(lot)).collect();
    let cover = keep::cover(harp, &spares, now);
    let mixed = keep::mixed(harp, own, now, &asked.intervals);
    let visit = own.visits.last().map(|visit| visit.when);
    HarpView {
        name: own.harp.clone(),
        rounds: own.rounds,
        readings: own.strings.values().map(|s| s.history.len()).sum(),
        strings: strings(asked, &cover, names),
        limits: keep::limits(tongue).to_owned(),
        mixed: (mixed.iter())
            .map(|one| keep::mixed_words(one, names, tongue))
            .collect(),
        intervals: intervals(asked),
        spares: lots
            .iter()
            .zip(&spares)
            .map(|(lot, spare)| SpareShown::of(asked, lot, spare))
            .collect(),
        orders: keep::to_order(harp, &cover)
            .into_iter()
            .map(|order| OrderShown {
                name: (names.string)(order.string),
                covers: order.covers.iter().map(|s| (names.string)(*s)).collect(),
            })
            .collect(),
        visits: own
            .visits
            .iter()
            .rev()
            .map(|visit| VisitShown {
                at: visit.when.to_string(),
                who: visit.who.clone(),
                done: visit.done.clone(),
                note: visit.note.clone(),
            })
            .collect(),
        findings: keep::findings(own, visit)
            .iter()
            .map(|one| keep::finding(one, names, tongue))
            .collect(),
        not_understood: asked.known.not_understood.len(),
    }
}

/// One of a lot: how many there are does not change what it covers.
fn spare(lot: &SparesKnown) -> Spare {
    Spare {
        string: lot.string,
        material: lot.material,
        gauge_mm: lot.gauge_mm,
        bought: lot.bought,
    }
}

impl SpareShown {
    fn of(asked: &Asked<'_>, lot: &SparesKnown, spare: &Spare) -> SpareShown {
        let place = spare.place(&asked.harp);
        SpareShown {
            for_any: lot.harp.is_none(),
            string: lot.string.map(|s| s.to_string()),
            place: place.map(|s| asked.voice.string(s)),
            material: lot.material.map(|m| m.as_str().to_owned()),
            gauge_mm: lot.gauge_mm,
            bought: lot.bought.map(day),
            count: lot.count,
            keeps: keep::shelf_words(spare.shelf(&asked.harp, asked.now), asked.voice.tongue)
                .to_owned(),
        }
    }
}

fn day(when: Moment) -> String {
    when.to_string().chars().take(10).collect()
}

fn intervals(asked: &Asked<'_>) -> Vec<IntervalShown> {
    let registers = [Register::Top, Register::Middle, Register::Wire];
    let shown = registers.map(|register| {
        let interval = asked.intervals.of_register(register);
        IntervalShown {
            from_years: interval.from_years,
            to_years: interval.to_years,
            worth: keep::mark_words(interval.mark, asked.voice.tongue).to_owned(),
        }
    });
    shown.to_vec()
}

fn strings(asked: &Asked<'_>, cover: &[Covered], names: &Names<'_>) -> Vec<StringView> {
    let (harp, own, now) = (&asked.harp, &*asked.own, asked.now);
    let nothing = StringKnown::default();
    let due = keep::due(harp, own, now, &asked.intervals);
    let settling = keep::settling(harp, own, now);
    let tongue = asked.voice.tongue;
    let mut questions: BTreeMap<StringName, Vec<String>> = BTreeMap::new();
    for one in keep::suspected(harp, own, now) {
        let words = keep::question(&one, names, tongue);
        questions.entry(one.string).or_default().push(words);
    }
    let tension = tension(asked);
    let strings = harp.strings().iter().zip(due.iter().zip(cover));
    let strings = strings.map(|(string, (due, covered))| {
        let name = string.name;
        let kept = own.strings.get(&name).unwrap_or(&nothing);
        let settles = settling.get(&name).copied().unwrap_or(Settling::NotNew);
        StringView {
            colour: colour(string.colour).to_owned(),
            wire: string.wire,
            settles: matches!(settles, Settling::Moving { .. } | Settling::TooFew { .. })
                && kept.stands == Stands::On
                && is_young(due),
            settling: (settles != Settling::NotNew && kept.stands == Stands::On && is_young(due))
                .then(|| keep::settling_words(&settles, tongue)),
            questions: questions.remove(&name).unwrap_or_default(),
            cover: keep::cover_words(covered, names, tongue),
            spare: match covered.by {
                By::Own(at) => Some(at),
                By::Thinner { spare, .. } => Some(spare),
                By::Nothing => None,
            },
            tension_n: tension.get(&name).copied(),
            due: state(due.state).to_owned(),
            due_words: keep::due_words(due, tongue),
            ..of_string(harp, name, kept, (names.string)(name))
        }
    });
    strings.collect()
}

/// Days for which a new string's settling is told.
const YOUNG: f64 = 90.0;

fn is_young(due: &DueString) -> bool {
    due.age.days().is_some_and(|days| days <= YOUNG)
}

/// What the diary alone says of a string.
fn of_string(harp: &Harp, name: StringName, kept: &StringKnown, called: String) -> StringView {
    let fitted = kept.fitted.as_ref();
    let given = harp.string(name).map(|string| harp.figures(string));
    let given = given.unwrap_or_default();
    let moved = kept.moves().last().copied();
    let material = fitted.and_then(|f| f.material).or(given.material);
    StringView {
        id: name.to_string(),
        name: called,
        colour: String::new(),
        wire: false,
        stands: match kept.stands {
            Stands::On => "on",
            Stands::Broken => "broken",
            Stands::Off => "off",
        }
        .to_owned(),
        due: String::new(),
        due_words: String::new(),
        material: material.map(|m| m.as_str().to_owned()),
        gauge_mm: (fitted.and_then(|f| f.gauge_mm)).or(given.get(Field::GaugeMm)),
        fitted: fitted.map(|f| f.when.to_string()),
        used: fitted.is_some_and(|f| f.used),
        by: fitted.map(|f| f.by.clone()).unwrap_or_default(),
        breaks: kept.breaks.len(),
        broke: kept.breaks.iter().max().map(Moment::to_string),
        off_cents: kept.last.map(|p| p.off_cents),
        u95_cents: kept.last.map(|p| p.u95_cents),
        heard: kept.last.map(|p| p.when.to_string()),
        readings: kept.history.len(),
        moved_cents: moved.map(|m| m.cents),
        moved_u95_cents: moved.map(|m| m.u95_cents),
        settling: None,
        settles: false,
        questions: Vec::new(),
        cover: String::new(),
        spare: None,
        tension_n: None,
    }
}

/// Of the strings whose figures were given.
fn tension(asked: &Asked<'_>) -> BTreeMap<StringName, f64> {
    let a4_hz = asked.own.a4_hz.map(|(_, hz)| hz);
    let reference = a4_hz.and_then(|hz| ReferencePitch::new(hz).ok());
    let strung = keep::strung(&asked.harp, &asked.own);
    let sheet = strung.sheet(reference.unwrap_or(ReferencePitch::A440));
    let given = sheet.iter();
    given
        .filter_map(|line| Some((line.string, line.tension_n.as_ref().ok().copied()?)))
        .collect()
}

fn colour(colour: Colour) -> &'static str {
    match colour {
        Colour::Red => "red",
        Colour::Dark => "dark",
        Colour::Metallic => "metallic",
        Colour::Plain => "plain",
    }
}

fn state(state: State) -> &'static str {
    match state {
        State::NotYet => "not_yet",
        State::NotKnown => "not_known",
        State::MayBe => "may_be",
        State::Due => "due",
        State::Missing => "missing",
    }
}
