//! Scratch.
mod job_support;
mod support;
use job_support::*;
use narrows::job::*;
use support::Kit;
use std::time::Instant;

fn show(job: &JobSetup) {
    let start = Instant::now();
    let answer = follow(job).unwrap();
    let took = start.elapsed().as_secs_f64();
    let t = &answer.trace;
    println!("took {:.1} ms, samples {}, ends {:?}, notes {:?}", took * 1e3, t.len(), answer.ends_because, answer.notes);
    for p in &answer.phases { println!("  {:?} {:.2}..{:.2} min {:.3} kg", p.kind, p.start.value/60.0, p.end.value/60.0, p.recovered.value); }
    let every = (t.len() / 25).max(1);
    for i in (0..t.len()).step_by(every) {
        println!("{:8.2} min {:?} m {:8.3} liq {:8.4} p {:9.0} T {:7.2} rate {:.5} suct {:9.0} dis {:9.0} cyl {:9.0} {:7.2} {:8.3}", t.time_s[i]/60.0, t.phase[i], t.remaining_kg[i], t.liquid_kg[i], t.system_pa[i], t.system_k[i]-273.15, t.rate_kg_s[i]*60.0/0.45359, t.suction_pa[i], t.discharge_pa[i], t.cylinder_pa[i], t.cylinder_k[i]-273.15, t.cylinder_kg[i]);
    }
}
#[test]
fn tail() {
    let mut job = reference_tail(Kit::C);
    show(&job);
    job.system.contents = Contents::Equilibrium;
    job.system.heat_gain = watts_per_kelvin(30.0);
    show(&job);
}
#[test]
fn gains() {
    for w in [0.0, 3.0, 5.0, 10.0, 15.0, 20.0, 30.0, 60.0, 300.0] {
        let mut job = reference_tail(Kit::C);
        job.system.contents = Contents::Equilibrium;
        job.system.heat_gain = watts_per_kelvin(w);
        let a = follow(&job).unwrap();
        println!("{w} W/K {:.2} min, end T {:.2} {:?}", a.total.value / 60.0, a.trace.system_k.last().unwrap() - 273.15, a.ends_because);
    }
}
#[test]
fn open_gains() {
    for w in [-1.0, 0.0, 10.0, 30.0] {
        let mut job = reference_tail(Kit::Open);
        if w >= 0.0 {
        job.system.contents = Contents::Equilibrium;
        job.system.heat_gain = watts_per_kelvin(w); }
        let a = follow(&job).unwrap();
        println!("{w} W/K {:.2} min, end T {:.2} {:?}", a.total.value / 60.0, a.trace.system_k.last().unwrap() - 273.15, a.ends_because);
    }
}
use narrows::flow::Path;
use support::{parts, setup};
use uom::si::f64::*;
use uom::si::thermodynamic_temperature::degree_celsius;
fn ppjob(kit: Kit, charge_kg: f64, liters: f64, contents: Contents) -> JobSetup {
    let mut job = vapor_job("R-22", kit, 0.42, kg(charge_kg), Volume::new::<uom::si::volume::liter>(liters), 101_325.0);
    let start = ThermodynamicTemperature::new::<degree_celsius>(24.0);
    job.kit = setup("R-22", kit, 0.42, Port::Vapor);
    job.kit.source.temperature = start;
    job.kit.ambient.temperature = start;
    job.system.contents = contents;
    job.cylinders = vec![JobCylinder { temperature: start, contents: kg(4.3), ..cylinder(100.0, 400.0) }];
    job.method = Recovery::PushPull(PushPull { liquid_line: Path::series(parts(kit)), vapor_line: vec![], gas_line: vec![], finish: Finish::VaporOnly });
    job
}
#[test]
fn pushpull() {
    show(&ppjob(Kit::A, 60.0, 60.0, Contents::Equilibrium));
    for k in [0.0, 20.0, 1e5] {
        println!("K {k}");
        show(&ppjob(Kit::A, 60.0, 60.0, Contents::TwoZone { interphase: watts_per_kelvin(k) }));
    }
}
