//! The order in which strings are asked for. It is hers: any string may be plucked at any time.

use harp::StringName;
use pitch::{Letter, harp_octave};

/// An order of the strings. All of them are in use (common practice, several teaching pages).
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Order {
    /// From a string in the middle down to the bass, then from the one above it up.
    FromMiddle(StringName),
    /// The octave of middle C first, then the octaves below, from its bottom down, then those above, up.
    MiddleOctave,
    /// From the bass up.
    FromBass,
    /// All strings of one letter from the bass up, C first, then those of the next.
    Letters,
    /// Each string of the octave of middle C, followed at once by its octaves below and then above.
    Octaves,
    /// Her own list; strings that it leaves out come last, from the bass.
    List(Vec<StringName>),
}

impl Default for Order {
    /// From 4G (G3): common practice, no source.
    fn default() -> Self {
        Order::FromMiddle(StringName::new(Letter::G, 3))
    }
}

/// The harp's octave of middle C: F3 to E4.
const MIDDLE: i32 = 4;

impl Order {
    /// The strings in this order, each once; `strings` are those that stand, in any order.
    ///
    /// ```
    /// use tuning::round::Order;
    /// let strings = ["F3", "G3", "A3", "E3"].map(|name| name.parse().unwrap());
    /// let order = Order::default().arrange(&strings);
    /// let names: Vec<_> = order.iter().map(|s| s.to_string()).collect();
    /// assert_eq!(names, ["G3", "F3", "E3", "A3"]);
    /// ```
    pub fn arrange(&self, strings: &[StringName]) -> Vec<StringName> {
        let bass_up = bass_up(strings);
        match self {
            Order::FromBass => bass_up,
            Order::FromMiddle(from) => down_then_up(&bass_up, |s| s <= *from),
            Order::MiddleOctave => middle_octave(&bass_up),
            Order::Letters => letters(&bass_up),
            Order::Octaves => octaves(&bass_up),
            Order::List(list) => {
                let mut order: Vec<StringName> = Vec::new();
                for string in list.iter().chain(&bass_up) {
                    if bass_up.contains(string) && !order.contains(string) {
                        order.push(*string);
                    }
                }
                order
            }
        }
    }
}

fn bass_up(strings: &[StringName]) -> Vec<StringName> {
    let mut sorted = Vec::new();
    for string in strings {
        if let Err(place) = sorted.binary_search(string) {
            sorted.insert(place, *string);
        }
    }
    sorted
}

fn letters(bass_up: &[StringName]) -> Vec<StringName> {
    let mut order: Vec<StringName> = Vec::new();
    for string in bass_up {
        let key = |s: &StringName| (s.letter, s.sharp);
        let place = order.partition_point(|other| key(other) <= key(string));
        order.insert(place, *string);
    }
    order
}

fn down_then_up(bass_up: &[StringName], is_down: impl Fn(StringName) -> bool) -> Vec<StringName> {
    let (down, up): (Vec<StringName>, Vec<StringName>) = bass_up.iter().partition(|s| is_down(**s));
    down.into_iter().rev().chain(up).collect()
}

fn is_middle(string: StringName) -> bool {
    harp_octave(string.letter, string.octave) == MIDDLE
}

fn middle_octave(bass_up: &[StringName]) -> Vec<StringName> {
    let (middle, rest): (Vec<StringName>, Vec<StringName>) =
        bass_up.iter().partition(|s| is_middle(**s));
    let below = |s: StringName| harp_octave(s.letter, s.octave) > MIDDLE;
    middle
        .into_iter()
        .chain(down_then_up(&rest, below))
        .collect()
}

fn octaves(bass_up: &[StringName]) -> Vec<StringName> {
    let mut order = Vec::new();
    for middle in bass_up.iter().filter(|s| is_middle(**s)) {
        let same: Vec<StringName> = (bass_up.iter().copied())
            .filter(|s| (s.letter, s.sharp) == (middle.letter, middle.sharp))
            .collect();
        order.extend(down_then_up(&same, |s| s <= *middle));
    }
    // a harp without that octave, or with letters missing from it
    for string in bass_up {
        if !order.contains(string) {
            order.push(*string);
        }
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;
    use harp::Harp;

    fn check(order: Order, begins: &str, ends: &str) {
        let harp = Harp::named("pedal47").unwrap();
        let strings: Vec<StringName> = harp.strings().iter().map(|s| s.name).collect();
        let arranged = order.arrange(&strings);
        let mut sorted = arranged.clone();
        sorted.sort();
        assert_eq!(sorted, strings, "each string once");
        let names: Vec<String> = arranged.iter().map(|s| s.to_string()).collect();
        let names = names.join(" ");
        assert!(names.starts_with(begins), "{names}");
        assert!(names.ends_with(ends), "{names}");
    }

    #[test]
    fn every_order_asks_for_each_string_once() {
        let g3 = StringName::new(Letter::G, 3);
        check(Order::FromMiddle(g3), "G3 F3 E3", "F7 G7");
        check(Order::FromBass, "C1 D1 E1", "F7 G7");
        check(Order::MiddleOctave, "F3 G3 A3 B3 C4 D4 E4 E3 D3", "F7 G7");
        check(Order::Letters, "C1 C2 C3 C4 C5 C6 C7 D1", "B5 B6");
        check(Order::Octaves, "F3 F2 F1 F4 F5 F6 F7 G3 G2", "E6 E7");
        let own = Order::List(vec![StringName::new(Letter::A, 4), g3, g3]);
        check(own, "A4 G3 C1", "F7 G7");
    }

    #[test]
    fn a_first_string_that_is_not_there_begins_with_the_next_below() {
        let order = Order::FromMiddle(StringName::new(Letter::G, 3));
        let strings = ["C3", "F3", "A3"].map(|s| s.parse().unwrap());
        assert_eq!(order.arrange(&strings)[0].to_string(), "F3");
    }
}
