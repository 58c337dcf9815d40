//! What the player says during a round, a line each: seconds from the start, then what.

use harp::StringName;
use pitch::{Letter, ReferencePitch, SpelledPitch};
use tuning::round::{Act, Then};

/// What can be said, for who asks.
pub const HELP: &str = "\
Each line: seconds from the start of the sound, then one of these. Empty lines and what follows '#' are passed over.
Typed live, in a terminal or through a pipe, without the seconds.
  this 4G             what is plucked from now on is 4G, however far off it is
  any                 it may be any string again
  skip 4G             leave it out
  broke 4G            it broke: play without it
  new 4G              a new one is fitted: it climbs from far below
  next                leave the present string as it is
  again 4G            hear it again
  not-in-tune 4G      it was called in tune and is not
  by-ear 4G           it is in tune by your ear, against the octave
  set 7C B0           what a string without discs is to sound
  between-pieces      offer the strings without discs
  on-purpose 4G       you moved it yourself: nothing is asked about it
  as-said G           the pedal or the levers of G do stand as you said
  use-a 442           tune to this A; 'use-a 447 technician-asked' where that is needed
  pause, resume, finish";

/// A line that cannot be followed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}: {what}; '--said help' lists what can be said")]
pub struct SaidError {
    /// Which, from 1.
    pub line: usize,
    /// What is wrong with it.
    pub what: String,
}

/// Everything said, in the order of its seconds.
pub fn read(text: &str) -> Result<Vec<(f64, Act)>, SaidError> {
    let mut said = Vec::new();
    for (line, text) in (1..).zip(text.lines()) {
        let words: Vec<&str> = text
            .split('#')
            .next()
            .unwrap_or_default()
            .split_whitespace()
            .collect();
        let Some((at, rest)) = words.split_first() else {
            continue;
        };
        let wrong = |what: String| SaidError { line, what };
        let at_s = at.parse::<f64>().ok();
        let at_s = at_s
            .filter(|s| s.is_finite() && *s >= 0.0)
            .ok_or_else(|| wrong(format!("'{at}' is no number of seconds")))?;
        said.push((at_s, act(rest).map_err(wrong)?));
    }
    said.sort_by(|a, b| a.0.total_cmp(&b.0));
    Ok(said)
}

/// One line without seconds, said now.
pub fn line(text: &str) -> Result<Act, String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    act(&words)
}

fn act(words: &[&str]) -> Result<Act, String> {
    let string = |word: &str| word.parse::<StringName>().map_err(|e| e.to_string());
    Ok(match words {
        ["this", s] => Act::ThisOne(string(s)?),
        ["any"] => Act::LetGo,
        ["skip", s] => Act::Skip(string(s)?),
        ["broke", s] => Act::Broke(string(s)?, Then::PlayWithout),
        ["new", s] => Act::Broke(string(s)?, Then::FittedNow),
        ["next"] => Act::Next,
        ["again", s] => Act::Again(string(s)?),
        ["not-in-tune", s] => Act::NotInTune(string(s)?),
        ["by-ear", s] => Act::InTuneByEar(string(s)?),
        ["set", s, p] => {
            let pitch = p.parse::<SpelledPitch>().map_err(|e| e.to_string())?;
            Act::SetTo(string(s)?, pitch)
        }
        ["between-pieces"] => Act::BetweenPieces,
        ["on-purpose", s] => Act::MovedOnPurpose(string(s)?),
        ["as-said", l] => Act::AsSaid(letter(l)?),
        ["use-a", hz] => use_a(hz, false)?,
        ["use-a", hz, "technician-asked"] => use_a(hz, true)?,
        ["pause"] => Act::Pause,
        ["resume"] => Act::Resume,
        ["finish"] => Act::Finish,
        [] => return Err("nothing is said".to_owned()),
        other => return Err(format!("'{}' is not understood", other.join(" "))),
    })
}

fn letter(word: &str) -> Result<Letter, String> {
    let named = Letter::ALL.into_iter().find(|l| l.to_string() == word);
    named.ok_or_else(|| format!("'{word}' is no letter of a pedal"))
}

fn use_a(word: &str, technician_asked: bool) -> Result<Act, String> {
    let a4_hz: f64 = word
        .parse()
        .map_err(|_| format!("'{word}' is no number of hertz"))?;
    ReferencePitch::new(a4_hz).map_err(|e| e.to_string())?;
    Ok(Act::UseA {
        a4_hz,
        technician_asked,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_of_the_help_can_be_said() {
        let lines = HELP
            .lines()
            .filter(|l| l.starts_with("  ") && !l.contains("pause,"));
        let mut count = 0;
        for line in lines {
            let said = line.trim().split("  ").next().unwrap();
            assert_eq!(
                read(&format!("1.5 {said}")).map(|a| a.len()),
                Ok(1),
                "{said}"
            );
            count += 1;
        }
        assert!(count >= 14);
        assert_eq!(
            read("1 pause\n2 resume # now\n\n3 finish").map(|a| a.len()),
            Ok(3)
        );
    }

    #[test]
    fn what_is_not_understood_is_said_with_its_line() {
        let check = |text: &str, line: usize, what: &str| {
            let error = read(text).unwrap_err();
            assert_eq!(error.line, line);
            assert!(error.to_string().contains(what), "{error}");
        };
        check("1 any\nsoon any", 2, "'soon' is no number of seconds");
        check("-1 any", 1, "no number of seconds");
        check("1 dance 4G", 1, "'dance 4G' is not understood");
        check("1 skip 4X", 1, "names no string");
        check("1 use-a 900", 1, "between 380 and 480");
        check("1 as-said H", 1, "no letter");
        check("1", 1, "nothing is said");
    }

    #[test]
    fn what_is_said_comes_in_the_order_of_its_seconds() {
        let said = read("9 finish\n2 pause").unwrap();
        assert_eq!(said, [(2.0, Act::Pause), (9.0, Act::Finish)]);
    }
}
