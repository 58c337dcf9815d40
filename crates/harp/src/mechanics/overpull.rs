//! Overpull: how far above its target a string is brought that is known to fall back.

/// Cents above the target at which to leave a string found so many cents below it (`flat_cents`,
/// positive), when a raise of its instrument falls back by `fall_back_share` (0 to 1) of itself.
///
/// The rule is the piano technicians' (their shares, 0.20–0.33, are the piano's). No figure for
/// any harp is established: the share must be the one that this harp showed.
///
/// ```
/// assert_eq!(harp::mechanics::overpull_cents(40.0, 0.25), 10.0);
/// ```
pub fn overpull_cents(flat_cents: f64, fall_back_share: f64) -> f64 {
    flat_cents * fall_back_share
}
