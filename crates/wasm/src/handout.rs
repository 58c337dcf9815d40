//! A student's handout for the page: the sheet's own pages, each as SVG and as plain text.

use harp::Naming;
use pitch::{ReferencePitch, Tongue};
use serde::{Deserialize, Serialize};
use sheet::{FontsIn, Handout, Item, Page, Paper, Style, handout_pages, svg};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use crate::choice::OrderChoice;
use crate::harp_choice::{ChoiceError, HarpChoice};

/// What is chosen for one student's handout.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct HandoutChoice {
    /// The harp that she has at home.
    pub harp: HarpChoice,
    /// The A4 to which she tunes, Hz, 380 to 480.
    pub a4_hz: f64,
    /// The order in which she tunes.
    pub order: OrderChoice,
    /// Her name; empty where none is to stand there.
    pub student: String,
    /// The sheet's language, whatever the page's is: `en`, `de`, `fr`; note names follow it.
    pub language: String,
    /// The paper.
    pub paper: PaperChoice,
}

/// A sheet of paper, upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum PaperChoice {
    /// 210 × 297 mm.
    A4,
    /// 8½ × 11 inches.
    Letter,
}

/// A page of the handout.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct HandoutPage {
    /// As it is printed, its letters inside.
    pub svg: String,
    /// Its texts in their order, for whoever cannot see it.
    pub texts: Vec<String>,
}

/// The handout's pages, as `sevenflats handout` prints them.
///
/// # Errors
/// Where the harp or the reference pitch cannot be.
#[wasm_bindgen]
pub fn handout(choice: Ts<HandoutChoice>) -> Result<Vec<Ts<HandoutPage>>, JsError> {
    let pages = pages(&choice.to_rust()?)?.into_iter();
    let shown = pages.map(|page| HandoutPage {
        svg: svg(&page, FontsIn::ThePage),
        texts: texts(&page),
    });
    shown.map(|page| Ok(page.into_ts()?)).collect()
}

fn pages(choice: &HandoutChoice) -> Result<Vec<Page>, ChoiceError> {
    let harp = choice.harp.harp()?;
    let reference = ReferencePitch::new(choice.a4_hz)?;
    // what is chosen on the page has pedals or levers
    let Some(mut handout) = Handout::of(&harp, reference) else {
        return Ok(Vec::new());
    };
    handout.student = choice.student.trim().to_owned();
    handout.order = choice.order.order();
    let tongue = Tongue::from_code(&choice.language).unwrap_or_default();
    let style = Style {
        paper: match choice.paper {
            PaperChoice::A4 => Paper::A4,
            PaperChoice::Letter => Paper::Letter,
        },
        naming: Naming {
            language: tongue.notes(),
            ..Naming::default()
        },
        tongue,
        ..Style::default()
    };
    Ok(handout_pages(&handout, &style))
}

fn texts(page: &Page) -> Vec<String> {
    let texts = page.items.iter().filter_map(|item| match item {
        Item::Text { text, .. } => Some(text.trim()),
        _ => None,
    });
    let said = texts.filter(|text| !text.is_empty());
    said.map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harp_choice::Kind;

    fn choice(language: &str) -> HandoutChoice {
        HandoutChoice {
            harp: HarpChoice {
                kind: Kind::Lever,
                lowest: "C2".to_owned(),
                highest: "A6".to_owned(),
                open: Some("Eb".to_owned()),
                unmoved: Vec::new(),
            },
            a4_hz: 440.0,
            order: OrderChoice::FromMiddle,
            student: " Perpetua Quill ".to_owned(),
            language: language.to_owned(),
            paper: PaperChoice::A4,
        }
    }

    // 34 strings from C2 to A6: the compass that `crates/harp` has as lever34. German names B flat B, and B natural H:
    // common practice, no source.
    #[test]
    fn a_lever_harps_handout_has_its_strings_by_their_german_names() {
        let pages = pages(&choice("de")).unwrap();
        assert!((1..=2).contains(&pages.len()), "{}", pages.len());
        let said = texts(&pages[0]);
        assert!(
            said.iter().any(|text| text.contains("34 Saiten")),
            "{said:?}"
        );
        assert!(said.iter().any(|text| text.contains("Perpetua Quill")));
        // the B strings are called H, and sound B
        for name in ["4H", "B"] {
            assert!(said.iter().any(|text| text == name), "{name}: {said:?}");
        }
        let english = texts(&self::pages(&choice("en")).unwrap()[0]);
        assert!(!english.iter().any(|text| text == "4H"));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let mut wrong = choice("de");
        wrong.a4_hz = 1_000.0;
        assert!(matches!(pages(&wrong), Err(ChoiceError::Reference(_))));
        wrong = choice("de");
        wrong.harp.open = Some("X".to_owned());
        assert!(matches!(pages(&wrong), Err(ChoiceError::Open(_))));
    }
}
