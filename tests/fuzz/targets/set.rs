//! Any bytes as: set.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| narrows_fuzz::set(data));
