//! What stands above a picture: the harp, how it stands, and at which pitch.

use harp::HarpKind;
use pitch::Tongue;

use crate::wording::wording;

/// The harp's name, if it has one, how it stands, and its A4 in hertz. `open`: every pedal up, or every lever off.
///
/// ```
/// use harp::HarpKind;
/// use pitch::Tongue;
/// use sheet::title;
/// let open = |tongue| title("", HarpKind::Pedal, true, 442.5, tongue);
/// assert_eq!(open(Tongue::English), "Pedals up, A = 442.5");
/// assert_eq!(open(Tongue::German), "Pedale oben, A = 442,5");
/// assert_eq!(open(Tongue::French), "Pédales en haut, la = 442,5");
/// ```
pub fn title(name: &str, kind: HarpKind, open: bool, a4_hz: f64, tongue: Tongue) -> String {
    let words = wording(tongue);
    let begins = if name.is_empty() {
        String::new()
    } else {
        format!("{name}. ")
    };
    let reference = words.reference(&tongue.plain(a4_hz));
    format!("{begins}{}, {reference}", words.stands(kind, open))
}
