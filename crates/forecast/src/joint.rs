//! All strings together: what one pluck shows of the others.

use harp::StringName;
use nalgebra::{DMatrix, DVector};

use crate::student::{HALF_95, beyond, normal, weight};

/// Where all strings stand, as far as is known, and how what is not known hangs together.
#[derive(Clone, Debug)]
pub struct Joint {
    pub(crate) names: Vec<StringName>,
    pub(crate) mean: DVector<f64>,
    pub(crate) covariance: DMatrix<f64>,
    /// By how many times farther than expected the plucked strings lay from where they were expected, squared and weighted,
    /// and how many they were.
    /// Which were plucked.
    pub(crate) plucked: Vec<bool>,
    pub(crate) strayed: (f64, f64),
}

/// So many strings as expected are counted before any was plucked.
const AS_EXPECTED: f64 = 6.0;

impl Joint {
    /// The strings, from the bass.
    pub fn names(&self) -> &[StringName] {
        &self.names
    }

    /// Where a string stands, cents above its target, and half of the 95 % interval; `None` for a string that is not here.
    pub fn of(&self, string: StringName) -> Option<(f64, f64)> {
        let at = self.place(string)?;
        Some((self.mean[at], HALF_95 * self.scale(at)))
    }

    /// How likely the string is to stand farther than `tolerance_cents` from its target.
    pub fn p_out(&self, string: StringName, tolerance_cents: f64) -> f64 {
        let at = self.place(string);
        at.map_or(0.0, |at| self.out(at, tolerance_cents))
    }

    pub(crate) fn out(&self, at: usize, tolerance_cents: f64) -> f64 {
        beyond(self.mean[at], self.scale(at), tolerance_cents)
    }

    /// The scale of what is not known of a string. Where those that were plucked lay farther off than was thought, something
    /// happened that nobody reckoned with, and the others are less sure too.
    fn scale(&self, at: usize) -> f64 {
        let (sum, count) = self.strayed;
        let more = ((AS_EXPECTED + sum) / (AS_EXPECTED + count)).max(1.0);
        let variance = self.covariance[(at, at)];
        (if self.plucked[at] {
            variance
        } else {
            variance * more
        })
        .sqrt()
    }

    pub(crate) fn place(&self, string: StringName) -> Option<usize> {
        self.names.iter().position(|name| *name == string)
    }

    /// A string was plucked and stands so, cents; what moved its kind is better known now (R. E. Kalman, *J. Basic Eng.* 82
    /// (1960) 35–45). A string far from where it was expected tells less of the others.
    pub fn heard(&mut self, string: StringName, off_cents: f64, u95_cents: f64) {
        let Some(at) = self.place(string) else { return };
        let read = normal((u95_cents / 1.96).powi(2)).max(1e-4);
        let rest = off_cents - self.mean[at];
        let noise = self.covariance[(at, at)] + read;
        let counts = weight(rest * rest / noise);
        if !self.plucked[at] {
            self.strayed.0 += counts * rest * rest / noise;
            self.strayed.1 += 1.0;
        }
        let counts = counts.min(1.0);
        let column: DVector<f64> = self.covariance.column(at).into();
        self.mean += &column * (counts * rest / noise);
        self.covariance -= &column * column.transpose() * (counts / noise);
        self.stands(at, off_cents, read);
    }

    /// A string was turned and stands so now, cents: that says nothing of the others.
    pub fn tuned(&mut self, string: StringName, off_cents: f64, u95_cents: f64) {
        if let Some(at) = self.place(string) {
            self.stands(at, off_cents, normal((u95_cents / 1.96).powi(2)).max(1e-4));
        }
    }

    /// Where a string stands is known by itself.
    pub(crate) fn stands(&mut self, at: usize, off_cents: f64, variance: f64) {
        self.plucked[at] = true;
        self.mean[at] = off_cents;
        self.covariance.row_mut(at).fill(0.0);
        self.covariance.column_mut(at).fill(0.0);
        self.covariance[(at, at)] = variance;
    }
}
