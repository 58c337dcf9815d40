//! What a diary holds, told shortly, so that two of them can find out what either lacks: each device's places as stretches,
//! and for every 256 places a sum over what stands there. Where sums differ, two records claim one place.

use std::collections::BTreeMap;

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::{Device, Gap, HIGHEST_SEQ, Record, RecordId};

/// How many places are summed up together.
pub const BLOCK: u64 = 256;

/// What is held, by device.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Held {
    devices: BTreeMap<Device, HeldOf>,
}

/// Of one device.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct HeldOf {
    /// the first place of each stretch, and its last
    places: BTreeMap<u64, u64>,
    /// blocks of places, and what stands in them
    sums: BTreeMap<u64, LineSum>,
}

/// A sum over lines. Which came first does not matter; each is to be added once.
///
/// It tells lines apart that were not made to be mistaken for each other, and keeps out nobody: FNV-1a in 64 bits (Fowler,
/// Noll, Vo) of each line, added up without carry.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LineSum(u64);

impl LineSum {
    /// Of one line.
    ///
    /// ```
    /// use diary::LineSum;
    /// // from the tests of `hash/fnv` in Go's standard library, from memory
    /// assert_eq!(LineSum::of("abc").to_string(), "e71fa2190541574b");
    /// ```
    pub fn of(line: &str) -> LineSum {
        const OFFSET_BASIS: u64 = 0xcbf2_9ce4_8422_2325;
        const PRIME: u64 = 0x0100_0000_01b3;
        let hash = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(PRIME);
        LineSum(line.bytes().fold(OFFSET_BASIS, hash))
    }

    /// Of both.
    #[must_use]
    pub fn and(self, other: LineSum) -> LineSum {
        LineSum(self.0.wrapping_add(other.0))
    }
}

/// Sixteen hexadecimal digits.
impl std::fmt::Display for LineSum {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:016x}", self.0)
    }
}

impl std::str::FromStr for LineSum {
    type Err = std::num::ParseIntError;

    fn from_str(text: &str) -> Result<LineSum, Self::Err> {
        u64::from_str_radix(text, 16).map(LineSum)
    }
}

impl Held {
    /// What these records say; those that are kept apart among them.
    pub fn of<'a>(records: impl IntoIterator<Item = &'a Record>) -> Held {
        let mut held = Held::default();
        for record in records {
            held.add(record.id(), Some(LineSum::of(record.line())));
        }
        held
    }

    /// A place, and the sum of a line that stands there, where it is known.
    pub fn add(&mut self, id: &RecordId, sum: Option<LineSum>) {
        // looked for twice: most are there, and need no name of their own
        if !self.devices.contains_key(&id.device) {
            self.devices.insert(id.device.clone(), HeldOf::default());
        }
        let Some(of) = self.devices.get_mut(&id.device) else {
            return;
        };
        of.add(id.seq, id.seq);
        if let Some(sum) = sum {
            let block = of.sums.entry(id.seq / BLOCK).or_default();
            *block = block.and(sum);
        }
    }

    /// A stretch of places.
    pub fn add_stretch(&mut self, stretch: &Gap) {
        let of = self.devices.entry(stretch.device.clone()).or_default();
        of.add(stretch.from, stretch.to);
    }

    /// The last place of a device.
    pub fn last(&self, device: &Device) -> Option<u64> {
        let places = &self.devices.get(device)?.places;
        places.last_key_value().map(|(_, to)| *to)
    }

    /// Whether a place is held.
    pub fn holds(&self, id: &RecordId) -> bool {
        let of = self.devices.get(&id.device);
        let before = of.and_then(|of| of.places.range(..=id.seq).next_back());
        before.is_some_and(|(_, to)| *to >= id.seq)
    }

    /// The places that the other holds and this one does not.
    ///
    /// ```
    /// use diary::{Held, RecordId};
    /// let held = |places: &[u64]| {
    ///     let mut held = Held::default();
    ///     for &seq in places {
    ///         held.add(&RecordId { device: "phone".parse().unwrap(), seq }, None);
    ///     }
    ///     held
    /// };
    /// let lacking = held(&[2, 3]).lacking(&held(&[1, 2, 3, 4, 5]));
    /// let stretches: Vec<(u64, u64)> = lacking.iter().map(|gap| (gap.from, gap.to)).collect();
    /// assert_eq!(stretches, [(1, 1), (4, 5)]);
    /// ```
    pub fn lacking(&self, other: &Held) -> Vec<Gap> {
        let mut lacking = Vec::new();
        for (device, theirs) in &other.devices {
            let own = self.devices.get(device);
            for (&from, &to) in &theirs.places {
                let missing = own.map_or_else(|| vec![(from, to)], |own| own.missing(from, to));
                lacking.extend(missing.into_iter().map(|(from, to)| Gap {
                    device: device.clone(),
                    from,
                    to,
                }));
            }
        }
        lacking
    }

    /// Every block of places with its sum: the device, the number of the block, the sum.
    pub fn sums(&self) -> impl Iterator<Item = (&Device, u64, LineSum)> {
        let of = |(device, of): (_, &'_ HeldOf)| (device, of.sums.clone());
        let devices = self.devices.iter().map(of);
        devices.flat_map(|(device, sums)| sums.into_iter().map(move |(at, sum)| (device, at, sum)))
    }

    /// As it is sent.
    pub fn to_json(&self) -> String {
        // numbers, and names that are text: always JSON
        serde_json::to_string(self).unwrap_or_default()
    }

    /// What was sent.
    ///
    /// # Errors
    /// It is no such JSON, in words.
    pub fn from_json(text: &str) -> Result<Held, String> {
        serde_json::from_str(text).map_err(|error| error.to_string())
    }

    /// The same without sums.
    #[must_use]
    pub fn without_sums(mut self) -> Held {
        self.devices.values_mut().for_each(|of| of.sums.clear());
        self
    }
}

impl HeldOf {
    fn add(&mut self, mut from: u64, mut to: u64) {
        // what touches it becomes one stretch with it
        while let Some((&first, &last)) = self.places.range(..=to.saturating_add(1)).next_back() {
            if last.saturating_add(1) < from {
                break;
            }
            self.places.remove(&first);
            (from, to) = (from.min(first), to.max(last));
        }
        self.places.insert(from, to);
    }

    /// The places from one to another that are not held.
    fn missing(&self, from: u64, to: u64) -> Vec<(u64, u64)> {
        let (mut missing, mut next) = (Vec::new(), from);
        let before = self.places.range(..from).next_back();
        for (&first, &last) in before.into_iter().chain(self.places.range(from..=to)) {
            if first > next {
                missing.push((next, first - 1));
            }
            next = next.max(last.saturating_add(1));
        }
        if next <= to {
            missing.push((next, to));
        }
        missing
    }
}

/// As it is sent: of each device its stretches, and its sums.
#[derive(Serialize, Deserialize)]
struct DeviceBody {
    device: String,
    places: Vec<(u64, u64)>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    sums: Vec<(u64, String)>,
}

impl Serialize for Held {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.devices.iter().map(|(device, of)| {
            DeviceBody {
                device: device.to_string(),
                places: of.places.iter().map(|(from, to)| (*from, *to)).collect(),
                sums: (of.sums.iter())
                    .map(|(block, sum)| (*block, sum.to_string()))
                    .collect(),
            }
        }))
    }
}

impl<'de> Deserialize<'de> for Held {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let mut held = Held::default();
        for body in Vec::<DeviceBody>::deserialize(deserializer)? {
            let device: Device = body.device.parse().map_err(D::Error::custom)?;
            let of = held.devices.entry(device).or_default();
            for (from, to) in body.places {
                if from > to || to > HIGHEST_SEQ {
                    let words = format!("from {from} to {to} is no stretch of places");
                    return Err(D::Error::custom(words));
                }
                of.add(from, to);
            }
            for (block, sum) in body.sums {
                let sum = sum.parse().map_err(D::Error::custom)?;
                of.sums.insert(block, sum);
            }
        }
        Ok(held)
    }
}
