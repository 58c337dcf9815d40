//! Prices as a file of hers: what each thing costs in a plan, commented, one number a line.

use std::path::Path;

use pedals::{LeverWeights, Weights};
use toml_edit::{DocumentMut, Item, TableLike};

/// No such file is longer than this, in bytes.
const LONGEST: u64 = 1 << 16;
/// The section of a lever harp's prices.
const LEVERS: &str = "levers";
/// The highest price that may be asked for a lever harp.
const HIGHEST_LEVER: u32 = 4_000_000;

/// Both kinds of prices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Prices {
    pub(crate) pedals: Weights,
    pub(crate) levers: LeverWeights,
}

impl Default for Prices {
    fn default() -> Self {
        Self {
            pedals: Weights::comfortable(),
            levers: pedals::LeverWishes::default().weights,
        }
    }
}

/// Name, what it is the price of, and where it is kept.
type Row<'a, T> = (&'static str, &'static str, &'a mut T);

fn pedal_rows(weights: &mut Weights) -> ([Row<'_, u64>; 2], [Row<'_, u32>; 10]) {
    let dear: [Row<'_, u64>; 2] = [
        ("lost", "a note that does not sound", &mut weights.lost),
        (
            "glissando",
            "a letter that a glissando finds in another place",
            &mut weights.glissando,
        ),
    ];
    let rest: [Row<'_, u32>; 10] = [
        (
            "respelled",
            "a note on another string than the written one",
            &mut weights.respelled,
        ),
        ("moved", "moving a pedal", &mut weights.moved),
        (
            "two_notches",
            "more, where it goes over two notches",
            &mut weights.two_notches,
        ),
        (
            "off_beat",
            "more, where it goes neither on a beat nor in a rest",
            &mut weights.off_beat,
        ),
        (
            "ringing",
            "more, where strings of its letter were struck just now",
            &mut weights.ringing,
        ),
        (
            "crossing",
            "more, where a foot crosses over",
            &mut weights.crossing,
        ),
        (
            "together",
            "more, where one foot takes two pedals at once",
            &mut weights.together,
        ),
        (
            "mark",
            "doing otherwise than a mark in the part, for each pedal",
            &mut weights.mark,
        ),
        (
            "retuned",
            "retuning a string without discs in a rest",
            &mut weights.retuned,
        ),
        (
            "passes_differ",
            "a mark that holds at some times of a repeat only",
            &mut weights.passes_differ,
        ),
    ];
    (dear, rest)
}

fn lever_rows(weights: &mut LeverWeights) -> [Row<'_, u32>; 5] {
    [
        ("lost", "a note that does not sound", &mut weights.lost),
        (
            "respelled",
            "a note on another string than the written one",
            &mut weights.respelled,
        ),
        ("flip", "a lever flipped in the piece", &mut weights.flip),
        (
            "right_hand",
            "more, where the right hand flips it",
            &mut weights.right_hand,
        ),
        (
            "before",
            "a lever that is on at the beginning",
            &mut weights.before,
        ),
    ]
}

/// The prices as a file to be filled in.
pub(crate) fn to_toml(mut prices: Prices) -> String {
    let mut text = String::from(
        "# What each thing costs in a plan: the plan with the lowest sum is taken.\n\
         # Whole numbers from 0; only their proportions matter. What is left out stays as here.\n",
    );
    let mut row = |name: &str, what: &str, value: u64| {
        text.push_str(&format!("\n# {what}\n{name} = {value}\n"));
    };
    let (dear, rest) = pedal_rows(&mut prices.pedals);
    for (name, what, value) in dear {
        row(name, what, *value);
    }
    for (name, what, value) in rest {
        row(name, what, u64::from(*value));
    }
    text.push_str(&format!("\n# on a lever harp\n[{LEVERS}]\n"));
    for (name, what, value) in lever_rows(&mut prices.levers) {
        text.push_str(&format!("\n# {what}\n{name} = {value}\n"));
    }
    text
}

/// The prices of a file; an error says what to do.
pub(crate) fn of_file(path: &Path) -> Result<Prices, String> {
    let told = |reason: std::io::Error| {
        format!("the prices cannot be read: {reason}; check the name and that you may read it")
    };
    let bytes = std::fs::metadata(path).map_err(told)?.len();
    if bytes > LONGEST {
        return Err(format!(
            "{bytes} bytes are no file of prices; one is a page of text"
        ));
    }
    let text = std::fs::read(path).map_err(told)?;
    of_toml(&String::from_utf8_lossy(&text))
}

/// The prices of a text.
pub(crate) fn of_toml(text: &str) -> Result<Prices, String> {
    let mut prices = Prices::default();
    let document: DocumentMut = text
        .parse()
        .map_err(|error: toml_edit::TomlError| error.to_string().trim_end().to_owned())?;
    for (name, item) in document.iter() {
        if name == LEVERS {
            of_levers(item, &mut prices.levers)?;
            continue;
        }
        let (dear, rest) = pedal_rows(&mut prices.pedals);
        if let Some((_, _, place)) = dear.into_iter().find(|row| row.0 == name) {
            *place = price(name, item, u64::from(Weights::HIGHEST) * 64)?;
        } else if let Some((_, _, place)) = rest.into_iter().find(|row| row.0 == name) {
            *place = narrow(price(name, item, Weights::HIGHEST.into())?);
        } else {
            return Err(unknown(name));
        }
    }
    Ok(prices)
}

fn of_levers(item: &Item, levers: &mut LeverWeights) -> Result<(), String> {
    let table = item.as_table_like().map(TableLike::iter);
    let table = table.ok_or_else(|| format!("'{LEVERS}' is a section: [{LEVERS}]"))?;
    for (name, item) in table {
        let row = lever_rows(levers).into_iter().find(|row| row.0 == name);
        let (_, _, place) = row.ok_or_else(|| unknown(name))?;
        *place = narrow(price(name, item, HIGHEST_LEVER.into())?);
    }
    Ok(())
}

fn narrow(price: u64) -> u32 {
    u32::try_from(price).unwrap_or(Weights::HIGHEST)
}

fn price(name: &str, item: &Item, highest: u64) -> Result<u64, String> {
    let price = item
        .as_integer()
        .and_then(|price| u64::try_from(price).ok());
    let price = price.filter(|&price| price <= highest);
    price.ok_or_else(|| format!("'{name}' must be a whole number from 0 to {highest}"))
}

fn unknown(name: &str) -> String {
    format!("there is no price called '{name}'; `sevenflats plan --toml` prints all of them")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_that_is_printed_is_read_again() {
        let prices = Prices::default();
        assert_eq!(of_toml(&to_toml(prices)), Ok(prices));
        let mine = of_toml("moved = 7\n[levers]\nflip = 9\n").unwrap();
        assert_eq!((mine.pedals.moved, mine.levers.flip), (7, 9));
        assert_eq!(mine.pedals.lost, prices.pedals.lost);
    }

    #[test]
    fn what_is_wrong_in_it_is_said() {
        let check = |text: &str, message: &str| {
            let error = of_toml(text).unwrap_err();
            assert!(error.contains(message), "{error}");
        };
        check("move = 3", "no price called 'move'");
        check(
            "moved = -3",
            "'moved' must be a whole number from 0 to 4000000",
        );
        check("moved = 2.5", "'moved' must be a whole number");
        check("moved = ", "line 1");
        check("levers = 3", "[levers]");
        check("[levers]\nfoot = 1", "no price called 'foot'");
    }
}
