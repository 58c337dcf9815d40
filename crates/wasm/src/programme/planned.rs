//! A plan as the page shows it: the fields of the command's `plan --json`, and beside them what people read.

use harp::Naming;
use pedals::at_passes::{self, AtPasses};
use pedals::in_the_score::{self, Pencilled};
use pedals::{Change, Demand, Mark, Plan, Remedy, counted, discless, price_of_each, written_marks};
use pitch::SpelledPitch;
use score::Piece;
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use super::Score;
use super::ask::Ready;
use super::line::{Bill, Place, PlaceLine, SevenPedals, pedal_name};

/// The answer for a pedal harp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PlanAnswer {
    /// Where the pedals stand before the piece.
    pub opening_setting: SevenPedals,
    /// Where they stand when it is over.
    pub ending_setting: SevenPedals,
    /// Every change of the part.
    pub changes: Vec<ChangeLine>,
    /// What is set in the pause before each movement but the first.
    pub movements: Vec<MovementLine>,
    /// Notes on another string than written.
    pub respelled: Vec<RespelledLine>,
    /// Notes that do not sound.
    pub cannot: Vec<CannotLine>,
    /// Marks of the part that are not followed.
    pub contradicted: Vec<ContradictedLine>,
    /// What strings without discs are tuned to.
    pub discless: Vec<DisclessLine>,
    /// Where the pedals stand at the beginning of every bar.
    pub settings: Vec<SettingLine>,
    /// The bill.
    pub cost: Bill,
    /// Pedals moved.
    pub moves: usize,
    /// Whether no plan costs less.
    pub optimal: bool,
    /// By how much one could.
    pub gap: u64,
    /// With something broken, the bars that survive whole, with the time of playing.
    pub whole_measures: Option<Vec<(u32, u32)>>,
    /// What is pencilled where, in the order of the marks in the engraving.
    pub pencilled: Vec<PencilledLine>,
}

/// A change.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ChangeLine {
    /// Where.
    pub place: PlaceLine,
    /// When the pedal is home at its first playing, seconds.
    pub at_s: f64,
    /// `left` or `right`.
    pub foot: String,
    /// The letter.
    pub pedal: String,
    /// From where.
    pub from: Place,
    /// To where.
    pub to: Place,
    /// Whether it must not be followed at the other times of playing.
    pub only_then: bool,
    /// As it is called: F♯, Fis, fa♯.
    pub name: String,
    /// As it was called.
    pub was: String,
    /// Where all pedals stand then.
    pub after: SevenPedals,
    /// What it costs by itself.
    pub price: Bill,
}

/// A movement after the first, and what is set before it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct MovementLine {
    /// Its number, from 2.
    pub movement: usize,
    /// Its first written measure, counted from 1.
    pub measure: u32,
    /// As printed.
    pub bar: String,
    /// Where the pedals stand when it begins.
    pub setting: SevenPedals,
    /// What stands elsewhere than at the end of the movement before.
    pub changes: Vec<PauseLine>,
}

/// A pedal set in the pause before a movement; it costs nothing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PauseLine {
    /// Where the movement begins.
    pub place: PlaceLine,
    /// When the pedal is home, seconds, on a clock that knows no pause.
    pub at_s: f64,
    /// `left` or `right`.
    pub foot: String,
    /// The letter.
    pub pedal: String,
    /// From where.
    pub from: Place,
    /// To where.
    pub to: Place,
}

/// A note on another string than written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct RespelledLine {
    /// Where.
    pub place: PlaceLine,
    /// What she reads.
    pub written: String,
    /// What she plays.
    pub played: String,
    /// The same as people say it.
    pub written_name: String,
    /// The same as people say it.
    pub played_name: String,
}

/// A note that does not sound.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct CannotLine {
    /// Where.
    pub place: PlaceLine,
    /// What is written.
    pub pitch: String,
    /// Why: `outside_the_harp`, `broken`, `tuned_by_key`, `at_once`, `too_fast`, `too_dear`.
    pub reason: String,
    /// What could be done, the nearest first.
    pub remedies: Vec<RemedyLine>,
    /// As people say it.
    pub name: String,
}

/// What could be done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct RemedyLine {
    /// `respell`, `octave`, `leave_out`.
    pub what: String,
    /// The note that there would be.
    pub pitch: Option<String>,
    /// As people say it.
    pub name: Option<String>,
}

/// A mark that is not followed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ContradictedLine {
    /// Where.
    pub place: PlaceLine,
    /// The letter.
    pub pedal: String,
    /// As marked.
    pub marked: Place,
    /// As planned.
    pub planned: Place,
    /// Why: `notes_there`, `stuck`, `dearer`.
    pub reason: String,
    /// As marked, as people say it.
    pub marked_name: String,
    /// As planned, as people say it.
    pub planned_name: String,
}

/// What a string without discs is tuned to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DisclessLine {
    /// The string.
    pub string: String,
    /// What it sounds.
    pub pitch: String,
    /// Its movement, from 1.
    pub movement: usize,
    /// From which written measure on.
    pub measure: u32,
    /// Whether it is retuned in a rest.
    pub in_a_rest: bool,
    /// The string as people say it.
    pub string_name: String,
    /// The pitch as people say it.
    pub pitch_name: String,
}

/// Where the pedals stand at the beginning of a bar.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct SettingLine {
    /// Counted from 1.
    pub measure: u32,
    /// As printed.
    pub bar: String,
    /// The times of playing.
    pub passes: Vec<u32>,
    /// Its rehearsal mark.
    pub mark: Option<String>,
    /// Where they stand.
    pub setting: SevenPedals,
}

/// What is pencilled at one place for one foot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PencilledLine {
    /// The written measure, from 1.
    pub measure: u32,
    /// Its changes, by their places.
    pub changes: Vec<usize>,
}

/// As it stands in the score; at which times of playing a mark holds only is said in figures, which every language has.
pub(crate) fn pencilled(piece: &Piece, demand: &Demand, plan: &Plan) -> Vec<Pencilled> {
    let times = |passes: &[u32]| {
        let figures: Vec<String> = passes.iter().map(|pass| format!("{pass}.")).collect();
        figures.join(" ")
    };
    in_the_score::pencilled(piece, demand, plan, &times)
}

pub(crate) fn answer(score: &Score, ready: &Ready, naming: Naming) -> PlanAnswer {
    let (demand, plan) = (&score.demand, &ready.plan);
    let teller = Teller { score, naming };
    let pencilled = pencilled(&score.piece, demand, plan);
    let between = pedals::set_between(demand, plan, &ready.asked.wishes.feet);
    let is_broken = ready.asked.wishes.broken != pedals::Broken::default();
    PlanAnswer {
        opening_setting: plan.opening().unwrap_or_default().into(),
        ending_setting: plan.settings.last().copied().unwrap_or_default().into(),
        changes: teller.changes(ready),
        movements: teller.movements(plan, &between),
        respelled: teller.respelled(plan),
        cannot: teller.cannot(plan),
        contradicted: teller.contradicted(plan),
        discless: teller.discless(plan),
        settings: teller.settings(plan),
        cost: (&plan.cost).into(),
        moves: plan.changes.len() + between.len(),
        optimal: plan.optimal,
        gap: plan.gap,
        whole_measures: is_broken.then(|| pedals::surviving_measures(demand, plan)),
        pencilled: pencilled
            .into_iter()
            .map(|one| PencilledLine {
                measure: one.mark.measure as u32 + 1,
                changes: one.changes,
            })
            .collect(),
    }
}

/// Tells a plan of a score in the reader's names.
struct Teller<'a> {
    score: &'a Score,
    naming: Naming,
}

impl Teller<'_> {
    fn place(&self, measure: u32, beat: pedals::Quarters, passes: &[u32]) -> PlaceLine {
        PlaceLine {
            measure,
            bar: self.score.bar(measure),
            beat: beat.to_string(),
            counted: counted(&self.score.piece, measure, beat),
            passes: passes.to_vec(),
        }
    }

    fn at<T>(&self, at: &AtPasses<T>) -> PlaceLine {
        let there = &self.score.demand.moments[at.moment];
        self.place(there.measure, there.beat, &at.passes)
    }

    fn changes(&self, ready: &Ready) -> Vec<ChangeLine> {
        let (demand, plan) = (&self.score.demand, &ready.plan);
        let prices = price_of_each(demand, &ready.asked.wishes, plan);
        let marks = written_marks(demand, plan);
        let line = |mark: &Mark| {
            let change = &plan.changes[mark.change];
            ChangeLine {
                place: self.place(mark.measure, mark.beat, &mark.passes),
                at_s: change.at_us as f64 / 1e6,
                foot: mark.foot.as_str().to_owned(),
                pedal: mark.letter.to_string(),
                from: mark.from.into(),
                to: mark.to.into(),
                only_then: mark.only_then,
                name: pedal_name(self.naming, mark.letter, mark.to),
                was: pedal_name(self.naming, mark.letter, mark.from),
                after: plan.settings[change.moment].into(),
                price: Bill::of_what_counts(&prices[mark.change]),
            }
        };
        marks.iter().map(line).collect()
    }

    fn movements(&self, plan: &Plan, between: &[Change]) -> Vec<MovementLine> {
        let demand = &self.score.demand;
        let set = |first: usize| {
            let here = between.iter().filter(move |change| change.moment == first);
            here.map(|change| {
                let there = &demand.moments[change.moment];
                PauseLine {
                    place: self.place(there.measure, there.beat, &[there.pass]),
                    at_s: change.at_us as f64 / 1e6,
                    foot: change.foot.as_str().to_owned(),
                    pedal: change.letter.to_string(),
                    from: change.from.into(),
                    to: change.to.into(),
                }
            })
        };
        let lines = (2..)
            .zip(&demand.movements)
            .filter_map(|(movement, &first)| {
                let there = demand.moments.get(first)?;
                Some(MovementLine {
                    movement,
                    measure: there.measure,
                    bar: self.score.bar(there.measure),
                    setting: (*plan.settings.get(first)?).into(),
                    changes: set(first).collect(),
                })
            });
        lines.collect()
    }

    fn respelled(&self, plan: &Plan) -> Vec<RespelledLine> {
        let heads = at_passes::respelled(&self.score.demand, &plan.respelled);
        let lines = heads.iter().map(|at| {
            let (_, written, played) = at.what;
            RespelledLine {
                place: self.at(at),
                written: written.to_string(),
                played: discless::on_its_string(played),
                written_name: pitch_name(self.naming, written),
                played_name: pitch_name(self.naming, played),
            }
        });
        lines.collect()
    }

    fn cannot(&self, plan: &Plan) -> Vec<CannotLine> {
        let heads = at_passes::cannot(&self.score.demand, &plan.cannot);
        let lines = heads.iter().map(|at| CannotLine {
            place: self.at(at),
            pitch: at.what.pitch.to_string(),
            reason: at.what.reason.as_str().to_owned(),
            remedies: remedies(self.naming, &at.what.remedies),
            name: pitch_name(self.naming, at.what.pitch),
        });
        lines.collect()
    }

    fn contradicted(&self, plan: &Plan) -> Vec<ContradictedLine> {
        let marks = plan.contradicted.iter().map(|mark| {
            let told = (mark.letter, mark.marked, mark.planned, mark.because);
            (mark.moment, told)
        });
        let told = at_passes::at_passes(&self.score.demand, marks);
        let lines = told.iter().map(|at| {
            let (letter, marked, planned, because) = at.what;
            ContradictedLine {
                place: self.at(at),
                pedal: letter.to_string(),
                marked: marked.into(),
                planned: planned.into(),
                reason: because.as_str().to_owned(),
                marked_name: pedal_name(self.naming, letter, marked),
                planned_name: pedal_name(self.naming, letter, planned),
            }
        });
        lines.collect()
    }

    fn discless(&self, plan: &Plan) -> Vec<DisclessLine> {
        let demand = &self.score.demand;
        let played = pedals::tuned_and_played(demand, plan).into_iter();
        let lines = played.filter_map(|tuned| {
            let there = demand.moments.get(tuned.from_moment)?;
            let before = demand
                .movements
                .partition_point(|&first| first <= tuned.from_moment);
            let pitch = tuned.pitch();
            Some(DisclessLine {
                string: tuned.string.to_string(),
                pitch: pitch.to_string(),
                movement: before + 1,
                measure: there.measure,
                in_a_rest: tuned.in_a_rest,
                string_name: self.naming.string(tuned.string),
                pitch_name: natural_said(self.naming, pitch),
            })
        });
        lines.collect()
    }

    fn settings(&self, plan: &Plan) -> Vec<SettingLine> {
        let all = at_passes::settings(&self.score.demand, &plan.settings);
        let lines = all.into_iter().map(|at| {
            let measure = self.score.demand.moments[at.moment].measure;
            SettingLine {
                measure,
                bar: self.score.bar(measure),
                passes: at.passes,
                mark: self.score.rehearsal(measure),
                setting: at.what.into(),
            }
        });
        lines.collect()
    }
}

/// Remedies by name.
pub(crate) fn remedies(naming: Naming, remedies: &[Remedy]) -> Vec<RemedyLine> {
    let line = |what: &str, pitch: Option<SpelledPitch>| RemedyLine {
        what: what.to_owned(),
        pitch: pitch.map(|pitch| pitch.to_string()),
        name: pitch.map(|pitch| pitch_name(naming, pitch)),
    };
    let lines = remedies.iter().map(|remedy| match remedy {
        Remedy::Respell(pitch) => line("respell", Some(*pitch)),
        Remedy::Octave(pitch) => line("octave", Some(*pitch)),
        Remedy::LeaveOut => line("leave_out", None),
    });
    lines.collect()
}

/// A pitch with its octave, in the reader's own counting.
pub(crate) fn pitch_name(naming: Naming, pitch: SpelledPitch) -> String {
    let name = naming.language.name(pitch);
    match naming.numbers {
        harp::Numbers::Scientific => format!("{name}{}", pitch.octave),
        harp::Numbers::Harp => {
            let octave = pitch::harp_octave(pitch.letter, pitch.octave);
            format!("{octave}{name}")
        }
    }
}

/// A pitch as people say it, a natural among them.
pub(crate) fn natural_said(naming: Naming, pitch: SpelledPitch) -> String {
    let natural = if pitch.alter == 0 { "♮" } else { "" };
    naming.language.name(pitch) + natural
}
