//! Jumps over written measures: da capo, dal segno, coda, fine, and where they lead.

/// One jump or its target, at a measure.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Jump {
    /// Index of the measure: a jump leaves after it, a target is entered before it.
    pub(crate) measure: usize,
    /// What it is.
    pub(crate) kind: JumpKind,
    /// The playings of the measure at which it holds; empty where the source does not say.
    pub(crate) passes: Vec<u32>,
}

/// The kinds of jumps and targets. A name joins a jump to its target; it may be empty.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum JumpKind {
    /// To the beginning.
    DaCapo,
    /// To the sign of that name.
    DalSegno(String),
    /// To the coda of that name, once a jump back was taken.
    ToCoda(String),
    /// The end, once a jump back was taken.
    Fine,
    /// A sign that is jumped to.
    Segno(String),
    /// A coda that is jumped to.
    Coda(String),
}

impl JumpKind {
    /// Whether it goes back to what was played before.
    pub(crate) fn leads_back(&self) -> bool {
        matches!(self, Self::DaCapo | Self::DalSegno(_))
    }
}
