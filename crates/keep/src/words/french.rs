//! French. The trade's words are from memory, no source: cheville (a tuning pin), fourchette, levier, corde fausse.

use pitch::Alteration;

use super::Words;
use crate::{Age, Caution, Mark, Mended, Settling, Shelf, State, StepKind, Time};

pub(super) const WORDS: Words = Words {
    slips: |string, s| {
        format!(
            "{string} est descendue {} fois sur {}, de {} cents (±{}) de plus que ses voisines, qui ont bougé de {} : sa cheville glisse-t-elle ?",
            s.times, s.of, s.cents, s.u95, s.neighbours
        )
    },
    wide: |string, times| {
        format!(
            "Les mesures de {string} sont {times} fois moins sûres qu'avant, pas celles de ses voisines : la corde est-elle fausse ?"
        )
    },
    strays: |string, times| {
        format!(
            "{string} s'écarte vers le haut et le bas {times} fois plus qu'avant : la corde est-elle fausse ?"
        )
    },
    rings_shorter: |string, times| {
        format!(
            "{string} ne sonne plus que {times} fois aussi longtemps qu'avant, ses voisines comme toujours : la corde est-elle usée ou fausse ?"
        )
    },
    softer: |string, db| {
        format!(
            "{string} sonne {db} dB moins fort qu'avant, ses voisines non : la corde est-elle usée, ou quelque chose la touche-t-il ?"
        )
    },
    stiffness: |string, times| {
        format!(
            "{string} est {times} fois aussi raide qu'avant, sans corde nouvelle : est-elle usée inégalement, ou fausse ?"
        )
    },
    other_string: |string, times, less| {
        let how = if less { "trop fine" } else { "trop grosse" };
        format!(
            "La nouvelle {string} est {times} fois aussi raide que la corde d'avant : est-elle {how}, d'un autre calibre ou d'une autre octave ?"
        )
    },
    gauge: |string, written, harp| {
        format!(
            "{string} a été notée à {written} mm, le fichier de la harpe dit {harp} mm : lequel est juste ?"
        )
    },
    slower: |string, days, before, speed| {
        format!(
            "{string} est montée depuis {days} jours et bouge encore de {speed} cents par jour ; la corde d'avant tenait après {before} : la cheville et le nœud tiennent-ils ?"
        )
    },
    limits: "Chaque corde est comparée à son propre passé et à ses voisines. Ne se reconnaissent pas ainsi : un calibre voisin, et une corde qui a toujours été fausse.",
    age: |age, years| match age {
        Age::Days(days) => format!("{} ans", years(days)),
        Age::AtLeast(days) => format!("au moins {} ans", years(days)),
        Age::Unknown => "âge inconnu".to_owned(),
        Age::NoString => "pas de corde".to_owned(),
    },
    state: |state| match state {
        State::NotYet => "pas encore à changer",
        State::NotKnown => "on ne sait si elle est à changer",
        State::MayBe => "peut-être à changer, selon l'aspect et le son",
        State::Due => "à changer",
        State::Missing => "à monter",
    },
    mark: |mark| match mark {
        Mark::Guides => "selon plusieurs guides",
        Mark::CommonPractice => "usage courant, sans source",
        Mark::OneGuess => "estimation d'un auteur",
        Mark::FromMemory => "de mémoire, sans source",
        Mark::Proposal => "notre proposition",
        Mark::Hers => "selon votre réglage",
    },
    again: "Elle casse encore et encore : y a-t-il une arête vive à la cheville, à la fourchette ou au sillet ?",
    position: |position| match position {
        Alteration::Flat => "bémol",
        Alteration::Natural => "bécarre",
        Alteration::Sharp => "dièse",
    },
    pedal: |letter| format!("La pédale de {letter}"),
    disc: |string| format!("Une fourchette de {string}"),
    lever: |string| format!("Le levier de {string}"),
    found: |what, cents, mended| format!("{what} : {cents} cents ; {mended}"),
    mended: |mended| match mended {
        Mended::Open => "pour le technicien",
        Mended::Mended => "réparé",
        Mended::Still => "retrouvé après la visite",
        Mended::New => "non trouvé avant la visite",
        Mended::CannotSay => "pas contrôlé assez sûrement après la visite",
    },
    settling: |settling, figure, u95| match *settling {
        Settling::NotNew => "On ne sait quand elle a été montée.".to_owned(),
        Settling::TooFew { moves } => {
            format!("Trop peu de mesures ({moves}) ; accordez-la plusieurs fois par jour.")
        }
        Settling::Moving { .. } => format!(
            "Bouge de {figure} cents par jour (±{u95}) ; accordez-la plusieurs fois par jour."
        ),
        Settling::Settled { .. } => format!("Tient depuis le jour {figure}."),
    },
    own_spare: "sa propre corde de rechange",
    thinner: |made_for, other_colour| match other_colour {
        false => format!("{made_for}, plus fine, accordée plus bas"),
        true => format!("{made_for}, plus fine, accordée plus bas, d'une autre couleur"),
    },
    no_cover: "rien : à commander",
    shelf: |shelf| match shelf {
        Shelf::Best => "fraîche (estimation d'un auteur)",
        Shelf::NotKnown => "on ne sait combien de temps elle se garde",
        Shelf::Older => "plus toute fraîche (estimation d'un auteur)",
        Shelf::PassOn => "mieux vaut la donner maintenant (estimation d'un auteur)",
        Shelf::Retire => "trop vieille (estimation d'un auteur)",
    },
    mixed: |[young, young_years], [old, old_years]| {
        format!(
            "Des âges mêlés dans une octave sonnent inégalement : {young} a {young_years} ans, {old} au moins {old_years}."
        )
    },
    time: |time| match time {
        Time::Enough => {
            "Assez de temps : montées deux semaines avant la régulation, les cordes tiennent."
        }
        Time::Late => {
            "Tard : deux semaines avant la régulation vaudraient mieux, une est le minimum."
        }
        Time::TooLate => {
            "Trop tard pour des cordes neuves : elles ne tiendraient pas encore à la régulation."
        }
    },
    step: |step| match step {
        StepKind::PedalsUp => "Toutes les pédales en haut, ou tous les leviers baissés.",
        StepKind::TakeOff => {
            "Détendez l'ancienne corde avec la clé et ôtez-la, bouts et nœud compris."
        }
        StepKind::RightString => "Lisez le sachet : la bonne lettre et la bonne octave ?",
        StepKind::Knot => {
            "Nouez-la avec un ancrage, ou placez le bout du fil métallique à la table."
        }
        StepKind::Wind => {
            "Passez-la dans la cheville et enroulez : spires côte à côte, sans toucher la console."
        }
        StepKind::ToneBelow => "Montez jusqu'à un ton au-dessous. Attendez.",
        StepKind::SemitoneBelow => "Montez jusqu'à un demi-ton au-dessous. Attendez.",
        StepKind::ToPitch => "Montez à la hauteur. Attendez.",
        StepKind::Again => "Encore une fois à la hauteur.",
        StepKind::Cut => "Tenez le bout et coupez court.",
        StepKind::Write => "Notez-la dans le journal : corde, matière, calibre.",
        StepKind::Often => "Accordez-la plusieurs fois par jour jusqu'à ce qu'elle tienne.",
    },
    caution: |caution| match caution {
        Caution::Eyes => "Portez des lunettes et gardez le visage hors du plan de la corde.",
        Caution::BreakingString => {
            "Elle peut casser en montant : tournez lentement, arrêtez si quelque chose paraît anormal."
        }
        Caution::Hands => {
            "Les bouts de fil griffent ; reposez mains et poignets si le travail est long."
        }
        Caution::Standing => {
            "La harpe droite sur ses pieds, vous au sol ou sur une marche basse et stable."
        }
        Caution::OneAtATime => {
            "Une corde à la fois : ne détendez jamais toutes les cordes ensemble."
        }
        Caution::PinIsTheTechnicians => {
            "N'enfoncez jamais une cheville au marteau ; une cheville lâche ou cassée revient au technicien."
        }
    },
};
