//! Text broken into lines.

use super::face::Face;

/// Lines no wider than `width`, broken between words; a word that is wider than a line is broken where it must be.
pub(crate) fn wrap(text: &str, face: Face, size: f64, width: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let fits = |text: &str| face.width(text, size) <= width;
    for word in text.split(breaks) {
        if word.is_empty() {
            continue;
        }
        if let Some(last) = lines.last_mut() {
            let longer = format!("{last} {word}");
            if fits(&longer) {
                *last = longer;
                continue;
            }
        }
        let mut line = String::new();
        for sign in word.chars() {
            line.push(sign);
            if !fits(&line) && line.chars().nth(1).is_some() {
                line.pop();
                lines.push(std::mem::replace(&mut line, sign.to_string()));
            }
        }
        lines.push(line);
    }
    lines
}

/// Whether a line may be broken at a sign: at blanks, but those that hold words together.
fn breaks(sign: char) -> bool {
    sign.is_whitespace() && !matches!(sign, '\u{a0}' | '\u{202f}')
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn nothing_is_lost_and_no_line_is_too_long(text in "[a-zé♯ ]{0,80}", width in 30.0..200.0_f64) {
            let lines = wrap(&text, Face::Text, 12.0, width);
            let kept: String = lines.concat().split_whitespace().collect();
            prop_assert_eq!(kept, text.split_whitespace().collect::<String>());
            for line in lines {
                prop_assert!(Face::Text.width(&line, 12.0) <= width, "{}", line);
            }
        }
    }
}
