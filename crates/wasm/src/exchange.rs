//! What the page's own diary and a server's lack of each other: all reckoning of an exchange.

use std::collections::BTreeSet;

use diary::{BLOCK, Device, Held, LineSum, Record, RecordId};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

/// Places of a device that lie in the browser.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Lying {
    /// The device.
    pub device: String,
    /// Its places.
    pub places: Vec<u64>,
}

/// All that lies in the browser.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct AllLying {
    /// A device may be named more than once.
    pub devices: Vec<Lying>,
}

/// A stretch of places of one device.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Stretch {
    /// The device.
    pub device: String,
    /// The first.
    pub from: u64,
    /// The last.
    pub to: u64,
}

/// A block of places with the sum of what stands there.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct BlockSum {
    /// Its places.
    pub stretch: Stretch,
    /// Sixteen hexadecimal digits.
    pub sum: String,
}

/// The places of one block, each with its sum.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct InDoubt {
    /// The sum of all.
    pub sum: String,
    /// Place and sum, in order.
    pub places: Vec<(u64, String)>,
}

/// What lies in the browser, as it is told to a server: JSON.
#[wasm_bindgen]
pub fn held_in(lying: Ts<AllLying>) -> Result<String, JsError> {
    let mut held = Held::default();
    for lying in lying.to_rust()?.devices {
        let device: Device = lying.device.parse()?;
        for seq in lying.places {
            let device = device.clone();
            held.add(&RecordId { device, seq }, None);
        }
    }
    Ok(held.to_json())
}

/// The places that the other holds and the first does not; both as they are told.
#[wasm_bindgen]
pub fn lacking(own: &str, other: &str) -> Result<Vec<Ts<Stretch>>, JsError> {
    let lacking = read(own)?.lacking(&read(other)?);
    let stretch = lacking.into_iter().map(|gap| Stretch {
        device: gap.device.to_string(),
        from: gap.from,
        to: gap.to,
    });
    stretch.map(|stretch| Ok(stretch.into_ts()?)).collect()
}

/// Every block of places with its sum, as a server tells them.
#[wasm_bindgen]
pub fn blocks_in(other: &str) -> Result<Vec<Ts<BlockSum>>, JsError> {
    let other = read(other)?;
    let block = |(device, block, sum): (&Device, u64, LineSum)| BlockSum {
        stretch: Stretch {
            device: device.to_string(),
            from: block * BLOCK,
            to: block * BLOCK + (BLOCK - 1),
        },
        sum: sum.to_string(),
    };
    let blocks = other.sums().map(block);
    blocks.map(|block| Ok(block.into_ts()?)).collect()
}

/// The sums of the lines of one block, those that are kept apart among them.
#[wasm_bindgen]
pub fn in_doubt(lines: &str) -> Result<Ts<InDoubt>, JsError> {
    let (mut all, mut places) = (LineSum::default(), Vec::new());
    let read = |line: &str| Some((Record::parse_again(line).ok()?.id().seq, LineSum::of(line)));
    let lines: BTreeSet<&str> = lines.lines().collect();
    let mut lines: Vec<(u64, LineSum)> = lines.into_iter().filter_map(read).collect();
    lines.sort_by_key(|(seq, _)| *seq);
    for (seq, sum) in lines {
        all = all.and(sum);
        match places
            .last_mut()
            .filter(|(last, _): &&mut (u64, LineSum)| *last == seq)
        {
            Some((_, first)) => *first = first.and(sum),
            None => places.push((seq, sum)),
        }
    }
    let places = places.into_iter().map(|(seq, sum)| (seq, sum.to_string()));
    let doubt = InDoubt {
        sum: all.to_string(),
        places: places.collect(),
    };
    Ok(doubt.into_ts()?)
}

fn read(held: &str) -> Result<Held, JsError> {
    Held::from_json(held).map_err(|why| JsError::new(&why))
}
