//! A setting on paper: the printed diagram, or letters with the right foot on top.

use harp::Setting;
use pedals::Foot;
use pitch::{Alteration, Letter, SpelledPitch};

use super::face::Face;
use super::ink::Ink;
use crate::{Diagrams, Style};

/// How high the diagram's line lies above its baseline, in parts of its size (Leland 0.77).
const LINE: f64 = 0.375;
/// How far a divider reaches above and below the line.
pub(crate) const REACH: f64 = 0.497;
/// A setting drawn round its line, which lies at 0; from its left edge.
pub(crate) struct Diagram {
    pub(crate) ink: Ink,
    pub(crate) width: f64,
    /// How far it reaches above and below its line.
    pub(crate) reach: f64,
}

/// A diagram of a size in points; pedals that stand elsewhere than `before` are ringed.
pub(crate) fn diagram(
    setting: Setting,
    before: Option<Setting>,
    size: f64,
    style: &Style,
) -> Diagram {
    let changed = |letter: Letter| {
        let known = before.and_then(|before| before.get(letter));
        known.is_some() && setting.get(letter).is_some() && known != setting.get(letter)
    };
    match style.diagrams {
        Diagrams::Signs => signs(setting, &changed, size),
        Diagrams::Letters => letters(setting, &changed, size, style),
    }
}

/// A letter as its pedal stands; a natural is bare.
pub(crate) fn stands(letter: Letter, alteration: Alteration, style: &Style) -> String {
    let pitch = SpelledPitch::new(letter, alteration, 4);
    style.naming.language.name(pitch)
}

/// The same for a change, where a natural is said.
pub(crate) fn moves(letter: Letter, to: Alteration, style: &Style) -> String {
    let natural = if to == Alteration::Natural { "♮" } else { "" };
    stands(letter, to, style) + natural
}

/// The signs of a whole setting, as text (SMuFL); a pedal that is not known is a gap in the line.
pub(crate) fn signs_of(setting: Setting) -> String {
    let mut text = String::new();
    for letter in Setting::PEDAL_ORDER {
        if letter == Letter::E {
            text.push('\u{e683}');
        }
        text.push(match setting.get(letter) {
            Some(Alteration::Flat) => '\u{e680}',
            Some(Alteration::Natural) => '\u{e681}',
            Some(Alteration::Sharp) => '\u{e682}',
            None => continue,
        });
    }
    text
}

fn signs(setting: Setting, changed: &impl Fn(Letter) -> bool, size: f64) -> Diagram {
    let text = signs_of(setting);
    let mut ink = Ink::default();
    let width = ink.text((0.0, LINE * size), size, Face::Signs, &text);
    // the signs carry a piece of line each; one under all closes the seams between them
    ink.line((0.0, 0.0), (width, 0.0), 0.012 * size);
    let pedal = Face::Signs.width("\u{e680}", size);
    let mut x = pedal / 2.0;
    for letter in Setting::PEDAL_ORDER {
        if letter == Letter::E {
            x += Face::Signs.width("\u{e683}", size);
        }
        let Some(alteration) = setting.get(letter) else {
            continue;
        };
        if changed(letter) {
            let up = match alteration {
                Alteration::Flat => -0.255,
                Alteration::Natural => 0.0,
                Alteration::Sharp => 0.255,
            };
            ink.ring((x, up * size), (0.125 * size, 0.33 * size), size * 0.024);
        }
        x += pedal;
    }
    Diagram {
        ink,
        width,
        reach: REACH * size,
    }
}

/// Letters of two fifths of the size: four above the line, three below.
fn letters(
    setting: Setting,
    changed: &impl Fn(Letter) -> bool,
    size: f64,
    style: &Style,
) -> Diagram {
    let letter_size = size * 0.48;
    let mut ink = Ink::default();
    let mut width: f64 = 0.0;
    for (foot, baseline) in [(Foot::Right, -0.42), (Foot::Left, 1.08)] {
        let y = baseline * letter_size;
        let mut x = 0.0;
        for &letter in foot.pedals() {
            let Some(alteration) = setting.get(letter) else {
                continue;
            };
            let name = stands(letter, alteration, style);
            let wide = ink.text((x, y), letter_size, Face::Text, &name);
            if changed(letter) {
                let centre = (x + wide / 2.0, y - 0.335 * letter_size);
                let radius = (wide / 2.0 + 0.22 * letter_size, 0.56 * letter_size);
                ink.ring(centre, radius, size * 0.02);
            }
            width = width.max(x + wide);
            x += wide + 0.62 * letter_size;
        }
    }
    ink.line((0.0, 0.0), (width, 0.0), size * 0.018);
    Diagram {
        ink,
        width,
        reach: 1.35 * letter_size,
    }
}
