//! German. The trade's words are from memory, no source: Scheibe (a disc), Klappe (a lever), Regulierung.

use harp::Position;

use super::Words;
use crate::regulation::{Cause, Step};

pub(super) const WORDS: Words = Words {
    set: |position, levers| match (position, levers) {
        (Position::Open, false) => "Alle Pedale wieder nach oben, dann weiterzupfen.",
        (Position::Natural, false) => "Alle Pedale in die Mitte, dann weiterzupfen.",
        (Position::Sharp, false) => "Alle Pedale nach unten, dann weiterzupfen.",
        (Position::Open, true) => "Alle Klappen wieder lösen, dann weiterzupfen.",
        (Position::Natural | Position::Sharp, true) => "Alle Klappen setzen, dann weiterzupfen.",
    },
    as_before: |string, pedal| match pedal {
        Some(letter) => format!(
            "{string} klingt wie zuvor: Steht das {letter}-Pedal, wo es stehen soll? Noch einmal zupfen; dann gilt es, wie es ist."
        ),
        None => format!(
            "{string} klingt wie zuvor: Steht die Klappe, wo sie stehen soll? Noch einmal zupfen; dann gilt es, wie es ist."
        ),
    },
    far: |string, cents| {
        format!(
            "{string} weicht um {cents} Cent ab, das ist keine Stufe: Ist es die richtige Saite? Dann zuerst stimmen, oder sie auslassen."
        )
    },
    not_asked: |string| format!("{string} ist hier nicht gefragt."),
    done: |levers| match levers {
        false => "Das war alles, und alle Pedale sind oben.",
        true => "Das war alles, und alle Klappen sind gelöst.",
    },
    step: |step| match step {
        Step::Natural => "Stammton",
        Step::Sharp => "Kreuz",
    },
    cause: |cause| match cause {
        Cause::Pedal => "der ganze Buchstabe, sein Pedal",
        Cause::Disc => "diese Scheibe",
        Cause::Lever => "diese Klappe",
        Cause::Own => {
            "die Saite kommt von selbst anderswo an, darum wird über Scheibe oder Klappe nichts gesagt"
        }
        Cause::PedalNotMoved => "keine Stufe beim ganzen Buchstaben: Wurde das Pedal bewegt?",
        Cause::NoStep => "keine Stufe: Erreicht die Scheibe oder Klappe die Saite?",
    },
    new: "neu: gezeigt, nicht beurteilt",
    whose: [
        "Scheiben, Befestigung der Klappen, Stangen, Gestänge und Hals gehören in die Hand der Harfentechnik: Eine von Hand gebogene Scheibe kann abbrechen.",
        "Selbst zu tun: stimmen, Saiten aufziehen (zwei Wochen vor einer Regulierung, eine mindestens), sehen, ob Filze und Wicklungen sitzen.",
        "Für Harfen sind keine Grenzen veröffentlicht; 3, 5 und 10 Cent sind ein Vorschlag, und das Wort der Harfentechnik geht vor.",
    ],
    leave: "Die Harfe mit allen Pedalen oben oder allen Klappen gelöst stehen lassen.",
};
