//! An axis to sweep, as typed: `PATH=FROM..TO`, `PATH=FROM..TO:STEPS`.
//!
//! One unit serves both ends: `5..50 ft`. Fields that move together are joined by `&`, as a hose
//! that grows while a cord shrinks: `kits.A.parts.1.length=5..100 ft & supply.cords.0.length=100..5
//! ft:11`.

use super::error::CompareError;

/// How many values an axis has if nobody says: ten steps.
pub const DEFAULT_STEPS: usize = 11;

/// One axis: fields that move together, and how many values they take.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    moves: Vec<Move>,
    steps: usize,
}

#[derive(Debug, Clone, PartialEq)]
struct Move {
    path: String,
    from: f64,
    to: f64,
    unit: String,
}

impl Axis {
    /// Reads an axis.
    ///
    /// # Errors
    /// What cannot be read, with what is expected.
    pub fn parse(text: &str) -> Result<Self, CompareError> {
        let refuse = |problem: String| CompareError::Vary { text: text.to_owned(), problem };
        let (body, steps) = split_steps(text).map_err(refuse)?;
        let moves: Vec<Move> =
            body.split('&').map(|one| one_move(one.trim())).collect::<Result<_, _>>().map_err(refuse)?;
        let steps = steps.unwrap_or_else(|| usual_steps(&moves));
        Ok(Self { moves, steps })
    }

    /// The fields that move, and the unit each moves in.
    pub fn fields(&self) -> impl Iterator<Item = (&str, &str)> {
        self.moves.iter().map(|one| (one.path.as_str(), one.unit.as_str()))
    }

    /// How many values it takes.
    pub fn steps(&self) -> usize {
        self.steps
    }

    /// The numbers of its fields at one step, in their units.
    pub fn numbers(&self, step: usize) -> Vec<f64> {
        let share = if self.steps > 1 { step as f64 / (self.steps - 1) as f64 } else { 0.0 };
        self.moves.iter().map(|one| rounded(one.from + share * (one.to - one.from))).collect()
    }

    /// Path and text to set for each field at one step.
    pub(super) fn edits(&self, step: usize) -> Vec<(&str, String)> {
        let numbers = self.numbers(step);
        self.moves
            .iter()
            .zip(numbers)
            .map(|(one, number)| (one.path.as_str(), format!("{number} {}", one.unit).trim().to_owned()))
            .collect()
    }
}

/// Twelve figures: enough for any field, few enough to hide binary remainders.
pub(super) fn rounded(number: f64) -> f64 {
    format!("{number:.11e}").parse().unwrap_or(number)
}

/// Wire gauges go by twos; all else in ten steps.
fn usual_steps(moves: &[Move]) -> usize {
    match moves.first() {
        Some(one) if one.unit.eq_ignore_ascii_case("AWG") && one.from.fract() == 0.0 => {
            let by_twos = (one.from - one.to).abs() / 2.0;
            if (1.0..=20.0).contains(&by_twos) && by_twos.fract() == 0.0 {
                by_twos as usize + 1
            } else {
                (2.0 * by_twos).min(40.0) as usize + 1
            }
        }
        _ => DEFAULT_STEPS,
    }
}

/// The steps behind the last colon, if a whole number stands there.
fn split_steps(text: &str) -> Result<(&str, Option<usize>), String> {
    let Some((body, steps)) = text.rsplit_once(':') else { return Ok((text, None)) };
    match steps.trim().parse() {
        Ok(steps) if steps >= 1 => Ok((body, Some(steps))),
        _ => Err(format!("{:?} is no number of steps", steps.trim())),
    }
}

fn one_move(text: &str) -> Result<Move, String> {
    let (path, range) = text.split_once('=').ok_or_else(|| format!("{text:?} has no ="))?;
    let (from, to) = range.split_once("..").ok_or_else(|| format!("{:?} has no ..", range.trim()))?;
    if path.trim().is_empty() {
        return Err("there is no path in front of =".to_owned());
    }
    let ((from, from_unit), (to, to_unit)) = (number(from)?, number(to)?);
    if !from_unit.is_empty() && !to_unit.is_empty() && from_unit != to_unit {
        return Err(format!("the ends are in {from_unit} and {to_unit}; give both in one unit"));
    }
    let unit = if to_unit.is_empty() { from_unit } else { to_unit };
    Ok(Move { path: path.trim().to_owned(), from, to, unit })
}

/// A number and what follows it.
fn number(text: &str) -> Result<(f64, String), String> {
    let plain = text.trim().replace(['−', '–'], "-").replace('°', "deg");
    let is_part = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '+');
    let mut end = plain.find(|c: char| !is_part(c)).unwrap_or(plain.len());
    // 1e-3 m, but not 5 e.
    let rest = plain.get(end..).unwrap_or_default();
    if let Some(exponent) = rest.strip_prefix(['e', 'E']) {
        let digits = exponent.find(|c: char| !is_part(c)).unwrap_or(exponent.len());
        if digits > 0 {
            end += 1 + digits;
        }
    }
    let (digits, unit) = plain.split_at(end);
    match digits.trim().parse::<f64>() {
        Ok(number) if number.is_finite() => Ok((number, unit.trim().to_owned())),
        _ => Err(format!("{:?} does not start with a plain number", text.trim())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, steps: usize, edits: &[&str]) {
        let axis = Axis::parse(text).unwrap();
        assert_eq!(axis.steps(), steps, "{text}");
        let got: Vec<String> = (0..steps)
            .flat_map(|step| axis.edits(step))
            .map(|(path, text)| format!("{path}={text}"))
            .collect();
        assert_eq!(got, edits, "{text}");
    }

    #[test]
    fn axes_as_people_type_them() {
        check("a.b=5 ft..50 ft:4", 4, &["a.b=5 ft", "a.b=20 ft", "a.b=35 ft", "a.b=50 ft"]);
        check("a.b=5..6 ft:2", 2, &["a.b=5 ft", "a.b=6 ft"]);
        check("a.b=0.1..0.3:3", 3, &["a.b=0.1", "a.b=0.2", "a.b=0.3"]);
        check("a = -10 °F .. 10 °F : 2", 2, &["a=-10 degF", "a=10 degF"]);
        check("a=1e-3..3e-3 m:3", 3, &["a=0.001 m", "a=0.002 m", "a=0.003 m"]);
        check("g=16 AWG..10 AWG", 4, &["g=16 AWG", "g=14 AWG", "g=12 AWG", "g=10 AWG"]);
        check("a=1..2 ft & b=9..8 in:2", 2, &["a=1 ft", "b=9 in", "a=2 ft", "b=8 in"]);
        check("a=7 ft..9 ft:1", 1, &["a=7 ft"]);
        assert_eq!(Axis::parse("a=5..50 ft").unwrap().steps(), DEFAULT_STEPS);
    }

    #[test]
    fn what_is_no_axis_is_refused() {
        for text in
            ["", "a", "a=5 ft", "=1..2", "a=x..y", "a=1..2:0", "a=1..2:x", "a=1 ft..2 in", "a=1..2 & b"]
        {
            let error = Axis::parse(text).unwrap_err().to_string();
            assert!(error.contains("expected PATH=FROM..TO"), "{error}");
        }
    }
}
