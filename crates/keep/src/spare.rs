//! A string in its packet.

use diary::Moment;
use harp::{Field, Harp, Material, StringName};

use crate::{DAY_S, Shelf, ShelfLife, YEAR};

/// How much the gauge on a packet may differ from the harp's and still be the same.
const SAME_GAUGE: f64 = 0.015;

/// A spare, as far as its packet says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spare {
    /// The string that it is for.
    pub string: Option<StringName>,
    /// What it is made of.
    pub material: Option<Material>,
    /// Its outer diameter, millimetres.
    pub gauge_mm: Option<f64>,
    /// When it was bought.
    pub bought: Option<Moment>,
}

impl Spare {
    /// Where it belongs on a harp: the string it is for, else the one whose gauge and material are given and the same,
    /// of several the nearest.
    pub fn place(&self, harp: &Harp) -> Option<StringName> {
        if let Some(string) = self.string {
            return harp.string(string).map(|string| string.name);
        }
        let gauge = self.gauge_mm.filter(|gauge| *gauge > 0.0)?;
        let away = |string: &harp::HarpString| {
            let figures = harp.figures(string);
            let other = figures.get(Field::GaugeMm).filter(|other| *other > 0.0)?;
            let differs = self.material.zip(figures.material);
            let away = (gauge / other).ln().abs();
            let same = away <= SAME_GAUGE && differs.is_none_or(|(own, its)| own == its);
            same.then_some((away, string.name))
        };
        let nearest = harp.strings().iter().filter_map(away);
        let nearest = nearest.min_by(|a, b| a.0.total_cmp(&b.0));
        nearest.map(|(_, string)| string)
    }

    /// How long it has lain.
    pub fn shelf(&self, harp: &Harp, now: Moment) -> Shelf {
        let place = self.place(harp).and_then(|name| harp.string(name));
        let given = place.and_then(|string| harp.figures(string).material);
        let life = self.material.or(given).and_then(ShelfLife::of);
        let years = self.bought.map(|bought| now.since_s(bought) / DAY_S / YEAR);
        life.zip(years)
            .map_or(Shelf::NotKnown, |(life, years)| life.after(years))
    }
}
