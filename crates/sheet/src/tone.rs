//! Ink and paper: the colours of a picture, light and dark.

use harp::Colour;

/// Light or dark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Dark ink on light paper.
    Light,
    /// Light ink on dark paper.
    Dark,
}

/// The colours of one tone, as `#rrggbb`; of a page, as its custom properties.
#[derive(Clone, Copy)]
pub(crate) struct Palette {
    pub(crate) paper: &'static str,
    /// Words, marks, neck and body.
    pub(crate) ink: &'static str,
    /// Words of less weight.
    pub(crate) faint_ink: &'static str,
    /// The present string's bead and thread; its shape says so too.
    pub(crate) present: &'static str,
    pub(crate) red: &'static str,
    pub(crate) dark: &'static str,
    pub(crate) metal: &'static str,
    pub(crate) plain: &'static str,
    /// The light along a wire.
    pub(crate) gleam: &'static str,
}

const LIGHT: Palette = Palette {
    paper: "#f8f4ea",
    ink: "#211d18",
    faint_ink: "#5b5347",
    present: "#8f4a00",
    red: "#b3241c",
    dark: "#1d3c78",
    metal: "#80632f",
    plain: "#8d8474",
    gleam: "#e9d9b4",
};

const PRINT: Palette = Palette {
    paper: "#ffffff",
    ..LIGHT
};

const DARK: Palette = Palette {
    paper: "#171510",
    ink: "#efe8da",
    faint_ink: "#b9b09e",
    present: "#f0b54a",
    red: "#f0756a",
    dark: "#86abee",
    metal: "#b8995c",
    plain: "#857c6c",
    gleam: "#4a3c20",
};

/// The page's own colours, whatever they are at the moment.
const PAGE: Palette = Palette {
    paper: "var(--paper)",
    ink: "var(--ink)",
    faint_ink: "var(--faint-ink)",
    present: "var(--present)",
    red: "var(--red)",
    dark: "var(--dark)",
    metal: "var(--metal)",
    plain: "var(--plain)",
    gleam: "var(--gleam)",
};

impl Palette {
    pub(crate) fn of_page() -> Self {
        PAGE
    }

    pub(crate) fn of(tone: Tone, print: bool) -> Self {
        match tone {
            _ if print => PRINT,
            Tone::Light => LIGHT,
            Tone::Dark => DARK,
        }
    }

    pub(crate) fn string(&self, colour: Colour) -> &'static str {
        match colour {
            Colour::Red => self.red,
            Colour::Dark => self.dark,
            Colour::Metallic => self.metal,
            Colour::Plain => self.plain,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance of `#rrggbb`: WCAG 2.2 (W3C Recommendation, 2023), 'relative luminance'.
    fn luminance(colour: &str) -> f64 {
        let channel = |place: usize| {
            let value = u8::from_str_radix(&colour[place..place + 2], 16).unwrap();
            let share = f64::from(value) / 255.0;
            if share <= 0.04045 {
                share / 12.92
            } else {
                ((share + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    }

    /// Contrast ratio, same source: (L1 + 0.05) / (L2 + 0.05), the lighter above.
    fn contrast(one: &str, other: &str) -> f64 {
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    #[test]
    fn the_formula_gives_the_values_that_its_source_names() {
        // WCAG 2.2: black on white is 21:1; its understanding document: #767676 on white is 4.54:1.
        assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
        assert!((contrast("#767676", "#ffffff") - 4.54).abs() < 0.005);
    }

    #[test]
    fn words_marks_and_coloured_strings_stand_out_4_5_to_1_and_plain_strings_3_to_1() {
        for palette in [LIGHT, PRINT, DARK] {
            let marks = [
                palette.ink,
                palette.faint_ink,
                palette.present,
                palette.red,
                palette.dark,
                palette.metal,
            ];
            for colour in marks {
                let ratio = contrast(colour, palette.paper);
                assert!(ratio >= 4.5, "{colour} on {}: {ratio}", palette.paper);
            }
            // A plain string is a graphic, not a word or a mark: criterion 1.4.11 asks 3:1.
            let ratio = contrast(palette.plain, palette.paper);
            assert!(ratio >= 3.0, "plain on {}: {ratio}", palette.paper);
        }
    }
}
