//! Any bytes as: document.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| narrows_fuzz::document(data));
