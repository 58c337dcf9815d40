//! German. The trade's words are from memory.

use pedals::{Because, LeverReason, Reason};

use super::Words;

pub(super) const GERMAN: Words = Words {
    untitled: "Ohne Titel",
    opening: "Pedale am Anfang",
    by_key: "Mit dem Stimmschlüssel",
    set_to: |string, pitch| format!("{string} auf {pitch}"),
    turned: |string, from, to| format!("{string} von {from} auf {to}"),
    in_rest: |bar| format!("in der Pause bei Takt {bar}"),
    before_movement: |name, set| format!("vor {name}: {set}"),
    before: "Vor diesem Stück",
    whole_harp: |a4| format!("die ganze Harfe auf A\u{a0}=\u{a0}{a4}\u{a0}Hz"),
    nothing_turned: "nichts umzustimmen",
    going_up: "Auf der Bühne höher stimmen: in kleinen Schritten, nach jedem zupfen, die Augen nicht in der Ebene der Saiten; was zu hoch gerät, nachlassen. Ein alter Draht, oder einer, der nie so hoch stand, kann reißen: ob er dorthin darf, vorher den Harfenbauer fragen.",
    no_flips: "Keine Klappe bewegt sich.",
    open_tuning: "Grundstimmung",
    other_open: |from, to| format!("die leeren Saiten von {from} nach {to} mit dem Stimmschlüssel"),
    levers_on: "Klappen gesetzt",
    no_levers: "keine",
    flipped: |strings, on| format!("{strings} {}", if on { "gesetzt" } else { "gelöst" }),
    exposed: |strings| format!("Frei zu hören: {strings}"),
    no_changes: "Kein Pedal bewegt sich.",
    times: |times| {
        let times: Vec<String> = times.iter().map(|time| format!("{time}.")).collect();
        format!("{} Mal", times.join(" und "))
    },
    bar: "Takt",
    beat: "Schlag",
    how_read: "Der rechte Fuß steht über der Linie, der linke darunter. Fette Zahlen sind Takte, leichte sind Schläge.",
    hands_read: "Was die rechte Hand umlegt, steht über der Linie, was die linke, darunter, jede Saite, wie sie dann klingt. Fette Zahlen sind Takte, leichte sind Schläge.",
    rings_between: "Umkreist: anders, als das vorige Stück es ließ.",
    rings: "Umkreist: anders als in der vorigen Stellung.",
    remarks: [
        "Auf einer anderen Saite als geschrieben",
        "Nicht zu haben",
        "Anders als in der Stimme bezeichnet",
        "Zu wissen",
    ],
    other_string: |written, played| format!("{written} als {played}"),
    why: |reason| match reason {
        Reason::OutsideTheHarp => "die Harfe hat keine Saite dafür",
        Reason::Broken => "was es klingen ließe, ist defekt",
        Reason::TunedByKey => "nur eine Saite ohne Scheiben könnte es, und die ist anders gestimmt",
        Reason::AtOnce => "keine Stellung hält alles zugleich",
        Reason::TooFast => "die Füße sind nicht schnell genug",
        Reason::TooDear => "es kostet nach den gewählten Preisen mehr, als es wert ist",
    },
    lever_why: |reason| match reason {
        LeverReason::OutsideTheHarp => "die Harfe hat keine Saite dafür",
        LeverReason::OutOfReach => "in dieser Grundstimmung bringt keine Klappe ihre Saite dorthin",
        LeverReason::LeverElsewhere => {
            "seine Saite wird dann mit der Klappe anders gebraucht, oder zu kurz davor oder danach"
        }
        LeverReason::HandsBusy => "keine Hand ist frei, die Klappe umzulegen",
    },
    respell: |other| format!("als {other} schreiben"),
    play: |other| format!("{other} spielen"),
    leave_out: "weglassen",
    or: " oder ",
    otherwise: |planned, marked| format!("{planned}, bezeichnet {marked}"),
    because: |because| match because {
        Because::NotesThere => "ein Ton dort braucht es",
        Because::Stuck => "das Pedal sitzt fest",
        Because::Dearer => "im Ganzen kostet es so weniger",
    },
    check: "Prüfung der Regulierung",
    check_heads: [
        "Saite", "offen", "Stammton", "zuvor", "±", "Kreuz", "zuvor", "±", "beide", "eigen",
    ],
    check_read: "Cent. Offen: gegen das Ziel. Stammton und Kreuz: je über einen Halbton hinaus, ± die Hälfte eines 95-%-Intervalls; eingekreist, was nicht stimmt. Beide: über zwei Halbtöne hinaus. Eigen: wie weit die Saite in derselben Stellung anderswo ankam.",
    check_found: "Was gefunden wurde",
    check_nothing: "Jede Stufe stimmt.",
    check_unread: "Keine Stufe wurde gelesen.",
};
