//! A synthetic 47-string harp: figures invented so that lengths and tensions run smoothly.
//!
//! **Not measured, and no maker's chart.** It serves checks, the synthesiser and drawings only. It
//! must never be used to say of a real string that it is safe, wrong or may be raised. The same
//! numbers, with how they were made, stand in `reference/synthetic-harp`.

use pitch::Letter::{self, A, B, C, D, E, F, G};
use pitch::ReferencePitch;

use crate::Material::{Gut, Nylon, Wound};
use crate::mechanics::shortening_share;
use crate::{Field, Figures, Harp, HarpError, Material, Mechanism, StringName};

/// One string of the synthetic harp, at natural (its pedal in the middle) and A4 = 440 Hz.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SyntheticString {
    /// The string.
    pub name: StringName,
    /// Length that sounds at natural, mm.
    pub natural_length_mm: f64,
    /// Gut, nylon or wound on a steel core.
    pub material: Material,
    /// Diameter that carries the tension: the string's, or the core's if wound, mm.
    pub carrying_diameter_mm: f64,
    /// Mass per length, g/m.
    pub linear_density_g_m: f64,
    /// Tension, N.
    pub tension_n: f64,
    /// Inharmonicity B at natural.
    pub b: f64,
}

impl SyntheticString {
    /// Its pitch at natural in Hz, A4 = 440 Hz.
    pub fn natural_hz(&self) -> f64 {
        ReferencePitch::A440.hz_of_key(self.name.key())
    }

    /// Its speaking length with the pedal up, mm: longer by what the natural disc takes away.
    pub fn open_length_mm(&self) -> f64 {
        self.natural_length_mm / (1.0 - shortening_share(1))
    }
}

/// The synthetic string of a name, C1 to G7.
///
/// ```
/// let c4 = harp::synthetic::synthetic_string("C4".parse()?);
/// assert!(c4.is_some_and(|string| string.natural_length_mm == 640.0));
/// # Ok::<(), harp::StringNameError>(())
/// ```
pub fn synthetic_string(name: StringName) -> Option<&'static SyntheticString> {
    SYNTHETIC_STRINGS.iter().find(|string| string.name == name)
}

/// A pedal harp of 47 strings with the synthetic figures filled in, named as synthetic.
///
/// ```
/// let harp = harp::synthetic::synthetic_harp()?;
/// assert!(harp.name().is_some_and(|name| name.contains("synthetic")));
/// # Ok::<(), harp::HarpError>(())
/// ```
pub fn synthetic_harp() -> Result<Harp, HarpError> {
    let mut harp = Harp::named("pedal47")?.with_name("synthetic harp, invented for checks");
    for string in &SYNTHETIC_STRINGS {
        let unmoved = harp.string(string.name).map(|own| own.mechanism) == Some(Mechanism::Nothing);
        let length = if unmoved {
            string.natural_length_mm
        } else {
            string.open_length_mm()
        };
        harp = harp.with_figures(string.name, figures(string, length))?;
    }
    Ok(harp)
}

/// Young's modulus of the synthetic gut, and of the steel of the cores, GPa; the nylon's follows
/// its stress and stands in each string's B.
const GUT_GPA: f64 = 6.0;
const STEEL_GPA: f64 = 200.0;

fn figures(string: &SyntheticString, length_mm: f64) -> Figures {
    let wound = string.material == Wound;
    let diameter = if wound { Field::CoreMm } else { Field::GaugeMm };
    let figures = Figures::of(string.material)
        .with(Field::LengthMm, length_mm)
        .with(diameter, string.carrying_diameter_mm)
        .with(Field::LinearDensityGM, string.linear_density_g_m);
    match string.material {
        Wound => figures.with(Field::ModulusGpa, STEEL_GPA),
        Gut => figures.with(Field::ModulusGpa, GUT_GPA),
        _ => {
            let area_mm2 = std::f64::consts::PI * string.carrying_diameter_mm.powi(2) / 4.0;
            let stress_pa = string.tension_n / area_mm2 * 1e6;
            figures.with(
                Field::ModulusGpa,
                crate::mechanics::nylon_modulus_pa(stress_pa) / 1e9,
            )
        }
    }
}

/// The 47 strings from the bass.
pub const SYNTHETIC_STRINGS: [SyntheticString; 47] = {
    let mut strings = [ROWS[0].string(); 47];
    let mut place = 0;
    while place < 47 {
        strings[place] = ROWS[place].string();
        place += 1;
    }
    strings
};

/// Letter, octave, length at natural in mm, material, diameter that carries the tension in mm,
/// linear density in g/m, tension in N, B.
struct Row(Letter, i8, f64, Material, f64, f64, f64, f64);

impl Row {
    const fn string(&self) -> SyntheticString {
        SyntheticString {
            name: StringName {
                letter: self.0,
                sharp: false,
                octave: self.1,
            },
            natural_length_mm: self.2,
            material: self.3,
            carrying_diameter_mm: self.4,
            linear_density_g_m: self.5,
            tension_n: self.6,
            b: self.7,
        }
    }
}

const ROWS: [Row; 47] = [
    Row(C, 1, 1480.0, Wound, 0.71, 34.150, 320.0, 3.59e-05),
    Row(D, 1, 1459.0, Wound, 0.73, 28.814, 331.0, 3.81e-05),
    Row(E, 1, 1439.0, Wound, 0.74, 24.312, 342.0, 4.05e-05),
    Row(F, 1, 1429.0, Wound, 0.74, 22.332, 347.0, 4.18e-05),
    Row(G, 1, 1409.0, Wound, 0.76, 18.843, 359.0, 4.44e-05),
    Row(A, 1, 1389.0, Wound, 0.77, 15.899, 371.0, 4.72e-05),
    Row(B, 1, 1370.0, Wound, 0.78, 13.415, 384.0, 5.02e-05),
    Row(C, 2, 1360.0, Wound, 0.79, 12.322, 390.0, 5.18e-05),
    Row(D, 2, 1318.0, Wound, 0.80, 10.629, 398.0, 5.62e-05),
    Row(E, 2, 1278.0, Wound, 0.80, 9.169, 407.0, 6.11e-05),
    Row(F, 2, 1258.0, Wound, 0.81, 8.516, 411.0, 6.37e-05),
    Row(G, 2, 1220.0, Wound, 0.82, 7.346, 420.0, 6.93e-05),
    Row(A, 2, 1140.0, Gut, 2.45, 6.129, 386.0, 2.09e-04),
    Row(B, 2, 1065.0, Gut, 2.25, 5.149, 356.0, 1.83e-04),
    Row(C, 3, 1030.0, Gut, 2.15, 4.720, 343.0, 1.71e-04),
    Row(D, 3, 951.0, Gut, 2.01, 4.139, 323.0, 1.63e-04),
    Row(E, 3, 879.0, Gut, 1.89, 3.630, 305.0, 1.56e-04),
    Row(F, 3, 845.0, Gut, 1.82, 3.399, 296.0, 1.53e-04),
    Row(G, 3, 780.0, Gut, 1.71, 2.981, 279.0, 1.46e-04),
    Row(A, 3, 721.0, Gut, 1.60, 2.614, 263.0, 1.39e-04),
    Row(B, 3, 666.0, Gut, 1.50, 2.292, 248.0, 1.33e-04),
    Row(C, 4, 640.0, Gut, 1.45, 2.147, 241.0, 1.30e-04),
    Row(D, 4, 577.0, Gut, 1.37, 1.928, 222.0, 1.40e-04),
    Row(E, 4, 521.0, Gut, 1.30, 1.731, 204.0, 1.51e-04),
    Row(F, 4, 495.0, Gut, 1.27, 1.640, 196.0, 1.57e-04),
    Row(G, 4, 446.0, Gut, 1.20, 1.473, 180.0, 1.68e-04),
    Row(A, 4, 403.0, Gut, 1.14, 1.323, 166.0, 1.81e-04),
    Row(B, 4, 363.0, Gut, 1.08, 1.188, 153.0, 1.95e-04),
    Row(C, 5, 345.0, Gut, 1.05, 1.126, 147.0, 2.02e-04),
    Row(D, 5, 310.0, Gut, 1.00, 1.028, 136.0, 2.26e-04),
    Row(E, 5, 278.0, Gut, 0.96, 0.939, 126.0, 2.53e-04),
    Row(F, 5, 263.0, Gut, 0.94, 0.897, 121.0, 2.68e-04),
    Row(G, 5, 236.0, Gut, 0.90, 0.820, 112.0, 2.99e-04),
    Row(A, 5, 212.0, Gut, 0.86, 0.749, 104.0, 3.35e-04),
    Row(B, 5, 190.0, Gut, 0.82, 0.684, 96.0, 3.75e-04),
    Row(C, 6, 180.0, Gut, 0.80, 0.653, 93.0, 3.96e-04),
    Row(D, 6, 162.0, Gut, 0.77, 0.607, 88.0, 4.47e-04),
    Row(E, 6, 145.0, Gut, 0.74, 0.563, 83.0, 5.04e-04),
    Row(F, 6, 138.0, Nylon, 0.73, 0.476, 71.0, 1.13e-03),
    Row(G, 6, 124.0, Nylon, 0.70, 0.442, 67.0, 1.29e-03),
    Row(A, 6, 111.0, Nylon, 0.68, 0.410, 63.0, 1.47e-03),
    Row(B, 6, 100.0, Nylon, 0.65, 0.381, 60.0, 1.68e-03),
    Row(C, 7, 95.0, Nylon, 0.64, 0.367, 58.0, 1.79e-03),
    Row(D, 7, 87.0, Nylon, 0.63, 0.353, 59.0, 2.01e-03),
    Row(E, 7, 80.0, Nylon, 0.62, 0.341, 60.0, 2.26e-03),
    Row(F, 7, 76.0, Nylon, 0.61, 0.334, 61.0, 2.40e-03),
    Row(G, 7, 70.0, Nylon, 0.60, 0.322, 62.0, 2.70e-03),
];
