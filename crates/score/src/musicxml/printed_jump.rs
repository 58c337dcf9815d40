//! Jumps that are printed but not told in `<sound>`: signs, and words such as 'D.C. al Fine'.
//! They are followed only where no `<sound>` of the whole score tells a jump.

use super::part_reader::PartReader;
use crate::jump::{Jump, JumpKind};

/// A segno or coda sign above the staff.
pub(crate) fn read_sign(reader: &mut PartReader<'_>, name: &str) {
    let kind = match name {
        "segno" => JumpKind::Segno(String::new()),
        _ => JumpKind::Coda(String::new()),
    };
    keep(reader, kind, name);
}

/// Words, if they tell a jump.
pub(crate) fn read_words(reader: &mut PartReader<'_>, words: &str) {
    if let Some(kind) = of_words(words) {
        keep(reader, kind, words);
    }
}

fn keep(reader: &mut PartReader<'_>, kind: JumpKind, text: &str) {
    let jump = Jump {
        measure: reader.measure,
        kind,
        passes: Vec::new(),
    };
    reader.gathered.printed_jump(jump, text);
}

fn of_words(words: &str) -> Option<JumpKind> {
    let plain: String = words
        .to_lowercase()
        .chars()
        .filter(|c| c.is_alphanumeric())
        .collect();
    let begins = |signs: &[&str]| signs.iter().any(|sign| plain.starts_with(sign));
    if plain == "dc" || begins(&["dcal", "dacapo"]) {
        Some(JumpKind::DaCapo)
    } else if plain == "ds" || begins(&["dsal", "dalsegno"]) {
        Some(JumpKind::DalSegno(String::new()))
    } else if plain == "fine" {
        Some(JumpKind::Fine)
    } else if begins(&["tocoda", "allacoda", "alcoda"]) {
        Some(JumpKind::ToCoda(String::new()))
    } else if plain == "coda" {
        Some(JumpKind::Coda(String::new()))
    } else {
        None
    }
}

/// What printed jumps mean together. A coda sign beside the words 'To Coda' is no target; where no
/// words say so, the first of two signs is where one leaves for the second.
pub(crate) fn settled(printed: &[(Jump, String)]) -> Vec<Jump> {
    let mut jumps: Vec<Jump> = printed.iter().map(|(jump, _)| jump.clone()).collect();
    jumps.sort_by_key(|jump| jump.measure);
    let is_coda = |jump: &Jump| matches!(jump.kind, JumpKind::Coda(_));
    let leaves: Vec<usize> = jumps
        .iter()
        .filter(|jump| matches!(jump.kind, JumpKind::ToCoda(_)))
        .map(|jump| jump.measure)
        .collect();
    if !leaves.is_empty() {
        jumps.retain(|jump| !is_coda(jump) || !leaves.contains(&jump.measure));
    } else if jumps.iter().filter(|jump| is_coda(jump)).count() > 1
        && let Some(first) = jumps.iter_mut().find(|jump| is_coda(jump))
    {
        first.kind = JumpKind::ToCoda(String::new());
    }
    jumps
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn usual_words_tell_a_jump_and_others_none() {
        let name = || String::new();
        let check = |words: &str, expected: Option<JumpKind>| {
            assert_eq!(of_words(words), expected, "{words}");
        };
        check("D.C. al Fine", Some(JumpKind::DaCapo));
        check("Da Capo", Some(JumpKind::DaCapo));
        check("D. S. al Coda", Some(JumpKind::DalSegno(name())));
        check("Fine", Some(JumpKind::Fine));
        check("To Coda", Some(JumpKind::ToCoda(name())));
        check("Coda", Some(JumpKind::Coda(name())));
        check("dolce", None);
        check("D", None);
        check("dcresc.", None);
    }
}
