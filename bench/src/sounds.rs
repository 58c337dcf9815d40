//! The same plucks for others: what they may hear of each, as raw samples with a list.
//!
//! `sounds/<set>.f32` holds little-endian 32-bit samples, one pluck after the other, all of one length, from the pluck on;
//! `sounds/plucks.csv` lists them in that order: `set,index,take,sounding_hz`.

use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

use pluck::{RATE_HZ, Set};

use crate::perform::each_on_two_threads;
use crate::plan::{Plan, RIVAL_SPAN_MS};
use crate::trial::Place;
use crate::trouble::Trouble;

/// Plucks rendered between two writings, to bound memory.
const BATCH: usize = 200;

/// The file of one set.
pub fn path_of(folder: &Path, set: Set) -> PathBuf {
    folder.join(format!("{set}.f32"))
}

/// The samples of a pluck that others may hear.
pub fn heard_by_others(pluck: &pluck::Pluck) -> &[f32] {
    let length = (u64::from(RATE_HZ) * u64::from(RIVAL_SPAN_MS) / 1000) as usize;
    let end = (pluck.onset + length).min(pluck.samples.len());
    &pluck.samples[pluck.onset..end]
}

/// The plucks that others hear.
pub fn places(plan: &Plan) -> Vec<(Set, Place)> {
    let sets = plan.rival_sets();
    let places = sets.flat_map(|set| {
        Set::order(plan.takes()).map(move |(index, take)| (set, Place { index, take }))
    });
    places.collect()
}

/// Writes everything into a folder of its own, which is emptied first.
///
/// # Errors
/// What the disk refuses.
pub fn write(plan: &Plan, folder: &Path) -> Result<(), Trouble> {
    if folder.exists() {
        fs::remove_dir_all(folder).map_err(Trouble::at(folder))?;
    }
    fs::create_dir_all(folder).map_err(Trouble::at(folder))?;
    let list_path = folder.join("plucks.csv");
    let mut list = create(&list_path)?;
    writeln!(list, "set,index,take,sounding_hz").map_err(Trouble::at(&list_path))?;
    for set in plan.rival_sets() {
        let path = path_of(folder, set);
        let mut file = create(&path)?;
        let all: Vec<_> = Set::order(plan.takes()).collect();
        for batch in all.chunks(BATCH) {
            let plucks =
                each_on_two_threads(batch, |&(index, take)| set.pluck(index, take, plan.seed));
            for ((index, take), pluck) in batch.iter().zip(plucks) {
                let bytes = heard_by_others(&pluck).iter().flat_map(|x| x.to_le_bytes());
                file.write_all(&bytes.collect::<Vec<u8>>())
                    .map_err(Trouble::at(&path))?;
                writeln!(list, "{set},{index},{take},{}", pluck.truth.sounding_hz)
                    .map_err(Trouble::at(&list_path))?;
            }
        }
        file.flush().map_err(Trouble::at(&path))?;
    }
    list.flush().map_err(Trouble::at(&list_path))
}

fn create(path: &Path) -> Result<BufWriter<File>, Trouble> {
    File::create(path)
        .map(BufWriter::new)
        .map_err(Trouble::at(path))
}
