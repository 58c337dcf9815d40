//! Words that hold for the notes from their place on, told from others.

use crate::Hand;

/// What such words say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PassageKind {
    /// This hand plays.
    Hand(Hand),
    /// What sounds here is damped at once.
    DampedHere,
    /// All is damped at once from here on.
    DampedFrom,
    /// Nothing is damped any more.
    Ringing,
}

impl PassageKind {
    /// What words say; `None` for all others.
    pub(crate) fn of(words: &str) -> Option<Self> {
        let words = words.trim().trim_matches(['(', ')', '[', ']', ':']);
        let lower = words.to_lowercase();
        hand(&lower).map(Self::Hand).or_else(|| damping(&lower))
    }
}

fn hand(words: &str) -> Option<Hand> {
    let bare: String = words.split([' ', '.']).collect();
    let dotted = words.contains('.');
    match (words, bare.as_str()) {
        ("left hand" | "main gauche" | "mano sinistra" | "linke hand", _) | (_, "lh") => {
            Some(Hand::Left)
        }
        ("right hand" | "main droite" | "mano destra" | "rechte hand", _) | (_, "rh") => {
            Some(Hand::Right)
        }
        (_, "mg" | "ms") if dotted => Some(Hand::Left),
        (_, "md") if dotted => Some(Hand::Right),
        _ => None,
    }
}

fn damping(words: &str) -> Option<PassageKind> {
    const RINGS: [&str; 7] = [
        "l.v.",
        "l. v.",
        "laissez vibrer",
        "laisser vibrer",
        "let ring",
        "klingen lassen",
        "lasciar vibrare",
    ];
    const ORDINARY: [&str; 8] = [
        "ord",
        "ordinaire",
        "ordinario",
        "modo ordinario",
        "nat",
        "naturel",
        "sons naturels",
        "non étouffé",
    ];
    let has = |sign: &str| words.contains(sign);
    let tokens = || {
        words
            .split(|c: char| !c.is_alphanumeric())
            .filter(|t| !t.is_empty())
    };
    let is = |token: &str| tokens().any(|t| t == token);
    if RINGS.iter().any(|sign| has(sign)) {
        return Some(PassageKind::Ringing);
    }
    if ORDINARY.contains(&words.trim_end_matches('.')) {
        return Some(PassageKind::Ringing);
    }
    if has("étouff") || has("etouff") {
        let not = ["non", "pas", "sans", "sauf"].iter().any(|word| is(word));
        let damps = |ends: &[&str]| {
            tokens().any(|t| t.contains("touff") && ends.iter().any(|e| t.ends_with(e)))
        };
        return Some(if not {
            PassageKind::Ringing
        } else if damps(&["és", "es", "ez"]) {
            PassageKind::DampedFrom
        } else {
            PassageKind::DampedHere
        });
    }
    let dry = |token: &str| {
        matches!(
            token,
            "sec" | "secs" | "secco" | "sons" | "très" | "tres" | "molto"
        )
    };
    if tokens().all(dry) && tokens().any(|token| token.starts_with("sec")) {
        return Some(if is("secs") {
            PassageKind::DampedFrom
        } else {
            PassageKind::DampedHere
        });
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_that_hold_are_told_from_others() {
        let check = |words: &str, expected: Option<PassageKind>| {
            assert_eq!(PassageKind::of(words), expected, "{words}");
        };
        for left in [
            "m.g.",
            "M. G.",
            "l.h.",
            "LH",
            "(m.s.)",
            "main gauche",
            "l.H.",
        ] {
            check(left, Some(PassageKind::Hand(Hand::Left)));
        }
        for right in ["m.d.", "r.h.", "rh", "mano destra"] {
            check(right, Some(PassageKind::Hand(Hand::Right)));
        }
        for here in [
            "étouffé",
            "Étouffée",
            "etouffe",
            "étouffer",
            "sec",
            "Sec.",
            "très sec",
            "secco",
        ] {
            check(here, Some(PassageKind::DampedHere));
        }
        for from in ["étouffés", "sons étouffés", "Étouffez", "sons secs"] {
            check(from, Some(PassageKind::DampedFrom));
        }
        for ring in [
            "laissez vibrer",
            "l.v.",
            "ne pas étouffer",
            "non étouffé",
            "ord.",
            "Nat.",
        ] {
            check(ring, Some(PassageKind::Ringing));
        }
        for other in [
            "",
            "md",
            "ms",
            "mg",
            "30 sec.",
            "second",
            "sons",
            "ordre",
            "naturellement",
        ] {
            check(other, None);
        }
    }
}
