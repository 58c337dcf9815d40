#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sevenflats::entry::request(bytes));
