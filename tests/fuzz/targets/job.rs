//! Edits of a scenario, solved and followed. Bytes are mutated as edits, not as bytes alone.
#![no_main]

use libfuzzer_sys::{fuzz_mutator, fuzz_target};

fuzz_target!(|data: &[u8]| narrows_fuzz::job(data));

fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    narrows_fuzz::mutate_in_place(data, size, max_size, seed)
});
