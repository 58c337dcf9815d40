//! Laws of a stretched string, in SI units: they know numbers, not harps.
//!
//! Lengths and diameters in m, tension in N, stress and moduli in Pa, densities in kg/m³, linear
//! densities in kg/m. Every argument is positive unless it says otherwise. Which of them can be
//! had for a string of the player's own is decided in [`crate::Harp::sheet`].

mod disc;
mod octave_stretch;
mod overpull;
mod pin;
mod stiffness;
mod stress;
mod tension;
mod warmth;

pub use disc::shortening_share;
pub use octave_stretch::octave_stretch_cents;
pub use overpull::overpull_cents;
pub use pin::cents_per_degree_of_pin;
pub use stiffness::{
    b_from_partial_cents, bending_stiffness_n_m2, partial_cents_above_first, partial_hz,
    stiffness_b, stiffness_b_from_pitch,
};
pub use stress::{nylon_modulus_pa, stress_from_pitch_pa, stress_pa};
pub use tension::{
    frequency_hz, linear_density_kg_m, tension_change_share, tension_n, wave_impedance_kg_s,
};
pub use warmth::{STEEL_EXPANSION_PER_K, steel_warmth_share};
