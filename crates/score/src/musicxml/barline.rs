//! `<barline>`: repeats and endings.

use super::element::{Element, child, says_yes};
use super::part_reader::PartReader;
use crate::{Doubt, Fraction, Repeat};

/// The highest number of an ending that is followed.
const MOST_PASSES: u32 = 64;

/// Reads one `<barline>`. A barline on the left belongs to the beginning of the bar, any other to
/// its end; a repeat in the middle of a bar is left out of the playing order, with a doubt.
pub(crate) fn read(reader: &mut PartReader<'_>, barline: Element<'_, '_>) {
    let left = barline.attribute("location") == Some("left")
        || (reader.at == Fraction::ZERO && barline.attribute("location").is_none());
    let middle = barline.attribute("location") == Some("middle");
    if let Some(repeat) = child(barline, "repeat") {
        let what = match repeat.attribute("direction") {
            _ if middle => Some("a repeat in the middle of a bar"),
            Some("forward") => {
                let measure = reader.measure + usize::from(!left);
                reader.gathered.bar(measure).repeat_start = true;
                None
            }
            Some("backward") => end_of_repeat(reader, repeat, left),
            _ => Some("a repeat without direction"),
        };
        if let Some(what) = what {
            reader.doubt(Doubt::Order { what });
        }
    }
    if let Some(ending) = child(barline, "ending") {
        read_ending(reader, ending);
    }
}

fn end_of_repeat(
    reader: &mut PartReader<'_>,
    repeat: Element<'_, '_>,
    left: bool,
) -> Option<&'static str> {
    let times = repeat.attribute("times").map(str::parse::<u32>);
    let found = Repeat {
        times: times.clone().and_then(Result::ok).map(|times| times.max(1)),
        after_jump: says_yes(repeat, "after-jump"),
    };
    // on the left of a bar it ends the bar before
    let Some(measure) = reader.measure.checked_sub(usize::from(left)) else {
        return Some("a repeat that ends before the first bar");
    };
    let bar = reader.gathered.bar(measure);
    let known = bar.repeat_end.get_or_insert(found);
    known.times = known.times.or(found.times);
    known.after_jump |= found.after_jump;
    matches!(times, Some(Err(_))).then_some("the number of times of a repeat")
}

fn read_ending(reader: &mut PartReader<'_>, ending: Element<'_, '_>) {
    let kind = ending.attribute("type").unwrap_or_default();
    if kind == "start" {
        let number = ending.attribute("number").unwrap_or_default();
        let passes = passes(number).or_else(|| ending.text().and_then(passes));
        match passes {
            Some(passes) => {
                let bar = reader.gathered.bar(reader.measure);
                bar.ending_start.get_or_insert(passes);
            }
            None => reader.doubt(Doubt::Order {
                what: "an ending without a number",
            }),
        }
    } else if matches!(kind, "stop" | "discontinue") {
        reader.gathered.bar(reader.measure).ending_stop = true;
    }
}

/// `1`, `1, 2`, `1,2.`, `1-3`, `1 2`: the numbers, ascending; `None` where there are none.
pub(crate) fn passes(text: &str) -> Option<Vec<u32>> {
    let mut passes = Vec::new();
    let mut last = None;
    let mut range = false;
    for word in text.split_inclusive(|c: char| !c.is_ascii_digit()) {
        let digits = word.trim_end_matches(|c: char| !c.is_ascii_digit());
        if let Ok(number) = digits.parse::<u32>() {
            let number = number.clamp(1, MOST_PASSES);
            let from = last.filter(|_| range).unwrap_or(number);
            passes.extend(from..=number);
            last = Some(number);
            range = false;
        }
        range |= word.ends_with(['-', '–']) && last.is_some();
    }
    passes.sort_unstable();
    passes.dedup();
    (!passes.is_empty()).then_some(passes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn endings_are_numbered_in_many_ways() {
        let check = |text: &str, expected: &[u32]| {
            assert_eq!(passes(text).unwrap_or_default(), expected, "{text}");
        };
        check("1", &[1]);
        check("1, 2", &[1, 2]);
        check("1.2.", &[1, 2]);
        check("1-3", &[1, 2, 3]);
        check("2 – 4, 6", &[2, 3, 4, 6]);
        check("", &[]);
        check("Fine", &[]);
        check("9999999999", &[]);
        check("1-999999", &(1..=64).collect::<Vec<_>>());
    }
}
