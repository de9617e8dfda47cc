//! Reads the number a person wrote in front of a unit: `25`, `4,8`, `1/4`, `1 1/2`, `1½`, `−3`.
//!
//! Neglects grouping: `1,000` could be one or a thousand and is refused rather than guessed.

/// Why no number could be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum NumberFault {
    /// There is no digit where the number should stand.
    Missing,
    /// Comma and point together, several commas, or a comma before exactly three digits.
    Separator,
    /// Too large to hold, or a fraction over zero.
    NotFinite,
}

/// The value in front, and what follows it (trimmed).
pub(super) fn leading_number(text: &str) -> Result<(f64, &str), NumberFault> {
    let (sign, unsigned) = leading_sign(text.trim_start());
    let (whole, rest) = decimal(unsigned)?;
    let (value, rest) = fraction_after(whole, rest)?;
    if !value.is_finite() {
        return Err(NumberFault::NotFinite);
    }
    Ok((sign * value, rest.trim_start()))
}

/// Puts plain signs where people and word processors write others.
///
/// True minus and en dash become `-`, curly quotes straight ones, no-break spaces plain ones,
/// `½` becomes ` 1/2`, `°` and its look-alikes `deg`, raised digits plain ones.
pub(super) fn plain_signs(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for sign in text.trim().chars() {
        match sign {
            '−' | '–' | '‐' | '‑' => plain.push('-'),
            '\u{a0}' | '\u{2009}' | '\u{202f}' | '\t' => plain.push(' '),
            '”' | '“' | '″' => plain.push('"'),
            '’' | '‘' | '′' => plain.push('\''),
            '½' => plain.push_str(" 1/2"),
            '¼' => plain.push_str(" 1/4"),
            '¾' => plain.push_str(" 3/4"),
            '⅛' => plain.push_str(" 1/8"),
            '⅜' => plain.push_str(" 3/8"),
            '⅝' => plain.push_str(" 5/8"),
            '⅞' => plain.push_str(" 7/8"),
            '⁄' => plain.push('/'),
            '°' | 'º' | '˚' => plain.push_str("deg"),
            '²' => plain.push('2'),
            '³' => plain.push('3'),
            '·' | '×' => plain.push(' '),
            '\u{3a9}' | '\u{2126}' => plain.push_str("ohm"),
            'µ' | 'μ' => plain.push('u'),
            other => plain.push(other),
        }
    }
    plain.trim().to_owned()
}

fn leading_sign(text: &str) -> (f64, &str) {
    if let Some(rest) = text.strip_prefix('-') {
        (-1.0, rest.trim_start())
    } else if let Some(rest) = text.strip_prefix('+') {
        (1.0, rest.trim_start())
    } else {
        (1.0, text)
    }
}

fn decimal(text: &str) -> Result<(f64, &str), NumberFault> {
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    if !digits.contains(|c: char| c.is_ascii_digit()) {
        return Err(NumberFault::Missing);
    }
    let (exponent, rest) = leading_exponent(rest);
    let written = format!("{}{exponent}", with_decimal_point(digits)?);
    let value: f64 = written.parse().map_err(|_| NumberFault::Separator)?;
    Ok((value, rest))
}

/// `e-3` in front of what follows, if it is there; `e` alone belongs to the unit.
fn leading_exponent(text: &str) -> (&str, &str) {
    let Some(after) = text.strip_prefix(['e', 'E']) else { return ("", text) };
    let unsigned = after.strip_prefix(['-', '+']).unwrap_or(after);
    let count = unsigned.chars().take_while(char::is_ascii_digit).count();
    if count == 0 {
        return ("", text);
    }
    text.split_at(text.len() - unsigned.len() + count)
}

fn with_decimal_point(digits: &str) -> Result<String, NumberFault> {
    let Some((whole, part)) = digits.split_once(',') else { return Ok(digits.to_owned()) };
    let grouping = part.len() == 3 && (1..=3).contains(&whole.len()) && whole != "0";
    if grouping || part.contains([',', '.']) || whole.contains('.') {
        return Err(NumberFault::Separator);
    }
    Ok(format!("{whole}.{part}"))
}

/// `/4` after 1 gives a quarter; ` 1/2` or `-1/2` after 1 gives one and a half.
fn fraction_after(whole: f64, rest: &str) -> Result<(f64, &str), NumberFault> {
    if let Some((under, rest)) = rest.strip_prefix('/').and_then(leading_integer) {
        return Ok((over(whole, under)?, rest));
    }
    let spaced = rest.trim_start().trim_start_matches('-');
    if spaced.len() < rest.len()
        && let Some((top, tail)) = leading_integer(spaced)
        && let Some((under, tail)) = tail.strip_prefix('/').and_then(leading_integer)
    {
        return Ok((whole + over(top, under)?, tail));
    }
    Ok((whole, rest))
}

fn leading_integer(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    digits.parse().ok().map(|value| (value, rest))
}

fn over(top: f64, under: f64) -> Result<f64, NumberFault> {
    if under == 0.0 { Err(NumberFault::NotFinite) } else { Ok(top / under) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: f64, expected_rest: &str) {
        let plain = plain_signs(text);
        let (value, rest) = leading_number(&plain).unwrap();
        assert_eq!((value, rest), (expected, expected_rest), "{text}");
    }

    #[test]
    fn numbers_as_people_write_them() {
        check("25 ft", 25.0, "ft");
        check("25ft", 25.0, "ft");
        check("4,8 mm", 4.8, "mm");
        check("0,125 in", 0.125, "in");
        check("1/4 in", 0.25, "in");
        check("1 1/2 in", 1.5, "in");
        check("1-1/2 in", 1.5, "in");
        check("1½ in", 1.5, "in");
        check("⅜\"", 0.375, "\"");
        check("−40 °F", -40.0, "degF");
        check("1.5e-3 m", 1.5e-3, "m");
        check("12 lb/min", 12.0, "lb/min");
        check(".19 in", 0.19, "in");
        check("5 e", 5.0, "e");
    }

    #[test]
    fn unclear_numbers_are_refused() {
        assert_eq!(leading_number("ft"), Err(NumberFault::Missing));
        assert_eq!(leading_number(""), Err(NumberFault::Missing));
        assert_eq!(leading_number("NaN m"), Err(NumberFault::Missing));
        assert_eq!(leading_number("1,000 ft"), Err(NumberFault::Separator));
        assert_eq!(leading_number("1,000.5 ft"), Err(NumberFault::Separator));
        assert_eq!(leading_number("1.2.3 ft"), Err(NumberFault::Separator));
        assert_eq!(leading_number("1e999 ft"), Err(NumberFault::NotFinite));
        assert_eq!(leading_number("1/0 in"), Err(NumberFault::NotFinite));
    }
}
