//! Rounds and practice of some weeks, worked through by hand, and any others. Player, harps and figures are invented.
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use diary::{
    Asked, AskedAbout, BeatsCounted, Diary, EarDrill, Entry, OffKept, PracticeKept, Record,
    RecordId, RoundBegun, RoundOver, Side, SizeAnswered, StringOver, TunedByEar,
};
use harp::{Harp, Setup, StringName};
use keep::{Guesses, Progress, progress};
use pitch::ReferencePitch;
use tuning::practice::Threshold;
use tuning::round::{Kept, Plan, State};

fn name(text: &str) -> StringName {
    text.parse().unwrap()
}

fn write(diary: &mut Diary, at: &str, entry: Entry) -> RecordId {
    let record = diary.append("phone", at.parse().unwrap(), &entry);
    record.unwrap().id().clone()
}

fn begun(harp: &str, few: Option<&str>) -> RoundBegun {
    let built_in = Harp::named("lever22").unwrap();
    let setup = Setup::open(ReferencePitch::A440);
    let plan = Plan::of(&built_in, &setup).unwrap();
    let mut begun = RoundBegun::of(harp, &built_in, &setup, &plan, 0.6);
    begun.touch_up = few.map(|string| vec![name(string)]);
    begun
}

fn found(string: &str, off_cents: f64, state: State) -> StringOver {
    let kept = |off_cents: f64| Kept {
        at_s: 1.0,
        target_hz: 440.0,
        heard_hz: 440.0 * (off_cents / 1200.0).exp2(),
        off_cents,
        u95_cents: 0.5,
        b: None,
        t60_s: None,
        level_dbfs: None,
        aside: None,
    };
    StringOver {
        string: name(string),
        before: Some(kept(off_cents)),
        after: Some(kept(0.0)),
        plucks: 2,
        state,
        fitted: false,
    }
}

fn over(round: RecordId, minutes: f64, strings: Vec<StringOver>) -> Entry {
    Entry::RoundOver(RoundOver {
        round,
        finished: true,
        minutes,
        left: 0,
        again: Vec::new(),
        strings,
    })
}

fn by_ear(guess: Option<Side>, before: Option<f64>, after: Option<f64>) -> TunedByEar {
    let off = |off_cents| OffKept {
        off_cents,
        u95_cents: 0.5,
    };
    TunedByEar {
        drill: EarDrill::Octave,
        string: name("C4"),
        against: Some(name("C5")),
        guess,
        before: before.map(off),
        after: after.map(off),
        target_hz: 246.94,
        found: None,
        left: None,
        took_s: 20.0,
    }
}

/// Two rounds and a touch-up in the week of 23 November 2026, a round that never ended in the week before.
fn weeks_of_rounds() -> Diary {
    let mut diary = Diary::default();
    let all = &mut diary;
    write(
        all,
        "2026-11-20T18:00:00Z",
        Entry::Round(begun("own", None)),
    );
    let round = write(
        all,
        "2026-11-23T18:00:00Z",
        Entry::Round(begun("own", None)),
    );
    let strings = vec![
        found("C4", -9.0, State::InTune),
        found("D4", 4.0, State::InTune),
        found("E4", 1.0, State::Near),
    ];
    write(all, "2026-11-23T18:12:00Z", over(round, 12.0, strings));
    let round = write(
        all,
        "2026-11-25T18:00:00Z",
        Entry::Round(begun("own", None)),
    );
    let strings = vec![
        found("C4", -7.0, State::InTune),
        // not surely out: 3.4 − 0.5 is less than three cents
        found("D4", 3.4, State::InTuneByEar),
        found("E4", 1.0, State::InTune),
    ];
    write(all, "2026-11-25T18:09:30Z", over(round, 9.5, strings));
    let round = write(
        all,
        "2026-11-26T18:00:00Z",
        Entry::Round(begun("own", Some("C4"))),
    );
    let strings = vec![found("C4", 4.0, State::InTune)];
    write(all, "2026-11-26T18:02:00Z", over(round, 2.0, strings));
    diary
}

#[test]
fn rounds_are_summed_by_week() {
    let told = progress(&weeks_of_rounds(), 0);
    assert_eq!(told.harps.len(), 1);
    let own = &told.harps[0];
    assert_eq!(own.harp.as_deref(), Some("own"));
    assert!(Harp::from_toml(own.toml.as_ref().unwrap()).is_ok());
    let weeks: Vec<_> = own
        .weeks
        .iter()
        .map(|w| {
            (
                w.monday.to_string(),
                w.rounds,
                w.open_rounds,
                w.rounds_min,
                w.in_tune,
            )
        })
        .collect();
    let expected = [
        ("2026-11-16".to_owned(), 1, 1, 0.0, None),
        // two of three and three of three; the touch-up is no whole round
        ("2026-11-23".to_owned(), 3, 0, 23.5, Some((5, 6))),
    ];
    assert_eq!(weeks, expected);
    let (from, to) = told.from_to.unwrap();
    assert_eq!(from.to_string(), "2026-11-20T18:00:00Z");
    assert_eq!(to.to_string(), "2026-11-26T18:00:00Z");
}

#[test]
fn the_worst_string_is_the_one_that_was_surely_out_most_often() {
    let told = progress(&weeks_of_rounds(), 0);
    let worst = &told.harps[0].worst;
    let out: Vec<_> = worst
        .iter()
        .map(|w| (w.string, w.out.count, w.out.of))
        .collect();
    assert_eq!(out, [(name("C4"), 3, 3), (name("D4"), 1, 2)]);
    // 4, 7, 9 either way; with their signs −9, −7, 4
    assert_eq!(worst[0].off_cents.middle, 7.0);
    assert_eq!(worst[0].off_cents.interval, None, "three are too few");
    assert_eq!((worst[0].way_cents, worst[0].farthest_cents), (-7.0, -9.0));
    // Wilson by hand for 3 of 3: n/(n + z²) = 3 / 6.8415
    assert!((worst[0].out.lower - 0.4385).abs() < 1e-4);
}

#[test]
fn guesses_are_held_against_the_measurement() {
    let mut diary = Diary::default();
    let (high, low) = (Some(Side::High), Some(Side::Low));
    let practised = PracticeKept {
        harp: Some("own".to_owned()),
        took_s: 300.0,
        by_ear: vec![
            by_ear(high, Some(4.0), Some(-1.0)),
            by_ear(high, Some(-4.0), Some(3.0)),
            by_ear(low, Some(-4.0), Some(2.0)),
            by_ear(low, Some(0.4), None),
            by_ear(low, None, Some(f64::NAN)),
            by_ear(None, Some(9.0), None),
        ],
        ..PracticeKept::default()
    };
    write(
        &mut diary,
        "2026-11-26T18:00:00Z",
        Entry::Practice(practised),
    );
    let told = progress(&diary, 0);
    let week = &told.harps[0].weeks[0];
    let guesses = Guesses {
        right: 2,
        wrong: 1,
        too_near: 1,
    };
    assert_eq!((week.guesses, told.harps[0].guesses), (guesses, guesses));
    assert_eq!(guesses.share().map(|s| (s.count, s.of)), Some((2, 3)));
    let near = week.near_cents.unwrap();
    assert_eq!((near.middle, near.of), (2.0, 3));
    assert_eq!((week.practised_min, week.rounds), (5.0, 0));
}

#[test]
fn an_ear_is_told_week_by_week_and_from_nothing() {
    let mut diary = Diary::default();
    let size = |size_cents, right| SizeAnswered {
        hz: 440.0,
        size_cents,
        right,
    };
    let answers = [(30.0, true), (8.0, true), (3.0, false)];
    for at in [
        "2026-11-17T18:00:00Z",
        "2026-11-24T18:00:00Z",
        "2026-11-26T18:00:00Z",
    ] {
        let practised = PracticeKept {
            sizes: answers.map(|(cents, right)| size(cents, right)).to_vec(),
            asked: vec![
                Asked {
                    about: AskedAbout::Pin,
                    right: true,
                },
                Asked {
                    about: AskedAbout::TunerName,
                    right: at < "2026-11-20",
                },
            ],
            counted: vec![BeatsCounted {
                per_s: 2.0,
                said_per_s: 2.5,
            }],
            ..PracticeKept::default()
        };
        write(&mut diary, at, Entry::Practice(practised));
    }
    let told = progress(&diary, 0);
    let counts: Vec<_> = told
        .ear
        .iter()
        .map(|w| (w.monday.to_string(), w.answers))
        .collect();
    assert_eq!(
        counts,
        [("2026-11-16".to_owned(), 3), ("2026-11-23".to_owned(), 6)]
    );
    let mut ear = Threshold::default();
    answers
        .iter()
        .for_each(|(cents, right)| ear.answer(*cents, *right));
    assert_eq!(told.ear[0].threshold, ear.estimate());
    answers
        .iter()
        .for_each(|(cents, right)| ear.answer(*cents, *right));
    assert_eq!(told.ear[1].threshold, ear.estimate(), "each week by itself");
    let asked: Vec<_> = told
        .questions
        .iter()
        .map(|q| (q.about, q.right.count, q.right.of))
        .collect();
    assert_eq!(
        asked,
        [(AskedAbout::TunerName, 1, 3), (AskedAbout::Pin, 3, 3)]
    );
    assert_eq!(told.counted.map(|c| (c.middle, c.of)), Some((0.5, 3)));
    assert_eq!(told.harps[0].harp, None, "made strings are of no harp");
}

#[test]
fn nothing_comes_of_nothing() {
    assert_eq!(progress(&Diary::default(), 0), Progress::default());
}

/// Figures to draw from, wild ones among them.
struct Draws(u64);

impl Draws {
    /// Below `end` (Knuth's MMIX generator; the upper bits).
    fn below(&mut self, end: u64) -> u64 {
        let next = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = next.wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % end
    }

    fn figure(&mut self) -> f64 {
        let wild = [
            f64::NAN,
            f64::INFINITY,
            f64::NEG_INFINITY,
            0.0,
            -0.0,
            1e300,
            -1e300,
        ];
        match self.below(12) {
            0 => wild[self.below(7) as usize],
            _ => self.below(4000) as f64 / 100.0 - 20.0,
        }
    }
}

fn any(draws: &mut Draws) -> Diary {
    let mut diary = Diary::default();
    for _ in 0..draws.below(40) {
        let at = format!(
            "2026-1{}-{:02}T{:02}:00:00Z",
            draws.below(3),
            1 + draws.below(28),
            draws.below(24)
        );
        let harp = ["own", "hired"][draws.below(2) as usize];
        if draws.below(2) == 0 {
            let round = write(&mut diary, &at, Entry::Round(begun(harp, None)));
            for _ in 0..draws.below(3) {
                let strings = ["C4", "D4"].map(|s| found(s, draws.figure(), State::InTune));
                write(
                    &mut diary,
                    &at,
                    over(round.clone(), draws.figure(), strings.to_vec()),
                );
            }
        } else {
            let mut off = || (draws.below(3) > 0).then(|| draws.figure());
            let tuned = by_ear(Some(Side::Low), off(), off());
            let practised = PracticeKept {
                harp: Some(harp.to_owned()),
                took_s: draws.figure(),
                by_ear: vec![tuned; 3],
                sizes: vec![SizeAnswered {
                    hz: 440.0,
                    size_cents: draws.figure(),
                    right: true,
                }],
                counted: vec![BeatsCounted {
                    per_s: draws.figure(),
                    said_per_s: draws.figure(),
                }],
                ..PracticeKept::default()
            };
            write(&mut diary, &at, Entry::Practice(practised));
        }
    }
    diary
}

#[test]
fn any_records_give_figures_that_hold_together_whatever_came_first() {
    let draws = &mut Draws(7);
    for _ in 0..300 {
        let diary = any(draws);
        let told = progress(&diary, 0);
        let mut backwards = Diary::default();
        let records: Vec<Record> = diary.records().cloned().collect();
        backwards.merge(records.into_iter().rev());
        assert_eq!(progress(&backwards, 0), told);
        let count = |kind: &str| diary.records().filter(|r| r.kind() == kind).count();
        let weeks = || told.harps.iter().flat_map(|harp| &harp.weeks);
        assert_eq!(weeks().map(|w| w.rounds).sum::<usize>(), count("round"));
        for week in weeks() {
            assert!(
                week.rounds_min >= 0.0 && week.practised_min >= 0.0,
                "{week:?}"
            );
            assert!(week.open_rounds <= week.rounds);
            assert!(week.in_tune.is_none_or(|(right, of)| right <= of));
            if let Some((middle, (lower, upper))) =
                week.near_cents.and_then(|n| Some((n.middle, n.interval?)))
            {
                assert!(lower <= middle && middle <= upper);
            }
        }
        for harp in &told.harps {
            assert!(harp.weeks.is_sorted_by_key(|week| &week.monday));
            for worst in &harp.worst {
                let share = worst.out.share();
                assert!(worst.out.lower <= share && share <= worst.out.upper);
                assert!(worst.out.of <= count("round"));
                assert!(worst.farthest_cents.abs() >= worst.off_cents.middle);
            }
        }
        for week in &told.ear {
            let ear = week.threshold;
            assert!(
                ear.lower_cents <= ear.cents && ear.cents <= ear.upper_cents,
                "{ear:?}"
            );
        }
    }
}
