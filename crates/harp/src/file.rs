//! The player's own harp as a file: TOML with comments, holding only what she knows.
//!
//! ```
//! let harp = harp::Harp::from_toml(r#"
//!     kind = "lever"
//!     lowest = "C2"
//!     highest = "C7"
//!     open = "Eb"
//!     no_lever = ["C2"]
//!
//!     [[string]]
//!     name = "C4"
//!     length_mm = 402
//!     material = "gut"
//! "#)?;
//! assert_eq!(harp.strings().len(), 36);
//! # Ok::<(), harp::HarpFileError>(())
//! ```

mod error;
mod place;
mod write;

use toml_edit::Document;

use crate::{BUILT_IN, Field, Figures, Harp, HarpKind, Material, OpenTuning, StringName};

pub use error::HarpFileError;
use place::Place;

/// Keys at the top of a harp file.
const KEYS: [&str; 11] = [
    "name",
    "kind",
    "lowest",
    "highest",
    "strings",
    "open",
    "discless",
    "no_lever",
    "pin_radius_mm",
    "materials",
    "string",
];

impl Harp {
    /// Reads a harp file. Strings may be named in either counting (`G3` or `4G`).
    ///
    /// Errors name the line, the string, the field and what to do.
    pub fn from_toml(text: &str) -> Result<Self, HarpFileError> {
        let document = Document::parse(text).map_err(|error| HarpFileError::Syntax {
            line: error.span().map_or(1, |span| place::line(text, span.start)),
            message: error.message().to_owned(),
        })?;
        let top = Place::new(text, document.as_table(), "the harp".to_owned(), 1);
        top.check_keys(|key| KEYS.contains(&key), &KEYS.join(", "))?;
        let mut harp = read_compass(&top)?;
        harp = read_mechanism(&top, harp)?;
        if let Some(name) = top.text("name")? {
            harp = harp.with_name(name);
        }
        if let Some(mm) = top.figure(Field::PinRadiusMm)? {
            harp = harp.with_pin_radius_mm(mm);
        }
        harp = read_materials(&top, harp)?;
        read_strings(&top, harp)
    }
}

/// Kind and strings: a harp known by name, a compass, or a list of strings.
fn read_compass(top: &Place<'_>) -> Result<Harp, HarpFileError> {
    let word = top.text("kind")?.ok_or(HarpFileError::NoKind)?;
    let kind = [HarpKind::Pedal, HarpKind::Lever, HarpKind::Free]
        .into_iter()
        .find(|kind| kind.as_str() == word);
    let (lowest, highest) = (top.string_name("lowest")?, top.string_name("highest")?);
    let strings = top.string_names("strings")?;
    let compass = match (kind, lowest, highest, strings) {
        (Some(kind), Some(lowest), Some(highest), None) => Harp::between(kind, lowest, highest),
        (Some(kind), None, None, Some(names)) => Harp::of_strings(kind, names),
        (Some(_), ..) => {
            return Err(HarpFileError::NoCompass {
                line: top.line_of("kind"),
            });
        }
        (None, None, None, None) => match Harp::named(word) {
            Err(_) => {
                let names = BUILT_IN.map(|built_in| built_in.name).join(", ");
                let known = format!("pedal, lever, free, or a whole harp: {names}");
                return Err(top.unknown_word("kind", word, &known));
            }
            found => found,
        },
        (None, ..) => return Err(top.unknown_word("kind", word, "pedal, lever, free")),
    };
    let key = if top.has("strings") {
        "strings"
    } else {
        "kind"
    };
    compass.map_err(|source| HarpFileError::Harp {
        line: top.line_of(key),
        source,
    })
}

fn read_mechanism(top: &Place<'_>, mut harp: Harp) -> Result<Harp, HarpFileError> {
    if let Some(word) = top.text("open")? {
        let open = OpenTuning::from_name(word)
            .ok_or_else(|| top.unknown_word("open", word, "Cb, Eb, C, F, Ab"))?;
        harp = harp.with_open(open).map_err(|source| HarpFileError::Harp {
            line: top.line_of("open"),
            source,
        })?;
    }
    let key = match harp.kind() {
        HarpKind::Pedal => "discless",
        HarpKind::Lever | HarpKind::Free => "no_lever",
    };
    let other = if key == "discless" {
        "no_lever"
    } else {
        "discless"
    };
    if top.has(other) || (harp.kind() == HarpKind::Free && top.has(key)) {
        let key = if top.has(other) { other } else { key };
        return Err(HarpFileError::NotOfThisKind {
            line: top.line_of(key),
            key,
            kind: harp.kind(),
        });
    }
    match top.string_names(key)? {
        None => Ok(harp),
        Some(names) => harp
            .with_unmoved(&names)
            .map_err(|source| HarpFileError::Harp {
                line: top.line_of(key),
                source,
            }),
    }
}

fn read_materials(top: &Place<'_>, mut harp: Harp) -> Result<Harp, HarpFileError> {
    let Some(materials) = top.table("materials")? else {
        return Ok(harp);
    };
    for (word, _) in materials.table.iter() {
        let material = Material::from_name(word)
            .ok_or_else(|| materials.unknown_word(word, word, &known_materials()))?;
        let Some(mut place) = materials.table(word)? else {
            continue;
        };
        place.what = format!("material {word}");
        let fields: Vec<_> = Field::all()
            .filter(|field| field.is_of_material())
            .collect();
        let figures = read_figures(&place, &fields, &[])?;
        harp = harp.with_material(material, figures);
    }
    Ok(harp)
}

fn read_strings(top: &Place<'_>, mut harp: Harp) -> Result<Harp, HarpFileError> {
    let mut seen: Vec<StringName> = Vec::new();
    for mut place in top.tables("string")? {
        let named = place.string_name("name")?;
        let name = named.ok_or(HarpFileError::NoStringName { line: place.line })?;
        place.what = format!("string {name}");
        let wrong = |source| HarpFileError::Harp {
            line: place.line_of("name"),
            source,
        };
        if seen.contains(&name) {
            return Err(wrong(crate::HarpError::Duplicate { string: name }));
        }
        seen.push(name);
        let fields: Vec<_> = Field::all().collect();
        let mut figures = read_figures(&place, &fields, &["name", "material"])?;
        if let Some(word) = place.text("material")? {
            let material = Material::from_name(word)
                .ok_or_else(|| place.unknown_word("material", word, &known_materials()))?;
            figures.material = Some(material);
        }
        check_together(&place, &figures)?;
        harp = harp.with_figures(name, figures).map_err(wrong)?;
    }
    Ok(harp)
}

fn read_figures(
    place: &Place<'_>,
    fields: &[Field],
    words: &[&str],
) -> Result<Figures, HarpFileError> {
    let names = fields.iter().map(|field| field.name());
    let known: Vec<_> = words.iter().copied().chain(names).collect();
    place.check_keys(|key| known.contains(&key), &known.join(", "))?;
    let mut figures = Figures::default();
    for &field in fields {
        if let Some(value) = place.figure(field)? {
            figures = figures.with(field, value);
        }
    }
    Ok(figures)
}

/// Figures that are each believed and cannot both be true.
fn check_together(place: &Place<'_>, figures: &Figures) -> Result<(), HarpFileError> {
    let get = |field| figures.get(field);
    let not_less = |small, large| matches!((get(small), get(large)), (Some(a), Some(b)) if a >= b);
    let plain = figures
        .material
        .is_some_and(|material| !material.is_wound());
    let (key, reason) = if not_less(Field::CoreMm, Field::GaugeMm) {
        (
            "core_mm",
            "the core must be thinner than the whole string, gauge_mm",
        )
    } else if not_less(Field::LengthMm, Field::TotalLengthMm) {
        (
            "total_length_mm",
            "the whole string must be longer than its speaking length, length_mm",
        )
    } else if plain && get(Field::CoreMm).is_some() {
        (
            "core_mm",
            "a plain string has no core: make its material wound, or leave core_mm out",
        )
    } else {
        return Ok(());
    };
    Err(HarpFileError::Contradiction {
        line: place.line_of(key),
        place: place.what.clone(),
        key,
        reason,
    })
}

fn known_materials() -> String {
    Material::ALL.map(Material::as_str).join(", ")
}
