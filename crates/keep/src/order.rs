//! What to order, so that every string is covered with few spares.

use std::collections::BTreeMap;

use harp::{Harp, StringName};
use pitch::Letter;

use crate::cover::is_alike;
use crate::{By, Covered, Shelf};

/// A string to order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    /// The string.
    pub string: StringName,
    /// The strings that it will cover, itself or tuned down.
    pub covers: Vec<StringName>,
}

/// The strings to order, from the bass: those without cover or with one that is too old, an E for D and E and a B for G, A
/// and B where the harp has it of the same kind.
pub fn to_order(harp: &Harp, cover: &[Covered]) -> Vec<Order> {
    let mut orders: BTreeMap<(i32, StringName), Vec<StringName>> = BTreeMap::new();
    for one in cover.iter().filter(|one| is_uncovered(one)) {
        let order = skeleton(harp, one.string);
        let covers = orders.entry((order.key(), order)).or_default();
        covers.push(one.string);
    }
    let orders = orders.into_iter();
    orders
        .map(|((_, string), covers)| Order { string, covers })
        .collect()
}

fn is_uncovered(one: &Covered) -> bool {
    one.by == By::Nothing || one.shelf == Shelf::Retire
}

/// The string of the skeleton set that stands for a string.
fn skeleton(harp: &Harp, string: StringName) -> StringName {
    let letter = match string.letter {
        Letter::D | Letter::E => Letter::E,
        Letter::G | Letter::A | Letter::B => Letter::B,
        Letter::C | Letter::F => string.letter,
    };
    let substitute = StringName { letter, ..string };
    let both = harp.string(string).zip(harp.string(substitute));
    match both {
        Some((own, other)) if is_alike(harp, own, other) => substitute,
        _ => string,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cover;
    use diary::Moment;

    #[test]
    fn what_is_ordered_covers_every_string() {
        let harp = Harp::named("pedal47").unwrap();
        let now = Moment::of(&"2026-11-26T18:40:00Z".parse().unwrap());
        let orders = to_order(&harp, &cover(&harp, &[], now));
        let covered: usize = orders.iter().map(|order| order.covers.len()).sum();
        assert_eq!(covered, 47);
        assert!(orders.len() < 32, "{} spares", orders.len());
        let spares: Vec<_> = orders
            .iter()
            .map(|order| crate::Spare {
                string: Some(order.string),
                ..crate::Spare::default()
            })
            .collect();
        assert_eq!(to_order(&harp, &cover(&harp, &spares, now)), []);
    }
}
