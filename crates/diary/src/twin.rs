//! A word of the diary's own for each case of another room's enum.

/// Makes an enum whose cases are written as the words given, and the ways between it and another room's. Both ways are
/// exhaustive: a case that is added there, or renamed, stops this room from being built, and no word ever changes by
/// itself.
macro_rules! twin {
    ($(#[$about:meta])* $own:ident is $theirs:ty { $($case:ident = $word:literal),+ $(,)? }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
        pub(crate) enum $own {
            $(#[serde(rename = $word)] $case,)+
        }

        impl From<$theirs> for $own {
            fn from(theirs: $theirs) -> Self {
                match theirs { $(<$theirs>::$case => Self::$case,)+ }
            }
        }

        impl From<$own> for $theirs {
            fn from(own: $own) -> Self {
                match own { $($own::$case => Self::$case,)+ }
            }
        }
    };
}

/// Makes a module by which a field is written and read as its twin: `#[serde(with = "side")]`.
macro_rules! with_twin {
    ($(#[$about:meta])* $name:ident: $own:ty as $theirs:ty) => {
        $(#[$about])*
        pub(crate) mod $name {
            use serde::{Deserialize, Deserializer, Serialize, Serializer};

            use super::*;

            pub(crate) fn serialize<S: Serializer>(
                value: &$theirs,
                serializer: S,
            ) -> Result<S::Ok, S::Error> {
                <$own>::from(*value).serialize(serializer)
            }

            pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
                deserializer: D,
            ) -> Result<$theirs, D::Error> {
                Ok(<$own>::deserialize(deserializer)?.into())
            }
        }
    };
}

pub(crate) use {twin, with_twin};
