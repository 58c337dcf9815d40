//! The names that SMuFL gives to signs for damping (W3C, 'Plucked techniques': U+E638 pluckedDamp, U+E639
//! pluckedDampAll, U+E63B pluckedDampOnStem).

/// Whether a glyph says that what sounds is damped.
pub(crate) fn is_damp_glyph(name: &str) -> bool {
    damps_all(name) || matches!(name.trim(), "pluckedDamp" | "pluckedDampOnStem")
}

/// Whether it says that all strings are damped.
pub(crate) fn damps_all(name: &str) -> bool {
    name.trim() == "pluckedDampAll"
}
