//! What the settings sound: which of the twelve sounds each gives, and which settings give a set.

use harp::Setting;
use pitch::{Alteration, Letter};

use crate::code::{Code, SETTINGS, setting_of};

/// A set of the twelve sounds of an octave, C = 0 to B = 11, whatever their names.
///
/// ```
/// use pedals::Sounds;
/// let triad = Sounds::of(&[0, 4, 7]);
/// assert_eq!(triad.len(), 3);
/// assert!(Sounds::of(&[4, 12]).within(triad));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Sounds(u16);

impl Sounds {
    /// The set of these semitones above C; octaves are left aside.
    pub fn of(semitones: &[i32]) -> Self {
        Self(
            semitones
                .iter()
                .fold(0, |set, semitone| set | 1 << semitone.rem_euclid(12)),
        )
    }

    /// What a setting sounds; letters that it does not name are left out.
    pub fn of_setting(setting: &Setting) -> Self {
        let sounding = Letter::ALL
            .into_iter()
            .filter_map(|letter| setting.get(letter).map(|a| sound_of(letter, a)));
        Self(sounding.fold(0, |set, sound| set | 1 << sound))
    }

    /// How many sounds, 0 to 12.
    pub fn len(self) -> u32 {
        self.0.count_ones()
    }

    /// Whether there are none.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether all of them are in another set.
    pub fn within(self, other: Self) -> bool {
        self.0 & !other.0 == 0
    }

    /// Every set of the twelve sounds, 4,096 of them.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..1 << 12).map(Self)
    }
}

/// The sound of a letter as altered, 0 (C) to 11 (B): B sharp is 0.
pub fn sound_of(letter: Letter, alteration: Alteration) -> u8 {
    (letter.semitones() + i32::from(alteration.semitones())).rem_euclid(12) as u8
}

/// All 2,187 settings, from all pedals up to all down.
///
/// ```
/// assert_eq!(pedals::all_settings().count(), 2187);
/// ```
pub fn all_settings() -> impl Iterator<Item = Setting> {
    (0..SETTINGS as Code).map(setting_of)
}

/// The settings that sound these and nothing else: what a glissando asks.
pub fn settings_that_sound_exactly(sounds: Sounds) -> Vec<Setting> {
    all_settings()
        .filter(|setting| Sounds::of_setting(setting) == sounds)
        .collect()
}

/// The settings that have all of these sounds, whatever else they have.
pub fn settings_that_sound_at_least(sounds: Sounds) -> Vec<Setting> {
    all_settings()
        .filter(|setting| sounds.within(Sounds::of_setting(setting)))
        .collect()
}

/// The names of a sound among the 21: two for nine sounds, one for D, G and A natural.
///
/// ```
/// assert_eq!(pedals::names_of(2).len(), 1);
/// assert_eq!(pedals::names_of(0).len(), 2);
/// ```
pub fn names_of(sound: u8) -> Vec<(Letter, Alteration)> {
    let all = Letter::ALL
        .into_iter()
        .flat_map(|letter| Alteration::ALL.map(|alteration| (letter, alteration)));
    all.filter(|&(letter, alteration)| sound_of(letter, alteration) == sound)
        .collect()
}
