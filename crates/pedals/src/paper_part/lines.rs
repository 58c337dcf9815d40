//! On which line of the shorthand each thing stands: what is found in a part is shown beside its line.

use harp::StringName;

use super::{Finding, FindingKind, PaperPart};

/// The lines of a part, from 1.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PaperLines {
    /// Movement by movement, the line of each place.
    places: Vec<Vec<usize>>,
    /// A movement from 0, a string that it names, and the line that names it first.
    strings: Vec<(usize, StringName, usize)>,
}

impl PaperLines {
    /// The line that a finding is about; none where it is about the whole part.
    ///
    /// ```
    /// let read = pedals::PaperPart::read("opening Bb\n\n12 F");
    /// let found = read.part.check(&harp::Harp::named("pedal47")?);
    /// assert_eq!(read.lines.of(&found[0]), Some(3));
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn of(&self, finding: &Finding) -> Option<usize> {
        if let Some(place) = finding.place {
            return self.place(finding.movement, place);
        }
        let (FindingKind::NoSuchString(string) | FindingKind::HasDiscs(string)) = finding.kind
        else {
            return None;
        };
        let mut named = self.strings.iter();
        let named = named.find(|(at, other, _)| *at == finding.movement && *other == string);
        named.map(|&(.., line)| line)
    }

    /// The line of a movement's place, both from 0.
    pub fn place(&self, movement: usize, place: usize) -> Option<usize> {
        self.places.get(movement)?.get(place).copied()
    }

    /// What a part has more than before stands on this line.
    pub(super) fn note(&mut self, line: usize, part: &PaperPart) {
        self.places.resize_with(part.movements.len(), Vec::new);
        for (noted, movement) in self.places.iter_mut().zip(&part.movements) {
            noted.resize(movement.places.len(), line);
        }
        let Some((at, movement)) = part.movements.iter().enumerate().next_back() else {
            return;
        };
        let keyed = movement.by_key.iter().map(|&(string, _)| string);
        for string in keyed.chain(movement.exposed.iter().copied()) {
            let is_noted =
                |&(noted, other, _): &(usize, StringName, usize)| (noted, other) == (at, string);
            if !self.strings.iter().any(is_noted) {
                self.strings.push((at, string, line));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_finding_of_a_line_knows_it() {
        let text =
            "# ours\nopening Bb\n7C = C#\n12 F#\n13 Q\n14 F# G#\nmovement II\nexposed 7C\n3 F#";
        let read = PaperPart::read(text);
        let found = read.part.check(&harp::Harp::named("pedal46").unwrap());
        let told: Vec<(Option<usize>, String)> = found
            .iter()
            .map(|one| (read.lines.of(one), one.kind.to_string()))
            .collect();
        let lines: Vec<Option<usize>> = told.iter().map(|(line, _)| *line).collect();
        assert_eq!(
            lines,
            [Some(3), Some(6), Some(6), Some(8), Some(9)],
            "{told:?}"
        );
    }
}
