//! Harmonics as a source marks them.

/// A note marked as a harmonic.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Harmonic {
    /// Which pitch the written note is.
    pub pitch: HarmonicPitch,
    /// Whether it is marked artificial; `None` where nothing is said.
    pub artificial: Option<bool>,
}

/// Which pitch a note marked as a harmonic names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum HarmonicPitch {
    /// The open string.
    Base,
    /// Where it is touched.
    Touching,
    /// What is heard.
    Sounding,
    /// Not said: then it is the string, unless [`Options::harmonics`](crate::Options) says that
    /// it is what is heard.
    Unsaid,
}
