//! Who writes the records of a round, and when.

use diary::{AppendError, At, Entry, RecordId, RoundBegun, RoundOver, Thinning, Writer};
use tuning::round::{Event, Plan, Round, Summary};

/// The records of one round on their way to the page, which keeps them.
pub(crate) struct Keeper {
    writer: Writer,
    round: RecordId,
    thinning: Thinning,
    /// events of the round that are written
    written: u64,
}

impl Keeper {
    /// Of a round that begins, and its first record.
    pub(crate) fn begin(
        mut writer: Writer,
        at: &At,
        begun: RoundBegun,
        plan: &Plan,
    ) -> Result<(Keeper, String), AppendError> {
        let round = writer.next().clone();
        let first = writer.line(at, &Entry::Round(begun))?;
        let keeper = Keeper {
            writer,
            round,
            thinning: Thinning::new(Round::new(plan.clone())),
            written: 0,
        };
        Ok((keeper, first))
    }

    /// Of a round that is under way, of which so many events are written.
    #[cfg(feature = "desk")]
    pub(crate) fn go_on(writer: Writer, id: RecordId, round: Round, written: u64) -> Keeper {
        Keeper {
            writer,
            round: id,
            thinning: Thinning::new(round),
            written,
        }
    }

    /// Something happened.
    pub(crate) fn push(&mut self, event: &Event) {
        self.thinning.push(event);
    }

    /// What may be written now.
    pub(crate) fn settled(&mut self, at: &At) -> Result<Vec<String>, AppendError> {
        let events = self.thinning.settled();
        self.write(at, &events)
    }

    /// All that is not written yet.
    pub(crate) fn rest(&mut self, at: &At) -> Result<Vec<String>, AppendError> {
        let events = self.thinning.rest();
        self.write(at, &events)
    }

    /// The end of a round that was finished.
    pub(crate) fn over(&mut self, at: &At, summary: &Summary) -> Result<String, AppendError> {
        let over = RoundOver::of(self.round.clone(), true, summary);
        self.writer.line(at, &Entry::RoundOver(over))
    }

    fn write(&mut self, at: &At, events: &[Event]) -> Result<Vec<String>, AppendError> {
        let entries = Entry::round_events(&self.round, self.written, events);
        let lines = entries.iter().map(|entry| self.writer.line(at, entry));
        let lines = lines.collect::<Result<Vec<String>, _>>()?;
        self.written += events.len() as u64;
        Ok(lines)
    }
}
