//! A number of cents as people read it.

/// With its sign, one decimal and a true minus; nought has no sign.
///
/// ```
/// assert_eq!(pitch::signed(-12.34), "−12.3");
/// assert_eq!(pitch::signed(4.0), "+4.0");
/// assert_eq!(pitch::signed(-0.04), "0.0");
/// ```
pub fn signed(cents: f64) -> String {
    let text = format!("{cents:+.1}").replace('-', "−");
    if text == "−0.0" || text == "+0.0" {
        "0.0".to_owned()
    } else {
        text
    }
}
