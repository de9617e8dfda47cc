//! Any bytes as: log.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| narrows_fuzz::log(data));
