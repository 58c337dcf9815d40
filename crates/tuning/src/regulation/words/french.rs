//! French. The trade's words are from memory, no source: fourchette (a disc), levier, régulation.

use harp::Position;

use super::Words;
use crate::regulation::{Cause, Step};

pub(super) const WORDS: Words = Words {
    set: |position, levers| match (position, levers) {
        (Position::Open, false) => "Toutes les pédales de nouveau en haut, puis continuez.",
        (Position::Natural, false) => "Toutes les pédales au milieu, puis continuez.",
        (Position::Sharp, false) => "Toutes les pédales en bas, puis continuez.",
        (Position::Open, true) => "Tous les leviers de nouveau baissés, puis continuez.",
        (Position::Natural | Position::Sharp, true) => "Tous les leviers engagés, puis continuez.",
    },
    as_before: |string, pedal| match pedal {
        Some(letter) => format!(
            "{string} sonne comme avant : la pédale de {letter} est-elle à sa place ? Pincez encore ; la corde sera prise comme elle est."
        ),
        None => format!(
            "{string} sonne comme avant : son levier est-il à sa place ? Pincez encore ; la corde sera prise comme elle est."
        ),
    },
    far: |string, cents| {
        format!(
            "{string} s'écarte de {cents} cents, ce n'est pas un degré : est-ce la bonne corde ? Si oui, accordez-la d'abord, ou laissez-la de côté."
        )
    },
    not_asked: |string| format!("{string} n'est pas demandée ici."),
    done: |levers| match levers {
        false => "C'est tout, et toutes les pédales sont en haut.",
        true => "C'est tout, et tous les leviers sont baissés.",
    },
    step: |step| match step {
        Step::Natural => "bécarre",
        Step::Sharp => "dièse",
    },
    cause: |cause| match cause {
        Cause::Pedal => "toute la lettre, sa pédale",
        Cause::Disc => "cette fourchette",
        Cause::Lever => "ce levier",
        Cause::Own => {
            "la corde revient ailleurs d'elle-même ; rien n'est dit de sa fourchette ou de son levier"
        }
        Cause::PedalNotMoved => "aucun degré sur toute la lettre : la pédale a-t-elle bougé ?",
        Cause::NoStep => "aucun degré : la fourchette ou le levier touche-t-il la corde ?",
    },
    new: "neuve : montrée, non jugée",
    whose: [
        "Fourchettes, fixation des leviers, tringles, mécanique et console reviennent à votre technicien : une fourchette pliée à la main peut casser.",
        "À faire vous-même : accorder, monter les cordes (deux semaines avant une régulation, une au moins), voir si feutres et garnitures sont en place.",
        "Aucune limite n'est publiée pour les harpes ; 3, 5 et 10 cents sont une proposition, et l'avis de votre technicien passe avant.",
    ],
    leave: "Laissez la harpe avec toutes les pédales en haut, ou tous les leviers baissés.",
};
