//! An evening of our own invention, reckoned by hand.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot prepare its case should stop"
)]

use harp::Harp;
use pedals::{
    Attack, Broken, BrokenPart, Demand, Known, LeverPlan, LeverWishes, Moment, Outline, PaperBar,
    PaperPart, Plan, ProgrammePiece, Slot, Wishes, lost_tonight, programme,
};
use pitch::{Alteration, Letter, ReferencePitch};

/// One chord a second, each in a measure of its own.
fn demand(chords: &[&str], movements: &[usize]) -> Demand {
    let moments = chords.iter().enumerate().map(|(at, notes)| Moment {
        at_us: 1_000_000 * at as u64,
        measure: at as u32 + 1,
        attacks: notes
            .split_whitespace()
            .map(|note| Attack::of(note.parse().unwrap()))
            .collect(),
        ..Moment::empty()
    });
    Demand {
        moments: moments.collect(),
        movements: movements.to_vec(),
    }
}

fn planned(demand: &Demand, broken: &Broken) -> Plan {
    let wishes = Wishes {
        broken: broken.clone(),
        ..Wishes::comfortable()
    };
    pedals::plan(demand, &Harp::named("pedal47").unwrap(), &wishes)
}

fn pedal_piece<'a>(harp: &'a Harp, known: Known<'a>, a4_hz: f64) -> ProgrammePiece<'a> {
    ProgrammePiece {
        harp_name: "pedal47",
        harp,
        reference: ReferencePitch::new(a4_hz).unwrap(),
        known,
    }
}

#[test]
fn low_strings_that_two_pieces_want_otherwise_are_named_with_the_time_between() {
    let harp = Harp::named("pedal47").unwrap();
    // the second piece does not play 7C, so that it may be turned before it already
    let (one, two, three) = (
        demand(&["C#1", "D1 A3"], &[]),
        demand(&["D1", "A3"], &[]),
        demand(&["Cn1", "Db1"], &[]),
    );
    let plans: Vec<Plan> = [&one, &two, &three]
        .iter()
        .map(|demand| planned(demand, &Broken::default()))
        .collect();
    let known = [
        Known::Pedals(&one, &plans[0]),
        Known::Pedals(&two, &plans[1]),
        Known::Pedals(&three, &plans[2]),
    ];
    let pieces = known.map(|known| pedal_piece(&harp, known, 440.0));
    let evening = programme(&pieces);
    let told: Vec<(String, String, String, usize, usize, i32)> = evening
        .retunings
        .iter()
        .map(|turn| {
            (
                turn.string.to_string(),
                turn.from.to_string(),
                turn.to.to_string(),
                turn.after.piece,
                turn.before.piece,
                turn.semitones(),
            )
        })
        .collect();
    let turn = |string: &str, from: &str, to: &str, after, before, semitones| {
        (
            string.to_owned(),
            from.to_owned(),
            to.to_owned(),
            after,
            before,
            semitones,
        )
    };
    assert_eq!(
        told,
        [
            turn("C1", "C#1", "Cn1", 0, 2, -1),
            turn("D1", "Dn1", "Db1", 1, 2, -1)
        ]
    );
    // the second piece does not play 7C, so that it is offered before either; it does play 7D
    let offered = |piece| -> Vec<String> {
        let turns = evening.offered_before(piece);
        turns.map(|turn| turn.string.to_string()).collect()
    };
    assert_eq!(offered(0), <[String; 0]>::default());
    assert_eq!(offered(1), ["C1"]);
    assert_eq!(offered(2), ["C1", "D1"]);
    let [harp] = evening.harps.as_slice() else {
        panic!("{:?}", evening.harps);
    };
    let first: Vec<String> = harp
        .discless
        .iter()
        .map(|(_, pitch)| pitch.to_string())
        .collect();
    assert_eq!(first, ["C#1", "Dn1"]);
    // what nothing plays is nobody's care
    let strings = |piece: usize| -> Vec<String> {
        let sets = evening.pieces[piece].by_key.iter();
        sets.map(|set| set.pitch.to_string()).collect()
    };
    assert_eq!(strings(0), ["C#1", "Dn1"]);
    assert_eq!(strings(1), ["Dn1"]);
}

#[test]
fn movements_of_one_piece_want_it_otherwise_too() {
    let harp = Harp::named("pedal47").unwrap();
    let piece = demand(&["Cb1", "A3", "C#1"], &[2]);
    let plan = planned(&piece, &Broken::default());
    let evening = programme(&[pedal_piece(&harp, Known::Pedals(&piece, &plan), 440.0)]);
    let [turn] = evening.retunings.as_slice() else {
        panic!("{:?}", evening.retunings);
    };
    let slot = |movement| Slot { piece: 0, movement };
    assert_eq!((turn.after, turn.before), (slot(0), slot(1)));
    assert_eq!((turn.semitones(), turn.in_rest_at), (2, None));
}

#[test]
fn pedals_before_a_piece_are_those_that_stand_elsewhere() {
    let harp = Harp::named("pedal47").unwrap();
    let part = PaperPart::read("opening Bb Eb\n12 F# | B\n").part;
    let next = PaperPart::read("opening Eb Ab F#\n7C = C#\n").part;
    let pieces = [&part, &next].map(|part| pedal_piece(&harp, Known::Paper(part), 440.0));
    let evening = programme(&pieces);
    // the first piece: all seven, from nowhere
    assert_eq!(evening.pieces[0].pedals.len(), 7);
    assert_eq!(evening.pieces[0].pedals[0].from, None);
    // the first left B natural, E flat, F sharp, A natural: only A moves
    let [moved] = evening.pieces[1].pedals.as_slice() else {
        panic!("{:?}", evening.pieces[1].pedals);
    };
    assert_eq!((moved.letter, moved.to), (Letter::A, Alteration::Flat));
    assert_eq!(moved.from, Some(Alteration::Natural));
}

#[test]
fn another_pitch_and_another_harp() {
    let harp = Harp::named("pedal47").unwrap();
    let small = Harp::named("pedal40").unwrap();
    let part = PaperPart::read("opening Bb\n7C = C#").part;
    let other = PaperPart::read("opening Bb\n7C = C").part;
    let known = [Known::Paper(&part), Known::Nothing, Known::Paper(&other)];
    let [one, two, mut three] = known.map(|known| pedal_piece(&harp, known, 440.0));
    let two = ProgrammePiece {
        reference: ReferencePitch::new(442.0).unwrap(),
        ..two
    };
    let evening = programme(&[one.clone(), two.clone(), three.clone()]);
    let before = |piece: usize| evening.pieces[piece].other_reference;
    assert_eq!(before(0), None);
    assert_eq!(before(1), Some(ReferencePitch::A440));
    assert_eq!(before(2), ReferencePitch::new(442.0).ok());
    assert_eq!(evening.retunings.len(), 1);
    // on another instrument nothing is left over
    (three.harp_name, three.harp) = ("pedal40", &small);
    let evening = programme(&[one, two, three]);
    assert_eq!(evening.retunings, []);
    assert_eq!(evening.pieces[2].other_reference, None);
    assert_eq!(evening.pieces[2].pedals.len(), 7);
}

#[test]
fn levers_before_a_piece() {
    let harp = Harp::named("lever34").unwrap();
    let (one, two) = (demand(&["E4 A3"], &[]), demand(&["Eb4 A3 Bb3"], &[]));
    let plan = |demand: &Demand| -> LeverPlan {
        let open = vec![harp::OpenTuning::Eb];
        let wishes = LeverWishes {
            open,
            ..LeverWishes::default()
        };
        pedals::plan_levers(demand, &harp, &wishes).unwrap()
    };
    let (first, second) = (plan(&one), plan(&two));
    let piece = |known| ProgrammePiece {
        harp_name: "lever34",
        ..pedal_piece(&harp, known, 440.0)
    };
    let evening = programme(&[
        piece(Known::Levers(&one, &first)),
        piece(Known::Levers(&two, &second)),
    ]);
    let levers = evening.pieces[1].levers.as_ref().unwrap();
    let on: Vec<String> = levers.on.iter().map(ToString::to_string).collect();
    let flips: Vec<(String, bool)> = levers
        .flips
        .iter()
        .map(|(string, on)| (string.to_string(), *on))
        .collect();
    assert_eq!(on, ["A3"]);
    assert_eq!(flips, [("E4".to_owned(), false)]);
    assert_eq!(levers.other_open, None);
}

#[test]
fn strings_are_counted_over_the_evening() {
    let harp = Harp::named("pedal47").unwrap();
    let piece = demand(&["A4", "A4 C5", "G2"], &[]);
    let plan = planned(&piece, &Broken::default());
    let part = PaperPart::read("opening Bb\nexposed A4 E3\n").part;
    let pieces = [Known::Pedals(&piece, &plan), Known::Paper(&part)]
        .map(|known| pedal_piece(&harp, known, 440.0));
    let told: Vec<(String, [u32; 4], Vec<usize>)> = programme(&pieces)
        .strings
        .iter()
        .map(|used| {
            let played = used.played;
            let figures = [
                played.attacks,
                played.alone,
                played.exposed,
                used.called_exposed,
            ];
            (used.string.to_string(), figures, used.pieces.clone())
        })
        .collect();
    let string =
        |name: &str, figures, pieces: &[usize]| (name.to_owned(), figures, pieces.to_vec());
    assert_eq!(
        told,
        [
            string("G2", [1, 1, 1, 0], &[0]),
            string("E3", [0, 0, 0, 1], &[1]),
            string("A4", [2, 1, 1, 1], &[0, 1]),
            string("C5", [1, 0, 0, 0], &[0]),
        ]
    );
}

#[test]
fn what_is_broken_costs_notes_and_bars() {
    let broken = Broken {
        stuck: vec![(Letter::F, Alteration::Natural)],
        missing: vec!["A4".parse().unwrap()],
        ..Broken::default()
    };
    // F sharp can be had as G flat but not beside G; A4 has no other string
    let piece = demand(&["F4 C5", "F#4 G4", "A4", "F#4"], &[]);
    let plan = planned(&piece, &broken);
    let lost = lost_tonight(Known::Pedals(&piece, &plan), &broken);
    assert_eq!((lost.notes, lost.measures), (Some(2), 4));
    assert_eq!(lost.broken_measures, [(2, 1), (3, 1)]);
    let part = PaperPart::read("opening Bb\nexposed A4\n5 F#\n9 F\n").part;
    let lost = lost_tonight(Known::Paper(&part), &broken);
    assert_eq!(lost.notes, None);
    let what: Vec<BrokenPart> = lost.stretches.iter().map(|(what, _)| *what).collect();
    let pedal = BrokenPart::Pedal(Letter::F, Alteration::Natural);
    assert_eq!(what, [pedal, BrokenPart::String("A4".parse().unwrap())]);
    let stretch = &lost.stretches[0].1;
    assert_eq!(stretch.from, Some(PaperBar::Number(5, None)));
    assert_eq!(stretch.until, Some((0, Some(PaperBar::Number(9, None)))));
}

#[test]
fn of_an_outline_it_is_known_what_to_set_as_of_the_part_itself() {
    let harp = Harp::named("pedal47").unwrap();
    let texts = [
        "opening Bb\n7C = C#\n12 F#\nmovement II\n7C = C\n3 | C#",
        "opening Bb F#\n7C = C\n7D = Db\n4 F",
    ];
    let parts = texts.map(|text| PaperPart::read(text).part);
    let on_paper = parts
        .iter()
        .map(|part| pedal_piece(&harp, Known::Paper(part), 440.0));
    let evening = programme(&on_paper.collect::<Vec<_>>());
    let outlines: Vec<Outline> = parts
        .iter()
        .zip(&evening.pieces)
        .map(|(part, needs)| Outline {
            by_key: needs.by_key.clone(),
            opening: part.opening(0),
            ending: part.ending(),
        })
        .collect();
    let told = outlines
        .iter()
        .map(|outline| pedal_piece(&harp, Known::Outline(outline), 440.0));
    assert_eq!(programme(&told.collect::<Vec<_>>()).pieces, evening.pieces);
    // by hand: C is left sharp, F sharp stands already; 7C is C natural since the second movement
    let second = &evening.pieces[1];
    let moved: Vec<Letter> = second.pedals.iter().map(|before| before.letter).collect();
    assert_eq!(moved, [Letter::C]);
    let turned: Vec<String> = second
        .turned
        .iter()
        .map(|set| set.pitch.to_string())
        .collect();
    assert_eq!(turned, ["Db1"]);
}
