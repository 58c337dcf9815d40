//! Her own pace: the seconds that she takes for a string.

use diary::{HarpKnown, Moment};

/// Seconds a string where her own are not known: ten minutes for 47 strings.
pub const USUAL_S: f64 = 600.0 / 47.0;
/// Strings after one another are of one round where no more than so many seconds lie between.
const ONE_ROUND_S: f64 = 180.0;
/// The last so many strings are asked.
const MOST: usize = 470;
/// Fewer teach nothing.
const LEAST: usize = 20;

/// The median of the seconds from one string left to the next, in her last rounds; `None` where there are too few of them.
pub fn pace_s(known: &HarpKnown) -> Option<f64> {
    let strings = known.strings.values();
    let left = strings.flat_map(|string| string.history.iter().filter(|point| point.left));
    let mut left: Vec<Moment> = left.map(|point| point.when).collect();
    left.sort_unstable();
    let taken = left
        .windows(2)
        .rev()
        .filter_map(|pair| Some(pair.get(1)?.since_s(*pair.first()?)));
    let own = taken.filter(|seconds| *seconds > 0.0 && *seconds <= ONE_ROUND_S);
    let mut own: Vec<f64> = own.take(MOST).collect();
    own.sort_by(f64::total_cmp);
    own.get(own.len() / 2)
        .copied()
        .filter(|_| own.len() >= LEAST)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use diary::{Point, StringKnown};
    use harp::{Harp, StringName};

    use super::*;

    /// So many strings, one every so many seconds, each plucked twice, on two days.
    fn known(strings: usize, seconds: f64) -> HarpKnown {
        let begin = Moment::of(&"2026-11-26T18:00:00Z".parse().unwrap());
        let point = |at_s: f64, left: bool| Point {
            when: begin.plus_s(at_s),
            heard_hz: 440.0,
            target_hz: 440.0,
            off_cents: 0.0,
            u95_cents: 0.3,
            b: None,
            t60_s: None,
            level_dbfs: None,
            raised: 0,
            found: !left,
            left,
            string: 0,
        };
        let names = Harp::named("pedal47").unwrap();
        let names = names.strings().iter().map(|s| s.name).take(strings);
        let of = |(at, name): (usize, StringName)| {
            let at_s = seconds * at as f64;
            let history = vec![
                point(at_s - 1.0, false),
                point(at_s, true),
                point(86_400.0 + at_s, true),
            ];
            let string = StringKnown {
                history,
                ..StringKnown::default()
            };
            (name, string)
        };
        HarpKnown {
            harp: "own".to_owned(),
            toml: None,
            strings: names.enumerate().map(of).collect::<BTreeMap<_, _>>(),
            pedals: Vec::new(),
            checks: Vec::new(),
            visits: Vec::new(),
            a4_hz: None,
            rounds: 2,
        }
    }

    #[test]
    fn it_is_the_middle_of_what_she_took() {
        let own = pace_s(&known(47, 9.5)).unwrap();
        assert!((own - 9.5).abs() < 0.01, "{own}");
    }

    #[test]
    fn a_few_strings_are_no_pace() {
        assert_eq!(pace_s(&known(8, 9.5)), None);
    }
}
