//! What is to be known of a sound as a whole: its form before it is heard, its samples after.

use tuning::WarningKind;

use super::Sound;

/// Below this sampling rate, in hertz, the top strings keep only a partial or two.
const LOW_RATE_HZ: u32 = 22_050;

/// Something to know about a sound.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// Where, in seconds from the start.
    pub at_s: f64,
    /// What.
    pub warning: &'static str,
    /// The figures, and what to do.
    pub detail: String,
}

/// Before it is heard: channels, sampling rate.
pub fn of_form(sound: &Sound) -> Vec<Note> {
    let mut notes = Vec::new();
    let mut note = |warning, detail| {
        notes.push(Note {
            at_s: 0.0,
            warning,
            detail,
        });
    };
    if sound.channels() > 1 {
        let detail = format!("{} channels, heard as their average", sound.channels());
        note("channels mixed", detail);
    }
    if sound.rate_hz() < LOW_RATE_HZ {
        let (rate, top) = (sound.rate_hz(), sound.rate_hz() / 2);
        let detail = format!(
            "sampled at {rate} Hz, nothing above {top} Hz is in it: the top strings are less sure; record at 48000 Hz"
        );
        note("low sampling rate", detail);
    }
    notes
}

/// After it was heard: cut off at its limit (unless that was told), or damaged.
pub fn of_samples(sound: &Sound, clipping_was_told: bool) -> Vec<Note> {
    let mut notes = Vec::new();
    if let Some((times, at_s)) = sound.loudness().cut_off().filter(|_| !clipping_was_told) {
        notes.push(Note {
            at_s,
            warning: WarningKind::Clipped.as_str(),
            detail: format!("cut off at its limit {times} times: record it more quietly"),
        });
    }
    if let Some((samples, at_s)) = sound.loudness().damaged() {
        notes.push(Note {
            at_s,
            warning: "damaged samples",
            detail: format!("{samples} samples hold no number, and were heard as silence"),
        });
    }
    notes
}

/// What may help where nothing was heard.
pub fn advice(sound: &Sound) -> &'static str {
    if sound.loudness().is_silent() {
        "it is silent from beginning to end: was the right microphone chosen, and was it on?"
    } else if sound.loudness().cancels() {
        "its channels take each other away: save one of them alone"
    } else {
        "pluck nearer to the microphone, and let each string ring"
    }
}
