//! A regulation check in print: every figure, nothing over anything else, rings where a step is out.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case should stop"
)]

use std::collections::BTreeMap;

use harp::{Harp, Mechanism};
use pitch::{Alteration, ReferencePitch, Tongue};
use sheet::{CheckSheet, Item, Page, Paper, Print, Style, check_pages};
use tuning::regulation::{Bounds, Pluck, regulated};

/// An invented check of a whole harp: the sharp of E5 is 42.5 cents out, the naturals of all F are 9 short; D5 is new.
fn check(with_before: bool) -> CheckSheet {
    let harp = Harp::named("pedal47").unwrap();
    let mut plucks = Vec::new();
    let stands = [
        Alteration::Flat,
        Alteration::Natural,
        Alteration::Sharp,
        Alteration::Flat,
    ];
    for string in harp.strings() {
        if string.mechanism == Mechanism::Nothing {
            continue;
        }
        for stands in stands {
            let name = string.name.to_string();
            let off_cents = match (name.as_str(), stands) {
                ("E5", Alteration::Sharp) => 42.5,
                (f, Alteration::Natural | Alteration::Sharp) if f.starts_with('F') => -9.0,
                _ => 0.0,
            };
            plucks.push(Pluck {
                string: string.name,
                stands,
                off_cents,
                u95_cents: 0.8,
            });
        }
    }
    let is_new = |string: harp::StringName| (string.to_string() == "D5").then_some(3);
    let strings = regulated(&harp, &plucks, &Bounds::default(), is_new);
    let before = strings.iter().map(|one| (one.string, [Some(-12.25), None]));
    CheckSheet {
        harp: "An invented harp".to_owned(),
        reference: ReferencePitch::new(442.0).unwrap(),
        before: if with_before {
            before.collect()
        } else {
            BTreeMap::new()
        },
        strings,
    }
}

fn texts(pages: &[Page]) -> Vec<&str> {
    let items = pages.iter().flat_map(|page| &page.items);
    items
        .filter_map(|item| match item {
            Item::Text { text, .. } => Some(text.as_str()),
            _ => None,
        })
        .collect()
}

fn rings(pages: &[Page]) -> usize {
    let items = pages.iter().flat_map(|page| &page.items);
    items
        .filter(|item| matches!(item, Item::Ring { .. }))
        .count()
}

/// No text runs over the next in its line, nor out of the margins.
#[track_caller]
fn check_clear(pages: &[Page]) {
    for page in pages {
        let (width, height) = page.paper.size_pt();
        let mut spans: Vec<(f64, f64, f64, &str)> = Vec::new();
        for item in &page.items {
            if let Item::Text {
                x,
                y,
                size,
                face,
                text,
            } = item
            {
                spans.push((*y, *x, x + face.width(text, *size), text));
            }
        }
        spans.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        for (y, from, to, text) in &spans {
            assert!(
                *from >= 40.0 && *to <= width - 40.0 && *y <= height - 36.0,
                "'{text}'"
            );
        }
        for pair in spans.windows(2) {
            let one_line = (pair[0].0 - pair[1].0).abs() < 1e-6;
            assert!(
                !one_line || pair[0].2 < pair[1].1,
                "'{}' over '{}'",
                pair[0].3,
                pair[1].3
            );
        }
    }
}

#[test]
fn every_string_and_every_error_is_printed_in_every_style() {
    for with_before in [false, true] {
        let check = check(with_before);
        for paper in [Paper::A4, Paper::Letter] {
            for print in [Print::Usual, Print::Large] {
                for (tongue, naming) in Tongue::ALL
                    .into_iter()
                    .zip(["english", "german", "solfege"])
                {
                    let style = Style {
                        paper,
                        print,
                        tongue,
                        naming: naming.parse().unwrap(),
                        ..Style::default()
                    };
                    let pages = check_pages(&check, &style);
                    check_clear(&pages);
                    let texts = texts(&pages);
                    for one in &check.strings {
                        assert!(texts.contains(&style.naming.string(one.string).as_str()));
                    }
                    assert!(texts.contains(&tongue.signed(42.5).as_str()));
                    let earlier = tongue.signed(-12.25);
                    let count = texts.iter().filter(|text| **text == earlier).count();
                    assert_eq!(count, if with_before { 44 } else { 0 });
                }
            }
        }
    }
}

#[test]
fn what_is_out_is_ringed_and_told_and_what_is_new_is_not() {
    let pages = check_pages(&check(false), &Style::default());
    // seven F, and the sharp of E5
    assert_eq!(rings(&pages), 8);
    let all = texts(&pages).join(" ");
    assert_eq!(all.matches("the whole letter, its pedal").count(), 7);
    assert_eq!(all.matches("this disc").count(), 1);
    assert!(all.contains("new: shown, not judged"));
    assert!(all.contains("your technician"));
}

#[test]
fn a_harp_in_order_is_told_so() {
    let mut check = check(false);
    check.strings.retain(|one| one.string.to_string() == "G4");
    let pages = check_pages(&check, &Style::default());
    assert_eq!((rings(&pages), pages.len()), (0, 1));
    assert!(texts(&pages).contains(&"No step is out."));
}
