//! Times in words.

use uom::si::f64::Time;
use uom::si::time::{hour, minute, second};

/// A time, or a difference of two, as people say it: `0 min`, `48 s`, `4.4 min`, `34 min`, `2 h 10 min`,
/// `3 d 4 h`, `−1 h 05 min`.
pub fn time_text(time: Time) -> String {
    if !time.value.is_finite() {
        return "no time".to_owned();
    }
    let sign = if time.value < 0.0 { "\u{2212}" } else { "" };
    let time = time.abs();
    let seconds = time.get::<second>().round();
    if seconds == 0.0 {
        return "0 min".to_owned();
    }
    if seconds < 60.0 {
        return format!("{sign}{seconds:.0} s");
    }
    let tenths = (time.get::<minute>() * 10.0).round();
    if tenths < 100.0 && tenths % 10.0 != 0.0 {
        return format!("{sign}{:.1} min", tenths / 10.0);
    }
    let whole = time.get::<minute>().round();
    let (hours, rest) = ((whole / 60.0).floor(), whole % 60.0);
    if hours < 1.0 {
        return format!("{sign}{whole:.0} min");
    }
    if hours >= 48.0 {
        let all = time.get::<hour>().round();
        return format!("{sign}{:.0} d {:.0} h", (all / 24.0).floor(), all % 24.0);
    }
    if rest < 0.5 { format!("{sign}{hours:.0} h") } else { format!("{sign}{hours:.0} h {rest:02.0} min") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_as_people_say_them() {
        for (minutes, expected) in [
            (0.8, "48 s"),
            (0.0, "0 min"),
            (1e-3, "0 min"),
            (9.0, "9 min"),
            (4.4, "4.4 min"),
            (8.0 - 1e-7, "8 min"),
            (34.2, "34 min"),
            (59.7, "1 h"),
            (130.0, "2 h 10 min"),
            (125.0, "2 h 05 min"),
            (-4.4, "\u{2212}4.4 min"),
            (-65.0, "\u{2212}1 h 05 min"),
            (76.0 * 60.0, "3 d 4 h"),
            (f64::NAN, "no time"),
        ] {
            assert_eq!(time_text(Time::new::<minute>(minutes)), expected, "{minutes}");
        }
    }
}
