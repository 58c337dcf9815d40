//! Sound in warm air against the gas law's figures.

use pitch::{speed_of_sound_m_s, wind_cents_per_degree, wind_hz};

use crate::cases::{Case, check};

#[test]
fn winds_rise_with_the_warmth_of_the_air_as_the_gas_law_says() {
    check("winds-and-warmth", law);
}

fn law(case: &Case) -> Option<Vec<f64>> {
    Some(match case.law.as_str() {
        "cents per degree of wind" => vec![wind_cents_per_degree(case.get("celsius"))],
        "wind from one temperature to another" => {
            vec![wind_hz(
                case.get("hz"),
                case.get("from_celsius"),
                case.get("to_celsius"),
            )]
        }
        "speed of sound" => vec![speed_of_sound_m_s(case.get("celsius"))],
        _ => return None,
    })
}
