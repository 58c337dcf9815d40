//! The harp's picture of where its strings are expected.

use harp::{Harp, Naming, StringName};
use pitch::Tongue;

use crate::{Mark, Picture};

/// A string that is expected somewhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// The string.
    pub string: StringName,
    /// Cents above its target, and half of the 95 % interval; `None` where nothing was ever read of it.
    pub cents: Option<(f64, f64)>,
}

/// The harp with an open bead for each string where it is expected: none is filled, for none was heard. Strings that are not
/// named are not there.
///
/// ```
/// use harp::{Harp, Naming};
/// use sheet::{Expected, Mark, of_ahead};
/// let harp = Harp::named("lever22")?;
/// let string = harp.strings()[3].name;
/// let expected = [Expected { string, cents: Some((-4.0, 2.0)) }];
/// let picture = of_ahead(&harp, &expected, Naming::default(), pitch::Tongue::English);
/// assert_eq!(picture.strings[3].mark, Mark::Off { cents: -4.0, u95_cents: 2.0 });
/// assert_eq!(picture.strings[4].mark, Mark::Broken);
/// # Ok::<(), harp::HarpError>(())
/// ```
pub fn of_ahead(harp: &Harp, expected: &[Expected], naming: Naming, tongue: Tongue) -> Picture {
    let mut picture = Picture::of(harp);
    picture.naming = naming;
    picture.tongue = tongue;
    for drawn in &mut picture.strings {
        let own = expected.iter().find(|one| one.string == drawn.name);
        drawn.mark = match own.map(|one| one.cents) {
            Some(Some((cents, u95_cents))) => Mark::Off { cents, u95_cents },
            Some(None) => Mark::NotYetHeard,
            None => Mark::Broken,
        };
    }
    picture
}
