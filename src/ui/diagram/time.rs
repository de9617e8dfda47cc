//! Times in words, and the marks of a time axis.

use narrows::report::time_text;
use uom::si::f64::Time;
use uom::si::time::minute;

/// A number of minutes in words.
pub fn text(minutes: f64) -> String {
    time_text(Time::new::<minute>(minutes))
}

/// The marks of a time axis in words, all in one unit: minutes, from three hours on hours, from
/// four days on days.
pub fn ticks(minutes: &[f64]) -> Vec<String> {
    let last = minutes.last().copied().unwrap_or(0.0);
    let (unit, name) = match last {
        m if m >= 4.0 * 1440.0 => (1440.0, "d"),
        m if m >= 180.0 => (60.0, "h"),
        _ => (1.0, "min"),
    };
    let text = |m: &f64| format!("{} {name}", super::ticks::short(m / unit));
    minutes.iter().map(text).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_marks_of_an_axis_share_a_unit() {
        assert_eq!(ticks(&[0.0, 60.0, 120.0]), ["0 min", "60 min", "120 min"]);
        assert_eq!(ticks(&[0.0, 90.0, 180.0]), ["0 h", "1.5 h", "3 h"]);
        assert_eq!(ticks(&[0.0, 2880.0, 5760.0]), ["0 d", "2 d", "4 d"]);
    }
}
