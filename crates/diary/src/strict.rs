//! JSON in which no name stands twice in one object.
//!
//! RFC 8259, section 4: names should be unique, and what readers make of one that is not is unpredictable. Two devices
//! might then read one record in two ways, so such a line is refused.

use std::fmt;

use serde::de::{DeserializeSeed, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Value};

/// Reads one JSON value and nothing after it.
pub(crate) fn read(text: &str) -> Result<Value, serde_json::Error> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let value = Strict.deserialize(&mut reader)?;
    reader.end()?;
    Ok(value)
}

struct Strict;

impl<'de> DeserializeSeed<'de> for Strict {
    type Value = Value;

    fn deserialize<D: serde::Deserializer<'de>>(self, deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Strict {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_str<E: Error>(self, value: &str) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Value, A::Error> {
        let mut values = Vec::new();
        while let Some(value) = seq.next_element_seed(Strict)? {
            values.push(value);
        }
        Ok(Value::Array(values))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Value, A::Error> {
        let mut object = Map::new();
        while let Some(name) = map.next_key::<String>()? {
            if object.contains_key(&name) {
                return Err(A::Error::custom(format!("the name '{name}' stands twice")));
            }
            object.insert(name, map.next_value_seed(Strict)?);
        }
        Ok(Value::Object(object))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, taken: bool) {
        assert_eq!(read(text).is_ok(), taken, "{text}");
    }

    // RFC 8259, section 13: its two examples of objects and arrays, and its three of values alone
    #[test]
    fn the_examples_of_rfc_8259_are_read_as_any_reader_reads_them() {
        for text in [
            r#"{"Image": {"Width": 800, "Height": 600, "Title": "View from 15th Floor",
                "Thumbnail": {"Url": "http://www.example.com/image/481989943", "Height": 125, "Width": 100},
                "Animated" : false, "IDs": [116, 943, 234, 38793]}}"#,
            r#"[{"precision": "zip", "Latitude": 37.7668, "Longitude": -122.3959, "Address": "",
                "City": "SAN FRANCISCO", "State": "CA", "Zip": "94107", "Country": "US"}]"#,
            r#""Hello world!""#,
            "42",
            "true",
        ] {
            let usual: Value = serde_json::from_str(text).unwrap();
            assert_eq!(read(text).unwrap(), usual);
        }
    }

    #[test]
    fn a_name_that_stands_twice_is_refused_at_any_depth() {
        check(r#"{"a":1,"b":{"a":1}}"#, true);
        check(r#"{"a":1,"a":1}"#, false);
        check(r#"[{"b":{"c":[{"d":1,"d":2}]}}]"#, false);
        check(r#"{"a":1,"\u0061":1}"#, false);
    }

    #[test]
    fn what_is_no_json_is_refused() {
        for text in ["", "{", "{}{}", "{'a':1}", "[1,]", "NaN", "01", "\"\t\""] {
            check(text, false);
        }
        check(&"[".repeat(100_000), false);
    }
}
