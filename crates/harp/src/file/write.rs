//! Writing a harp file, with comments that say what every line is.

use std::fmt::Write;

use crate::{Field, Figures, Harp, HarpKind, HarpString, Mechanism, StringName};

impl Harp {
    /// The harp as a file that [`Harp::from_toml`] reads back to the same harp. Only figures that
    /// were given are written; the comments say what else could be.
    ///
    /// ```
    /// use harp::Harp;
    /// let harp = Harp::named("lever36")?;
    /// assert_eq!(Harp::from_toml(&harp.to_toml()), Ok(harp));
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn to_toml(&self) -> String {
        let mut file = String::from(ABOUT);
        if let Some(name) = self.name() {
            line(&mut file, "name", &escaped(name));
        }
        self.write_compass(&mut file);
        self.write_mechanism(&mut file);
        if let Some(mm) = self.pin_radius_mm() {
            file += &format!(
                "\n# {}, but where a string says otherwise.\n",
                sentence(Field::PinRadiusMm,)
            );
            line(&mut file, Field::PinRadiusMm.name(), &number(mm));
        }
        for (material, figures) in self.materials() {
            let _ = write!(
                file,
                "\n# For every string of {material}.\n[materials.{material}]\n"
            );
            write_figures(&mut file, figures);
        }
        file += &fields_explained();
        for string in self
            .strings()
            .iter()
            .filter(|string| !string.figures.is_empty())
        {
            write_string(&mut file, string);
        }
        file
    }

    fn write_compass(&self, file: &mut String) {
        line(file, "kind", &quoted(self.kind().as_str()));
        let names: Vec<_> = self.strings().iter().map(|string| string.name).collect();
        let ends = names.first().copied().zip(names.last().copied());
        let gapless = ends.filter(|&(lowest, highest)| {
            let whole = Self::between(self.kind(), lowest, highest);
            whole.is_ok_and(|whole| whole.strings().iter().map(|s| s.name).eq(names.clone()))
        });
        match gapless {
            Some((lowest, highest)) => {
                *file += "\n# Lowest and highest string: C1 (scientific) or 7C (the harp's own number).\n";
                line(file, "lowest", &quoted(&lowest.to_string()));
                line(file, "highest", &quoted(&highest.to_string()));
            }
            None => {
                *file += "\n# Every string, from the bass.\n";
                line(file, "strings", &list(&names));
            }
        }
    }

    fn write_mechanism(&self, file: &mut String) {
        if let Some(open) = self.open_tuning() {
            *file += "\n# The major key of the open strings, every pedal up or every lever off.\n";
            line(file, "open", &quoted(open.as_str()));
        }
        let (key, about) = match self.kind() {
            HarpKind::Pedal => (
                "discless",
                "Strings without discs, set by key before a piece.",
            ),
            HarpKind::Lever => ("no_lever", "Strings without a lever."),
            HarpKind::Free => return,
        };
        let unmoved = self
            .strings()
            .iter()
            .filter(|s| s.mechanism == Mechanism::Nothing);
        let unmoved: Vec<_> = unmoved.map(|string| string.name).collect();
        let _ = write!(file, "\n# {about}\n");
        line(file, key, &list(&unmoved));
    }
}

const ABOUT: &str = "\
# A harp, as its player knows it. Every figure here is her own: what is left out stays unknown,
# and whatever would need it stays blank.

";

fn fields_explained() -> String {
    let mut text = String::from(
        "\n# The strings of which something is known, each under [[string]] with its name, its\n\
         # material, and any of these:\n",
    );
    for field in Field::all() {
        let _ = writeln!(text, "#   {:<21} {}", field.name(), field.meaning());
    }
    text + &format!("# Materials are {}.\n", super::known_materials())
}

fn write_string(file: &mut String, string: &HarpString) {
    let name = string.name;
    let _ = write!(file, "\n[[string]] # {}\n", name.harp_number());
    line(file, "name", &quoted(&name.to_string()));
    if let Some(material) = string.figures.material {
        line(file, "material", &quoted(material.as_str()));
    }
    write_figures(file, &string.figures);
}

fn write_figures(file: &mut String, figures: &Figures) {
    for field in Field::all() {
        if let Some(value) = figures.get(field) {
            line(file, field.name(), &number(value));
        }
    }
}

fn line(file: &mut String, key: &str, value: &str) {
    *file += &format!("{key} = {value}\n");
}

fn sentence(field: Field) -> String {
    let meaning = field.meaning();
    let first = meaning
        .chars()
        .next()
        .map(|c| c.to_uppercase().to_string())
        .unwrap_or_default();
    first + meaning.get(1..).unwrap_or_default()
}

fn list(names: &[StringName]) -> String {
    let names: Vec<_> = names.iter().map(|name| quoted(&name.to_string())).collect();
    format!("[{}]", names.join(", "))
}

/// A word of our own, which holds nothing that TOML would escape.
fn quoted(word: &str) -> String {
    format!("\"{word}\"")
}

/// Any text as a basic string of TOML 1.0: quotation marks, backslashes and control characters are escaped.
fn escaped(text: &str) -> String {
    let mut quoted = String::from("\"");
    for sign in text.chars() {
        match sign {
            '"' | '\\' => quoted.extend(['\\', sign]),
            sign if sign.is_control() => {
                let _ = write!(quoted, "\\u{:04X}", u32::from(sign));
            }
            sign => quoted.push(sign),
        }
    }
    quoted.push('"');
    quoted
}

/// The shortest decimal that reads back as the same number.
fn number(value: f64) -> String {
    if value != 0.0 && value.abs() < 1e-3 {
        format!("{value:e}")
    } else {
        format!("{value}")
    }
}
