//! The harp as it is strung now: its file's figures, and over them what was written of each string when it was put on.

use diary::{FittedKnown, HarpKnown};
use harp::{Field, Figures, Harp};

/// The harp with the gauges and materials of the strings that are on it. Where another string was put on than the file knows,
/// what the file says of the old one is taken off; lengths and the pin stay.
pub fn strung(harp: &Harp, known: &HarpKnown) -> Harp {
    let mut strung = harp.clone();
    for string in harp.strings() {
        let own = known.strings.get(&string.name);
        let Some(fitted) = own.and_then(|own| own.fitted.as_ref()) else {
            continue;
        };
        if let Ok(with) = strung
            .clone()
            .with_figures(string.name, figures(string.figures, fitted))
        {
            strung = with;
        }
    }
    strung
}

fn figures(given: Figures, fitted: &FittedKnown) -> Figures {
    let gauge_mm = fitted.gauge_mm.filter(|mm| *mm > 0.0);
    let material = fitted.material.or(given.material);
    let other_material = material != given.material;
    let other_gauge = gauge_mm.is_some_and(|mm| given.get(Field::GaugeMm) != Some(mm));
    let stays = |field: &Field| match field {
        Field::LengthMm | Field::TotalLengthMm | Field::PinRadiusMm => true,
        field if field.is_of_material() => !other_material,
        _ => !(other_material || other_gauge),
    };
    let kept = Field::all().filter(stays);
    let figures = kept
        .filter_map(|field| Some((field, given.get(field)?)))
        .fold(
            material.map(Figures::of).unwrap_or_default(),
            |figures, (field, value)| figures.with(field, value),
        );
    gauge_mm.map_or(figures, |mm| figures.with(Field::GaugeMm, mm))
}

#[cfg(test)]
mod tests {
    use harp::Material;

    use super::*;

    fn fitted(material: Option<Material>, gauge_mm: Option<f64>) -> FittedKnown {
        FittedKnown {
            when: diary::Moment::of_unix_s(0.0),
            used: false,
            material,
            gauge_mm,
            by: String::new(),
        }
    }

    #[test]
    fn what_was_put_on_stands_over_what_the_file_says() {
        let given = Figures::of(Material::Gut)
            .with(Field::GaugeMm, 1.14)
            .with(Field::LengthMm, 640.0)
            .with(Field::MeasuredB, 1e-4)
            .with(Field::DensityKgM3, 1300.0);
        assert_eq!(figures(given, &fitted(None, None)), given);
        assert_eq!(
            figures(given, &fitted(Some(Material::Gut), Some(1.14))),
            given
        );
        let thicker = Figures::of(Material::Gut)
            .with(Field::GaugeMm, 1.20)
            .with(Field::LengthMm, 640.0)
            .with(Field::DensityKgM3, 1300.0);
        assert_eq!(figures(given, &fitted(None, Some(1.20))), thicker);
        let nylon = Figures::of(Material::Nylon).with(Field::LengthMm, 640.0);
        assert_eq!(figures(given, &fitted(Some(Material::Nylon), None)), nylon);
    }
}
