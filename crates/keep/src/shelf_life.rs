//! How long a spare keeps in its packet: one author's guess of 2004, and nothing else was found.

use harp::Material;

use crate::Mark;

/// How long spares of a material keep, in years.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShelfLife {
    /// Best used within.
    pub best_years: f64,
    /// To be passed on after, where the author says so.
    pub pass_on_years: Option<f64>,
    /// Not to be used after.
    pub retire_years: f64,
    /// What the figures are worth.
    pub mark: Mark,
}

/// How a spare stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shelf {
    /// Fresh.
    Best,
    /// Its material has no figures, or nobody wrote when it was bought.
    NotKnown,
    /// Past its best.
    Older,
    /// Better passed on to who needs it now.
    PassOn,
    /// Too old.
    Retire,
}

impl ShelfLife {
    /// The figures of a material: gut 1, 2 and 5 years, wire 2, 4 and 7 (he says 7 to 8), nylon 3 (to 4) and 7 (to 8). None
    /// for other materials.
    pub fn of(material: Material) -> Option<ShelfLife> {
        let (best_years, pass_on_years, retire_years) = match material {
            Material::Gut => (1.0, Some(2.0), 5.0),
            Material::Nylon => (3.0, None, 7.0),
            Material::Steel | Material::Bronze | Material::Brass | Material::Wound => {
                (2.0, Some(4.0), 7.0)
            }
            Material::Fluorocarbon | Material::WoundNylon | Material::WoundGut => return None,
        };
        Some(ShelfLife {
            best_years,
            pass_on_years,
            retire_years,
            mark: Mark::OneGuess,
        })
    }

    /// How a spare of so many years stands.
    ///
    /// ```
    /// use harp::Material;
    /// use keep::{Shelf, ShelfLife};
    /// let gut = ShelfLife::of(Material::Gut).unwrap();
    /// let after = [0.5, 1.5, 3.0, 6.0].map(|years| gut.after(years));
    /// assert_eq!(after, [Shelf::Best, Shelf::Older, Shelf::PassOn, Shelf::Retire]);
    /// ```
    pub fn after(&self, years: f64) -> Shelf {
        if years >= self.retire_years {
            Shelf::Retire
        } else if self.pass_on_years.is_some_and(|pass_on| years >= pass_on) {
            Shelf::PassOn
        } else if years > self.best_years {
            Shelf::Older
        } else {
            Shelf::Best
        }
    }
}
