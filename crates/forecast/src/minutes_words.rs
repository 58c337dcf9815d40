//! What is said of a few minutes, in three languages. German and French are from memory.

use pitch::Tongue;

use crate::air_at::AirNow;
use crate::order::InTune;

/// How sure it has to be before a harp is called in tune.
pub const SURE: f64 = 0.9;
/// Fewer stretches than this teach little of a harp.
const FEW: usize = 5;

/// How the minutes stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MinutesTold {
    /// Whether they are over.
    pub over: bool,
    /// The share of notes that is expected out when they are, 0 to 1.
    pub left_out: f64,
    /// Whether notes are those of tonight's programme; else every string counts alike.
    pub tonight: bool,
}

/// What a forecast rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rests {
    /// Times that the strings were left and found again.
    pub stretches: usize,
    /// Strings of which nothing was ever read.
    pub never_read: usize,
    /// The air that it counts with.
    pub air: AirNow,
    /// Seconds that she takes for a string.
    pub seconds_per_string: f64,
    /// Whether these are her own.
    pub own_pace: bool,
    /// Strings that nobody plays tonight.
    pub not_played: usize,
}

/// A sentence as it is set: French has a narrow blank before a colon or a sign.
fn set(tongue: Tongue, said: String) -> String {
    match tongue {
        Tongue::French => said.replace(" :", "\u{202f}:").replace(" %", "\u{202f}%"),
        _ => said,
    }
}

fn of(tongue: Tongue, english: &str, german: &str, french: &str) -> String {
    match tongue {
        Tongue::English => english,
        Tongue::German => german,
        Tongue::French => french,
    }
    .to_owned()
}

/// What share of the notes is expected out when the minutes are over.
pub fn minutes_words(told: &MinutesTold, tongue: Tongue) -> String {
    let whole = of(
        tongue,
        if told.tonight {
            "tonight's notes"
        } else {
            "the strings"
        },
        if told.tonight {
            "der Töne von heute Abend"
        } else {
            "der Saiten"
        },
        if told.tonight {
            "des notes de ce soir"
        } else {
            "des cordes"
        },
    );
    let said = if told.over {
        of(
            tongue,
            "The minutes are over: {n} % of {all} expected out of tune.",
            "Die Minuten sind um: {n} % {all} vermutlich verstimmt.",
            "Le temps est écoulé : {n} % {all} sans doute désaccordées.",
        )
    } else {
        of(
            tongue,
            "When the minutes are over: {n} % of {all} expected out of tune.",
            "Wenn die Minuten um sind: {n} % {all} vermutlich verstimmt.",
            "Le temps écoulé : {n} % {all} sans doute désaccordées.",
        )
    };
    // what is little is not nothing
    let share = if told.left_out < 0.01 {
        of(tongue, "less than 1", "weniger als 1", "moins de 1")
    } else {
        tongue.number(100.0 * told.left_out, 0)
    };
    set(tongue, said.replace("{n}", &share).replace("{all}", &whole))
}

/// Whether it may be called in tune, [`SURE`] or surer; else after how many more strings.
pub fn sure_words(in_tune: &InTune, tongue: Tongue) -> String {
    // never more sure than is said, and never certain
    let percent = |sure: f64| tongue.number((100.0 * sure).floor().min(99.0), 0);
    let said = match in_tune.after_plucks {
        Some(0) => of(
            tongue,
            "It may be called in tune, {n} % sure.",
            "Die Harfe darf gestimmt heißen, zu {n} % sicher.",
            "On peut dire la harpe accordée, sûr à {n} %.",
        )
        .replace("{n}", &percent(in_tune.confidence)),
        Some(1) => of(
            tongue,
            "In tune, {n} % sure, after one more string.",
            "Gestimmt, zu {n} % sicher, nach noch einer Saite.",
            "Accordée, sûr à {n} %, après une corde encore.",
        )
        .replace("{n}", &percent(SURE)),
        Some(more) => of(
            tongue,
            "In tune, {n} % sure, after {more} more strings.",
            "Gestimmt, zu {n} % sicher, nach noch {more} Saiten.",
            "Accordée, sûr à {n} %, après encore {more} cordes.",
        )
        .replace("{n}", &percent(SURE))
        .replace("{more}", &more.to_string()),
        None => of(
            tongue,
            "It cannot be called in tune, {n} % sure, even when all were plucked.",
            "Gestimmt, zu {n} % sicher, kann die Harfe nicht heißen, auch wenn alle Saiten gezupft sind.",
            "On ne peut dire la harpe accordée, sûr à {n} %, même toutes cordes pincées.",
        )
        .replace("{n}", &percent(SURE)),
    };
    set(tongue, said)
}

/// What it rests on, and how little it knows where that is little; a sentence each.
pub fn rests_words(rests: &Rests, tongue: Tongue) -> Vec<String> {
    let mut said = vec![match rests.stretches {
        0 => of(
            tongue,
            "Your diary does not know yet how this harp moves: a guess for all harps.",
            "Ihr Tagebuch weiß noch nicht, wie diese Harfe zieht: eine Vermutung für alle Harfen.",
            "Votre journal ne sait pas encore comment cette harpe bouge : une supposition pour toutes les harpes.",
        ),
        1 => of(
            tongue,
            "It rests on one time that your strings were left and found again: that is little.",
            "Es beruht auf einem Mal, dass Ihre Saiten gelassen und wiedergefunden wurden: das ist wenig.",
            "Cela repose sur une seule fois où vos cordes ont été laissées et retrouvées : c'est peu.",
        ),
        few if few < FEW => of(
            tongue,
            "It rests on {n} times that your strings were left and found again: that is little.",
            "Es beruht auf {n} Malen, dass Ihre Saiten gelassen und wiedergefunden wurden: das ist wenig.",
            "Cela repose sur {n} fois où vos cordes ont été laissées et retrouvées : c'est peu.",
        ),
        _ => of(
            tongue,
            "It rests on {n} times that your strings were left and found again.",
            "Es beruht auf {n} Malen, dass Ihre Saiten gelassen und wiedergefunden wurden.",
            "Cela repose sur {n} fois où vos cordes ont été laissées et retrouvées.",
        ),
    }
    .replace("{n}", &rests.stretches.to_string())];
    if rests.never_read > 0 {
        let many = rests.never_read.to_string();
        let one = of(
            tongue,
            "One string was never read.",
            "Eine Saite wurde nie gelesen.",
            "Une corde n'a jamais été lue.",
        );
        let more = of(
            tongue,
            "{n} strings were never read.",
            "{n} Saiten wurden nie gelesen.",
            "{n} cordes n'ont jamais été lues.",
        );
        said.push(if rests.never_read == 1 { one } else { more }.replace("{n}", &many));
    }
    said.push(air_words(rests.air, tongue));
    let pace = tongue.number(rests.seconds_per_string, 1);
    said.push(
        if rests.own_pace {
            of(
                tongue,
                "{n} seconds a string, as in your earlier rounds.",
                "{n} Sekunden je Saite, wie in Ihren früheren Runden.",
                "{n} secondes par corde, comme à vos accords précédents.",
            )
        } else {
            of(
                tongue,
                "{n} seconds a string: your own pace is not known yet.",
                "{n} Sekunden je Saite: Ihr eigenes Maß ist noch nicht bekannt.",
                "{n} secondes par corde : votre propre allure n'est pas encore connue.",
            )
        }
        .replace("{n}", &pace),
    );
    if rests.not_played > 0 {
        let one = of(
            tongue,
            "One string is not played tonight: it is not asked for.",
            "Eine Saite wird heute Abend nicht gespielt: nach ihr wird nicht gefragt.",
            "Une corde n'est pas jouée ce soir : elle n'est pas demandée.",
        );
        let more = of(
            tongue,
            "{n} strings are not played tonight: they are not asked for.",
            "{n} Saiten werden heute Abend nicht gespielt: nach ihnen wird nicht gefragt.",
            "{n} cordes ne sont pas jouées ce soir : elles ne sont pas demandées.",
        );
        let said_of_them = if rests.not_played == 1 { one } else { more };
        said.push(said_of_them.replace("{n}", &rests.not_played.to_string()));
    }
    said.into_iter().map(|one| set(tongue, one)).collect()
}

fn air_words(air: AirNow, tongue: Tongue) -> String {
    match (air.temperature_c, air.humidity_percent) {
        (Some(degrees), Some(percent)) => of(
            tongue,
            "In this air: {c} °C, {p} %.",
            "In dieser Luft: {c} °C, {p} %.",
            "Dans cet air : {c} °C, {p} %.",
        )
        .replace("{c}", &tongue.number(degrees, 1))
        .replace("{p}", &tongue.number(percent, 0)),
        _ => of(
            tongue,
            "The air now is not known whole: that makes it less sure.",
            "Die Luft ist nicht ganz bekannt: das macht es weniger sicher.",
            "L'air n'est pas entièrement connu : c'est moins sûr.",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_little_is_not_called_nothing() {
        let told = |left_out, over| MinutesTold {
            over,
            left_out,
            tonight: true,
        };
        let said = |left_out| minutes_words(&told(left_out, false), Tongue::English);
        let expected = "When the minutes are over: 12 % of tonight's notes expected out of tune.";
        assert_eq!(said(0.118), expected);
        assert!(said(0.0).contains("less than 1 %"));
        let german = minutes_words(&told(0.5, true), Tongue::German);
        assert!(german.starts_with("Die Minuten sind um: 50 %"), "{german}");
    }

    #[test]
    fn it_is_said_how_sure_and_never_surer() {
        let sure = |confidence, after_plucks| InTune {
            confidence,
            after_plucks,
        };
        let said = sure_words(&sure(0.939, Some(0)), Tongue::English);
        assert_eq!(said, "It may be called in tune, 93 % sure.");
        let said = sure_words(&sure(0.9999, Some(0)), Tongue::English);
        assert!(said.contains("99 %"), "{said}");
        let said = sure_words(&sure(0.2, Some(7)), Tongue::English);
        assert_eq!(said, "In tune, 90 % sure, after 7 more strings.");
        assert!(sure_words(&sure(0.2, None), Tongue::English).contains("cannot"));
    }

    #[test]
    fn a_short_diary_is_called_short_in_every_language() {
        let rests = |stretches| Rests {
            stretches,
            never_read: 1,
            air: AirNow::default(),
            seconds_per_string: 12.8,
            own_pace: false,
            not_played: 3,
        };
        for tongue in Tongue::ALL {
            let texts = [0, 1, 3, 20].map(|stretches| rests_words(&rests(stretches), tongue));
            assert!(texts.iter().all(|said| said.len() == 5));
            let first: std::collections::BTreeSet<&String> =
                texts.iter().filter_map(|said| said.first()).collect();
            assert_eq!(first.len(), 4);
            assert!(texts.iter().flatten().all(|said| !said.contains('{')));
        }
    }
}
