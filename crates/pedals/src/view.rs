//! What the rest of a piece costs at least from one moment on, taken out of the bound to be compared.

use std::rc::Rc;

use crate::bound::Busy;
use crate::code::{Code, SETTINGS};
use crate::rows::Row;

/// A number for every way of standing.
#[derive(PartialEq, Eq)]
pub(crate) struct View {
    pub(crate) base: u64,
    /// By setting, both feet free.
    pub(crate) free: Rc<Row>,
    pub(crate) busy: Option<Rc<Busy>>,
}

impl View {
    /// Whether from no way of standing it is below another, with so much more to pay.
    pub(crate) fn is_nowhere_below(&self, other: &Self, more: i64) -> bool {
        // bases are numbers that go round
        let more = more + self.base.wrapping_sub(other.base) as i64;
        let told_apart = [self, other].map(|view| {
            let busy = view.busy.as_ref();
            busy.map_or([0; 2], |busy| busy.told_apart())
        });
        let ages = [0, 1].map(|foot| 1 + told_apart[0][foot].max(told_apart[1][foot]));
        (1..=ages[0]).all(|left| {
            (1..=ages[1]).all(|right| {
                let at = |view: &Self, code: usize| view.at(code, [left, right]);
                (0..SETTINGS).all(|code| more + at(self, code) >= at(other, code))
            })
        })
    }

    fn at(&self, code: usize, ages: [usize; 2]) -> i64 {
        let busy = self.busy.as_ref();
        let more = busy.map_or(0, |busy| busy.more(code as Code, ages));
        i64::from(self.free[code]) + i64::from(more)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn view(base: u64, raised: usize) -> View {
        let mut free = [0; SETTINGS];
        free[raised] = 5;
        View {
            base,
            free: Rc::new(free),
            busy: None,
        }
    }

    #[test]
    fn it_is_compared_setting_by_setting() {
        assert!(view(7, 3).is_nowhere_below(&view(7, 3), 0));
        assert!(!view(7, 3).is_nowhere_below(&view(7, 4), 0));
        assert!(view(12, 3).is_nowhere_below(&view(7, 4), 0));
        assert!(!view(11, 3).is_nowhere_below(&view(7, 4), 0));
        assert!(view(7, 3).is_nowhere_below(&view(7, 4), 5));
        // a base that has gone round
        assert!(!view(u64::MAX, 3).is_nowhere_below(&view(7, 3), 0));
    }
}
