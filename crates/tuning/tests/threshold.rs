//! Listeners made of numbers, whose thresholds are known: the method's interval is to hold them as often as it says.

#![allow(
    clippy::disallowed_macros,
    clippy::disallowed_methods,
    reason = "a test tells what was found; a long run is asked for from outside"
)]

use tuning::practice::Threshold;

/// A stream of draws between 0 and 1 (SplitMix64: G. L. Steele, D. Lea & C. H. Flood, OOPSLA 2014).
struct Draws(u64);

impl Draws {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) as f64 / u64::MAX as f64
    }
}

/// How a listener answers: its law need not be the method's.
enum Law {
    /// By the method's own, with a slope between its steps.
    Own { slope: f64 },
    /// As normal noise in the ear has it, size ÷ spread, the same four of five at the threshold (D. M. Green & J. A. Swets,
    /// *Signal Detection Theory and Psychophysics*, 1966, from memory).
    Noise,
}

/// Right answers at the threshold, by the method's words, of a listener who makes no slips.
fn right(law: &Law, size: f64, threshold: f64, slips: f64) -> f64 {
    let sure = match law {
        Law::Own { slope } => 1.0 - (-(size / threshold).powf(*slope)).exp(),
        // 2Φ(z) − 1 = 1 − 1/e at z = 0.9005
        Law::Noise => erf(0.9005 * size / threshold / 2f64.sqrt()),
    };
    0.5 + (0.5 - slips) * sure
}

/// M. Abramowitz & I. A. Stegun, 1964, 7.1.26: to 1.5e-7 (from memory).
fn erf(x: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.327_591_1 * x);
    let poly = [
        1.061_405_429,
        -1.453_152_027,
        1.421_413_741,
        -0.284_496_736,
        0.254_829_592,
    ];
    1.0 - poly.iter().fold(0.0, |sum, c| (sum + c) * t) * (-x * x).exp()
}

/// After so many answers: the share of listeners whose threshold the interval held, and the median of upper ÷ lower.
struct Held {
    answers: usize,
    share: f64,
    breadth: f64,
}

fn held(law: &Law, slips: f64, listeners: usize) -> [Held; 2] {
    let mut draws = Draws(20_261_126);
    let mut all = [(20, 0u32, Vec::new()), (40, 0, Vec::new())];
    for _ in 0..listeners {
        // thresholds as wide apart as people's: 2 to 60 cents
        let threshold = 2.0 * 30f64.powf(draws.next());
        let mut ear = Threshold::default();
        for (answers, inside, breadths) in &mut all {
            while ear.answers() < *answers {
                let size = ear.next_cents();
                ear.answer(size, draws.next() < right(law, size, threshold, slips));
            }
            let found = ear.estimate();
            *inside += u32::from((found.lower_cents..=found.upper_cents).contains(&threshold));
            breadths.push(found.upper_cents / found.lower_cents);
        }
    }
    all.map(|(answers, inside, mut breadths)| {
        breadths.sort_by(f64::total_cmp);
        Held {
            answers,
            share: f64::from(inside) / listeners as f64,
            breadth: breadths[listeners / 2],
        }
    })
}

// 95 in 100 are to be held; a listener whose answers grow surer more steeply than is usual is held more often
#[test]
fn the_interval_holds_the_threshold_as_often_as_it_says() {
    let long = std::env::var_os("SEVENFLATS_LONG").is_some();
    let (listeners, least) = if long { (500, 0.93) } else { (50, 0.86) };
    let laws = [
        ("its own law", Law::Own { slope: 1.3 }, 0.02),
        ("steeper", Law::Own { slope: 3.0 }, 0.0),
        ("noise in the ear", Law::Noise, 0.01),
        ("more slips", Law::Own { slope: 1.9 }, 0.04),
    ];
    for (name, law, slips) in laws {
        for (held, most) in held(&law, slips, listeners).into_iter().zip([8.0, 4.5]) {
            let (share, breadth) = (100.0 * held.share, held.breadth);
            let told = format!(
                "{name}, {} answers: {share:.1} % held, upper ÷ lower {breadth:.2}",
                held.answers
            );
            println!("{told}");
            assert!(held.share >= least && breadth < most, "{told}");
            // an interval that held everything would be none
            assert!(
                !long || name != "its own law" || held.share < 0.98,
                "{told}"
            );
        }
    }
}
