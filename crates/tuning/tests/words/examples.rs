//! Worked examples, letter by letter; strings and figures are invented. The translations are ours, no source.

use pitch::Tongue;
use tuning::round::{Amount, Limit, Names, Say, Then, Turn, Warning, Why, sentence};
use tuning::{Direction, Reason};

use crate::every::name;

#[track_caller]
fn check(say: Say, english: &str, german: &str, french: &str) {
    let said = |tongue: Tongue| {
        let note = |letter| {
            let natural = pitch::SpelledPitch::new(letter, pitch::Alteration::Natural, 4);
            tongue.notes().name(natural)
        };
        let octave = |s: harp::StringName| pitch::harp_octave(s.letter, s.octave);
        let names = Names {
            string: &|s| format!("{}{}", octave(s), note(s.letter)),
            letter: &note,
            pitch: &|p| tongue.notes().name(p),
        };
        // a narrow space is not to be told from none in the source
        sentence(&say, &names, tongue).replace('\u{202f}', "_")
    };
    assert_eq!(Tongue::ALL.map(said), [english, german, french]);
}

fn turn(off_cents: f64) -> Say {
    Say::Turn(Turn {
        string: name("B3"),
        way: if off_cents < 0.0 {
            Direction::Up
        } else {
            Direction::Down
        },
        amount: Amount::of(off_cents),
        by_cents: Amount::at_once(off_cents),
        off_cents,
        u95_cents: 0.8,
        climbing: false,
    })
}

#[test]
fn a_low_string_is_sent_up() {
    check(
        turn(-12.0),
        "4B: 12.0 cents low. Up a little.",
        "4H: 12,0 Cent zu tief. Ein wenig höher.",
        "4si_: 12,0 cents trop bas. Un peu plus haut.",
    );
    check(
        turn(-1.5),
        "4B: 1.5 cents low. Up a hair.",
        "4H: 1,5 Cent zu tief. Eine Spur höher.",
        "4si_: 1,5 cent trop bas. Un cheveu plus haut.",
    );
    check(
        turn(-480.0),
        "4B: 480.0 cents low. Up by half of that at most, 240 cents; then pluck it again.",
        "4H: 480,0 Cent zu tief. Höher, höchstens um die Hälfte davon, 240 Cent; dann noch einmal zupfen.",
        "4si_: 480,0 cents trop bas. Plus haut, de la moitié au plus, 240 cents_; puis la pincer encore une fois.",
    );
}

#[test]
fn a_high_string_goes_just_under_and_comes_up() {
    check(
        turn(34.0),
        "4B: 34.0 cents high. Down more, to just under, then come up.",
        "4H: 34,0 Cent zu hoch. Ein Stück tiefer, bis knapp darunter, dann von unten heran.",
        "4si_: 34,0 cents trop haut. Nettement plus bas, jusqu'à juste en dessous, puis remonter.",
    );
}

#[test]
fn what_is_found_is_said_with_its_sign() {
    let (string, u95_cents) = (name("B3"), 0.8);
    check(
        Say::InTune {
            string,
            off_cents: -1.5,
            u95_cents,
        },
        "4B: in tune (−1.5).",
        "4H: stimmt (−1,5).",
        "4si_: juste (−1,5).",
    );
    check(
        Say::Moving {
            string,
            off_cents: -10.9,
            u95_cents,
            way: Direction::Up,
        },
        "4B: −10.9, still up.",
        "4H: −10,9; weiter höher.",
        "4si_: −10,9_; encore plus haut.",
    );
    check(
        Say::NotRead {
            string: Some(string),
            reason: Reason::TooShort,
        },
        "4B: not read, too short: pluck it again and let it ring.",
        "4H: nicht gemessen (zu kurz): noch einmal zupfen und klingen lassen.",
        "4si_: non mesurée (trop court)_: la pincer encore une fois et laisser sonner.",
    );
    check(
        Say::Next {
            string,
            why: Why::InOrder,
        },
        "Now 4B.",
        "Jetzt 4H.",
        "Maintenant 4si.",
    );
}

#[test]
fn warnings_keep_their_reason_and_their_care() {
    let string = name("G3");
    check(
        Say::Warning(Warning::PedalUp {
            letter: pitch::Letter::G,
            semitones: 1,
            position: pitch::Alteration::Flat,
            strings: vec![string, name("G4")],
        }),
        "Is the G pedal up? 4G and 3G sound a semitone high. Look before you turn any pin.",
        "Steht das G-Pedal oben? 4G und 3G klingen einen Halbton zu hoch. Nachsehen, bevor ein Wirbel gedreht wird.",
        "La pédale de sol est-elle en haut_? 4sol et 3sol sonnent un demi-ton trop haut. Regarder avant de tourner la moindre cheville.",
    );
    check(
        Say::Warning(Warning::OverPull {
            string,
            off_cents: 38.5,
            limit: Limit::HighestKnown(200.0),
        }),
        "Stop. 4G: 38.5 cents high, above all that is known of it. Ease it down, and keep your eyes away from the string.",
        "Stopp. 4G: 38,5 Cent zu hoch, über allem, was von ihr bekannt ist. Langsam tiefer, und die Augen von der Saite weghalten.",
        "Stop. 4sol_: 38,5 cents trop haut, au-dessus de tout ce qu'on sait d'elle. Doucement plus bas, et garder les yeux loin de la corde.",
    );
}

#[test]
fn a_broken_string_comes_with_its_cautions() {
    check(
        Say::Broke(name("G3"), Then::PlayWithout),
        "4G broke. Eyes away from the strings, mind the loose end of a wire, and spare your wrist. What else gave way, let a harp technician judge. The round goes on without it.",
        "4G ist gerissen. Die Augen weg von den Saiten, auf das lose Ende einer Drahtsaite achten und das Handgelenk schonen. Was sonst noch nachgegeben hat, sollen Harfentechnikerin oder Harfentechniker beurteilen. Der Durchgang geht ohne sie weiter.",
        "4sol a cassé. Éloigner les yeux des cordes, prendre garde au bout libre d'une corde filée et ménager le poignet. Si autre chose a cédé, laisser un technicien de la harpe en juger. Le tour des cordes continue sans elle.",
    );
}
