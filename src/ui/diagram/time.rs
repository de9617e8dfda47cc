//! Times in words.

/// A time for people: `48 s`, `9 min`, `2 h 10 min`, `3 d 4 h`.
pub fn text(minutes: f64) -> String {
    if !minutes.is_finite() {
        return "no time".to_owned();
    }
    let sign = if minutes < 0.0 { "\u{2212}" } else { "" };
    let seconds = (minutes.abs() * 60.0).round();
    if seconds < 60.0 {
        return format!("{sign}{seconds:.0} s");
    }
    let tenths = (minutes.abs() * 10.0).round();
    if tenths < 100.0 && tenths % 10.0 != 0.0 {
        return format!("{sign}{:.1} min", tenths / 10.0);
    }
    let whole = minutes.abs().round();
    let (hours, rest) = ((whole / 60.0).floor(), whole % 60.0);
    if hours < 1.0 {
        return format!("{sign}{whole:.0} min");
    }
    if hours >= 48.0 {
        let all = (minutes.abs() / 60.0).round();
        return format!("{sign}{:.0} d {:.0} h", (all / 24.0).floor(), all % 24.0);
    }
    if rest < 0.5 { format!("{sign}{hours:.0} h") } else { format!("{sign}{hours:.0} h {rest:02.0} min") }
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
    fn times_as_people_say_them() {
        for (minutes, expected) in [
            (0.8, "48 s"),
            (0.0, "0 s"),
            (9.0, "9 min"),
            (4.4, "4.4 min"),
            (8.0 - 1e-7, "8 min"),
            (34.2, "34 min"),
            (59.7, "1 h"),
            (130.0, "2 h 10 min"),
            (125.0, "2 h 05 min"),
            (-4.4, "\u{2212}4.4 min"),
            (76.0 * 60.0, "3 d 4 h"),
            (f64::NAN, "no time"),
        ] {
            assert_eq!(text(minutes), expected, "{minutes}");
        }
    }

    #[test]
    fn the_marks_of_an_axis_share_a_unit() {
        assert_eq!(ticks(&[0.0, 60.0, 120.0]), ["0 min", "60 min", "120 min"]);
        assert_eq!(ticks(&[0.0, 90.0, 180.0]), ["0 h", "1.5 h", "3 h"]);
        assert_eq!(ticks(&[0.0, 2880.0, 5760.0]), ["0 d", "2 d", "4 d"]);
    }
}
