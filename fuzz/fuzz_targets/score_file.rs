#![no_main]

// MusicXML, .mxl and MIDI alike: the bytes say what they are.
libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sevenflats::entry::score_file(bytes));
