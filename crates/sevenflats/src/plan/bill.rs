//! What a plan costs, item by item, for programs.

use std::collections::BTreeMap;

use pedals::{Cost, Item, LeverCost};
use serde::Serialize;

/// Every item by its name, and `total`.
pub(crate) type Bill = BTreeMap<&'static str, CostLine>;

/// What stands under a name.
#[derive(Serialize)]
#[serde(untagged)]
pub(crate) enum CostLine {
    /// The whole.
    Total(u64),
    /// How often, and what it costs.
    Item { count: u32, price: u64 },
}

/// The bill of a plan for pedals.
pub(crate) fn bill(cost: &Cost) -> Bill {
    let items = cost
        .items()
        .into_iter()
        .map(|(word, item)| (word, item_line(item)));
    items
        .chain([("total", CostLine::Total(cost.total()))])
        .collect()
}

/// The bill of a plan for levers.
pub(crate) fn lever_bill(cost: &LeverCost) -> Bill {
    let items = cost
        .items()
        .into_iter()
        .map(|(word, item)| (word, item_line(item)));
    items
        .chain([("total", CostLine::Total(cost.total()))])
        .collect()
}

fn item_line(item: Item) -> CostLine {
    CostLine::Item {
        count: item.count,
        price: item.price,
    }
}
