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

pub(crate) use twin;
