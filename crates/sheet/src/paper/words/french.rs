//! French. The trade's words are from memory.

use pedals::{Because, LeverReason, Reason};

use super::Words;

pub(super) const FRENCH: Words = Words {
    untitled: "Sans titre",
    opening: "Pédales au début",
    by_key: "À la clé",
    set_to: |string, pitch| format!("{string} en {pitch}"),
    turned: |string, from, to| format!("{string} de {from} en {to}"),
    in_rest: |bar| format!("dans le silence à la mesure {bar}"),
    before_movement: |name, set| format!("avant {name}\u{202f}: {set}"),
    before: "Avant ce morceau",
    whole_harp: |a4| format!("toute la harpe à la\u{a0}=\u{a0}{a4}\u{a0}Hz"),
    nothing_turned: "rien à tourner",
    going_up: "Monter une corde sur scène\u{202f}: par petits pas, en pinçant après chacun, les yeux hors du plan des cordes\u{202f}; redescendre ce qui dépasse. Un vieux filé, ou un qui n’est jamais monté si haut, peut casser\u{202f}: s’il peut y aller, demander avant au technicien.",
    no_flips: "Aucun levier ne bouge.",
    open_tuning: "Accord à vide",
    other_open: |from, to| format!("les cordes à vide de {from} en {to}, à la clé"),
    levers_on: "Leviers engagés",
    no_levers: "aucun",
    flipped: |strings, on| format!("{strings} {}", if on { "engagé" } else { "baissé" }),
    exposed: |strings| format!("À découvert\u{202f}: {strings}"),
    no_changes: "Aucune pédale ne bouge.",
    times: |times| {
        let ordinal = |time: &u32| {
            if *time == 1 {
                "1re".to_owned()
            } else {
                format!("{time}e")
            }
        };
        let times: Vec<String> = times.iter().map(ordinal).collect();
        format!("{} fois", times.join(" et "))
    },
    bar: "mesure",
    beat: "temps",
    how_read: "Le pied droit est au-dessus de la ligne, le gauche au-dessous. Chiffres gras\u{202f}: mesures\u{202f}; maigres\u{202f}: temps.",
    hands_read: "Ce que la main droite bascule est au-dessus de la ligne, la gauche au-dessous, chaque corde comme elle sonne alors. Chiffres gras\u{202f}: mesures\u{202f}; maigres\u{202f}: temps.",
    rings_between: "Entourées\u{202f}: autrement que le morceau précédent ne les a laissées.",
    rings: "Entourées\u{202f}: changées depuis la position précédente.",
    remarks: [
        "Joué sur une autre corde que celle écrite",
        "Impossible",
        "Autrement que dans la partie",
        "À savoir",
    ],
    other_string: |written, played| format!("{written} en {played}"),
    why: |reason| match reason {
        Reason::OutsideTheHarp => "la harpe n’a pas de corde pour cela",
        Reason::Broken => "ce qui le ferait sonner est cassé",
        Reason::TunedByKey => {
            "seule une corde sans disques le pourrait, et elle est accordée autrement"
        }
        Reason::AtOnce => "aucune position ne tient tout à la fois",
        Reason::TooFast => "les pieds ne sont pas assez rapides",
        Reason::TooDear => "cela coûte plus que cela ne vaut, selon les prix choisis",
    },
    lever_why: |reason| match reason {
        LeverReason::OutsideTheHarp => "la harpe n’a pas de corde pour cela",
        LeverReason::OutOfReach => "dans cet accord aucun levier n’y amène sa corde",
        LeverReason::LeverElsewhere => {
            "sa corde est alors voulue avec le levier autrement, ou trop peu avant ou après"
        }
        LeverReason::HandsBusy => "aucune main n’est libre pour le levier",
    },
    respell: |other| format!("l’écrire {other}"),
    play: |other| format!("jouer {other}"),
    leave_out: "l’omettre",
    or: ", ou ",
    otherwise: |planned, marked| format!("{planned}, marqué {marked}"),
    because: |because| match because {
        Because::NotesThere => "une note à cet endroit en a besoin",
        Because::Stuck => "la pédale est bloquée",
        Because::Dearer => "l’ensemble coûte ainsi moins",
    },
    check: "Contrôle de la régulation",
    check_heads: [
        "corde", "à vide", "bécarre", "avant", "±", "dièse", "avant", "±", "les deux", "propre",
    ],
    check_read: "Cents. À vide : par rapport à la cible. Bécarre et dièse : au-delà d'un demi-ton chacun, ± la moitié d'un intervalle à 95 % ; cerclé ce qui n'est pas juste. Les deux : au-delà de deux demi-tons. Propre : de combien la corde est revenue ailleurs dans une même position.",
    check_found: "Ce qui a été trouvé",
    check_nothing: "Tous les degrés sont justes.",
    check_unread: "Aucun degré n'a été lu.",
};
