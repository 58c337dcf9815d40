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
    /// Which were plucked.
    pub(crate) plucked: Vec<bool>,
    /// By how many times farther than expected the plucked strings lay from where they were expected, squared and weighted,
    /// and how many they were.
    pub(crate) strayed: (f64, f64),
}

/// So many strings as expected are counted before any was plucked.
const AS_EXPECTED: f64 = 6.0;

impl Joint {
    /// What [`Joint::mean_cents`] and [`Joint::covariance_cents2`] of another gave, before any string was plucked. `None` where
    /// they do not fit one another, or hold what is no number or no variance.
    pub fn of_parts(
        names: Vec<StringName>,
        mean_cents: Vec<f64>,
        covariance_cents2: Vec<f64>,
    ) -> Option<Joint> {
        let count = names.len();
        let fits = mean_cents.len() == count && covariance_cents2.len() == count * count;
        let mut all = mean_cents.iter().chain(&covariance_cents2);
        let mut variances = covariance_cents2.iter().step_by(count + 1);
        if !fits || !all.all(|figure| figure.is_finite()) || !variances.all(|own| *own > 0.0) {
            return None;
        }
        Some(Joint {
            names,
            mean: DVector::from_vec(mean_cents),
            covariance: DMatrix::from_vec(count, count, covariance_cents2),
            plucked: vec![false; count],
            strayed: (0.0, 0.0),
        })
    }

    /// Where each string is expected, cents above its target, in the order of [`Joint::names`].
    pub fn mean_cents(&self) -> Vec<f64> {
        self.mean.iter().copied().collect()
    }

    /// How what is not known of them hangs together, cents², row by row.
    pub fn covariance_cents2(&self) -> Vec<f64> {
        self.covariance.iter().copied().collect()
    }

    /// A string is to sound otherwise: its target is so many cents higher.
    pub fn target_raised(&mut self, string: StringName, by_cents: f64) {
        if let Some(at) = self.place(string) {
            self.mean[at] -= by_cents;
        }
    }

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

#[cfg(test)]
mod tests {
    use super::*;

    /// Three strings: two that share half of what is not known of them, one apart.
    fn joint() -> Joint {
        let names = ["C4", "D4", "C1"].map(|name| name.parse().unwrap());
        Joint {
            names: names.to_vec(),
            mean: DVector::zeros(3),
            covariance: DMatrix::from_row_slice(
                3,
                3,
                &[4.0, 2.0, 0.0, 2.0, 4.0, 0.0, 0.0, 0.0, 4.0],
            ),
            plucked: vec![false; 3],
            strayed: (0.0, 0.0),
        }
    }

    fn name(text: &str) -> StringName {
        text.parse().unwrap()
    }

    // by hand: a reading that is sure moves the other by covariance ÷ variance, 2 ÷ 4, and leaves it 4 − 2·2 ÷ 4 = 3
    #[test]
    fn a_pluck_shows_of_its_kind_and_of_no_other() {
        let mut joint = joint();
        let u95 = |joint: &Joint, string| joint.of(name(string)).unwrap().1;
        let before = [u95(&joint, "D4"), u95(&joint, "C1")];
        joint.heard(name("C4"), 2.0, 0.0);
        assert!((joint.of(name("C4")).unwrap().0 - 2.0).abs() < 1e-12);
        assert!((joint.of(name("D4")).unwrap().0 - 1.0).abs() < 1e-3);
        assert_eq!(joint.of(name("C1")).unwrap().0, 0.0);
        assert!((u95(&joint, "D4") / before[0] - (3f64 / 4.0).sqrt()).abs() < 1e-3);
        assert!((u95(&joint, "C1") / before[1] - 1.0).abs() < 1e-12);
    }

    #[test]
    fn it_is_made_again_of_its_parts() {
        let (one, count) = (joint(), 3);
        let (mean, covariance) = (one.mean_cents(), one.covariance_cents2());
        let again = Joint::of_parts(one.names.clone(), mean.clone(), covariance.clone()).unwrap();
        assert_eq!(
            (again.mean.clone(), again.covariance.clone()),
            (one.mean, one.covariance)
        );
        let mut bad = covariance.clone();
        bad[count + 1] = 0.0;
        assert!(Joint::of_parts(again.names.clone(), mean.clone(), bad).is_none());
        assert!(Joint::of_parts(again.names.clone(), mean[1..].to_vec(), covariance).is_none());
    }

    // by definition of the cent: a target raised by 2 leaves a string 2 lower against it
    #[test]
    fn a_higher_target_leaves_the_string_lower() {
        let mut joint = joint();
        joint.target_raised(name("C4"), 2.0);
        assert_eq!(joint.of(name("C4")).unwrap().0, -2.0);
    }

    #[test]
    fn a_turned_string_says_nothing_of_the_others() {
        let mut joint = joint();
        joint.tuned(name("C4"), 0.5, 0.2);
        // 2.5 cents are 35 scales: by the formula of `student` 3 in a million lie farther off
        assert!(joint.p_out(name("C4"), 3.0) < 1e-5);
        assert_eq!(joint.of(name("D4")), self::joint().of(name("D4")));
    }

    #[test]
    fn a_string_far_from_where_it_was_thought_makes_the_others_less_sure() {
        let mut joint = joint();
        joint.heard(name("C4"), 20.0, 0.2);
        let (far, near) = (joint.of(name("C1")), self::joint().of(name("C1")));
        assert!(far.unwrap().1 > 1.05 * near.unwrap().1, "{far:?} {near:?}");
        assert_eq!(joint.of(name("E4")), None);
    }
}
