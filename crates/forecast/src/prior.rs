//! What is thought of a string before anything is known of this harp: little.
//!
//! No figure of a harp's strings is published but for the physics of steel. All others are wide, centred on nought, and
//! ours, as wide as lets intervals of 95 % hold the truth no more than 98 times in 100 on invented harps that move otherwise;
//! a diary soon says more than they do.

/// What is thought of the strings of one kind, cents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// What all of them do together: by a degree, by a per cent of humidity, by a day. Means and standard deviations.
    pub together: [(f64, f64); 3],
    /// By how much each differs from that: standard deviations.
    pub apart: [f64; 3],
    /// What share of its turning a string falls back by: mean, standard deviation of the mean, and of each string.
    pub falls_back: (f64, f64, f64),
    /// How far a new string creeps for each e-fold of its age: the same.
    pub creeps: (f64, f64, f64),
    /// What all of them wander together in a day, where the air is known.
    pub wanders_together: f64,
    /// The same, where it is not.
    pub air_unknown: f64,
    /// What each wanders in a day by itself.
    pub wanders: f64,
}

impl Prior {
    /// Of wires, whose core of steel goes down as it warms: by α·A·E·θ/(2T) of its pitch, which is 1.7 to 6.9 cents a degree
    /// for stresses of 1200 to 300 MPa (T. D. Rossing, *The Science of String Instruments*, 2010, Eq. 21.1).
    pub fn wire() -> Prior {
        Prior {
            together: [(-3.4, 1.5), (0.0, 0.15), (0.0, 0.3)],
            apart: [0.8, 0.08, 0.3],
            falls_back: (0.0, 0.15, 0.08),
            creeps: (-4.0, 4.0, 2.0),
            wanders_together: 0.55,
            air_unknown: 3.0,
            wanders: 0.65,
        }
    }

    /// Of all other strings. That a new string sinks is known (M. French, D. French & C. Zehrung, *Savart Journal*, of
    /// nylon); how far is not.
    pub fn other() -> Prior {
        Prior {
            together: [(0.0, 1.4), (0.0, 0.2), (0.0, 0.4)],
            apart: [1.0, 0.2, 0.3],
            falls_back: (0.0, 0.15, 0.08),
            creeps: (-6.0, 6.0, 3.0),
            wanders_together: 0.55,
            air_unknown: 2.5,
            wanders: 1.05,
        }
    }
}
