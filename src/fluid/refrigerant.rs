//! One refrigerant: what it is, and the range of its table.

use std::sync::Arc;

use super::GAS_CONSTANT_J_MOL_K;
use super::catalogue::{self, Entry, Listing};
use super::class::{PressureClass, SafetyClass};
use super::coordinate::Coordinate;
use super::curve::{
    BUBBLE_TEMPERATURE, COLUMNS, Curve, DEW_TEMPERATURE, HOT_ENTROPY, Inverse, LANES, LIQUID_ENTHALPY,
    LIQUID_ENTROPY, VAPOR_ENTROPY,
};
use super::error::FluidError;
use super::gibbs::with_integrated_entropy;
use super::grid::Grid;
use super::table::{Floor, Nodes, parse};

/// A refrigerant with its property table; immutable.
#[derive(Debug, Clone)]
pub struct Refrigerant {
    listing: Listing,
    pressure_class: PressureClass,
    texts: Texts,
    extrapolated_below_k: Option<f64>,
    molar_mass_kg_mol: f64,
    critical_pressure_pa: f64,
    critical_temperature_k: f64,
    floor: Floor,
    low_pressure_pa: f64,
    high_pressure_pa: f64,
    glide_k: f64,
    pub(crate) specific_gas_constant_j_kg_k: f64,
    pub(crate) hot_temperature_k: f64,
    pub(crate) coordinate: Coordinate,
    pub(crate) curve: Curve,
    pub(crate) bubble: Inverse,
    pub(crate) dew: Inverse,
    pub(crate) liquid_enthalpy: Inverse,
    pub(crate) liquid_entropy: Inverse,
    pub(crate) vapor_grid: Grid,
    pub(crate) two_phase_grid: Option<Grid>,
}

#[derive(Debug, Clone)]
struct Texts {
    composition: String,
    source: String,
    viscosity: String,
    safety_class: String,
    estimated: String,
}

impl Refrigerant {
    /// The refrigerant of this name: "R-410A", "r410a", "410A" and everyday names such as "propane".
    ///
    /// Its table is parsed at the first call; later calls share it.
    ///
    /// # Errors
    /// `UnknownRefrigerant`, which suggests the nearest designation.
    pub fn load(name: &str) -> Result<Arc<Self>, FluidError> {
        catalogue::load(name)
    }

    pub(crate) fn from_entry(entry: &Entry) -> Result<Self, FluidError> {
        let listing = entry.listing;
        let table = parse(listing.designation, entry.text)?;
        let vapor_grid = grid(&table.vapor);
        let coordinate =
            Coordinate::new(table.critical_pressure_pa, table.low_pressure_pa, table.high_pressure_pa);
        let read = Curve::new(&with_hot_entropy(&table.saturation, &vapor_grid));
        let curve = with_integrated_entropy(&read, &coordinate);
        let inverse = |column| Inverse::new(&curve, column);
        let mut refrigerant = Self {
            listing,
            pressure_class: PressureClass::VeryHigh,
            texts: Texts {
                composition: table.composition,
                source: table.source,
                viscosity: table.viscosity,
                safety_class: table.safety_class,
                estimated: table.estimated,
            },
            extrapolated_below_k: table.extrapolated_below_k,
            molar_mass_kg_mol: table.molar_mass_kg_mol,
            critical_pressure_pa: table.critical_pressure_pa,
            critical_temperature_k: table.critical_temperature_k,
            floor: table.floor,
            low_pressure_pa: table.low_pressure_pa,
            high_pressure_pa: table.high_pressure_pa,
            glide_k: 0.0,
            specific_gas_constant_j_kg_k: GAS_CONSTANT_J_MOL_K / table.molar_mass_kg_mol,
            hot_temperature_k: table.hot_temperature_k,
            coordinate,
            bubble: inverse(BUBBLE_TEMPERATURE),
            dew: inverse(DEW_TEMPERATURE),
            liquid_enthalpy: inverse(LIQUID_ENTHALPY),
            liquid_entropy: inverse(LIQUID_ENTROPY),
            vapor_grid,
            two_phase_grid: table.two_phase.as_ref().map(grid),
            curve,
        };
        refrigerant.classify()?;
        Ok(refrigerant)
    }

    /// Derives what is read off the table itself: pressure class and glide.
    fn classify(&mut self) -> Result<(), FluidError> {
        if self.critical_temperature_k >= PressureClass::TEMPERATURE_K {
            let pressure_pa = self.bubble_pressure_pa(PressureClass::TEMPERATURE_K)?;
            self.pressure_class = PressureClass::of_bubble_pressure_pa(pressure_pa);
        }
        let pressure_pa = 101_325.0_f64.clamp(self.low_pressure_pa, self.high_pressure_pa);
        self.glide_k = self.saturation_at_pressure(pressure_pa)?.glide_k();
        Ok(())
    }

    /// ASHRAE 34 designation, such as "R-410A".
    pub fn designation(&self) -> &'static str {
        self.listing.designation
    }

    /// ASHRAE 34 safety class.
    pub fn safety_class(&self) -> SafetyClass {
        self.listing.safety_class
    }

    /// Safety class with where it was read, such as "A1 (ASHRAE 34, from memory)".
    pub fn safety_class_text(&self) -> &str {
        &self.texts.safety_class
    }

    /// Pressure class of 40 CFR 82.152, from the bubble pressure at 104 degF.
    pub fn pressure_class(&self) -> PressureClass {
        self.pressure_class
    }

    /// Whether the blend's equilibrium is estimated, to be marked wherever a user sees it.
    pub fn is_estimated(&self) -> bool {
        self.listing.is_estimated
    }

    /// Why the blend is marked estimated; `None` if it is not.
    pub fn estimate_reason(&self) -> Option<&str> {
        self.texts.estimated.strip_prefix("yes, ")
    }

    /// Components and mass fractions, or "pure".
    pub fn composition(&self) -> &str {
        &self.texts.composition
    }

    /// Where the thermodynamic properties come from.
    pub fn source(&self) -> &str {
        &self.texts.source
    }

    /// Where the viscosities come from.
    pub fn viscosity_source(&self) -> &str {
        &self.texts.viscosity
    }

    /// Below this temperature the table goes on beyond the validity of its equation of state; `None`
    /// where it does not.
    pub fn extrapolated_below_k(&self) -> Option<f64> {
        self.extrapolated_below_k
    }

    /// Molar mass, kg/mol.
    pub fn molar_mass_kg_mol(&self) -> f64 {
        self.molar_mass_kg_mol
    }

    /// Critical pressure of the model, Pa.
    pub fn critical_pressure_pa(&self) -> f64 {
        self.critical_pressure_pa
    }

    /// Critical temperature of the model, K.
    pub fn critical_temperature_k(&self) -> f64 {
        self.critical_temperature_k
    }

    /// Rise from bubble to dew temperature at one atmosphere (or the nearest pressure in range), K.
    pub fn glide_k(&self) -> f64 {
        self.glide_k
    }

    /// Whether it boils over a range of temperature that one would notice: glide above 1 K
    /// (common practice, no source).
    pub fn is_zeotrope(&self) -> bool {
        self.glide_k > 1.0
    }

    /// Lowest absolute pressure of the table, Pa.
    pub fn lowest_pressure_pa(&self) -> f64 {
        self.low_pressure_pa
    }

    /// Highest absolute pressure of the table, Pa: below the critical pressure.
    pub fn highest_pressure_pa(&self) -> f64 {
        self.high_pressure_pa
    }

    /// Coldest liquid of the table, K.
    pub fn lowest_temperature_k(&self) -> f64 {
        self.bubble.low
    }

    /// Hottest liquid of the table (bubble temperature at the highest pressure), K.
    pub fn highest_saturation_temperature_k(&self) -> f64 {
        self.bubble.high
    }

    /// Hottest vapour of the table, K.
    pub fn highest_temperature_k(&self) -> f64 {
        self.hot_temperature_k
    }

    /// The error for a pressure outside the table.
    #[cold]
    pub(crate) fn pressure_out_of_range(&self, pressure_pa: f64) -> FluidError {
        if pressure_pa > self.high_pressure_pa {
            let reason = if pressure_pa >= self.critical_pressure_pa {
                "it is above the critical pressure"
            } else {
                "the table ends below the critical point"
            };
            return self.out_of_range("pressure", "Pa", pressure_pa, self.high_pressure_pa, reason);
        }
        self.out_of_range("pressure", "Pa", pressure_pa, self.low_pressure_pa, self.floor_reason())
    }

    /// Refuses a saturation temperature outside the table.
    pub(crate) fn check_saturation_temperature(
        &self,
        temperature_k: f64,
        range: &Inverse,
    ) -> Result<(), FluidError> {
        if (range.low..=range.high).contains(&temperature_k) {
            return Ok(());
        }
        if temperature_k > range.high {
            let reason = if temperature_k >= self.critical_temperature_k {
                "it is above the critical temperature: no liquid exists"
            } else {
                "the table ends below the critical point"
            };
            return Err(self.out_of_range("saturation temperature", "K", temperature_k, range.high, reason));
        }
        Err(self.out_of_range("saturation temperature", "K", temperature_k, range.low, self.floor_reason()))
    }

    fn floor_reason(&self) -> &'static str {
        match self.floor {
            Floor::Table => "the table starts there",
            Floor::TriplePoint => "at the triple point: no liquid exists below",
            Floor::Equation => "its equation of state reaches no further",
        }
    }

    /// The error for a value on the wrong side of a limit, or not a number.
    #[cold]
    pub(crate) fn out_of_range(
        &self,
        quantity: &'static str,
        unit: &'static str,
        value: f64,
        limit: f64,
        reason: &'static str,
    ) -> FluidError {
        let refrigerant = self.designation();
        if value.is_nan() {
            FluidError::NotANumber { refrigerant, quantity }
        } else if value > limit {
            FluidError::AboveRange { refrigerant, quantity, value, limit, unit, reason }
        } else {
            FluidError::BelowRange { refrigerant, quantity, value, limit, unit, reason }
        }
    }
}

/// The saturation rows with the entropy of the hottest isotherm, which the vapour grid holds at its end.
fn with_hot_entropy(rows: &[[f64; COLUMNS]], vapor_grid: &Grid) -> Vec<[f64; LANES]> {
    let last = (rows.len() - 1) as f64;
    let extend = |(i, row): (usize, &[f64; COLUMNS])| {
        let mut wide = [0.0; LANES];
        wide[..COLUMNS].copy_from_slice(row);
        let [_, _, rise, _] = vapor_grid.values(i as f64 / last, 1.0);
        wide[HOT_ENTROPY] = row[VAPOR_ENTROPY] + rise;
        wide
    };
    rows.iter().enumerate().map(extend).collect()
}

fn grid(nodes: &Nodes) -> Grid {
    Grid::new(nodes.rows, nodes.columns, &nodes.values)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nine digits are written, so a node is met to about 1e-8.
    #[track_caller]
    fn check(got: f64, written: f64, what: &str) {
        assert!((got - written).abs() <= 2e-8 * written.abs().max(1.0), "{what}: {got}, table {written}");
    }

    fn node_pressure_pa(r: &Refrigerant, node: usize, count: usize) -> f64 {
        let pressure_pa = r.coordinate.pressure_pa(node as f64 / (count - 1) as f64);
        pressure_pa.clamp(r.low_pressure_pa, r.high_pressure_pa)
    }

    #[test]
    fn saturation_nodes_are_reproduced() {
        for (designation, text) in catalogue::texts() {
            let (r, table) = (Refrigerant::load(designation).unwrap(), parse(designation, text).unwrap());
            for (i, row) in table.saturation.iter().enumerate() {
                let pressure_pa = node_pressure_pa(&r, i, table.saturation.len());
                let s = r.saturation_at_pressure(pressure_pa).unwrap();
                let what = format!("{designation} node {i}");
                let density = pressure_pa * r.molar_mass_kg_mol / (row[3] * GAS_CONSTANT_J_MOL_K * row[1]);
                check(s.bubble_temperature_k, row[0], &what);
                check(s.dew_temperature_k, row[1], &what);
                check(s.liquid_density_kg_m3, row[2], &what);
                check(s.vapor_density_kg_m3, density, &what);
                check(s.liquid_enthalpy_j_kg, row[4], &what);
                check(s.vapor_enthalpy_j_kg, row[5], &what);
                // Integrated from the other columns, not read.
                let off = s.liquid_entropy_j_kg_k - row[6];
                assert!(off.abs() < 3e-4, "{what}: entropy off by {off}");
                check(s.vapor_entropy_j_kg_k, row[7], &what);
                check(s.liquid_viscosity_pa_s().ln(), row[8], &what);
                check(s.vapor_viscosity_pa_s().ln(), row[9], &what);
            }
        }
    }

    /// The last vapour column is the hottest isotherm, whatever the pressure.
    #[test]
    fn the_vapour_grid_ends_at_its_hottest_isotherm() {
        for (designation, _) in catalogue::texts() {
            let r = Refrigerant::load(designation).unwrap();
            for i in 0..=24 {
                let s = r.saturation_at_pressure(node_pressure_pa(&r, i, 25)).unwrap();
                let hot = r.state_ph_at(&s, s.hot_enthalpy_j_kg).unwrap();
                assert!((hot.temperature_k - r.hot_temperature_k).abs() < 1e-4, "{designation}: {hot:?}");
            }
        }
    }
}
