//! German: what to do stands in the infinitive, as a teacher calls it across the room; the polite form where a person is
//! meant. The way to turn is 'höher' or 'tiefer', where a string stands is 'zu hoch' or 'zu tief'.
//!
//! The trade's words are from memory, no source: Klappe (a lever), Wirbel (a pin), Stimmschlüssel, Drahtsaite (a wire),
//! Scheiben (discs), offen (all pedals up), Durchgang (a round), Harfentechnikerin and Harfentechniker.

mod phrases;
mod warned;

use pitch::Tongue;

use super::speaks::{Phrases, Sentences, Speaks};
use super::told;
use crate::round::{Amount, Raise, TakeError, TakenA, Then, Turn, Why};
use crate::{Direction, Reason, WarningKind};

/// The language.
pub(super) struct German;

impl Speaks for German {}

impl Sentences for German {
    fn begun(&self, strings: usize) -> String {
        match strings {
            1 => "1 Saite.".to_owned(),
            _ => format!("{strings} Saiten."),
        }
    }

    fn second_best(&self, touch_up: bool, open: bool) -> String {
        match (touch_up, open) {
            (true, true) => "Nur einige Saiten: weniger gut als ein ganzer Durchgang.",
            (true, false) => {
                "Einige Saiten, Pedale oder Klappen wie sie stehen: nur die zweitbeste Lösung. Wenn Zeit ist, die offene Harfe stimmen."
            }
            (false, _) => {
                "Nicht alle Pedale sind oben, oder Klappen sind gesetzt: nur die zweitbeste Lösung. Gestimmt wird die offene Harfe."
            }
        }
        .to_owned()
    }

    fn ask_pitch(&self, strings: &[String]) -> String {
        format!(
            "Ohne Scheiben: {}. Was soll dort heute Abend klingen?",
            listed(strings)
        )
    }

    fn next(&self, string: &str, why: Why) -> String {
        match why {
            Why::InOrder | Why::Asked => format!("Jetzt {string}."),
            Why::New => format!("Jetzt {string}, die neue. Hat sie gehalten?"),
            Why::Again => format!("Jetzt noch einmal {string}."),
        }
    }

    fn left(&self, strings: usize, minutes: Option<f64>) -> String {
        match minutes {
            Some(minutes) if minutes < 1.0 => format!("Noch {strings}, weniger als eine Minute."),
            Some(minutes) => format!("Noch {strings}, etwa {} Min.", number(minutes, 0)),
            None => format!("Noch {strings}."),
        }
    }

    fn sounds(&self, string: &str, off_cents: f64) -> String {
        format!("{string}: bisher {}.", high_or_low(off_cents))
    }

    fn turn(&self, string: &str, turn: &Turn) -> String {
        let new = if turn.climbing { " (neu)" } else { "" };
        let start = format!("{string}{new}: {}.", high_or_low(turn.off_cents));
        let amount = self.amount(turn.amount);
        let half = || {
            let cents = number(turn.by_cents, 0);
            format!("höchstens {amount}, {cents} Cent; dann noch einmal zupfen")
        };
        let begins = told::capital(amount);
        match (turn.way, turn.amount) {
            (Direction::Down, Amount::Half) => format!("{start} Langsam tiefer, {}.", half()),
            (Direction::Down, _) => {
                format!("{start} {begins} tiefer, bis knapp darunter, dann von unten heran.")
            }
            (Direction::Up, Amount::Half) => format!("{start} Höher, {}.", half()),
            (Direction::Up, _) => format!("{start} {begins} höher."),
            (Direction::There, _) => start,
        }
    }

    fn in_tune(&self, string: &str, off_cents: f64) -> String {
        format!("{string}: stimmt ({}).", signed(off_cents))
    }

    fn near(&self, string: &str, u95_cents: f64, octave_above: Option<&str>) -> String {
        let u95 = number(u95_cents, 1);
        let start = format!("{string}: nahe, genauer als ±{u95} Cent nicht zu sagen.");
        match octave_above {
            Some(above) => {
                format!("{start} Noch einmal zupfen oder nach Gehör mit {above} vergleichen.")
            }
            None => format!("{start} Noch einmal zupfen."),
        }
    }

    fn pluck_still(&self, string: &str) -> String {
        format!("{string}: hat sich im Klingen bewegt. {STILL}")
    }

    fn which(&self, strings: &[String]) -> String {
        match strings {
            [] => "Welche Saite es war, ist nicht zu sagen: die Nachbarsaite zupfen oder die Saite nennen."
                .to_owned(),
            [only] => format!(
                "Vielleicht {only}, aber nicht sicher: noch einmal allein zupfen oder nennen."
            ),
            [a, b] => format!(
                "{a} oder {b}: beide sind möglich, darum keine Richtung. Die andere zupfen, dann diese noch einmal; oder sie nennen."
            ),
            all => format!(
                "{}: alle sind möglich, darum keine Richtung. Eine Nachbarsaite zupfen oder die Saite nennen.",
                all.join(" oder ")
            ),
        }
    }

    fn not_read(&self, string: Option<&str>, reason: Reason) -> String {
        let start = string.map_or("Nicht gemessen".to_owned(), |s| {
            format!("{s}: nicht gemessen")
        });
        let (why, advice) = (self.reason(reason), self.advice(reason));
        format!("{start} ({why}): {advice}.")
    }

    fn sound(&self, warning: WarningKind) -> String {
        match warning {
            WarningKind::Clipped => "Zu laut für das Mikrofon: weiter weg stellen.",
            WarningKind::AudioBroke => "Es fehlt Ton: schließen, was sonst noch aufnimmt.",
        }
        .to_owned()
    }

    fn moving(&self, string: &str, off_cents: f64, way: Direction) -> String {
        let still = match way {
            Direction::Up => "weiter höher",
            Direction::Down | Direction::There => self.way(way),
        };
        format!("{string}: {}; {still}.", signed(off_cents))
    }

    fn enough(&self, string: &str) -> String {
        format!("{string}: genug. {STILL}")
    }

    fn reached_for_now(&self, string: &str, off_cents: f64) -> String {
        format!(
            "{string} (neu): vorerst am Ziel ({}). Sie kommt noch einmal dran.",
            signed(off_cents)
        )
    }

    fn holds(&self, string: &str) -> String {
        format!("{string} (neu): hält.")
    }

    fn again(&self, strings: &[String], moved_cents: f64) -> String {
        format!(
            "Alle gehört. Noch einmal hören: {}. Andere haben sich danach um insgesamt {} Cent bewegt.",
            listed(strings),
            number(moved_cents, 0)
        )
    }

    fn offer(&self, strings: &[(String, String)]) -> String {
        let each = strings.iter().map(|(s, p)| format!("{s} auf {p}"));
        format!(
            "Ohne Scheiben: {}. Passt das für das nächste Stück?",
            each.collect::<Vec<_>>().join(", ")
        )
    }

    fn will_stand(&self, string: &str, pitch: &str) -> String {
        format!("{string} soll als {pitch} klingen.")
    }

    fn broke(&self, string: &str, then: Then) -> String {
        let care = "Die Augen weg von den Saiten, auf das lose Ende einer Drahtsaite achten und das Handgelenk schonen. \
                    Was sonst noch nachgegeben hat, sollen Harfentechnikerin oder Harfentechniker beurteilen.";
        match then {
            Then::PlayWithout => {
                format!("{string} ist gerissen. {care} Der Durchgang geht ohne sie weiter.")
            }
            Then::FittedNow => format!(
                "{string} ist neu. {care} In kleinen Schritten höher, höchstens die Hälfte des Weges auf einmal, und nach jedem zupfen."
            ),
        }
    }

    fn pinned(&self, string: &str) -> String {
        format!("{string}, wie weit sie auch danebenliegt.")
    }

    fn let_go(&self) -> String {
        "Wieder jede Saite.".to_owned()
    }

    fn skipped(&self, string: &str) -> String {
        format!("{string}: ausgelassen.")
    }

    fn undone(&self, string: &str) -> String {
        format!("{string}: stimmt doch nicht. Noch einmal zupfen.")
    }

    fn by_ear(&self, string: &str) -> String {
        format!("{string}: stimmt nach Ihrem Gehör.")
    }

    fn on_purpose(&self, string: &str) -> String {
        format!("{string}: von Ihnen verstellt.")
    }

    fn not_here(&self, string: &str) -> String {
        format!("{string} kann das in diesem Durchgang nicht sein.")
    }

    fn paused(&self) -> String {
        "Es wird nicht zugehört.".to_owned()
    }

    fn resumed(&self) -> String {
        "Es wird wieder zugehört.".to_owned()
    }

    fn the_a(&self, taken: TakenA, raise: Option<Raise>, strings: &[String]) -> String {
        let start = format!("Dieses A ist {}.", number(taken.a4_hz, 1));
        match (raise.filter(|r| r.asks_a_technician()), strings) {
            (Some(raise), _) => format!("{start} {}", self.ask_technician(raise)),
            (None, []) => format!(
                "{start} Danach stimmen? So wie sie steht, hat diese Harfe kein A: die A-Saiten klingen als As, also nach der Anzeige vergleichen."
            ),
            (None, own) => format!(
                "{start} Danach stimmen? A ist auf dieser Harfe {}.",
                listed(own)
            ),
        }
    }

    fn no_a(&self, error: TakeError) -> String {
        match error {
            TakeError::TooShort { .. } => "Zu kurz für ein A: drei Sekunden, gehalten.".to_owned(),
            TakeError::Unsteady { u95_cents } => format!(
                "Zu unruhig für ein A (±{} Cent): noch einmal, ruhig gehalten.",
                number(u95_cents, 1)
            ),
            TakeError::OutOfRange { a4_hz } => format!(
                "Das wäre ein A von {}: Nur 380 bis 480 wird genommen. Ist es der Ton, den Sie genannt haben?",
                number(a4_hz, 1)
            ),
        }
    }

    fn ask_technician(&self, raise: Raise) -> String {
        format!(
            "Das sind {} Cent über der gewohnten Tonhöhe dieser Harfe, {}\u{202f}% mehr Zug auf jeder Saite: zuerst Ihre Harfentechnikerin oder Ihren Harfentechniker fragen.",
            signed(raise.above_cents),
            number(raise.load_percent, 1)
        )
    }

    fn uses(&self, a4_hz: f64) -> String {
        format!("A ist {}.", number(a4_hz, 1))
    }

    fn all_heard(&self) -> String {
        "Alle gehört.".to_owned()
    }

    fn finished(&self) -> String {
        "Der Durchgang ist zu Ende.".to_owned()
    }
}

/// Pluck it with the key left alone.
const STILL: &str = "Den Schlüssel in Ruhe lassen und die Saite zupfen.";

fn high_or_low(off: f64) -> String {
    let word = if off < 0.0 { "tief" } else { "hoch" };
    format!("{} Cent zu {word}", number(off.abs(), 1))
}

fn listed(strings: &[String]) -> String {
    told::listed(strings, "und")
}

fn number(value: f64, decimals: usize) -> String {
    Tongue::German.number(value, decimals)
}

fn signed(cents: f64) -> String {
    Tongue::German.signed(cents)
}
