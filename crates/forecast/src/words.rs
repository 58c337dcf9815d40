//! Why a string is expected where it is, in the words of three languages. German and French are from memory.

use pitch::Tongue;

use crate::ahead::Because;

/// A reason as a short clause: `warmer by 3 °C: −2`.
pub fn because_words(because: &Because, tongue: Tongue) -> String {
    let cents = |cents: f64| tongue.signed(cents);
    let whole = |figure: f64| tongue.number(figure.abs(), 0);
    let days = |days: f64| tongue.number(days, if days < 1.5 { 1 } else { 0 });
    let of = |english: &str, german: &str, french: &str| {
        match tongue {
            Tongue::English => english,
            Tongue::German => german,
            Tongue::French => french,
        }
        .to_owned()
    };
    match *because {
        Because::Left {
            cents: off,
            days: ago,
        } => {
            let ago = days(ago);
            let said = of(
                "left {ago} days ago at {off}",
                "vor {ago} Tagen auf {off} gelassen",
                "laissée il y a {ago} jours à {off}",
            );
            said.replace("{ago}", &ago).replace("{off}", &cents(off))
        }
        Because::Warmth {
            degrees,
            cents: off,
        } => {
            let said = if degrees > 0.0 {
                of(
                    "warmer by {n} °C: {off}",
                    "{n} °C wärmer: {off}",
                    "{n} °C de plus : {off}",
                )
            } else {
                of(
                    "colder by {n} °C: {off}",
                    "{n} °C kälter: {off}",
                    "{n} °C de moins : {off}",
                )
            };
            said.replace("{n}", &tongue.number(degrees.abs(), 1))
                .replace("{off}", &cents(off))
        }
        Because::Damp {
            percent,
            cents: off,
        } => {
            let said = if percent > 0.0 {
                of(
                    "damper by {n} %: {off}",
                    "{n} % feuchter: {off}",
                    "{n} % d'humidité de plus : {off}",
                )
            } else {
                of(
                    "drier by {n} %: {off}",
                    "{n} % trockener: {off}",
                    "{n} % d'humidité de moins : {off}",
                )
            };
            said.replace("{n}", &whole(percent))
                .replace("{off}", &cents(off))
        }
        Because::Drift { cents: off } => of(
            "it goes this way as days pass: {off}",
            "zieht so mit den Tagen: {off}",
            "va ainsi avec les jours : {off}",
        )
        .replace("{off}", &cents(off)),
        Because::FallsBack { cents: off } => of(
            "falls back from its last turning: {off}",
            "gibt vom letzten Drehen nach: {off}",
            "revient de son dernier réglage : {off}",
        )
        .replace("{off}", &cents(off)),
        Because::New { cents: off } => of(
            "new, and still stretching: {off}",
            "neu, dehnt sich noch: {off}",
            "neuve, s'étire encore : {off}",
        )
        .replace("{off}", &cents(off)),
        Because::AirUnknown => of(
            "the air then or now is not known",
            "die Luft damals oder jetzt ist nicht bekannt",
            "l'air d'alors ou de maintenant n'est pas connu",
        ),
        Because::NeverRead => of("never read", "nie gelesen", "jamais lue"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reason_says_what_and_by_how_much() {
        let warm = Because::Warmth {
            degrees: 3.04,
            cents: -2.2,
        };
        assert_eq!(
            because_words(&warm, Tongue::English),
            format!("warmer by 3.0 °C: {}", Tongue::English.signed(-2.2))
        );
        assert!(because_words(&warm, Tongue::German).starts_with("3,0 °C wärmer"));
        let dry = Because::Damp {
            percent: -12.4,
            cents: 1.0,
        };
        assert!(because_words(&dry, Tongue::French).starts_with("12 % d'humidité de moins"));
    }
}
