//! A harp part of our own invention, as long as one likes: a waltz that goes through keys, the same every time.
//!
//! Two staves, 3/4 at 110 crotchets a minute: waltz basses in the left hand; quavers, broken chords, triplets, or a held note
//! with a grace note in the right. The key changes every 16 bars; every eighth bar has a chord from outside it, and some notes
//! their chromatic neighbour: so pedals have to move. It is valid MusicXML 4.0 and lies within the strings of a concert harp.

/// Divisions of a crotchet.
const DIVISIONS: u32 = 12;
/// Sharps (flats are negative) of each 16 bars.
const KEYS: [i32; 8] = [-3, 0, 2, -1, -4, 1, 3, -2];
/// Steps of the scale on which the chords of eight bars stand.
const CHORDS: [i32; 8] = [0, 5, 3, 4, 0, 5, 1, 4];
/// Letters by number, C first, and the order in which signatures raise them.
const LETTERS: [char; 7] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];
const RAISED: [i32; 7] = [3, 0, 4, 1, 5, 2, 6];
/// Bars of a section with repeats: all but the last are played at every pass.
const SECTION: usize = 20;

/// The score as MusicXML text: so many written bars (at least 1), with a tempo and rehearsal letters. With `repeats`, every
/// whole 20 bars are a section that is played twice, its last two bars a first and a second ending, so that 1,000 written bars
/// are 1,900 played ones.
pub fn made_score(bars: usize, repeats: bool) -> String {
    let mut player = Player { state: 1 };
    let mut text = String::from(HEAD);
    for bar in 0..bars.max(1) {
        text.push_str(&format!("<measure number=\"{}\">", bar + 1));
        let place = Place::of(bar, bars, repeats);
        text.push_str(&place.before());
        text.push_str(&attributes(bar));
        text.push_str(&right_hand(bar, &mut player));
        text.push_str("<backup><duration>36</duration></backup>");
        text.push_str(&left_hand(bar));
        text.push_str(place.after());
        text.push_str("</measure>\n");
    }
    text.push_str("</part></score-partwise>\n");
    text
}

const HEAD: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>
<score-partwise version=\"4.0\">
<work><work-title>Waltz through the keys (made up for measuring)</work-title></work>
<part-list><score-part id=\"P1\"><part-name>Harp</part-name></score-part></part-list>
<part id=\"P1\">
";

/// What a bar is in its section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    First,
    FirstEnding,
    SecondEnding,
    Plain,
}

impl Place {
    fn of(bar: usize, bars: usize, repeats: bool) -> Self {
        let whole = bar / SECTION < bars / SECTION;
        match bar % SECTION {
            0 if repeats && whole => Self::First,
            18 if repeats && whole => Self::FirstEnding,
            19 if repeats && whole => Self::SecondEnding,
            _ => Self::Plain,
        }
    }

    fn before(self) -> String {
        let ending = |number: u8| {
            format!(
                "<barline location=\"left\"><ending number=\"{number}\" type=\"start\"/></barline>"
            )
        };
        match self {
            Self::First => {
                "<barline location=\"left\"><repeat direction=\"forward\"/></barline>".to_owned()
            }
            Self::FirstEnding => ending(1),
            Self::SecondEnding => ending(2),
            Self::Plain => String::new(),
        }
    }

    fn after(self) -> &'static str {
        match self {
            Self::FirstEnding => {
                "<barline location=\"right\"><ending number=\"1\" type=\"stop\"/><repeat direction=\"backward\"/></barline>"
            }
            Self::SecondEnding => {
                "<barline location=\"right\"><ending number=\"2\" type=\"discontinue\"/></barline>"
            }
            Self::First | Self::Plain => "",
        }
    }
}

fn attributes(bar: usize) -> String {
    let mut text = String::new();
    if bar.is_multiple_of(16) {
        let fifths = key(bar);
        let key = format!("<key><fifths>{fifths}</fifths></key>");
        text = if bar == 0 {
            format!(
                "<attributes><divisions>{DIVISIONS}</divisions>{key}<time><beats>3</beats><beat-type>4</beat-type></time><staves>2</staves><clef number=\"1\"><sign>G</sign><line>2</line></clef><clef number=\"2\"><sign>F</sign><line>4</line></clef></attributes><direction placement=\"above\"><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>110</per-minute></metronome></direction-type><staff>1</staff><sound tempo=\"110\"/></direction>"
            )
        } else {
            format!("<attributes>{key}</attributes>")
        };
        let letter = bar / 16 + 1;
        text.push_str(&format!(
            "<direction placement=\"above\"><direction-type><rehearsal>{letter}</rehearsal></direction-type><staff>1</staff></direction>"
        ));
    }
    text
}

fn key(bar: usize) -> i32 {
    KEYS[bar / 16 % KEYS.len()]
}

/// A note of a bar's scale by its height: letters counted up from C0, the key's own step first.
fn scale(bar: usize, step: i32, octave: i32) -> i32 {
    7 * octave + (4 * key(bar)).rem_euclid(7) + step
}

/// A note of a bar's chord: root, third, fifth, and on.
fn chord(bar: usize, nth: i32, octave: i32) -> i32 {
    let above = nth.div_euclid(3) * 7 + nth.rem_euclid(3) * 2;
    scale(bar, CHORDS[bar % 8] + above, octave)
}

/// The alteration of a letter in a bar: the key's, but for the raised third of the seventh chord of eight.
fn alter(bar: usize, height: i32) -> i32 {
    let key = key(bar);
    let letter = height.rem_euclid(7);
    let nth = RAISED
        .iter()
        .position(|&raised| raised == letter)
        .map_or(0, |nth| nth as i32);
    let signed = i32::from(key > nth) - i32::from(-key > 6 - nth);
    let third = bar % 8 == 6 && (height - chord(bar, 1, 0)).rem_euclid(7) == 0;
    signed + i32::from(third && signed < 1)
}

/// One note as it is written.
#[derive(Clone, Copy, Debug)]
struct Written {
    height: i32,
    alter: i32,
    divisions: u32,
    kind: &'static str,
    left: bool,
    chord: bool,
    grace: bool,
    triplet: bool,
    broken: bool,
}

impl Written {
    fn new(bar: usize, height: i32, divisions: u32, kind: &'static str) -> Self {
        Self {
            height,
            alter: alter(bar, height),
            divisions,
            kind,
            left: false,
            chord: false,
            grace: false,
            triplet: false,
            broken: false,
        }
    }

    /// In the order of the schema.
    fn text(self) -> String {
        let when = |yes: bool, text: &str| if yes { text.to_owned() } else { String::new() };
        let letter = LETTERS[self.height.rem_euclid(7) as usize];
        let alter = when(self.alter != 0, &format!("<alter>{}</alter>", self.alter));
        let staff = 1 + u8::from(self.left);
        [
            "<note>",
            &when(self.grace, "<grace slash=\"yes\"/>"),
            &when(self.chord, "<chord/>"),
            &format!("<pitch><step>{letter}</step>{alter}<octave>{}</octave></pitch>", self.height.div_euclid(7)),
            &when(!self.grace, &format!("<duration>{}</duration>", self.divisions)),
            &format!("<voice>{staff}</voice><type>{}</type>", self.kind),
            &when(self.divisions == 36, "<dot/>"),
            &when(
                self.triplet,
                "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>",
            ),
            &format!("<staff>{staff}</staff>"),
            &when(self.broken, "<notations><arpeggiate/></notations>"),
            "</note>",
        ]
        .concat()
    }
}

fn right_hand(bar: usize, player: &mut Player) -> String {
    let turn = player.roll(4);
    match turn {
        0 => quavers(bar, player),
        1 => broken_chords(bar),
        2 => triplets(bar, player),
        _ => held(bar),
    }
}

/// Six quavers up the chord and down; one may be its own lower neighbour, a semitone below.
fn quavers(bar: usize, player: &mut Player) -> String {
    let neighbour = player.roll(12);
    let notes = [0, 1, 2, 3, 2, 1]
        .into_iter()
        .enumerate()
        .map(|(place, nth)| {
            let mut note = Written::new(bar, chord(bar, nth, 4), 6, "eighth");
            if place as u64 == neighbour {
                let down = Written::new(bar, note.height - 1, 6, "eighth");
                // a semitone below, where that letter has one to give
                let sharper = i32::from(!matches!(note.height.rem_euclid(7), 0 | 3));
                note = Written {
                    alter: (note.alter - 1 + sharper).clamp(-1, 1),
                    ..down
                };
            }
            note.text()
        });
    notes.collect()
}

fn broken_chords(bar: usize) -> String {
    let one = |place: i32| {
        (0..4).map(move |nth| {
            Written {
                chord: nth > 0,
                broken: true,
                ..Written::new(bar, chord(bar, nth + place, 4), 12, "quarter")
            }
            .text()
        })
    };
    (0..3).flat_map(one).collect()
}

/// Nine notes of the scale in triplets.
fn triplets(bar: usize, player: &mut Player) -> String {
    let from = player.roll(4) as i32;
    let notes = (0..9).map(|nth| {
        Written {
            triplet: true,
            ..Written::new(bar, scale(bar, from + nth, 4), 4, "eighth")
        }
        .text()
    });
    notes.collect()
}

fn held(bar: usize) -> String {
    let main = Written::new(bar, chord(bar, 2, 5), 36, "half");
    let grace = Written {
        grace: true,
        ..Written::new(bar, main.height + 1, 0, "eighth")
    };
    grace.text() + &main.text()
}

/// A bass note and two chords.
fn left_hand(bar: usize) -> String {
    let low = Written {
        left: true,
        ..Written::new(bar, chord(bar, 0, 2), 12, "quarter")
    };
    let chords = (0..2).flat_map(|_| {
        (0..3).map(|nth| {
            Written {
                chord: nth > 0,
                ..Written {
                    left: true,
                    ..Written::new(bar, chord(bar, nth, 3), 12, "quarter")
                }
            }
            .text()
        })
    });
    low.text() + &chords.collect::<String>()
}

/// Dice that fall the same way every time (Knuth's multiplier and increment for 64 bits, MMIX).
struct Player {
    state: u64,
}

impl Player {
    fn roll(&mut self, sides: u64) -> u64 {
        self.state = self
            .state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.state >> 33) % sides
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use score::{Options, read};

    #[test]
    fn a_made_score_is_read_without_a_doubt_and_is_the_same_every_time() {
        let text = made_score(300, false);
        assert_eq!(text, made_score(300, false));
        let piece = read(text.as_bytes(), &Options::default()).unwrap();
        assert_eq!(piece.diagnostics, Vec::new());
        assert_eq!((piece.measures.len(), piece.order.len()), (300, 300));
        assert!(piece.parts[0].is_harp && piece.parts[0].staves == 2);
        assert!(piece.notes.len() > 3000, "{}", piece.notes.len());
        // every string of a harp from C1 to G7, and one alteration at most
        for note in &piece.notes {
            assert!((24..=103).contains(&note.string.midi()), "{}", note.string);
            assert!((-1..=1).contains(&note.string.alter), "{}", note.string);
        }
        let quarters = piece.end().to_f64();
        assert!((quarters - 900.0).abs() < 1e-9, "{quarters}");
        assert!((piece.tempos.at(0, score::Fraction::ZERO) - 110.0).abs() < 1e-9);
    }

    #[test]
    fn repeats_are_played_with_both_endings() {
        let text = made_score(1000, true);
        let piece = read(text.as_bytes(), &Options::default()).unwrap();
        assert_eq!(piece.diagnostics, Vec::new());
        assert_eq!((piece.measures.len(), piece.order.len()), (1000, 1900));
        let first: Vec<usize> = piece.order[16..40].iter().map(|p| p.measure).collect();
        assert_eq!(first[..5], [16, 17, 18, 0, 1]);
        assert_eq!(first[20..], [17, 19, 20, 21]);
    }
}
