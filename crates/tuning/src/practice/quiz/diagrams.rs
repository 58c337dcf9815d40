//! Diagrams and levers: read and set; and which answer fits.

use harp::{HarpKind, Setting};
use pitch::{Alteration, Letter, MajorKey};

use super::strings::place;
use super::{Asked, Choice, Facts};
use crate::practice::draws::Draws;

impl Facts {
    pub(super) fn read_asked(&self, draws: &mut Draws) -> Option<Asked> {
        if self.kind == HarpKind::Lever {
            return Some(Asked::LeversIn(draws.pick(&self.keys())?));
        }
        let setting = self.any_setting(draws);
        Some(match draws.coin() {
            true => Asked::Read(setting),
            false => Asked::SoundsIn(setting, draws.pick(&Letter::ALL)?),
        })
    }

    pub(super) fn set_asked(&self, draws: &mut Draws) -> Option<Asked> {
        let key = draws.pick(&self.keys())?;
        Some(match self.kind == HarpKind::Lever || draws.coin() {
            true => Asked::SetKey(key),
            false => Asked::SetLetters(self.any_setting(draws)),
        })
    }

    /// The major keys that can be set.
    fn keys(&self) -> Vec<MajorKey> {
        MajorKey::all().filter(|key| self.can_set(*key)).collect()
    }

    fn can_set(&self, key: MajorKey) -> bool {
        let mut letters = Letter::ALL.into_iter();
        letters.all(|letter| {
            let wanted = Some(key.alteration(letter));
            self.notches().any(|notch| self.at(letter, notch) == wanted)
        })
    }

    /// A key's setting with one or two pedals elsewhere, as scores have them.
    fn any_setting(&self, draws: &mut Draws) -> Setting {
        let keys = self.keys();
        let key = draws.pick(&keys);
        let mut setting = key.map(Setting::of_key).unwrap_or_default();
        for _ in 0..1 + draws.below(2) {
            if let (Some(letter), Some(sounds)) =
                (draws.pick(&Letter::ALL), draws.pick(&Alteration::ALL))
            {
                setting = setting.with(letter, sounds);
            }
        }
        setting
    }

    pub(super) fn readings(&self, setting: Setting, draws: &mut Draws) -> Vec<Choice> {
        let of = |letter| setting.get(letter).unwrap_or(Alteration::Natural);
        let turned = |change: &dyn Fn(usize) -> Alteration| {
            let letters = Setting::PEDAL_ORDER.into_iter().enumerate();
            letters.fold(Setting::default(), |made, (at, letter)| {
                made.with(letter, change(at))
            })
        };
        let order = Setting::PEDAL_ORDER;
        // above and below mistaken for each other; the order read from the right; the letters in the order of the scale
        let upside_down = turned(&|at| opposite(of(order[at])));
        let from_right = turned(&|at| of(order[6 - at]));
        let as_scale = turned(&|at| {
            let scale = order.iter().position(|l| *l == Letter::ALL[at]);
            of(order[scale.unwrap_or(at)])
        });
        let mut wrong = vec![upside_down, from_right, as_scale];
        draws.shuffle(&mut wrong);
        for _ in 0..8 {
            if let (Some(letter), Some(sounds)) =
                (draws.pick(&Letter::ALL), draws.pick(&Alteration::ALL))
            {
                wrong.push(setting.with(letter, sounds));
            }
        }
        // one that differs in a single pedal is always among them
        wrong.rotate_right(1);
        let all = [setting].into_iter().chain(wrong);
        all.map(Choice::Setting).collect()
    }

    pub(super) fn lever_lists(&self, key: MajorKey) -> Vec<Choice> {
        let list = |key: MajorKey| self.levers_on(key);
        let right = list(key);
        let near = [-1, 1, -2, 2, -3, 3].into_iter();
        let near = near.filter_map(|by| MajorKey::new(key.fifths() + by));
        let near = near.filter(|near| self.can_set(*near)).map(list);
        let all = [right].into_iter().chain(near);
        all.map(Choice::Levers).collect()
    }

    /// Letters whose levers a key needs, from C up.
    fn levers_on(&self, key: MajorKey) -> Vec<Letter> {
        let on = |letter: &Letter| key.alteration(*letter) != self.open[letter.index()];
        Letter::ALL.into_iter().filter(on).collect()
    }

    /// The setting that answers what is asked.
    pub(super) fn setting_of(&self, asked: Asked) -> Option<Setting> {
        match asked {
            Asked::SetKey(key) => Some(Setting::of_key(key)),
            Asked::SetLetters(setting) => Some(setting),
            _ => None,
        }
    }

    /// Whether a choice answers what is asked.
    pub(super) fn fits(&self, asked: Asked, choice: &Choice) -> bool {
        match (asked, choice) {
            (Asked::Shown { letter, sounds }, Choice::Display(shown)) => {
                place(letter, sounds) == *shown
            }
            (Asked::ShownBy { letter, sounds, .. }, Choice::Sounds(other, so)) => {
                place(letter, sounds) == place(*other, *so)
            }
            (Asked::PinOf(string), Choice::Pin(other)) => string == *other,
            (Asked::HeldBy(string) | Asked::Called(string), Choice::String(other))
            | (Asked::Find(string), Choice::String(other)) => string == *other,
            (Asked::Read(setting), Choice::Setting(other)) => setting == *other,
            (Asked::SoundsIn(setting, letter), Choice::Sounds(other, sounds)) => {
                letter == *other && setting.get(letter) == Some(*sounds)
            }
            (Asked::LeversIn(key), Choice::Levers(on)) => self.levers_on(key) == *on,
            _ => false,
        }
    }
}

fn opposite(sounds: Alteration) -> Alteration {
    match sounds {
        Alteration::Flat => Alteration::Sharp,
        Alteration::Natural => Alteration::Natural,
        Alteration::Sharp => Alteration::Flat,
    }
}
