//! In which form a file is sent: as it is, or packed by one of two codings, as the browser likes it
//! (RFC 9110, 12.5.3).

/// How the bytes of a file are packed.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Coding {
    /// Brotli, RFC 7932.
    Brotli,
    /// gzip, RFC 1952.
    Gzip,
    /// As it is.
    Identity,
}

impl Coding {
    /// Its name in `Content-Encoding` and `Accept-Encoding`.
    pub fn name(self) -> &'static str {
        match self {
            Coding::Brotli => "br",
            Coding::Gzip => "gzip",
            Coding::Identity => "identity",
        }
    }

    /// Whether a name means it; `x-gzip` is gzip (RFC 9110, 8.4.1.3).
    fn is_called(self, name: &str) -> bool {
        name.eq_ignore_ascii_case(self.name())
            || (self == Coding::Gzip && name.eq_ignore_ascii_case("x-gzip"))
    }
}

/// Of the forms that are there, with their sizes in bytes, the one that the browser likes best; of
/// equally liked ones the smallest. `accept` are the lines of `Accept-Encoding`. What it does not
/// name it gets only where nothing else is left, and then as it is.
pub fn choose(accept: &[&str], there: impl IntoIterator<Item = (Coding, usize)>) -> Coding {
    let liked = liked(accept);
    there
        .into_iter()
        .map(|(coding, bytes)| (weight(coding, &liked), bytes, coding))
        .filter(|(weight, ..)| *weight > 0)
        .max_by_key(|(weight, bytes, _)| (*weight, std::cmp::Reverse(*bytes)))
        .map_or(Coding::Identity, |(.., coding)| coding)
}

/// How much a coding is liked, in thousandths: as it is named, or as `*` says of all others.
fn weight(coding: Coding, liked: &[(&str, u16)]) -> u16 {
    let named = |of: &dyn Fn(&str) -> bool| liked.iter().find(|(name, _)| of(name));
    named(&|name| coding.is_called(name))
        .or_else(|| named(&|name| name == "*"))
        .map_or(0, |(_, weight)| *weight)
}

/// The codings named, each with its weight. A weight that is none leaves its coding out.
fn liked<'a>(accept: &[&'a str]) -> Vec<(&'a str, u16)> {
    accept
        .iter()
        .flat_map(|line| line.split(','))
        .filter_map(|member| {
            let (name, weight) = member.split_once(';').unwrap_or((member, "q=1"));
            let weight = weight.trim();
            let weight = weight.strip_prefix("q=").or(weight.strip_prefix("Q="))?;
            Some((name.trim(), thousandths(weight)?))
        })
        .collect()
}

/// A weight of RFC 9110, 12.4.2: from 0 to 1 with at most three digits after the point.
fn thousandths(weight: &str) -> Option<u16> {
    let (whole, part) = weight.split_once('.').unwrap_or((weight, ""));
    if part.len() > 3 || !part.bytes().all(|digit| digit.is_ascii_digit()) {
        return None;
    }
    let part: u16 = format!("{part:0<3}").parse().ok()?;
    match whole {
        "0" => Some(part),
        "1" if part == 0 => Some(1000),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Coding::{Brotli, Gzip, Identity};

    fn check(accept: &[&str], expected: Coding) {
        let there = [(Brotli, 10), (Gzip, 12), (Identity, 30)];
        assert_eq!(choose(accept, there), expected, "{accept:?}");
    }

    /// RFC 9110, 12.5.3: its examples first, then its rules.
    #[test]
    fn the_form_is_the_one_that_is_liked_best() {
        check(&["compress, gzip"], Gzip);
        check(&[""], Identity);
        check(&["*"], Brotli);
        check(&["compress;q=0.5, gzip;q=1.0"], Gzip);
        check(&["gzip;q=1.0, identity; q=0.5, *;q=0"], Gzip);

        check(&[], Identity);
        check(&["gzip, deflate, br, zstd"], Brotli);
        check(&["gzip", "br"], Brotli);
        check(&["br;q=0, gzip"], Gzip);
        check(&["br;q=0, *"], Gzip);
        check(&["br;q=0.5, gzip;q=0.501"], Gzip);
        check(&["BR ; Q=0.5"], Brotli);
        check(&["x-gzip"], Gzip);
        check(&["identity, br;q=0.9"], Identity);
        check(&["identity;q=0.1, gzip;q=0.2"], Gzip);
        check(&["deflate, zstd"], Identity);
        check(&["br;q=0, gzip;q=0"], Identity);
    }

    #[test]
    fn as_it_is_remains_where_all_is_refused() {
        check(&["identity;q=0"], Identity);
        check(&["*;q=0"], Identity);
    }

    #[test]
    fn a_weight_that_is_none_leaves_its_coding_out() {
        for weight in [
            "q=", "q=2", "q=1.001", "q=0.1234", "q=-1", "q=x", "q", "", "q=.5",
        ] {
            check(&[&format!("br;{weight}, gzip;q=0.001")], Gzip);
        }
    }

    #[test]
    fn what_is_not_there_is_not_chosen() {
        assert_eq!(choose(&["br, gzip"], [(Identity, 30)]), Identity);
        let packed_is_larger = [(Brotli, 40), (Identity, 30)];
        assert_eq!(choose(&["br, identity"], packed_is_larger), Identity);
    }
}
