//! The cases of the power room against sources outside it.

mod power_parts;
use power_parts::*;

#[test]
fn print_s4() {
    for (p, m) in [
        (roof_path(16, 100.0), motor(12.0, 60.0)),
        (roof_path(12, 50.0), motor(12.0, 60.0)),
        (roof_path(12, 100.0), motor(12.0, 60.0)),
        (third_path(20.0), motor(15.0, 75.0)),
        (third_path(15.0), motor(15.0, 75.0)),
    ] {
        for f in [75.0, 95.0] {
            let point = solve_at(&p, &m, f);
            println!("{:?}", point.running);
            println!("{:?}", point.starting);
            for v in &point.verdicts {
                println!("{:?} {}", v.grade, v.finding);
            }
            if f == 75.0 {
                for v in &point.notes {
                    println!("   {}", v);
                }
            }
        }
    }
    let p = path(103.5, branch(14, 0.0, 15.0), vec![]);
    let point = solve_at(&p, &motor(12.0, 60.0), 75.0);
    println!("{:?}", point.running);
}
