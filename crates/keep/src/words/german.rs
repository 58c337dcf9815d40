//! German. The trade's words are from memory, no source: Wirbel (a tuning pin), Scheibe, Klappe, falsche Saite.

use pitch::Alteration;

use super::Words;
use crate::{Age, Caution, Mark, Mended, Settling, Shelf, State, StepKind, Time};

pub(super) const WORDS: Words = Words {
    slips: |string, s| {
        format!(
            "{string} ist {} von {} Malen gesunken, um {} Cent (±{}) mehr als die Nachbarinnen, die sich um {} bewegten: Rutscht der Wirbel?",
            s.times, s.of, s.cents, s.u95, s.neighbours
        )
    },
    wide: |string, times| {
        format!(
            "Die Messungen von {string} sind {times}-mal so unsicher wie früher, die der Nachbarinnen nicht: Ist die Saite falsch?"
        )
    },
    strays: |string, times| {
        format!(
            "{string} schwankt {times}-mal so weit auf und ab wie früher: Ist die Saite falsch?"
        )
    },
    rings_shorter: |string, times| {
        format!(
            "{string} klingt nur noch {times}-mal so lange wie früher, die Nachbarinnen wie immer: Ist die Saite abgenutzt oder falsch?"
        )
    },
    softer: |string, db| {
        format!(
            "{string} klingt um {db} dB leiser als früher, die Nachbarinnen nicht: Ist die Saite abgenutzt, oder wird sie von etwas berührt?"
        )
    },
    stiffness: |string, times| {
        format!(
            "{string} ist {times}-mal so steif wie früher, ohne dass eine neue Saite aufgezogen wurde: Ist sie ungleich abgenutzt oder falsch?"
        )
    },
    other_string: |string, times, less| {
        let how = if less { "zu dünn" } else { "zu dick" };
        format!(
            "Die neue {string} ist {times}-mal so steif wie die Saite vor ihr: Ist sie {how}, von anderer Stärke oder aus einer anderen Oktave?"
        )
    },
    gauge: |string, written, harp| {
        format!(
            "{string} wurde mit {written} mm notiert, in der Datei der Harfe stehen {harp} mm: Was stimmt?"
        )
    },
    slower: |string, days, before, speed| {
        format!(
            "{string} ist seit {days} Tagen aufgezogen und bewegt sich noch um {speed} Cent am Tag; die Saite vor ihr hielt nach {before}: Halten Wirbel und Knoten?"
        )
    },
    limits: "Jede Saite wird mit ihrer eigenen Vergangenheit und ihren Nachbarinnen verglichen. So nicht zu erkennen sind eine benachbarte Stärke und eine Saite, die immer falsch war.",
    age: |age, years| match age {
        Age::Days(days) => format!("{} Jahre alt", years(days)),
        Age::AtLeast(days) => format!("mindestens {} Jahre alt", years(days)),
        Age::Unknown => "Alter unbekannt".to_owned(),
        Age::NoString => "keine Saite".to_owned(),
    },
    state: |state| match state {
        State::NotYet => "nicht fällig",
        State::NotKnown => "unbekannt, ob fällig",
        State::MayBe => "vielleicht fällig, nach Aussehen und Klang",
        State::Due => "fällig",
        State::Missing => "aufzuziehen",
    },
    mark: |mark| match mark {
        Mark::Guides => "nach mehreren Ratgebern",
        Mark::CommonPractice => "üblich, ohne Quelle",
        Mark::OneGuess => "Schätzung eines Autors",
        Mark::FromMemory => "aus dem Gedächtnis, ohne Quelle",
        Mark::Proposal => "unser Vorschlag",
        Mark::Hers => "wie von Ihnen gesetzt",
    },
    again: "Sie reißt immer wieder: Ist etwas Scharfkantiges an Wirbel, Scheibe oder Stegstift?",
    position: |position| match position {
        Alteration::Flat => "Be",
        Alteration::Natural => "Stammton",
        Alteration::Sharp => "Kreuz",
    },
    pedal: |letter| format!("Das {letter}-Pedal"),
    disc: |string| format!("Eine Scheibe von {string}"),
    lever: |string| format!("Die Klappe von {string}"),
    found: |what, cents, mended| format!("{what}: {cents} Cent; {mended}"),
    mended: |mended| match mended {
        Mended::Open => "für die Harfentechnik",
        Mended::Mended => "behoben",
        Mended::Still => "nach dem Besuch wieder gefunden",
        Mended::New => "vor dem Besuch nicht gefunden",
        Mended::CannotSay => "nach dem Besuch nicht sicher genug geprüft",
    },
    settling: |settling, figure, u95| match *settling {
        Settling::NotNew => "Wann sie aufgezogen wurde, ist nicht bekannt.".to_owned(),
        Settling::TooFew { moves } => {
            format!("Noch zu wenige Messungen ({moves}); mehrmals am Tag stimmen.")
        }
        Settling::Moving { .. } => {
            format!("Bewegt sich um {figure} Cent am Tag (±{u95}); mehrmals am Tag stimmen.")
        }
        Settling::Settled { .. } => format!("Hält seit Tag {figure}."),
    },
    own_spare: "die eigene Ersatzsaite",
    thinner: |made_for, other_colour| match other_colour {
        false => format!("{made_for}, dünner, tiefer gestimmt"),
        true => format!("{made_for}, dünner, tiefer gestimmt, in anderer Farbe"),
    },
    no_cover: "nichts: zu bestellen",
    shelf: |shelf| match shelf {
        Shelf::Best => "frisch (Schätzung eines Autors)",
        Shelf::NotKnown => "wie lange sie sich hält, ist nicht bekannt",
        Shelf::Older => "nicht mehr frisch (Schätzung eines Autors)",
        Shelf::PassOn => "besser jetzt weitergeben (Schätzung eines Autors)",
        Shelf::Retire => "zu alt (Schätzung eines Autors)",
    },
    mixed: |[young, young_years], [old, old_years]| {
        format!(
            "Gemischtes Alter in einer Oktave klingt ungleich: {young} ist {young_years} Jahre alt, {old} mindestens {old_years}."
        )
    },
    time: |time| match time {
        Time::Enough => {
            "Zeit genug: Zwei Wochen vor der Regulierung aufgezogen, haben sich Saiten gesetzt."
        }
        Time::Late => "Spät: Zwei Wochen vor der Regulierung wären besser, eine ist das Mindeste.",
        Time::TooLate => {
            "Zu spät für neue Saiten: Sie hätten sich noch nicht gesetzt, wenn reguliert wird."
        }
    },
    step: |step| match step {
        StepKind::PedalsUp => "Alle Pedale nach oben oder alle Klappen lösen.",
        StepKind::TakeOff => {
            "Die alte Saite mit dem Schlüssel entspannen und ganz abnehmen, Enden und Knoten auch."
        }
        StepKind::RightString => "Die Packung lesen: richtiger Buchstabe und richtige Oktave?",
        StepKind::Knot => {
            "Mit einem Anker verknoten, oder das Ende der Drahtsaite am Boden einsetzen."
        }
        StepKind::Wind => {
            "Durch den Wirbel führen und wickeln: Windungen nebeneinander, nicht gegen den Hals."
        }
        StepKind::ToneBelow => "Bis einen Ganzton darunter. Warten.",
        StepKind::SemitoneBelow => "Bis einen Halbton darunter. Warten.",
        StepKind::ToPitch => "Bis zur Tonhöhe. Warten.",
        StepKind::Again => "Noch einmal auf Tonhöhe.",
        StepKind::Cut => "Das Ende festhalten und kurz abschneiden.",
        StepKind::Write => "Ins Tagebuch schreiben: Saite, Material, Stärke.",
        StepKind::Often => "Mehrmals am Tag stimmen, bis sie hält.",
    },
    caution: |caution| match caution {
        Caution::Eyes => "Brille tragen und das Gesicht aus der Ebene der Saite halten.",
        Caution::BreakingString => {
            "Sie kann beim Hochziehen reißen: langsam drehen und aufhören, wenn es sich falsch anfühlt."
        }
        Caution::Hands => "Drahtenden kratzen; bei langer Arbeit Hände und Gelenke ruhen lassen.",
        Caution::Standing => {
            "Die Harfe aufrecht auf ihren Füßen, Sie auf dem Boden oder einem stabilen niedrigen Tritt."
        }
        Caution::OneAtATime => "Eine Saite nach der anderen: nie alle zugleich entspannen.",
        Caution::PinIsTheTechnicians => {
            "Nie einen Wirbel einschlagen; ein lockerer oder gebrochener gehört in die Hand der Harfentechnik."
        }
    },
};
