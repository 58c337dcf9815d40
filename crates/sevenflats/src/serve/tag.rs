//! The tag by which a browser asks whether what it keeps is still what we have (RFC 9110, 8.8.3).

/// A strong tag: the same bytes in the same coding have the same tag, others another.
pub fn strong(bytes: &[u8], coding: &str) -> String {
    format!("\"{:032x}-{coding}\"", fnv1a(bytes))
}

/// Whether an `If-None-Match` names this tag, compared weakly as RFC 9110, 13.1.2 has it.
pub fn is_named(tag: &str, if_none_match: &[&str]) -> bool {
    if_none_match
        .iter()
        .flat_map(|line| line.split(','))
        .map(str::trim)
        .any(|named| named == "*" || named.strip_prefix("W/").unwrap_or(named) == tag)
}

/// FNV-1a in 128 bits, by Fowler, Noll and Vo, with their offset basis and prime. It tells files of
/// one page apart, and keeps out nobody: what it is taken of is our own.
fn fnv1a(bytes: &[u8]) -> u128 {
    const OFFSET_BASIS: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    const PRIME: u128 = (1 << 88) + 0x13b;
    bytes.iter().fold(OFFSET_BASIS, |hash, byte| {
        (hash ^ u128::from(*byte)).wrapping_mul(PRIME)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From the tests of `hash/fnv` in Go's standard library, from memory.
    #[test]
    fn the_hash_is_that_of_others() {
        assert_eq!(fnv1a(b""), 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d);
        assert_eq!(fnv1a(b"a"), 0xd228_cb69_6f1a_8caf_7891_2b70_4e4a_8964);
        assert_eq!(fnv1a(b"abc"), 0xa68d_622c_ec8b_5822_836d_bc79_77af_7f3b);
    }

    #[test]
    fn a_tag_is_of_the_bytes_and_of_the_coding() {
        assert_eq!(strong(b"a", "br"), strong(b"a", "br"));
        assert_ne!(strong(b"a", "br"), strong(b"b", "br"));
        assert_ne!(strong(b"a", "br"), strong(b"a", "gzip"));
    }

    /// The forms of RFC 9110, 13.1.2.
    #[test]
    fn a_tag_is_found_in_what_is_kept() {
        for kept in ["\"xyzzy\"", "W/\"xyzzy\"", "\"r2d2xxxx\", \"xyzzy\"", "*"] {
            assert!(is_named("\"xyzzy\"", &[kept]), "{kept}");
        }
        assert!(is_named("\"xyzzy\"", &["\"c3piozzzz\"", "\"xyzzy\""]));
        for kept in ["", "\"xyzz\"", "xyzzy", "\"xyzzy\"x", "W/W/\"xyzzy\""] {
            assert!(!is_named("\"xyzzy\"", &[kept]), "{kept}");
        }
    }
}
