//! What lies in the drawer, and when the technician came, as far as it was written.

use diary::{Diary, Entry, Known, Moment, Spares, Visit};
use harp::Material;

use crate::samples::{append, at, name};

fn spares(string: &str, bought: Option<&str>, change: i64) -> Entry {
    Entry::Spares(Spares {
        harp: Some("big".to_owned()),
        string: Some(name(string)),
        material: Some(Material::Gut),
        gauge_mm: None,
        bought: bought.map(|day| day.parse().unwrap()),
        change,
    })
}

fn written(entries: &[Entry]) -> Known {
    let mut diary = Diary::default();
    for (minute, entry) in (1..).zip(entries) {
        append(&mut diary, "phone", minute, entry);
    }
    diary.known()
}

/// Strings, the day they were bought, and how many there are.
fn drawer(entries: &[Entry]) -> Vec<(String, String, u32)> {
    let known = written(entries);
    let lots = known.spares_of("big").map(|lot| {
        let day = lot.bought.map_or(String::new(), |when| when.to_string());
        let string = lot
            .string
            .map_or(String::new(), |string| string.to_string());
        (string, day.chars().take(10).collect(), lot.count)
    });
    lots.collect()
}

fn lot(string: &str, day: &str, count: u32) -> (String, String, u32) {
    (string.to_owned(), day.to_owned(), count)
}

#[test]
fn spares_are_the_sum_of_all_that_was_written() {
    let bought = spares("E4", Some("2026-10-02"), 3);
    let put_on = spares("E4", Some("2026-10-02"), -1);
    let two = [lot("E4", "2026-10-02", 2)];
    assert_eq!(drawer(&[bought.clone(), put_on.clone()]), two);
    assert_eq!(drawer(&[put_on, bought]), two, "whichever came first");
}

#[test]
fn what_was_taken_out_without_a_day_was_the_oldest() {
    let two = [
        spares("E4", Some("2026-10-02"), 2),
        spares("E4", Some("2024-01-09"), 1),
        spares("F4", Some("2020-01-01"), 1),
        spares("E4", None, -2),
    ];
    let left = [lot("F4", "2020-01-01", 1), lot("E4", "2026-10-02", 1)];
    assert_eq!(drawer(&two), left);
}

#[test]
fn no_more_can_be_taken_out_than_there_were() {
    let mut all = vec![spares("E4", None, 1), spares("E4", None, -5)];
    assert_eq!(drawer(&all), []);
    all.push(spares("E4", Some("2026-10-02"), i64::MIN));
    all.push(spares("E4", None, i64::MIN));
    assert_eq!(drawer(&all), []);
}

#[test]
fn spares_of_another_harp_are_not_hers() {
    let other = Spares {
        harp: Some("little".to_owned()),
        string: None,
        material: None,
        gauge_mm: Some(0.8),
        bought: None,
        change: 1,
    };
    let any = Spares {
        harp: None,
        ..other.clone()
    };
    let known = written(&[Entry::Spares(other), Entry::Spares(any)]);
    let harps: Vec<_> = known.spares_of("big").map(|lot| &lot.harp).collect();
    assert_eq!((harps, known.spares.len()), (vec![&None], 2));
}

#[test]
fn a_visit_that_was_written_later_counts_from_its_own_day() {
    let visit = |on: Option<&str>| {
        Entry::Visit(Visit {
            harp: "big".to_owned(),
            on: on.map(|day| day.parse().unwrap()),
            who: "the technician".to_owned(),
            done: "regulated".to_owned(),
            note: String::new(),
        })
    };
    let known = written(&[visit(None), visit(Some("2026-11-20"))]);
    let visits = &known.harp("big").unwrap().visits;
    let when = ["2026-11-20T00:00:00Z", "2026-11-26T18:01:00Z"];
    let when = when.map(|text| Moment::of(&at(text)));
    assert_eq!(visits.iter().map(|v| v.when).collect::<Vec<_>>(), when);
    assert_eq!(visits[0].done, "regulated");
}
