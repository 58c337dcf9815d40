//! What records say, one after the other, for whoever reckons with them.

use crate::truths::Truths;
use crate::{Diary, Entry, Moment, RecordId};

/// What a record says, its corrections known.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// When it counts: its device's time, corrected by what others saw of its clock.
    pub when: Moment,
    /// Which record.
    pub id: RecordId,
    /// What it says.
    pub entry: Entry,
}

impl Diary {
    /// What the records of some kinds say now, in the order in which they are replayed. What was withdrawn or is not known
    /// here is left out; records of other kinds are not read through.
    ///
    /// ```
    /// use diary::{Diary, Entry, Note};
    /// let mut diary = Diary::default();
    /// let note = Entry::Note(Note { harp: None, string: None, text: "new pads".to_owned() });
    /// diary.append("phone", "2026-11-26T18:40:00Z".parse()?, &note)?;
    /// assert_eq!(diary.told(&["note"])[0].entry, note);
    /// assert!(diary.told(&["air"]).is_empty());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn told(&self, kinds: &[&str]) -> Vec<Told> {
        let timed = self.timed();
        let truths = Truths::of(timed.iter().map(|(_, record)| *record));
        let told = timed.into_iter().filter_map(|(when, record)| {
            if !kinds.contains(&record.kind()) && !truths.has(record.id()) {
                return None;
            }
            let entry = truths.entry(record)?;
            kinds.contains(&entry.kind()).then(|| Told {
                when,
                id: record.id().clone(),
                entry,
            })
        });
        told.collect()
    }
}
