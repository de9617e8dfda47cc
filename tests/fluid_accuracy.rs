//! Tables against direct values of the library they were computed from, at states that are not
//! nodes, and against a separately made table of saturation values.

use std::collections::BTreeMap;

use narrows::fluid::{self, FluidError, Refrigerant, Saturation, State};

/// Written by `assets/refrigerants/generator/checks.py`; names library and version.
const STATES: &str = include_str!("data/fluid_states.csv");
/// CoolProp 8.0.0 saturation values and viscosities made by another program; see its header.
const SATURATION: &str = include_str!("data/fluid_saturation.csv");

#[derive(Debug, serde::Deserialize)]
struct Row {
    refrigerant: String,
    kind: String,
    pressure_pa: f64,
    temperature_k: f64,
    density_kg_m3: f64,
    enthalpy_j_kg: f64,
    entropy_j_kg_k: f64,
}

fn records<T: serde::de::DeserializeOwned>(text: &str) -> Vec<T> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.deserialize().map(|row| row.expect("a well-formed row")).collect()
}

/// Largest deviation of each kind, with where it was.
#[derive(Default)]
struct Worst(BTreeMap<&'static str, (f64, String)>);

impl Worst {
    fn add(&mut self, what: &'static str, deviation: f64, row: &Row) {
        let worst = self.0.entry(what).or_insert((0.0, String::new()));
        // `>` alone would let a NaN pass.
        if !(deviation.abs() <= worst.0) {
            *worst = (deviation.abs(), format!("{} {} at {} Pa, {} K", row.refrigerant, row.kind, row.pressure_pa, row.temperature_k));
        }
    }
}

fn relative(got: f64, expected: f64) -> f64 {
    got / expected - 1.0
}

fn compare_saturated(worst: &mut Worst, r: &Refrigerant, row: &Row) -> Result<(), FluidError> {
    let s: Saturation = r.saturation_at_pressure(row.pressure_pa)?;
    let bubble = row.kind == "bubble";
    let (pressure, density, enthalpy, entropy) = if bubble {
        let pressure = r.bubble_pressure_pa(row.temperature_k)?;
        (pressure, s.liquid_density_kg_m3, s.liquid_enthalpy_j_kg, s.liquid_entropy_j_kg_k)
    } else {
        let pressure = r.dew_pressure_pa(row.temperature_k)?;
        (pressure, s.vapor_density_kg_m3, s.vapor_enthalpy_j_kg, s.vapor_entropy_j_kg_k)
    };
    worst.add("saturation pressure", relative(pressure, row.pressure_pa), row);
    worst.add(if bubble { "liquid density" } else { "vapour density" }, relative(density, row.density_kg_m3), row);
    worst.add("enthalpy", enthalpy - row.enthalpy_j_kg, row);
    worst.add("entropy", entropy - row.entropy_j_kg_k, row);
    Ok(())
}

fn compare_state(worst: &mut Worst, row: &Row, state: &State) {
    let vapor = row.kind == "vapor";
    worst.add(if vapor { "vapour density" } else { "two-phase density" }, relative(state.density_kg_m3, row.density_kg_m3), row);
    worst.add(if vapor { "vapour temperature" } else { "two-phase temperature" }, state.temperature_k - row.temperature_k, row);
    worst.add("enthalpy", state.enthalpy_j_kg - row.enthalpy_j_kg, row);
    worst.add("entropy", state.entropy_j_kg_k - row.entropy_j_kg_k, row);
}

fn deviations(rows: &[Row], designation: &str) -> Result<(Worst, usize), FluidError> {
    let r = Refrigerant::load(designation)?;
    let (mut worst, mut count) = (Worst::default(), 0);
    for row in rows.iter().filter(|row| row.refrigerant == designation) {
        count += 1;
        match row.kind.as_str() {
            "bubble" | "dew" => compare_saturated(&mut worst, &r, row)?,
            "vapor" => {
                compare_state(&mut worst, row, &r.state_pt(row.pressure_pa, row.temperature_k)?);
                compare_state(&mut worst, row, &r.state_ph(row.pressure_pa, row.enthalpy_j_kg)?);
            }
            _ => compare_state(&mut worst, row, &r.state_ph(row.pressure_pa, row.enthalpy_j_kg)?),
        }
    }
    Ok((worst, count))
}

/// What the project asks for; two-phase states and entropy have limits of the same order.
fn limit(designation: &str, what: &str) -> f64 {
    match what {
        "saturation pressure" | "liquid density" => 0.0005,
        "vapour density" | "two-phase density" if matches!(designation, "R-23" | "R-508B") => 0.005,
        "vapour density" | "two-phase density" => 0.002,
        "enthalpy" => 200.0,
        "vapour temperature" | "two-phase temperature" => 0.1,
        "entropy" => 1.0,
        other => panic!("no limit for {other}"),
    }
}

#[test]
fn tables_agree_with_the_library_between_nodes() {
    let rows: Vec<Row> = records(STATES);
    let mut faults = Vec::new();
    for listing in fluid::list() {
        let (worst, count) = deviations(&rows, listing.designation).unwrap();
        assert!(count >= 20, "{} has only {count} check states", listing.designation);
        for (what, (deviation, place)) in &worst.0 {
            println!("{:14} {what:22} {deviation:9.2e}  {place}", listing.designation);
            if !(*deviation <= limit(listing.designation, what)) {
                faults.push(format!("{what} off by {deviation:.2e}: {place}"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
