//! Two strings that sound alike, in quick alternation: both must stand, for a player cannot repeat
//! one string so fast. Common practice, no source (bisbigliando, Freund & Cutler).

use crate::asked::{check_as_written, planned, setting_at};

// Bar 1 has D natural, bar 3 alternates C♯5 and D♭5 in sixteenths: the D pedal moves once, although one
// string could sound all sixteen notes without a move.
#[test]
fn a_bisbigliando_keeps_its_two_strings() {
    for words in [&[][..], &["--fewest"], &["--no-repeats", "--fewest"]] {
        let plan = planned("homophones", words);
        check_as_written(&plan);
        assert_eq!(plan["moves"], 1, "{words:?}");
        assert_eq!(&setting_at(&plan, 3)[..2], "b#", "{words:?}");
        assert_eq!(&setting_at(&plan, 1)[..1], "n", "{words:?}");
    }
}
