//! At what pitch a harp usually stands.

use diary::HarpKnown;
use harp::{Harp, Setup};
use pitch::ReferencePitch;

/// Days of the diary, back from its last reading, that say what is usual.
const LAST_DAYS: f64 = 365.0;

/// The A4 in Hz to which the harp's strings were brought most, in the last year of its diary; what was taken last where no
/// round left a string, `None` where nothing is known. A single evening at another pitch does not change it.
pub fn usual_a4_hz(harp: &Harp, known: &HarpKnown) -> Option<f64> {
    let taken = known.a4_hz.map(|(_, hz)| hz);
    let Ok(standing) = harp.standing(&Setup::open(ReferencePitch::A440)) else {
        return taken;
    };
    let strings = || {
        let all = standing.iter();
        all.filter_map(|stands| Some((stands.target_hz, known.strings.get(&stands.string)?)))
    };
    let last = strings().filter_map(|(_, own)| Some(own.last.as_ref()?.when));
    let Some(last) = last.max() else { return taken };
    let mut all: Vec<f64> = strings()
        .flat_map(|(at_440, own)| {
            let points = own.history.iter().rev();
            let points = points
                .take_while(|point| last.since_s(point.when) < LAST_DAYS * crate::DAY_S)
                .filter(|point| point.left);
            points.map(move |point| {
                let open_hz = point.target_hz / (f64::from(point.raised) / 12.0).exp2();
                440.0 * open_hz / at_440
            })
        })
        .filter(|hz| ReferencePitch::new(*hz).is_ok())
        .collect();
    all.sort_by(f64::total_cmp);
    let middle = all.get(all.len() / 2).map(|hz| (10.0 * hz).round() / 10.0);
    middle.or(taken)
}
