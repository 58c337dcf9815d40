//! The shorthand read: every line that can be is kept, every other is named with its place and what to do.

use std::fmt;

use harp::{NEAR_SEMITONES, Setting, StringName};
use pitch::{Alteration, Letter, SpelledPitch};

use super::lines::PaperLines;
use super::word::{Word, words};
use super::{PaperBar, PaperChange, PaperMovement, PaperPart, PaperPlace};
use crate::{Foot, Quarters};

/// Most signs of a text that are read.
const LONGEST: usize = 200_000;
/// The highest number of a bar.
const HIGHEST_BAR: u32 = 99_999;

/// What was read, and what could not be.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperRead {
    /// The part, without the lines that could not be read.
    pub part: PaperPart,
    /// On which line each thing stands.
    pub lines: PaperLines,
    /// One for every such line, in order.
    pub errors: Vec<PaperError>,
}

/// A line that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PaperError {
    /// Its number, from 1.
    pub line: usize,
    /// The sign at which reading stopped, from 1.
    pub column: usize,
    /// What is wrong.
    pub wrong: PaperWrong,
}

/// What may be wrong with a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PaperWrong {
    /// It begins with nothing that a line may begin with.
    NoPlace(String),
    /// No pedal has this letter, or the sign after it is none.
    NoLetter(String),
    /// A pedal on the side of a foot that cannot reach it.
    OtherFoot(Letter),
    /// A pedal named twice where it can stand in one place only.
    Twice(Letter),
    /// More than one `|`.
    SecondBar,
    /// A `+` with nothing before it to take together.
    NothingToJoin,
    /// No beat from 1, such as `3`, `2½` or `5/2`.
    NoBeat(String),
    /// A bar without a change, a mark or a note.
    NothingThere,
    /// No string of that name.
    NoString(String),
    /// No pitch, or none near the string.
    NoPitch(String),
    /// The text is longer than any part.
    TooLong,
}

impl PaperPart {
    /// Reads the shorthand. What cannot be read is told and left out; nothing is guessed.
    ///
    /// ```
    /// let read = pedals::PaperPart::read("opening Bb Eb\n12 F# | B\n13 H");
    /// assert_eq!(read.part.movements[0].places.len(), 1);
    /// assert_eq!((read.errors[0].line, read.errors[0].column), (3, 4));
    /// ```
    pub fn read(text: &str) -> PaperRead {
        let mut read = PaperRead {
            part: Self::default(),
            lines: PaperLines::default(),
            errors: Vec::new(),
        };
        if text.chars().count() > LONGEST {
            let wrong = PaperWrong::TooLong;
            read.errors.push(PaperError {
                line: 1,
                column: 1,
                wrong,
            });
            return read;
        }
        for (at, line) in text.lines().enumerate() {
            if let Err((column, wrong)) = read_line(line, &mut read.part) {
                let line = at + 1;
                read.errors.push(PaperError {
                    line,
                    column,
                    wrong,
                });
            }
            read.lines.note(at + 1, &read.part);
        }
        read
    }
}

type Wrong = (usize, PaperWrong);

fn read_line(line: &str, part: &mut PaperPart) -> Result<(), Wrong> {
    let trimmed = line.trim_start();
    if trimmed.is_empty() || trimmed.starts_with('#') {
        return Ok(());
    }
    let (told, note) = line.split_once("--").unwrap_or((line, ""));
    let found = words(told);
    let Some(first) = found.first() else {
        return Err((1, PaperWrong::NoPlace("--".to_owned())));
    };
    if first.text == "movement" {
        let name = line.trim_start().trim_start_matches("movement").trim();
        begin(part, name);
        return Ok(());
    }
    let Some(movement) = part.movements.last_mut() else {
        return Ok(());
    };
    let rest = &found[1..];
    if first.text == "opening" {
        movement.opening = Some(opening(rest)?);
    } else if first.text == "exposed" {
        for word in rest {
            let string = string(*word)?;
            if !movement.exposed.contains(&string) {
                movement.exposed.push(string);
            }
        }
    } else if told.contains('=') {
        let (string, pitch) = by_key(told)?;
        movement.by_key.retain(|&(other, _)| other != string);
        movement.by_key.push((string, pitch));
    } else {
        let place = place(*first, rest, note.trim())?;
        movement.places.push(place);
    }
    Ok(())
}

/// Another movement; the first one only gets its name, where nothing stands in it yet.
fn begin(part: &mut PaperPart, name: &str) {
    let movement = PaperMovement {
        name: name.to_owned(),
        ..PaperMovement::default()
    };
    match part.movements.as_mut_slice() {
        [only] if *only == PaperMovement::default() => *only = movement,
        _ => part.movements.push(movement),
    }
}

fn opening(words: &[Word<'_>]) -> Result<Setting, Wrong> {
    let [right, left] = feet(words)?;
    let mut setting = Setting::default();
    for (change, column) in right.into_iter().chain(left) {
        if setting.get(change.letter).is_some() {
            return Err((column, PaperWrong::Twice(change.letter)));
        }
        setting = setting.with(change.letter, change.to);
    }
    for letter in Letter::ALL {
        if setting.get(letter).is_none() {
            setting = setting.with(letter, Alteration::Natural);
        }
    }
    Ok(setting)
}

fn place(first: Word<'_>, rest: &[Word<'_>], note: &str) -> Result<PaperPlace, Wrong> {
    let (bar, beat) = where_(first)?;
    let bracketed = rest.first().map(|word| word.text);
    let mark = bracketed.and_then(|text| text.strip_prefix('[')?.strip_suffix(']'));
    let mark = mark.map(str::trim).filter(|mark| !mark.is_empty());
    let mark = mark.filter(|_| matches!(bar, PaperBar::Number(..)));
    let [right, left] = feet(&rest[usize::from(mark.is_some())..])?;
    let bare = |changes: Vec<(PaperChange, usize)>| changes.into_iter().map(|(change, _)| change);
    let place = PaperPlace {
        bar,
        beat,
        mark: mark.map(str::to_owned),
        right: bare(right).collect(),
        left: bare(left).collect(),
        note: note.to_owned(),
    };
    let said = place.landmark().is_some() || !note.is_empty();
    if place.changes().next().is_none() && !said {
        return Err((first.column, PaperWrong::NothingThere));
    }
    Ok(place)
}

/// `12`, `12a`, `12:3½`, `[A]`, `[A]+4`, `[A]+4:2`.
fn where_(word: Word<'_>) -> Result<(PaperBar, Option<Quarters>), Wrong> {
    let no_place = || (word.column, PaperWrong::NoPlace(word.text.to_owned()));
    if let Some(rest) = word.text.strip_prefix('[') {
        let (mark, after) = rest.split_once(']').ok_or_else(no_place)?;
        let mark = mark.trim();
        if mark.is_empty() {
            return Err(no_place());
        }
        let (bars, beat) = after
            .split_once(':')
            .map_or((after, None), |(b, t)| (b, Some(t)));
        let bars = match bars.strip_prefix('+') {
            Some(bars) => number(bars).ok_or_else(no_place)?,
            None if bars.is_empty() => 0,
            None => return Err(no_place()),
        };
        return Ok((PaperBar::Mark(mark.to_owned(), bars), beat_of(word, beat)?));
    }
    let (bar, beat) = word
        .text
        .split_once(':')
        .map_or((word.text, None), |(b, t)| (b, Some(t)));
    let end = bar
        .find(|sign: char| !sign.is_ascii_digit())
        .unwrap_or(bar.len());
    let (digits, letter) = bar.split_at(end);
    let letter = match letter.as_bytes() {
        [] => None,
        [one] if one.is_ascii_lowercase() => Some(char::from(*one)),
        _ => return Err(no_place()),
    };
    let bar = PaperBar::Number(number(digits).ok_or_else(no_place)?, letter);
    Ok((bar, beat_of(word, beat)?))
}

fn number(digits: &str) -> Option<u32> {
    let plain = !digits.is_empty() && digits.bytes().all(|sign| sign.is_ascii_digit());
    let number: u32 = plain.then(|| digits.parse().ok())??;
    (number <= HIGHEST_BAR).then_some(number)
}

fn beat_of(word: Word<'_>, text: Option<&str>) -> Result<Option<Quarters>, Wrong> {
    let Some(text) = text else { return Ok(None) };
    let beat = beat(text).filter(|&beat| beat >= Quarters::new(1, 1));
    let column = word.column + word.text.chars().count() - text.chars().count();
    beat.map(Some)
        .ok_or((column, PaperWrong::NoBeat(text.to_owned())))
}

/// `3`, `2½`, `5/2`.
fn beat(text: &str) -> Option<Quarters> {
    const PARTS: [(char, i64, i64); 5] = [
        ('½', 1, 2),
        ('⅓', 1, 3),
        ('⅔', 2, 3),
        ('¼', 1, 4),
        ('¾', 3, 4),
    ];
    let whole = |digits: &str| number(digits).map(i64::from);
    if let Some((above, below)) = text.split_once('/') {
        let below = whole(below).filter(|&below| (1..=96).contains(&below))?;
        return Some(Quarters::new(whole(above)?, below));
    }
    for (sign, above, below) in PARTS {
        if let Some(digits) = text.strip_suffix(sign) {
            return Some(Quarters::new(whole(digits)? * below + above, below));
        }
    }
    Some(Quarters::new(whole(text)?, 1))
}

/// Each foot's changes, with their columns: the right one's before the `|`, the left one's behind it;
/// without a `|` every letter finds its own foot.
fn feet(words: &[Word<'_>]) -> Result<[Vec<(PaperChange, usize)>; 2], Wrong> {
    let parted = words.iter().any(|word| word.text == "|");
    let mut feet = [Vec::new(), Vec::new()];
    let mut side = Foot::Right;
    for word in words {
        if word.text == "|" {
            if side == Foot::Left {
                return Err((word.column, PaperWrong::SecondBar));
            }
            side = Foot::Left;
            continue;
        }
        for (change, column) in joined(*word)? {
            let foot = if parted {
                side
            } else {
                Foot::of(change.letter)
            };
            let reaches = Foot::of(change.letter) == foot || foot.crosses_to() == change.letter;
            if !reaches {
                return Err((column, PaperWrong::OtherFoot(change.letter)));
            }
            let of_foot = &mut feet[usize::from(foot == Foot::Left)];
            if change.together && of_foot.is_empty() {
                return Err((column, PaperWrong::NothingToJoin));
            }
            of_foot.push((change, column));
        }
    }
    Ok(feet)
}

/// `F#` or `F#+G#`.
fn joined(word: Word<'_>) -> Result<Vec<(PaperChange, usize)>, Wrong> {
    let mut changes = Vec::new();
    let mut column = word.column;
    for (at, one) in word.text.split('+').enumerate() {
        let (letter, to) =
            letter(one).ok_or_else(|| (column, PaperWrong::NoLetter(one.to_owned())))?;
        let together = at > 0;
        changes.push((
            PaperChange {
                letter,
                to,
                together,
            },
            column,
        ));
        column += one.chars().count() + 1;
    }
    Ok(changes)
}

/// A letter, small or capital, and its sign; a bare letter is natural.
fn letter(text: &str) -> Option<(Letter, Alteration)> {
    let mut signs = text.chars();
    let letter = Letter::from_char(signs.next()?)?;
    let to = match signs.as_str() {
        "" | "n" | "♮" => Alteration::Natural,
        "#" | "♯" => Alteration::Sharp,
        "b" | "♭" => Alteration::Flat,
        _ => return None,
    };
    Some((letter, to))
}

fn string(word: Word<'_>) -> Result<StringName, Wrong> {
    let no_string = |_| (word.column, PaperWrong::NoString(word.text.to_owned()));
    word.text.parse().map_err(no_string)
}

/// `7C = C♯`, `C1 = B0`.
fn by_key(line: &str) -> Result<(StringName, SpelledPitch), Wrong> {
    let (name, pitch) = line.split_once('=').unwrap_or((line, ""));
    let column = |text: &str, before: usize| {
        before + 1 + text.chars().take_while(|sign| sign.is_whitespace()).count()
    };
    let word = Word {
        text: name.trim(),
        column: column(name, 0),
    };
    let string = string(word)?;
    let at = column(pitch, name.chars().count() + 1);
    let pitch = pitch.trim();
    let wrong = || (at, PaperWrong::NoPitch(pitch.to_owned()));
    let octaves = [string.octave, string.octave - 1, string.octave + 1];
    let near = |pitch: &SpelledPitch| (pitch.midi() - string.key()).abs() <= NEAR_SEMITONES;
    let found = match (pitch.parse::<SpelledPitch>(), letter(pitch)) {
        (Ok(pitch), _) => Some(pitch).filter(near),
        (Err(_), Some((letter, to))) => octaves
            .into_iter()
            .map(|octave| SpelledPitch::new(letter, to, octave))
            .find(near),
        _ => None,
    };
    Ok((string, found.ok_or_else(wrong)?))
}

impl fmt::Display for PaperError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "line {}, column {}: {}",
            self.line, self.column, self.wrong
        )
    }
}

impl std::error::Error for PaperError {}

impl fmt::Display for PaperWrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPlace(text) => write!(
                f,
                "'{text}' is no place; begin with a bar, 12 or 12:3, or a rehearsal mark in brackets, [A]"
            ),
            Self::NoLetter(text) if text.starts_with(['H', 'h']) => {
                write!(f, "'{text}' is no pedal; here B is natural and Bb is flat")
            }
            Self::NoLetter(text) => write!(
                f,
                "'{text}' is no pedal; write one of D C B E F G A, then #, b or nothing, as in F#"
            ),
            Self::OtherFoot(letter) => write!(
                f,
                "{letter} is not within that foot's reach; the right foot's letters (E F G A) stand before |, the left's (D C B) behind it"
            ),
            Self::Twice(letter) => write!(f, "{letter} stands there twice; keep one of them"),
            Self::SecondBar => f.write_str("a second |; one parts the right foot from the left"),
            Self::NothingToJoin => f.write_str(
                "a + joins two pedals of one foot; nothing of that foot stands before it",
            ),
            Self::NoBeat(text) => {
                write!(f, "'{text}' is no beat; count from 1, as in 3, 2½ or 5/2")
            }
            Self::NothingThere => f.write_str(
                "nothing happens there; write what moves, or a mark in brackets, or -- and a note",
            ),
            Self::NoString(text) => {
                write!(f, "'{text}' names no string; write 7C, or C1 for the same")
            }
            Self::NoPitch(text) => write!(
                f,
                "'{text}' is no pitch within three semitones of the string; write a letter and its sign, as in C#"
            ),
            Self::TooLong => {
                f.write_str("the text is longer than any part; give each piece its own")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(line: &str, canonical: &str) {
        let read = PaperPart::read(line);
        assert_eq!(read.errors, [], "{line}");
        assert_eq!(read.part.to_string().trim_end(), canonical, "{line}");
    }

    #[test]
    fn lines_are_read_as_they_are_pencilled() {
        check("12 F# | B", "12 F♯ | B");
        check("12 b f#", "12 F♯ | B");
        check("  12 F♯, Gn | C♭ Dn", "12 F♯ G | C♭ D");
        check("12:5/2 F#+G#", "12:2½ F♯+G♯");
        check("12b:3 [ A ] bb", "12b:3 [A] | B♭");
        check("12 B |", "12 B |");
        check(
            "[Tempo I]+2:2 E♭ -- watch the horn",
            "[Tempo I]+2:2 E♭ -- watch the horn",
        );
        check("opening Bb Eb Ab", "opening E♭ F G A♭ | D C B♭");
        check("C1 = C#", "7C = C#1");
        check("7C=B", "7C = Bn0");
        check("exposed A4 3A E3", "exposed 3A 5E");
        check("# mine\n\nmovement II\n1 F#", "movement II\n1 F♯");
    }

    fn check_wrong(text: &str, line: usize, column: usize, wrong: &str) {
        let read = PaperPart::read(text);
        let [error] = read.errors.as_slice() else {
            panic!("{text}: {:?}", read.errors);
        };
        assert_eq!((error.line, error.column), (line, column), "{error}");
        assert!(error.to_string().contains(wrong), "{error}");
    }

    #[test]
    fn what_cannot_be_read_is_named_with_its_place_and_what_to_do() {
        check_wrong("opening Bb\n12 F# | H", 2, 9, "B is natural and Bb is flat");
        check_wrong("12 F##", 1, 4, "'F##' is no pedal");
        check_wrong("F# | B", 1, 1, "'F#' is no place; begin with a bar");
        check_wrong("12 B F | G", 1, 10, "G is not within that foot's reach");
        check_wrong("12", 1, 1, "nothing happens there");
        check_wrong("12:0 F", 1, 4, "'0' is no beat");
        check_wrong("12 F | B | C", 1, 10, "a second |");
        check_wrong("12 +F", 1, 4, "'' is no pedal");
        check_wrong("opening B Bb", 1, 11, "B stands there twice");
        check_wrong("9X = C", 1, 1, "'9X' names no string");
        check_wrong("7C = F", 1, 6, "within three semitones");
        check_wrong("exposed 3A 4H", 1, 12, "'4H' names no string");
        check_wrong("[A F#", 1, 1, "is no place");
    }

    #[test]
    fn the_rest_is_kept() {
        let read = PaperPart::read("12 F#\n13 H\n14 F");
        assert_eq!(read.part.movements[0].places.len(), 2);
    }

    proptest::proptest! {
        #[test]
        fn no_text_breaks_it(text in "[ -~♭♯♮½\n]{0,80}") {
            let read = PaperPart::read(&text);
            let again = PaperPart::read(&read.part.to_string());
            proptest::prop_assert_eq!(again.errors, []);
        }
    }
}
