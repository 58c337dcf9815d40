//! Names of strings and settings: any text is read or refused, and what is written is read back.

use harp::{Setting, StringName};
use pitch::{Alteration, Letter};
use proptest::prelude::*;

fn string_name() -> impl Strategy<Value = StringName> {
    (0usize..7, any::<bool>(), 0i8..8).prop_map(|(letter, sharp, octave)| {
        let letter = Letter::ALL[letter];
        let sharp = sharp && !matches!(letter, Letter::E | Letter::B);
        StringName {
            letter,
            sharp,
            octave,
        }
    })
}

fn setting() -> impl Strategy<Value = Setting> {
    proptest::collection::vec(proptest::option::of(0usize..3), 7).prop_map(|places| {
        let pairs = Letter::ALL.into_iter().zip(places);
        pairs.fold(Setting::default(), |setting, (letter, place)| match place {
            Some(place) => setting.with(letter, Alteration::ALL[place]),
            None => setting,
        })
    })
}

proptest! {
    #[test]
    fn any_text_is_a_string_or_refused(text in "\\PC{0,12}") {
        let _ = text.parse::<StringName>();
    }

    #[test]
    fn any_text_is_a_setting_or_refused(text in "\\PC{0,40}") {
        let _ = text.parse::<Setting>();
    }

    #[test]
    fn any_text_that_looks_like_a_setting_is_one_or_refused(text in "[{}\":, DCBEFGA01-]{0,60}") {
        if let Ok(setting) = text.parse::<Setting>() {
            prop_assert_eq!(setting.to_string().parse(), Ok(setting));
        }
    }

    #[test]
    fn every_string_is_read_back_in_both_countings(name in string_name()) {
        prop_assert_eq!(name.to_string().parse(), Ok(name));
        prop_assert_eq!(name.harp_number().parse(), Ok(name));
    }

    #[test]
    fn every_setting_is_read_back(setting in setting()) {
        prop_assert_eq!(setting.to_string().parse(), Ok(setting));
    }
}
