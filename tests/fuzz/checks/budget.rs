//! How long one input may take.

use std::fs;
use std::time::Instant;

/// The most that any one input may take.
const MOST_S: f64 = 1.0;
/// The ordinary test runs without optimization, beside other tests: only fuzz targets are judged.
const JUDGED: bool = matches!(env!("CARGO_PKG_NAME").as_bytes(), b"narrows-fuzz");

/// Does the work; panics if it needs more than a second of the processor, twice in a row.
///
/// On a busy machine the wall's clock says little, so what looks slow is done again and judged by
/// the thread's own time.
pub fn in_time(what: &str, work: impl Fn()) {
    let start = Instant::now();
    work();
    if !JUDGED || start.elapsed().as_secs_f64() < MOST_S {
        return;
    }
    let Some(before) = processor_s() else { return };
    work();
    let spent = processor_s().unwrap_or(before) - before;
    assert!(spent < MOST_S, "{what} took {spent:.2} s of processor time");
}

/// What this thread has had of the processor (Linux).
fn processor_s() -> Option<f64> {
    let text = fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    let nanoseconds: f64 = text.split_whitespace().next()?.parse().ok()?;
    Some(nanoseconds * 1e-9)
}
