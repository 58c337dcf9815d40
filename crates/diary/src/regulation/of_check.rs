//! A check of the mechanism as it was judged, and as it is kept: each told from the other.

use harp::{Harp, HarpKind};
use pitch::{Alteration, Letter, ReferencePitch};
use tuning::regulation::{Bounds, Cause, Pluck, Regulated, Step, Weight, regulated};

use super::{Found, PedalFound, PositionRead, Regulation, StringChecked};

impl Regulation {
    /// What is kept of a check: every pluck of it, in its order, and what was found of its strings. `name` is the harp's in
    /// the diary.
    ///
    /// ```
    /// use diary::{Found, Regulation};
    /// use harp::Harp;
    /// use pitch::Alteration::{Flat, Natural, Sharp};
    /// use pitch::ReferencePitch;
    /// use tuning::regulation::{Bounds, Pluck, regulated};
    /// let pluck = |stands, off_cents| Pluck {
    ///     string: "G4".parse().unwrap(), stands, off_cents, u95_cents: 0.5,
    /// };
    /// let plucks = [pluck(Flat, 0.0), pluck(Natural, 3.0), pluck(Sharp, -12.0), pluck(Flat, 0.0)];
    /// let harp = Harp::named("pedal47")?;
    /// let found = regulated(&harp, &plucks, &Bounds::default(), |_| None);
    /// let kept = Regulation::of("big", &harp, ReferencePitch::A440, &plucks, &found);
    /// assert_eq!((kept.strings[0].found, kept.strings[0].positions.len()), (Found::Disc, 4));
    /// // judged again it says the same
    /// assert_eq!(kept.judged(&harp, &Bounds::default()), found);
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn of(
        name: &str,
        harp: &Harp,
        reference: ReferencePitch,
        plucks: &[Pluck],
        found: &[Regulated],
    ) -> Regulation {
        let first = |one: &&Regulated| plucks.iter().position(|p| p.string == one.string);
        let mut in_order: Vec<&Regulated> = found.iter().collect();
        in_order.sort_by_key(first);
        Regulation {
            harp: name.to_owned(),
            a4_hz: reference.a4_hz(),
            strings: in_order
                .into_iter()
                .map(|one| checked(one, harp, plucks))
                .collect(),
            pedals: pedals(found),
            note: String::new(),
        }
    }

    /// Every pluck that was kept, string by string.
    pub fn plucks(&self) -> Vec<Pluck> {
        let of_string = |checked: &StringChecked| {
            let string = checked.string;
            let pluck = move |read: &PositionRead| Pluck {
                string,
                stands: read.position,
                off_cents: read.off_cents,
                u95_cents: read.u95_cents,
            };
            checked.positions.iter().map(pluck).collect::<Vec<_>>()
        };
        self.strings.iter().flat_map(of_string).collect()
    }

    /// The check judged again from its plucks, from the bass up; strings that were too new then are not judged now.
    pub fn judged(&self, harp: &Harp, bounds: &Bounds) -> Vec<Regulated> {
        let is_new = |string| {
            let mut own = self.strings.iter().filter(|own| own.string == string);
            own.any(|own| own.found == Found::TooNew).then_some(0)
        };
        regulated(harp, &self.plucks(), bounds, is_new)
    }
}

fn checked(one: &Regulated, harp: &Harp, plucks: &[Pluck]) -> StringChecked {
    let own = plucks.iter().filter(|pluck| pluck.string == one.string);
    StringChecked {
        string: one.string,
        positions: own
            .map(|pluck| PositionRead {
                position: pluck.stands,
                off_cents: pluck.off_cents,
                u95_cents: pluck.u95_cents,
            })
            .collect(),
        own_cents: one.own_cents,
        found: found(one, harp),
    }
}

/// One word for all steps of a string: a fault of its own before its pedal's, and that before what cannot be told.
fn found(one: &Regulated, harp: &Harp) -> Found {
    let has = |wanted: Cause| one.found.values().any(|f| f.cause == Some(wanted));
    let unsure = |weight| weight == Weight::CannotSay;
    if one.new {
        Found::TooNew
    } else if has(Cause::Lever) {
        Found::Lever
    } else if has(Cause::Disc) {
        Found::Disc
    } else if has(Cause::NoStep) {
        match harp.kind() {
            HarpKind::Lever => Found::Lever,
            HarpKind::Pedal | HarpKind::Free => Found::Disc,
        }
    } else if has(Cause::Pedal) {
        Found::Pedal
    } else if has(Cause::Own) {
        Found::OwnString
    } else if has(Cause::PedalNotMoved)
        || one.found.is_empty()
        || one.found.values().any(|f| unsure(f.weight))
    {
        Found::NotSure
    } else {
        Found::Right
    }
}

/// Each pedal that is out, by the middle one of its strings that are.
fn pedals(found: &[Regulated]) -> Vec<PedalFound> {
    let mut pedals = Vec::new();
    for letter in Letter::ALL {
        for step in Step::ALL {
            let out = found.iter().filter(|one| {
                let cause = one.found.get(&step).and_then(|found| found.cause);
                one.string.letter == letter && cause == Some(Cause::Pedal)
            });
            let mut sizes: Vec<_> = out.filter_map(|one| one.step(step)).collect();
            sizes.sort_by(|a, b| a.error_cents.total_cmp(&b.error_cents));
            if let Some(size) = sizes.get(sizes.len() / 2) {
                pedals.push(PedalFound {
                    letter,
                    position: match step {
                        Step::Natural => Alteration::Natural,
                        Step::Sharp => Alteration::Sharp,
                    },
                    off_cents: size.error_cents,
                    u95_cents: size.u95_cents,
                });
            }
        }
    }
    pedals
}

#[cfg(test)]
mod tests {
    use super::*;
    use harp::StringName;
    use pitch::Alteration::{Flat, Natural, Sharp};

    fn string(name: &str) -> StringName {
        name.parse().unwrap()
    }

    /// Plucks open, natural, sharp and open again: so far off in each, invented.
    fn pluck(name: &str, offs: [f64; 4]) -> Vec<Pluck> {
        let stands = [Flat, Natural, Sharp, Flat].into_iter().zip(offs);
        let pluck = |(stands, off_cents)| Pluck {
            string: string(name),
            stands,
            off_cents,
            u95_cents: 0.5,
        };
        stands.map(pluck).collect()
    }

    fn kept(plucks: &[Pluck], new: &str) -> (Regulation, Vec<Regulated>) {
        let harp = Harp::named("pedal47").unwrap();
        let age = |one| (one == string(new)).then_some(3);
        let found = regulated(&harp, plucks, &Bounds::default(), age);
        let kept = Regulation::of("big", &harp, ReferencePitch::A440, plucks, &found);
        (kept, found)
    }

    #[test]
    fn strings_stand_as_they_were_checked_with_a_word_for_each() {
        let plucks = [
            pluck("F6", [0.0, -9.0, -9.0, 0.0]),
            pluck("F5", [0.1, -9.0, -9.0, 0.0]),
            pluck("F4", [0.0, -8.0, -8.0, 0.1]),
            pluck("D5", [0.0, 0.0, 12.0, 0.0]),
            pluck("E5", [0.0, 0.2, 0.0, 0.1]),
            pluck("C5", [0.0, 9.0, 9.0, 0.0]),
        ]
        .concat();
        let (kept, found) = kept(&plucks, "C5");
        let words: Vec<_> = kept
            .strings
            .iter()
            .map(|c| (c.string.to_string(), c.found))
            .collect();
        use Found::{Disc, Pedal, Right, TooNew};
        let expected = [
            ("F6", Pedal),
            ("F5", Pedal),
            ("F4", Pedal),
            ("D5", Disc),
            ("E5", Right),
            ("C5", TooNew),
        ];
        assert_eq!(words, expected.map(|(s, f)| (s.to_owned(), f)));
        let pedal = kept.pedals[0];
        assert_eq!(
            (kept.pedals.len(), pedal.letter, pedal.position),
            (1, Letter::F, Natural)
        );
        assert!((pedal.off_cents + 9.0).abs() < 0.2, "{pedal:?}");
        let harp = Harp::named("pedal47").unwrap();
        assert_eq!(kept.judged(&harp, &Bounds::default()), found);
    }

    #[test]
    fn what_was_not_read_in_two_positions_is_not_called_right() {
        let plucks = &pluck("G4", [0.0; 4])[..1];
        let (kept, _) = kept(plucks, "C5");
        assert_eq!(kept.strings[0].found, Found::NotSure);
    }
}
