#![no_main]

// MusicXML, .mxl and MIDI alike: the bytes say what they are.
libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    if let Ok(piece) = score::read(bytes, &score::Options::default()) {
        piece.moments(&piece.order);
    }
});
