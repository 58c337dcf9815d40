//! Which record: the device that wrote it, and its place in what that device wrote.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::text::Text;

/// The highest place: the largest whole number on which all readers of JSON agree, 2^53 − 1 (RFC 8259, section 6).
pub const HIGHEST_SEQ: u64 = (1 << 53) - 1;

/// Longest name of a device, in bytes.
const LONGEST: usize = 100;

/// The name of a device, 1 to 100 bytes without control characters. Restoring a backup makes a new one.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Device(String);

/// A text that names no device.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DeviceError {
    /// Nothing.
    #[error("the device has no name")]
    Empty,
    /// More than 100 bytes.
    #[error("the device's name has {bytes} bytes: at most {LONGEST}")]
    TooLong {
        /// How many.
        bytes: usize,
    },
    /// A sign that no name has.
    #[error("the device's name holds the control character {code:#04x}")]
    Control {
        /// Its code.
        code: u32,
    },
}

impl Device {
    /// The name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for Device {
    type Err = DeviceError;

    fn from_str(text: &str) -> Result<Self, DeviceError> {
        if text.is_empty() {
            return Err(DeviceError::Empty);
        }
        if text.len() > LONGEST {
            return Err(DeviceError::TooLong { bytes: text.len() });
        }
        if let Some(sign) = text.chars().find(|c| c.is_control()) {
            return Err(DeviceError::Control {
                code: u32::from(sign),
            });
        }
        Ok(Self(text.to_owned()))
    }
}

impl fmt::Display for Device {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Which record. No two records have the same; a round goes by the id of the record that began it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct RecordId {
    /// The device that wrote it.
    pub device: Device,
    /// Its place in what that device wrote, 0 to [`HIGHEST_SEQ`]; the diary counts from 1.
    pub seq: u64,
}

/// As people read it: `phone 12`.
impl fmt::Display for RecordId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.device, self.seq)
    }
}

/// As a record names another: `{"device":"phone","seq":12}`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct IdBody {
    device: Text<Device>,
    seq: u64,
}

impl From<&RecordId> for IdBody {
    fn from(id: &RecordId) -> Self {
        Self {
            device: Text(id.device.clone()),
            seq: id.seq,
        }
    }
}

impl From<IdBody> for RecordId {
    fn from(body: IdBody) -> Self {
        Self {
            device: body.device.0,
            seq: body.seq,
        }
    }
}

/// For fields that may name a record: `#[serde(with = "maybe_id")]`.
pub(crate) mod maybe_id {
    use serde::{Deserializer, Serializer};

    use super::*;

    pub(crate) fn serialize<S: Serializer>(
        id: &Option<RecordId>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        id.as_ref().map(IdBody::from).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<RecordId>, D::Error> {
        Ok(Option::<IdBody>::deserialize(deserializer)?.map(RecordId::from))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_device_has_a_short_plain_name() {
        assert_eq!("Phöne 1".parse::<Device>().unwrap().as_str(), "Phöne 1");
        assert_eq!("".parse::<Device>(), Err(DeviceError::Empty));
        let long = "x".repeat(101);
        assert_eq!(
            long.parse::<Device>(),
            Err(DeviceError::TooLong { bytes: 101 })
        );
        assert_eq!(
            "a\nb".parse::<Device>(),
            Err(DeviceError::Control { code: 10 })
        );
    }
}
