//! The curves of whole jobs as comma-separated values: one row a sample, SI units.

use super::job_solved::SolvedJobs;
use super::job_words::phase_name;

const HEADER: &str = "kit,time_s,phase,rate_kg_s,recovered_kg,remaining_kg,liquid_kg,system_pa,system_k,\
suction_pa,discharge_pa,cylinder,cylinder_pa,cylinder_k,cylinder_kg";

/// The whole output of `narrows job --csv`.
pub fn jobs_csv(jobs: &SolvedJobs) -> String {
    let mut text = String::from(HEADER);
    text.push('\n');
    for job in &jobs.kits {
        let Ok(answer) = job.shown() else { continue };
        let trace = &answer.trace;
        for row in 0..trace.len() {
            let phase = trace.phase.get(row).and_then(|index| answer.phases.get(*index));
            let numbers = [
                &trace.rate_kg_s,
                &trace.recovered_kg,
                &trace.remaining_kg,
                &trace.liquid_kg,
                &trace.system_pa,
                &trace.system_k,
                &trace.suction_pa,
                &trace.discharge_pa,
            ];
            let cells: Vec<String> = numbers.iter().map(|column| cell(column, row)).collect();
            let cylinder: Vec<String> = [&trace.cylinder_pa, &trace.cylinder_k, &trace.cylinder_kg]
                .iter()
                .map(|c| cell(c, row))
                .collect();
            text.push_str(&format!(
                "{},{},{},{},{},{}\n",
                job.start.kit.name,
                cell(&trace.time_s, row),
                phase.map_or("", |phase| phase_name(phase.kind)),
                cells.join(","),
                trace.cylinder.get(row).map_or(0, |index| index + 1),
                cylinder.join(","),
            ));
        }
    }
    text
}

fn cell(column: &[f64], row: usize) -> String {
    column.get(row).map(|value| format!("{value:.7e}")).unwrap_or_default()
}
