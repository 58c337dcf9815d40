//! A whole setting as one number, 0 to 2186: three places for each of seven pedals.

use harp::Setting;
use pitch::{Alteration, Letter};

/// How many settings seven pedals of three places have.
pub const SETTINGS: usize = 2187;

/// A setting's number: its digits to base three, the pedals from left to right, D first.
pub(crate) type Code = u16;

/// What a letter's digit is worth, by [`Letter::index`].
pub(crate) const STRIDE: [usize; 7] = [243, 729, 27, 9, 3, 1, 81];

/// The place (0 flat, 1 natural, 2 sharp) of every letter in every setting.
static PLACES: [[u8; 7]; SETTINGS] = places();

/// The place of each letter, by [`Letter::index`].
pub(crate) fn places_of(code: Code) -> &'static [u8; 7] {
    &PLACES[usize::from(code)]
}

/// The same setting with one letter at another place.
pub(crate) fn with(code: Code, letter: usize, place: u8) -> Code {
    let stride = STRIDE[letter] as Code;
    code - Code::from(PLACES[usize::from(code)][letter]) * stride + Code::from(place) * stride
}

/// The setting of a number.
pub(crate) fn setting_of(code: Code) -> Setting {
    let places = places_of(code);
    Letter::ALL
        .into_iter()
        .fold(Setting::default(), |setting, letter| {
            setting.with(letter, alteration(places[letter.index()]))
        })
}

/// The number of a setting; letters that it does not name count as natural.
pub(crate) fn code_of(setting: &Setting) -> Code {
    Letter::ALL.into_iter().fold(0, |code, letter| {
        let place = setting.get(letter).map_or(1, place);
        code + Code::from(place) * STRIDE[letter.index()] as Code
    })
}

/// Flat, natural or sharp of a place.
pub(crate) fn alteration(place: u8) -> Alteration {
    Alteration::ALL[usize::from(place.min(2))]
}

/// 0 for flat, 1 for natural, 2 for sharp.
pub(crate) fn place(alteration: Alteration) -> u8 {
    alteration as u8
}

const fn places() -> [[u8; 7]; SETTINGS] {
    let mut all = [[0; 7]; SETTINGS];
    let mut code = 0;
    while code < SETTINGS {
        let mut letter = 0;
        while letter < 7 {
            all[code][letter] = (code / STRIDE[letter] % 3) as u8;
            letter += 1;
        }
        code += 1;
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_setting_is_its_number_and_back() {
        for code in 0..SETTINGS as Code {
            assert_eq!(code_of(&setting_of(code)), code);
        }
        assert_eq!(with(code_of(&Setting::default()), 3, 2), 1093 + 9);
    }
}
