//! Any bytes as: quantity.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| narrows_fuzz::quantity(data));
