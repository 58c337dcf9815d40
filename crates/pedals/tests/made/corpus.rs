//! The scores that the package music21 10.5.1 brings. They are in no repository of ours: `./dev
//! test` fetches the package. A missing file is a failure.
#![allow(
    dead_code,
    clippy::disallowed_methods,
    clippy::panic,
    reason = "reads the scores of a package; each test takes what it needs"
)]

use std::path::{Path, PathBuf};

use pedals::Demand;
use score::{Options, Piece, WhichPart, read};

/// Scores of many kinds, small and large.
pub(crate) const PIECES: [&str; 26] = [
    "schoenberg/opus19/movement2.mxl",
    "schoenberg/opus19/movement6.mxl",
    "webern/webern_dormi_jesu_op_16_no_2.mxl",
    "bach/bwv323.mxl",
    "bach/bwv256.mxl",
    "bach/bwv435.mxl",
    "schumann_robert/opus48no2.mxl",
    "verdi/laDonnaEMobile.mxl",
    "liliuokalani/aloha_oe.mxl",
    "johnson_j_r/lift_every_voice.mxl",
    "monteverdi/madrigal.4.9.mxl",
    "monteverdi/madrigal.3.15.mxl",
    "haydn/opus1no1/movement4.mxl",
    "handel/rinaldo/Lascia_chio_pianga.mxl",
    "beach/prayer_of_a_tired_child.musicxml",
    "schumann_clara/polonaise_op1n1.mxl",
    "schumann_clara/polonaise_op1n2.mxl",
    "schumann_clara/polonaise_op1n3.mxl",
    "schumann_clara/polonaise_op1n4.mxl",
    "bach/bwv846.mxl",
    "cpebach/h186.mxl",
    "mozart/k155/movement2.mxl",
    "mozart/k458/movement2.mxl",
    "schubert/Lindenbaum.xml",
    "joplin/maple_leaf_rag.mxl",
    "schumann_clara/opus17/movement3.xml",
];

/// What all parts of a score together ask of the harp, once through or as it is played.
pub(crate) fn demand(file: &str, repeats: bool) -> Demand {
    let piece = piece(&folder().join("corpus").join(file))
        .unwrap_or_else(|error| panic!("{file}: {error}"));
    if repeats {
        Demand::of_score(&piece, &piece.order)
    } else {
        Demand::of_score(&piece, &piece.written_order())
    }
}

/// A score, all parts together.
pub(crate) fn piece(path: &Path) -> Result<Piece, score::ScoreError> {
    let options = Options {
        part: WhichPart::All,
        ..Options::default()
    };
    let bytes = std::fs::read(path).unwrap_or_else(|error| {
        panic!(
            "{}: {error}; run ./dev test, which fetches music21",
            path.display()
        )
    });
    read(&bytes, &options)
}

/// Every MusicXML file of the corpus.
pub(crate) fn all() -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![folder().join("corpus")];
    while let Some(folder) = folders.pop() {
        let entries = std::fs::read_dir(&folder)
            .unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
        for entry in entries {
            let path = entry.unwrap_or_else(|error| panic!("{error}")).path();
            let ending = path.extension().and_then(|ending| ending.to_str());
            if path.is_dir() {
                folders.push(path);
            } else if matches!(ending, Some("mxl" | "xml" | "musicxml")) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// The folder `music21` of the unpacked package.
fn folder() -> PathBuf {
    let own = || Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/music21");
    std::env::var_os("SEVENFLATS_MUSIC21")
        .map_or_else(own, PathBuf::from)
        .join("music21")
}
