//! The words of a picture, in every language: a function for each, so that none can be forgotten in one of them.

mod english;
mod french;
mod german;

use harp::HarpKind;
use pitch::Tongue;

use crate::kind::Kind;

/// How many strings are in tune, how many were not heard, and how many there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Count {
    pub(crate) in_tune: usize,
    pub(crate) unheard: usize,
    pub(crate) all: usize,
}

/// One language.
pub(crate) trait Wording {
    /// The title of a picture that has none.
    fn harp(&self) -> &'static str;
    /// How the harp stands.
    fn stands(&self, kind: HarpKind, open: bool) -> &'static str;
    fn reference(&self, a4: &str) -> String;
    fn harp_of(&self, strings: usize) -> String;
    fn present(&self, name: &str, mark: &str) -> String;
    fn not_on_this_harp(&self) -> &'static str;
    /// The line under the title; no full stop.
    fn counted(&self, count: Count) -> String;
    /// What a mark means, in the key and in the account.
    fn meaning(&self, kind: Kind) -> &'static str;
    /// The same before a figure, where there is little room.
    fn in_list(&self, kind: Kind) -> &'static str {
        self.meaning(kind)
    }
    /// All strings with one mark, as a sentence.
    fn all_of(&self, kind: Kind, strings: &[String]) -> String;
    /// Where a string stands, after the number of cents.
    fn low_or_high(&self, low: bool) -> &'static str;
    /// The same where there is little room.
    fn low_or_high_in_list(&self, low: bool) -> &'static str {
        self.low_or_high(low)
    }
    fn figures_are_cents(&self) -> &'static str;
    fn figures_in_cents(&self) -> &'static str;
    fn and_more(&self, strings: usize) -> String;
    /// In the key: where a string was when it was first heard.
    fn before(&self) -> &'static str;
    /// Where lengths come from, of which so many are typical.
    fn origin_of_lengths(&self, typical: usize, all: usize) -> String;
}

/// The words of a language.
pub(crate) fn wording(tongue: Tongue) -> &'static dyn Wording {
    match tongue {
        Tongue::English => &english::English,
        Tongue::German => &german::German,
        Tongue::French => &french::French,
    }
}

/// A phrase as it begins a sentence.
fn capital(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const KINDS: [Kind; 9] = [
        Kind::NotYetHeard,
        Kind::Off,
        Kind::InTune,
        Kind::Near,
        Kind::Moving,
        Kind::Skipped,
        Kind::Broken,
        Kind::New,
        Kind::Again,
    ];

    #[test]
    fn no_two_marks_mean_the_same_and_no_two_languages_say_the_same() {
        for tongue in Tongue::ALL {
            for (place, kind) in KINDS.into_iter().enumerate() {
                let meaning = wording(tongue).meaning(kind);
                assert!(!meaning.is_empty());
                for other in &KINDS[place + 1..] {
                    assert_ne!(meaning, wording(tongue).meaning(*other));
                }
            }
        }
        for kind in KINDS {
            let [english, german, french] = Tongue::ALL.map(|t| wording(t).meaning(kind));
            assert!(english != german && english != french && german != french);
        }
    }
}
