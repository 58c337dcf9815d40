//! What a plan costs, item by item.

/// How often, and at what price in all.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Item {
    /// How often.
    pub count: u32,
    /// The price of all of them.
    pub price: u64,
}

/// A plan's cost; the total is the sum of the prices.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cost {
    /// Note heads that do not sound.
    pub lost: Item,
    /// Letters that a glissando finds in another place, and notes that a tremolo does not find.
    pub glissando: Item,
    /// Note heads on another string than the written one.
    pub respelled: Item,
    /// Pedals moved.
    pub moved: Item,
    /// Of these over two notches.
    pub two_notches: Item,
    /// Of these neither on a beat nor in a rest.
    pub off_beat: Item,
    /// Of these under strings of their letter that still ring.
    pub ringing: Item,
    /// Of these by a foot that crosses over.
    pub crossing: Item,
    /// Times that one foot takes two pedals at once.
    pub together: Item,
    /// Marks of the part contradicted.
    pub marks: Item,
    /// Strings without discs retuned in a rest.
    pub retuned: Item,
    /// Pins that could not be kept; each outweighs everything.
    pub pins: Item,
    /// Marks that hold for some passes of a repeat only.
    pub passes_differ: Item,
}

impl Item {
    /// One more, at a price.
    pub(crate) fn add(&mut self, price: u64) {
        self.count += 1;
        self.price += price;
    }
}

impl Cost {
    /// Every item with the word used for it in files.
    pub fn items(&self) -> [(&'static str, Item); 13] {
        [
            ("lost", self.lost),
            ("glissando", self.glissando),
            ("respelled", self.respelled),
            ("moved", self.moved),
            ("two_notches", self.two_notches),
            ("off_beat", self.off_beat),
            ("ringing", self.ringing),
            ("crossing", self.crossing),
            ("together", self.together),
            ("marks", self.marks),
            ("retuned", self.retuned),
            ("pins", self.pins),
            ("passes_differ", self.passes_differ),
        ]
    }

    /// The sum of all prices.
    pub fn total(&self) -> u64 {
        self.items().iter().map(|(_, item)| item.price).sum()
    }
}
