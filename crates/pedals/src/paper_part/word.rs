//! A line cut into words, each with the column at which it begins.

/// A word of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Word<'a> {
    pub(super) text: &'a str,
    /// Its first sign, from 1.
    pub(super) column: usize,
}

/// Words between blanks and commas; `|` is a word of its own, and so is what stands in brackets.
pub(super) fn words(line: &str) -> Vec<Word<'_>> {
    let mut words = Vec::new();
    let mut begun: Option<(usize, usize)> = None;
    let mut bracket = false;
    for (at, (byte, sign)) in line.char_indices().enumerate() {
        let column = at + 1;
        let parts = !bracket && (sign.is_whitespace() || sign == ',' || sign == '|');
        if parts {
            if let Some((from, first)) = begun.take() {
                words.push(Word {
                    text: &line[from..byte],
                    column: first,
                });
            }
            if sign == '|' {
                words.push(Word { text: "|", column });
            }
            continue;
        }
        bracket = sign == '[' || bracket && sign != ']';
        begun.get_or_insert((byte, column));
    }
    if let Some((from, first)) = begun {
        words.push(Word {
            text: &line[from..],
            column: first,
        });
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_know_their_columns() {
        let told: Vec<(&str, usize)> = words("12 F♯|B, [Tempo I]+2 C")
            .iter()
            .map(|word| (word.text, word.column))
            .collect();
        let expected = [
            ("12", 1),
            ("F♯", 4),
            ("|", 6),
            ("B", 7),
            ("[Tempo I]+2", 10),
            ("C", 22),
        ];
        assert_eq!(told, expected);
    }
}
