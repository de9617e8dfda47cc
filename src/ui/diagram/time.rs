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
    if minutes.abs() < 10.0 && (minutes.abs() * 2.0).fract() > 1e-9 {
        return format!("{sign}{:.1} min", minutes.abs());
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

/// A mark on a time axis: `10`, `60`, from two hours on `2 h`.
pub fn tick(minutes: f64) -> String {
    let is_whole_hours = minutes >= 120.0 && (minutes / 60.0).fract().abs() < 1e-9;
    if is_whole_hours {
        return format!("{:.0} h", minutes / 60.0);
    }
    if minutes == 0.0 { "0 min".to_owned() } else { super::ticks::short(minutes) }
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
            (34.2, "34 min"),
            (59.7, "1 h"),
            (130.0, "2 h 10 min"),
            (-4.4, "\u{2212}4.4 min"),
            (76.0 * 60.0, "3 d 4 h"),
            (f64::NAN, "no time"),
        ] {
            assert_eq!(text(minutes), expected, "{minutes}");
        }
        assert_eq!((tick(0.0).as_str(), tick(90.0).as_str(), tick(120.0).as_str()), ("0 min", "90", "2 h"));
    }
}
