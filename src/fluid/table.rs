//! Reads the text of one table (`assets/refrigerants/tables/`) into numbers.

use super::curve::COLUMNS;
use super::error::FluidError;
use super::grid::PROPERTIES;

/// One table as written in its file.
#[derive(Debug, Clone)]
pub(crate) struct Table {
    pub(crate) composition: String,
    pub(crate) source: String,
    pub(crate) viscosity: String,
    pub(crate) safety_class: String,
    pub(crate) estimated: String,
    pub(crate) floor: Floor,
    /// Below this temperature the table goes on beyond its source; `None` where it does not.
    pub(crate) extrapolated_below_k: Option<f64>,
    pub(crate) molar_mass_kg_mol: f64,
    pub(crate) critical_pressure_pa: f64,
    pub(crate) critical_temperature_k: f64,
    pub(crate) hot_temperature_k: f64,
    pub(crate) low_pressure_pa: f64,
    pub(crate) high_pressure_pa: f64,
    pub(crate) saturation: Vec<[f64; COLUMNS]>,
    pub(crate) vapor: Nodes,
    pub(crate) two_phase: Option<Nodes>,
}

/// What set the lowest pressure of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Floor {
    /// A choice: low enough for recovery.
    Table,
    /// The triple point, of a blend's component if it is a blend.
    TriplePoint,
    /// The equation of state reaches no further.
    Equation,
}

/// A grid as written: rows (positions), columns (second coordinate), values row by row.
#[derive(Debug, Clone)]
pub(crate) struct Nodes {
    pub(crate) rows: usize,
    pub(crate) columns: usize,
    pub(crate) values: Vec<[f64; PROPERTIES]>,
}

/// Parses the text of a table; errors name the refrigerant and the place.
pub(crate) fn parse(refrigerant: &'static str, text: &str) -> Result<Table, FluidError> {
    let file = File { refrigerant, text };
    let (_, saturation) = file.section::<COLUMNS>("[saturation]")?;
    let two_phase = if text.contains("\n[two_phase]") { Some(file.nodes("[two_phase]")?) } else { None };
    Ok(Table {
        composition: file.field("composition")?.to_owned(),
        source: file.field("source")?.to_owned(),
        viscosity: file.field("viscosity")?.to_owned(),
        safety_class: file.field("safety_class")?.to_owned(),
        estimated: file.field("estimated")?.to_owned(),
        floor: file.floor()?,
        extrapolated_below_k: file.extrapolated_below_k()?,
        molar_mass_kg_mol: file.number("molar_mass_kg_mol")?,
        critical_pressure_pa: file.number("critical_pressure_pa")?,
        critical_temperature_k: file.number("critical_temperature_k")?,
        hot_temperature_k: file.number("hot_temperature_k")?,
        low_pressure_pa: file.number("low_pressure_pa")?,
        high_pressure_pa: file.number("high_pressure_pa")?,
        saturation,
        vapor: file.nodes("[vapor]")?,
        two_phase,
    })
}

struct File<'a> {
    refrigerant: &'static str,
    text: &'a str,
}

impl<'a> File<'a> {
    fn damaged(&self, place: &'static str, expected: &'static str) -> FluidError {
        FluidError::DamagedTable { refrigerant: self.refrigerant, place, expected }
    }

    /// The rest of the line `name: ...`.
    fn field(&self, name: &'static str) -> Result<&'a str, FluidError> {
        self.text
            .lines()
            .take_while(|line| !line.starts_with('['))
            .find_map(|line| line.strip_prefix(name)?.strip_prefix(": "))
            .ok_or_else(|| self.damaged(name, "a header line with this name"))
    }

    fn number(&self, name: &'static str) -> Result<f64, FluidError> {
        let number = self.field(name)?.parse().ok().filter(|x: &f64| x.is_finite());
        number.ok_or_else(|| self.damaged(name, "a finite number"))
    }

    /// From `note: extrapolated below -100.0 degC, ...` or `note: none`.
    fn extrapolated_below_k(&self) -> Result<Option<f64>, FluidError> {
        let note = self.field("note")?;
        if note == "none" {
            return Ok(None);
        }
        let celsius = note.strip_prefix("extrapolated below ").and_then(|rest| rest.split_once(" degC"));
        let celsius = celsius.and_then(|(number, _)| number.parse().ok()).filter(|x: &f64| x.is_finite());
        let celsius = celsius.ok_or_else(|| self.damaged("note", "none, or extrapolated below ... degC"))?;
        Ok(Some(celsius + 273.15))
    }

    fn floor(&self) -> Result<Floor, FluidError> {
        match self.field("floor")? {
            "table" => Ok(Floor::Table),
            "triple" => Ok(Floor::TriplePoint),
            "equation" => Ok(Floor::Equation),
            _ => Err(self.damaged("floor", "table, triple or equation")),
        }
    }

    fn nodes(&self, heading: &'static str) -> Result<Nodes, FluidError> {
        let (sizes, values) = self.section::<PROPERTIES>(heading)?;
        match sizes[..] {
            [rows, columns] if rows > 1 && columns > 1 => Ok(Nodes { rows, columns, values }),
            _ => Err(self.damaged(heading, "two sizes above 1")),
        }
    }

    /// The sizes after a heading and the rows of `N` numbers under it.
    fn section<const N: usize>(
        &self,
        heading: &'static str,
    ) -> Result<(Vec<usize>, Vec<[f64; N]>), FluidError> {
        let mut lines = self.text.lines().skip_while(|line| !line.starts_with(heading));
        let sizes: Option<Vec<usize>> = lines
            .next()
            .map(|line| line[heading.len()..].split_whitespace().filter_map(|s| s.parse().ok()).collect());
        let sizes = sizes.filter(|s| !s.is_empty() && s.iter().all(|&n| n > 1));
        let sizes = sizes.ok_or_else(|| self.damaged(heading, "a heading with its sizes"))?;
        let rows: Option<Vec<[f64; N]>> =
            lines.skip(1).take_while(|line| !line.starts_with('[') && *line != "end").map(numbers).collect();
        let expected = sizes.iter().product::<usize>();
        match rows {
            Some(rows) if rows.len() == expected => Ok((sizes, rows)),
            _ => Err(self.damaged(heading, "as many rows of finite numbers as its sizes say")),
        }
    }
}

fn numbers<const N: usize>(line: &str) -> Option<[f64; N]> {
    let mut out = [0.0; N];
    let mut words = line.split_ascii_whitespace();
    for slot in &mut out {
        *slot = words.next()?.parse().ok().filter(|x: &f64| x.is_finite())?;
    }
    words.next().is_none().then_some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = include_str!("../../assets/refrigerants/tables/R-410A.txt");

    #[test]
    fn a_damaged_table_is_refused_and_named() {
        let place = |text: &str| match parse("R-410A", text) {
            Err(FluidError::DamagedTable { place, .. }) => place,
            other => panic!("{other:?}"),
        };
        assert!(parse("R-410A", TEXT).is_ok());
        assert_eq!(place(""), "[saturation]");
        assert_eq!(place(&TEXT.replace("molar_mass_kg_mol", "mass")), "molar_mass_kg_mol");
        assert_eq!(place(&TEXT.replace("low_pressure_pa: 2500", "low_pressure_pa: NaN")), "low_pressure_pa");
        assert_eq!(place(&TEXT.replace("note: extrapolated below", "note: perhaps below")), "note");
        let half = &TEXT[..TEXT.len() / 2];
        assert!(parse("R-410A", half).is_err());
    }
}
