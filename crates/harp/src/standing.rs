//! What every string should sound now: pedals, levers and key-set strings, resolved.

use pitch::{Alteration, ReferencePitch, SpelledPitch};

use crate::discless::{check_near, nearest_alteration};
use crate::{Harp, HarpError, HarpString, Mechanism, OpenTuning, Position, Setting, StringName};

/// How the harp is set up: everything that decides what its strings should sound.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// The reference pitch.
    pub reference: ReferencePitch,
    /// The open tuning; `None` is the harp's own.
    pub open: Option<OpenTuning>,
    /// Where the pedals or levers stand that nothing else names.
    pub position: Position,
    /// The pedals that stand elsewhere; on a lever harp, the levers of every octave of a letter.
    pub setting: Option<Setting>,
    /// Levers that are on besides, each on its own string.
    pub levers: Vec<StringName>,
    /// Strings without discs or lever that were set by key, and to what.
    pub discless: Vec<(StringName, SpelledPitch)>,
}

impl Setup {
    /// The harp open, as it is tuned: every pedal up, every lever off.
    pub fn open(reference: ReferencePitch) -> Self {
        Self {
            reference,
            open: None,
            position: Position::Open,
            setting: None,
            levers: Vec::new(),
            discless: Vec::new(),
        }
    }
}

/// What one string should sound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// The string.
    pub string: StringName,
    /// Flat, natural or sharp; for a string set by key further off, the side on which it stands.
    pub alteration: Alteration,
    /// The pitch as it is spelled.
    pub pitch: SpelledPitch,
    /// The pitch in Hz, equal temperament at the reference pitch.
    pub target_hz: f64,
}

impl Harp {
    /// What each string should sound, one [`Standing`] a string from the bass to the treble.
    ///
    /// A string without discs or lever stands where the setup says; failing that, where the
    /// position alone would put it. On a lever harp a lever that is asked for and is not there is
    /// an error; a [`Position`] asks only of the strings that have one.
    ///
    /// ```
    /// use harp::{Harp, Setup};
    /// use pitch::ReferencePitch;
    /// let harp = Harp::named("lever34")?;
    /// let standing = harp.standing(&Setup::open(ReferencePitch::A440))?;
    /// assert_eq!(standing[5].pitch.to_string(), "Ab2"); // open in E flat
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn standing(&self, setup: &Setup) -> Result<Vec<Standing>, HarpError> {
        self.check(setup)?;
        self.strings()
            .iter()
            .map(|string| self.stand(string, setup))
            .collect()
    }

    fn check(&self, setup: &Setup) -> Result<(), HarpError> {
        if let Some(open) = setup.open {
            self.check_open(open)?;
        }
        for &string in &setup.levers {
            let found = self
                .string(string)
                .ok_or(HarpError::NoSuchString { string })?;
            if found.mechanism != Mechanism::Lever {
                return Err(HarpError::NoLever { string });
            }
        }
        for (place, &(string, wanted)) in setup.discless.iter().enumerate() {
            let found = self
                .string(string)
                .ok_or(HarpError::NoSuchString { string })?;
            if found.mechanism != Mechanism::Nothing {
                return Err(HarpError::NotDiscless { string, wanted });
            }
            if setup.discless[..place]
                .iter()
                .any(|&(before, _)| before == string)
            {
                return Err(HarpError::Duplicate { string });
            }
            check_near(string, wanted)?;
        }
        if self.open_tuning().is_none() {
            if setup.setting.is_some() {
                return Err(HarpError::NoSetting);
            }
            if setup.position == Position::Sharp {
                return Err(HarpError::NothingMoves {
                    position: setup.position,
                });
            }
        }
        Ok(())
    }

    fn stand(&self, string: &HarpString, setup: &Setup) -> Result<Standing, HarpError> {
        let name = string.name;
        let set_by_key = setup.discless.iter().find(|&&(set, _)| set == name);
        let (alteration, pitch) = match set_by_key {
            Some(&(_, pitch)) => (nearest_alteration(name, pitch), pitch),
            None => {
                let alteration = self.alteration(string, setup)?;
                (
                    alteration,
                    SpelledPitch::new(name.letter, alteration, name.octave),
                )
            }
        };
        Ok(Standing {
            string: name,
            alteration,
            pitch,
            target_hz: setup.reference.hz(pitch),
        })
    }

    fn alteration(&self, string: &HarpString, setup: &Setup) -> Result<Alteration, HarpError> {
        let name = string.name;
        let Some(open) = setup.open.or(self.open_tuning()) else {
            return Ok(if name.sharp {
                Alteration::Sharp
            } else {
                Alteration::Natural
            });
        };
        let open = open.alteration(name.letter);
        let asked = setup.setting.and_then(|setting| setting.get(name.letter));
        match (string.mechanism, self.kind()) {
            (Mechanism::Discs, _) => Ok(asked.unwrap_or(by_pedal(setup.position))),
            (Mechanism::Nothing, crate::HarpKind::Pedal) => Ok(by_pedal(setup.position)),
            (Mechanism::Nothing, _) => match asked {
                Some(wanted) if wanted != open => Err(out_of_reach(string, wanted, open)),
                _ => Ok(open),
            },
            (Mechanism::Lever, _) => {
                let on = match asked {
                    Some(wanted) if wanted == open => false,
                    Some(wanted) if wanted == raised(open) => true,
                    Some(wanted) => return Err(out_of_reach(string, wanted, open)),
                    None => by_lever(setup.position, open),
                };
                let on = on || setup.levers.contains(&name);
                Ok(if on { raised(open) } else { open })
            }
        }
    }
}

fn by_pedal(position: Position) -> Alteration {
    match position {
        Position::Open => Alteration::Flat,
        Position::Natural => Alteration::Natural,
        Position::Sharp => Alteration::Sharp,
    }
}

/// Whether a lever is on in a position.
fn by_lever(position: Position, open: Alteration) -> bool {
    match position {
        Position::Open => false,
        Position::Natural => open == Alteration::Flat,
        Position::Sharp => true,
    }
}

/// What a lever makes of an open string; open strings are flat or natural.
pub(crate) fn raised(open: Alteration) -> Alteration {
    match open {
        Alteration::Flat => Alteration::Natural,
        Alteration::Natural | Alteration::Sharp => Alteration::Sharp,
    }
}

fn out_of_reach(string: &HarpString, wanted: Alteration, open: Alteration) -> HarpError {
    let string_name = string.name;
    if string.mechanism == Mechanism::Nothing && wanted == raised(open) {
        HarpError::NoLever {
            string: string_name,
        }
    } else {
        HarpError::OutOfLeverReach {
            string: string_name,
            wanted,
            open,
        }
    }
}
