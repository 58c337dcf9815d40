//! German. The trade's words are from memory, no source: Wirbel (a tuning pin), Scheibe, Klappe. No one is addressed: a
//! student may be a child.

use keep::{Caution, StepKind};

use super::words::Words;

pub(super) const WORDS: Words = Words {
    title: "Die eigene Harfe stimmen",
    student: |name| format!("für {name}"),
    kind: [
        |strings| format!("Pedalharfe, {strings} Saiten"),
        |strings| format!("Klappenharfe, {strings} Saiten"),
    ],
    a: "A",
    sounds: [
        "Sind alle Pedale oben, so klingen die Saiten",
        "Sind alle Klappen gelöst, so klingen die Saiten",
    ],
    shows: "und ein Stimmgerät zeigt",
    in_letters: "oder, wie viele Geräte schreiben,",
    colours: |c, f| format!("{c}-Saiten sind rot, {f}-Saiten schwarz oder blau."),
    octaves: |[e, f, c]| {
        format!(
            "Oktaven werden von oben gezählt, jede von {e} hinunter bis {f}; das eingestrichene {c} ist 4{c}. Die Zahl neben dem \
             Buchstaben auf dem Stimmgerät zählt anders."
        )
    },
    unmoved: [
        "* Kein Pedal bewegt sie: Sie wird mit dem Schlüssel gestellt.",
        "* Sie hat keine Klappe: Sie wird mit dem Schlüssel gestellt.",
    ],
    flats: |flat, sharp| format!("Manche Geräte schreiben mit Be: {flat} statt {sharp}."),

    before: "Vor dem Stimmen",
    open: [
        "Alle Pedale nach oben, und dort bleiben sie bis zur letzten Saite.",
        "Alle Klappen lösen, und gelöst bleiben sie bis zur letzten Saite.",
    ],
    the_a: |a4| {
        format!(
            "Das Stimmgerät steht auf A\u{a0}=\u{a0}{a4}\u{a0}Hz. Weichen alle Saiten um gleich viel ab, zuerst dort nachsehen."
        )
    },
    quiet: "Ein stiller Raum, das Gerät in der Nähe, beide Hände frei.",

    round: "Eine Runde",
    from_middle: |[first, lowest, next, highest]| {
        format!(
            "Bei {first} beginnen und Saite für Saite hinunter bis {lowest}; dann von {next} hinauf bis {highest}."
        )
    },
    middle_octave: |[first, last]| {
        format!(
            "Zuerst die mittlere Oktave, von {first} hinauf bis {last}; dann die Oktaven darunter, abwärts; dann die darüber, aufwärts."
        )
    },
    from_bass: |[lowest, highest]| {
        format!("Von der tiefsten Saite, {lowest}, hinauf bis zur höchsten, {highest}.")
    },
    letters: |[first, last]| {
        format!(
            "Alle Saiten eines Buchstabens vom Bass an: zuerst {first}, und so fort bis {last}."
        )
    },
    octave_by_octave: |[first, last]| {
        format!(
            "Die mittlere Oktave von {first} hinauf bis {last}, nach jeder Saite gleich ihre Oktaven: die darunter, dann die darüber."
        )
    },
    list: |strings| format!("{strings}; dann die übrigen, vom Bass an."),
    again: "Danach alles noch einmal: Jede Saite, die höher wird, lässt andere ein wenig sinken.",

    key: "Der Schlüssel",
    pin: "Der Saite hinauf bis zu ihrem Wirbel folgen und den Schlüssel ganz aufsetzen. Gedreht wird der Wirbel der gezupften Saite.",
    way: "Höher geht es meist von sich weg, zur Säule hin; manche Harfen sind anders.",
    way_here: "Auf dieser Harfe geht es höher",

    turns: "Kleine Schritte",
    small: [
        "Eine Saite zupfen, nicht stark, die Nachbarinnen abdämpfen. Kurz warten, dann ablesen.",
        "Um eine Spur drehen, höchstens eine Minute auf dem Zifferblatt, und wieder zupfen.",
        "Von unten an den Ton herangehen. Zu hoch? Darunter gehen und wieder hinauf.",
        "Folgt der Klang dem Schlüssel nicht: aufhören, er sitzt auf einem anderen Wirbel. Nie weit drehen.",
        "Tiefste und höchste Saiten werden manchmal nicht erkannt: auf die Oktave daneben hören.",
    ],

    daily: "Jeden Tag",
    every_day: [
        "Vor dem Spielen: eine Oktave oder alle Saiten eines Buchstabens. Die ganze Harfe, so oft es geht.",
        "Eine Harfe, die man gestimmt hält, bleibt gestimmt.",
    ],

    breaks: "Wenn eine Saite reißt",
    when_it_breaks: [
        "Zuerst Gesicht und Hände weg. Saiten reißen nun einmal; die anderen bleiben, wie sie sind.",
        "Festhalten, was lose hängt: Das Ende einer Drahtsaite zerkratzt Haut und Holz.",
    ],
    where_it_broke: [
        "Aufschreiben, welche Saite es war und wo sie riss: am Wirbel, an einer Scheibe, am Knoten.",
        "Aufschreiben, welche Saite es war und wo sie riss: am Wirbel, an der Klappe, am Knoten.",
    ],
    then: [
        "Die Ersatzsaite hat denselben Buchstaben und dieselbe Oktave. Zur Not die nächstdünnere, tiefer gestimmt; nie eine dickere.",
        "Kein Ersatz, oder unsicher? Ohne sie spielen und im Unterricht fragen.",
        "Reißt sie immer wieder an derselben Stelle: die Harfentechnik fragen.",
    ],

    new: "Eine neue Saite",
    step: |step, lever, minutes| {
        let told = match step {
            StepKind::PedalsUp if lever => "Alle Klappen lösen.",
            StepKind::PedalsUp => "Alle Pedale nach oben.",
            StepKind::TakeOff => {
                "Die alte Saite mit dem Schlüssel entspannen und abnehmen, Enden und Knoten auch."
            }
            StepKind::RightString => "Die Packung lesen: richtiger Buchstabe, richtige Oktave?",
            StepKind::Knot => "Mit ihrem Anker verknoten; eine Drahtsaite: ihr Ende einsetzen.",
            StepKind::Wind => {
                "Durch den Wirbel führen; Windungen nebeneinander, nicht gegen den Hals."
            }
            StepKind::ToneBelow => {
                return Some(format!(
                    "Bis einen Ganzton darunter, {minutes}\u{a0}Minuten warten; bis einen Halbton darunter, warten; bis zur Tonhöhe, warten; noch \
                     einmal auf Tonhöhe."
                ));
            }
            StepKind::SemitoneBelow | StepKind::ToPitch | StepKind::Again => return None,
            StepKind::Cut => "Das Ende festhalten und kurz abschneiden.",
            StepKind::Write => "Aufschreiben: den Tag, die Saite und woraus sie ist.",
            StepKind::Often => "Mehrmals am Tag stimmen, bis sie hält.",
        };
        Some(told.to_owned())
    },
    other_ways: "Die Wartezeiten sind die einer Werkstatt. Wird es im Unterricht oder vom Harfenbauer anders gezeigt, gilt das.",

    care: "Vorsicht",
    caution: |caution| match caution {
        Caution::Eyes => {
            "Brille tragen und das Gesicht aus der Ebene der Saiten halten: Eine Saite oder ein Drahtende kann springen."
        }
        Caution::BreakingString => {
            "Eine Saite kann beim Hochziehen reißen: langsam drehen und aufhören, wenn es sich falsch anfühlt."
        }
        Caution::Hands => "Drahtenden kratzen. Bei langer Arbeit Hände und Gelenke ruhen lassen.",
        Caution::Standing => {
            "Die Harfe steht aufrecht auf ihren Füßen; man selbst auf dem Boden oder auf einem niedrigen Tritt, der nicht wackelt."
        }
        Caution::OneAtATime => "Eine Saite nach der anderen: nie alle zugleich entspannen.",
        Caution::PinIsTheTechnicians => {
            "Nie einen Wirbel einschlagen; ein lockerer oder gebrochener gehört in die Hand der Harfentechnik."
        }
    },
    more_care: [
        "Nie auf etwas steigen, solange die Harfe geneigt ist, und niemand lehnt sich an sie: Eine Harfe kippt um.",
        "Den Ellbogen nah am Körper, den Griff des Schlüssels bequem in der Hand. Schmerzen Handgelenk oder Schulter: aufhören.",
        "Kinder stimmen und beziehen nur, wenn jemand Erwachsenes dabei ist.",
        "Was sich nicht erklären lässt, ausgebildeten Harfentechnikerinnen oder Harfentechnikern überlassen.",
    ],

    call: "Wen anrufen",
    teacher: "Unterricht",
    technician: "Harfentechnik",
    telephone: "Telefon",

    notes: "Aus dem Unterricht",
};
