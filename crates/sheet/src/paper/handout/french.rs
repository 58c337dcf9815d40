//! French. The trade's words are from memory, no source: cheville, fourchette, levier. No one is addressed: a student may be
//! a child.

use keep::{Caution, StepKind};

use super::words::Words;

pub(super) const WORDS: Words = Words {
    title: "Accorder sa harpe",
    student: |name| format!("pour {name}"),
    kind: [
        |strings| format!("Harpe à pédales, {strings} cordes"),
        |strings| format!("Harpe à leviers, {strings} cordes"),
    ],
    a: "la",
    sounds: [
        "Toutes les pédales en haut, les cordes sonnent",
        "Tous les leviers baissés, les cordes sonnent",
    ],
    shows: "et un accordeur affiche",
    in_letters: "ou, en lettres, comme beaucoup d’appareils",
    colours: |c, f| format!("Les cordes de {c} sont rouges, celles de {f} noires ou bleues."),
    octaves: |[e, f, c]| {
        format!(
            "Les octaves se comptent depuis le haut, chacune de {e} en descendant jusqu’à {f}\u{202f}; le {c} du milieu est 4{c}. Le \
             chiffre à côté de la lettre sur l’accordeur compte autrement."
        )
    },
    unmoved: [
        "* Aucune pédale ne la déplace\u{202f}: elle se règle à la clef.",
        "* Elle n’a pas de levier\u{202f}: elle se règle à la clef.",
    ],
    flats: |flat, sharp| {
        format!("Certains appareils écrivent avec des bémols\u{202f}: {flat} pour {sharp}.")
    },

    before: "Avant de commencer",
    open: [
        "Toutes les pédales en haut, et elles y restent jusqu’à la dernière corde.",
        "Tous les leviers baissés, et ils le restent jusqu’à la dernière corde.",
    ],
    the_a: |a4| {
        format!(
            "L’accordeur est sur la\u{a0}=\u{a0}{a4}\u{a0}Hz. Si toutes les cordes s’écartent d’autant, regarder d’abord cela."
        )
    },
    quiet: "Une pièce calme, l’accordeur tout près, les deux mains libres.",

    round: "Un tour",
    from_middle: |[first, lowest, next, highest]| {
        format!(
            "Commencer à {first} et descendre, corde par corde, jusqu’à {lowest}\u{202f}; puis de {next} en montant jusqu’à {highest}."
        )
    },
    middle_octave: |[first, last]| {
        format!(
            "D’abord l’octave du milieu, de {first} en montant jusqu’à {last}\u{202f}; puis les octaves au-dessous, en descendant\u{202f}; \
             puis celles au-dessus, en montant."
        )
    },
    from_bass: |[lowest, highest]| {
        format!("De la corde la plus grave, {lowest}, en montant jusqu’à la plus aiguë, {highest}.")
    },
    letters: |[first, last]| {
        format!(
            "Toutes les cordes d’un même nom, depuis la basse\u{202f}: d’abord {first}, et ainsi de suite jusqu’à {last}."
        )
    },
    octave_by_octave: |[first, last]| {
        format!(
            "L’octave du milieu, de {first} en montant jusqu’à {last}, et après chaque corde ses octaves\u{202f}: celles au-dessous, puis \
             celles au-dessus."
        )
    },
    list: |strings| format!("{strings}\u{202f}; puis les autres, depuis la basse."),
    again: "Ensuite tout reprendre une fois\u{202f}: chaque corde qui monte fait descendre un peu les autres.",

    key: "La clef",
    pin: "Suivre la corde vers le haut et par-dessus jusqu’à sa cheville, et bien enfoncer la clef dessus. La cheville que l’on tourne \
          est celle de la corde que l’on pince.",
    way: "Plus haut, c’est d’habitude en s’éloignant de soi, vers la colonne\u{202f}; certaines harpes diffèrent.",
    way_here: "Sur cette harpe, plus haut, c’est",

    turns: "Par petits pas",
    small: [
        "Pincer une seule corde, sans force, en étouffant ses voisines. Attendre un instant, puis lire.",
        "Tourner d’un cheveu, une minute au plus sur le cadran d’une montre, et pincer encore.",
        "Venir à la note par le bas. Trop haut\u{202f}? Passer au-dessous, et remonter.",
        "Si le son ne suit pas la clef, arrêter\u{202f}: elle est sur une autre cheville. Ne jamais tourner beaucoup.",
        "Les cordes les plus graves et les plus aiguës ne sont pas toujours lues\u{202f}: écouter l’octave à côté.",
    ],

    daily: "Chaque jour",
    every_day: [
        "Avant de jouer\u{202f}: une octave, ou toutes les cordes d’un même nom. La harpe entière aussi souvent que possible.",
        "Une harpe que l’on tient accordée le reste.",
    ],

    breaks: "Quand une corde casse",
    when_it_breaks: [
        "D’abord éloigner le visage et les mains. Cela arrive\u{202f}; laisser les autres cordes comme elles sont.",
        "Tenir ce qui pend\u{202f}: le bout d’une corde filée griffe la peau et le bois.",
    ],
    where_it_broke: [
        "Noter quelle corde c’était, et où elle a cassé\u{202f}: à la cheville, à une fourchette, au nœud.",
        "Noter quelle corde c’était, et où elle a cassé\u{202f}: à la cheville, au levier, au nœud.",
    ],
    then: [
        "Sa remplaçante porte le même nom et la même octave. Au besoin, la corde plus fine d’à côté, accordée plus bas\u{202f}; jamais une \
         plus grosse.",
        "Pas de remplaçante, ou un doute\u{202f}? Jouer sans elle, et demander au cours.",
        "Si elle casse encore et encore au même endroit, demander au technicien.",
    ],

    new: "Une corde neuve",
    step: |step, lever, minutes| {
        let told = match step {
            StepKind::PedalsUp if lever => "Tous les leviers baissés.",
            StepKind::PedalsUp => "Toutes les pédales en haut.",
            StepKind::TakeOff => {
                "Détendre l’ancienne corde avec la clef et l’ôter, bouts et nœud compris."
            }
            StepKind::RightString => "Lire le sachet\u{202f}: le bon nom, la bonne octave\u{202f}?",
            StepKind::Knot => {
                "La nouer avec son ancrage\u{202f}; une corde filée\u{202f}: placer son bout."
            }
            StepKind::Wind => {
                "La passer dans la cheville\u{202f}; spires côte à côte, sans toucher la console."
            }
            StepKind::ToneBelow => {
                return Some(format!(
                    "Monter jusqu’à un ton au-dessous, attendre {minutes}\u{a0}minutes\u{202f}; jusqu’à un demi-ton au-dessous, attendre\u{202f}; à \
                     la hauteur, attendre\u{202f}; encore une fois à la hauteur."
                ));
            }
            StepKind::SemitoneBelow | StepKind::ToPitch | StepKind::Again => return None,
            StepKind::Cut => "Tenir le bout et couper court.",
            StepKind::Write => "Noter le jour, la corde, et de quoi elle est faite.",
            StepKind::Often => "L’accorder plusieurs fois par jour jusqu’à ce qu’elle tienne.",
        };
        Some(told.to_owned())
    },
    other_ways: "Les attentes sont celles d’un atelier. Si le professeur ou le facteur de la harpe fait autrement, faire comme lui.",

    care: "Prudence",
    caution: |caution| match caution {
        Caution::Eyes => {
            "Porter des lunettes et garder le visage hors du plan des cordes\u{202f}: une corde ou un bout de fil peut jaillir."
        }
        Caution::BreakingString => {
            "Une corde peut casser en montant\u{202f}: tourner lentement, arrêter si quelque chose paraît anormal."
        }
        Caution::Hands => {
            "Les bouts de fil griffent. Reposer mains et poignets si le travail est long."
        }
        Caution::Standing => {
            "La harpe droite sur ses pieds\u{202f}; soi-même au sol, ou sur une marche basse et stable."
        }
        Caution::OneAtATime => {
            "Une corde à la fois\u{202f}: ne jamais détendre toutes les cordes ensemble."
        }
        Caution::PinIsTheTechnicians => {
            "Ne jamais enfoncer une cheville au marteau\u{202f}; une cheville lâche ou cassée revient au technicien."
        }
    },
    more_care: [
        "Ne jamais monter sur quelque chose tant que la harpe est penchée, et personne ne s’y appuie\u{202f}: une harpe bascule.",
        "Le coude près du corps, le manche de la clef bien en main. Si le poignet ou l’épaule fait mal, arrêter.",
        "Un enfant accorde et monte des cordes avec un adulte à côté.",
        "Ce qui ne s’explique pas, le laisser à un technicien de la harpe qualifié.",
    ],

    call: "Qui appeler",
    teacher: "Professeur",
    technician: "Technicien de la harpe",
    telephone: "Téléphone",

    notes: "De la part du professeur",
};
