//! Of a record's body only the round that it is about: the rest is passed over, whatever it is.

use std::fmt;

use serde::de::{Deserialize, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};

use crate::RecordId;
use crate::record_id::IdBody;

/// What is wanted of a body.
#[derive(Default)]
pub(super) struct AboutBody {
    /// What stands under `round`, if that is a record's name.
    pub(super) round: Option<RecordId>,
}

#[derive(serde::Deserialize)]
#[serde(field_identifier)]
enum Name {
    #[serde(rename = "round")]
    Round,
    #[serde(other)]
    Other,
}

#[derive(serde::Deserialize)]
#[serde(untagged)]
enum Round {
    Id(IdBody),
    Other(IgnoredAny),
}

impl<'de> Deserialize<'de> for AboutBody {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(About)
    }
}

struct About;

impl<'de> Visitor<'de> for About {
    type Value = AboutBody;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<AboutBody, A::Error> {
        let mut about = AboutBody::default();
        while let Some(name) = map.next_key()? {
            match name {
                Name::Round => {
                    if let Round::Id(id) = map.next_value()? {
                        about.round = Some(id.into());
                    }
                }
                Name::Other => {
                    map.next_value::<IgnoredAny>()?;
                }
            }
        }
        Ok(about)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<AboutBody, A::Error> {
        while seq.next_element::<IgnoredAny>()?.is_some() {}
        Ok(AboutBody::default())
    }

    fn visit_unit<E: Error>(self) -> Result<AboutBody, E> {
        Ok(AboutBody::default())
    }

    fn visit_bool<E: Error>(self, _: bool) -> Result<AboutBody, E> {
        Ok(AboutBody::default())
    }

    fn visit_u64<E: Error>(self, _: u64) -> Result<AboutBody, E> {
        Ok(AboutBody::default())
    }

    fn visit_i64<E: Error>(self, _: i64) -> Result<AboutBody, E> {
        Ok(AboutBody::default())
    }

    fn visit_f64<E: Error>(self, _: f64) -> Result<AboutBody, E> {
        Ok(AboutBody::default())
    }

    fn visit_str<E: Error>(self, _: &str) -> Result<AboutBody, E> {
        Ok(AboutBody::default())
    }
}
