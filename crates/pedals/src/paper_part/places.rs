//! A part on paper walked through: where the pedals stand at each place, and where one would stand that cannot.

use harp::Setting;
use pitch::{Alteration, Letter};

use super::{PaperBar, PaperMovement, PaperPart, PaperPlace};

/// A place, and where the pedals stand there.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing<'a> {
    /// The movement, from 0.
    pub movement: usize,
    /// Which of the movement's places, from 0.
    pub nth: usize,
    /// The place.
    pub place: &'a PaperPlace,
    /// Its bar among the bars that something stands at: two that follow each other in print differ by one,
    /// others by two.
    pub order: u32,
    /// Before its changes.
    pub before: Setting,
    /// After them.
    pub after: Setting,
}

/// From one place to another a pedal stands in a certain way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// The movement in which it begins, from 0.
    pub movement: usize,
    /// Where it begins; `None` for the beginning of that movement.
    pub from: Option<PaperBar>,
    /// In which movement the pedal moves on and at which bar (`None` for that movement's opening); `None` where it
    /// stays to the end.
    pub until: Option<(usize, Option<PaperBar>)>,
}

impl PaperPart {
    /// Where the pedals stand when a movement begins: its own opening, or as the one before left them.
    pub fn opening(&self, movement: usize) -> Setting {
        let mut setting = Setting::default();
        for (at, one) in self.movements.iter().take(movement + 1).enumerate() {
            setting = one.opening.unwrap_or(setting);
            if at < movement {
                setting = one.places.iter().fold(setting, moved);
            }
        }
        setting
    }

    /// Where the pedals stand when all is over.
    pub fn ending(&self) -> Setting {
        let last = self.movements.len().saturating_sub(1);
        let places = self
            .movements
            .last()
            .map(|movement| movement.places.as_slice());
        places
            .unwrap_or_default()
            .iter()
            .fold(self.opening(last), moved)
    }

    /// Every place in order, with the pedals.
    pub fn standing(&self) -> Vec<Standing<'_>> {
        let mut all = Vec::new();
        for (at, movement) in self.movements.iter().enumerate() {
            let mut before = self.opening(at);
            let places = movement.places.iter().zip(orders(movement));
            for (nth, (place, order)) in places.enumerate() {
                let after = moved(before, place);
                all.push(Standing {
                    movement: at,
                    nth,
                    place,
                    order,
                    before,
                    after,
                });
                before = after;
            }
        }
        all
    }

    /// Where a pedal stands as is asked, by bars: what a stuck pedal or a dead disc touches.
    pub fn stretches(&self, letter: Letter, is_asked: impl Fn(Alteration) -> bool) -> Vec<Stretch> {
        let asked = |setting: Setting| setting.get(letter).is_some_and(&is_asked);
        let mut stretches: Vec<Stretch> = Vec::new();
        let mut open = false;
        let all = self.standing();
        for movement in 0..self.movements.len() {
            let mut now = asked(self.opening(movement));
            if now && !open {
                stretches.push(Stretch {
                    movement,
                    from: None,
                    until: None,
                });
            } else if !now && open {
                // it is set elsewhere between the movements
                close(&mut stretches, movement, None);
            }
            for standing in all.iter().filter(|standing| standing.movement == movement) {
                let (before, bar) = (now, &standing.place.bar);
                now = asked(standing.after);
                match (before, now) {
                    (false, true) => stretches.push(Stretch {
                        movement,
                        from: Some(bar.clone()),
                        until: None,
                    }),
                    (true, false) => close(&mut stretches, movement, Some(bar.clone())),
                    _ => {}
                }
            }
            open = now;
        }
        stretches
    }
}

fn close(stretches: &mut [Stretch], movement: usize, bar: Option<PaperBar>) {
    if let Some(last) = stretches.last_mut() {
        last.until = Some((movement, bar));
    }
}

fn moved(setting: Setting, place: &PaperPlace) -> Setting {
    let changes = place.changes();
    changes.fold(setting, |setting, (_, change)| {
        setting.with(change.letter, change.to)
    })
}

/// Orders of a movement's bars, from 1.
fn orders(movement: &PaperMovement) -> Vec<u32> {
    let mut order = 1;
    let mut orders = Vec::new();
    let mut before: Option<&PaperBar> = None;
    for place in &movement.places {
        order += match (before, &place.bar) {
            (None, _) => 0,
            (Some(before), bar) if before == bar => 0,
            (Some(PaperBar::Number(last, _)), PaperBar::Number(bar, None)) if last + 1 == *bar => 1,
            (Some(PaperBar::Mark(one, last)), PaperBar::Mark(other, bars))
                if one == other && last + 1 == *bars =>
            {
                1
            }
            _ => 2,
        };
        before = Some(&place.bar);
        orders.push(order);
    }
    orders
}

#[cfg(test)]
mod tests {
    use super::*;

    const PART: &str = "opening Bb Eb\n12 F#\n13 | B\n13:3 C#\n20 [A] F\nmovement II\n1 F#\n";

    #[test]
    fn pedals_stand_as_they_were_left() {
        let part = PaperPart::read(PART).part;
        let stands = |movement, letter| part.opening(movement).get(letter);
        assert_eq!(stands(0, Letter::B), Some(Alteration::Flat));
        assert_eq!(stands(1, Letter::B), Some(Alteration::Natural));
        assert_eq!(stands(1, Letter::C), Some(Alteration::Sharp));
        assert_eq!(part.ending().get(Letter::F), Some(Alteration::Sharp));
        let orders: Vec<u32> = part
            .standing()
            .iter()
            .map(|standing| standing.order)
            .collect();
        assert_eq!(orders, [1, 2, 2, 4, 1]);
    }

    #[test]
    fn a_stretch_runs_from_change_to_change() {
        let part = PaperPart::read(PART).part;
        let bar = |number| PaperBar::Number(number, None);
        let sharp = part.stretches(Letter::F, |to| to == Alteration::Sharp);
        let until = |from, until| Stretch {
            movement: 0,
            from,
            until,
        };
        assert_eq!(sharp[0], until(Some(bar(12)), Some((0, Some(bar(20))))));
        assert_eq!((sharp[1].movement, &sharp[1].until), (1, &None));
        let flat = part.stretches(Letter::B, |to| to == Alteration::Flat);
        assert_eq!(flat, [until(None, Some((0, Some(bar(13)))))]);
        assert_eq!(part.stretches(Letter::G, |to| to == Alteration::Flat), []);
    }
}
