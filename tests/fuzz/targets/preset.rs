//! Any bytes as: preset.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| narrows_fuzz::preset(data));
