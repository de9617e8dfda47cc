//! What has to be told apart stays apart: for eyes that lack one kind of cone, and in grey.

use egui::Color32;

use crate::ui::diagram::lines::{kit_color, kit_dash};
use crate::ui::style::{Palette, Theme};

/// Full protanopia, deuteranopia and tritanopia as matrices on linear sRGB: Machado, Oliveira and
/// Fernandes, "A physiologically-based model for simulation of color vision deficiency", IEEE
/// Transactions on Visualization and Computer Graphics 15 (2009), severity 1.0; from memory, and
/// each row must sum to one, since white stays white.
const DEFICIENCIES: [(&str, [[f64; 3]; 3]); 3] = [
    (
        "protanopia",
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
    ),
    (
        "deuteranopia",
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]],
    ),
    (
        "tritanopia",
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]],
    ),
];

/// As it is, as an eye without one kind of cone has it, and without any colour.
fn seen(color: Color32) -> Vec<(&'static str, [f64; 3])> {
    let rgb = linear(color);
    let mut all = vec![("full sight", rgb)];
    for (name, rows) in DEFICIENCIES {
        let row = |r: [f64; 3]| (r[0] * rgb[0] + r[1] * rgb[1] + r[2] * rgb[2]).clamp(0.0, 1.0);
        all.push((name, rows.map(row)));
    }
    all
}

/// Linear light of sRGB: IEC 61966-2-1.
fn linear(color: Color32) -> [f64; 3] {
    [color.r(), color.g(), color.b()].map(|v| {
        let v = f64::from(v) / 255.0;
        if v <= 0.04045 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
    })
}

/// Relative luminance of linear light: WCAG 2.1, the weights of ITU-R BT.709.
fn luminance(rgb: [f64; 3]) -> f64 {
    0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2]
}

/// Contrast ratio: WCAG 2.1.
fn contrast(a: [f64; 3], b: [f64; 3]) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// CIELAB under D65: CIE 15, with the primaries of sRGB.
fn lab(rgb: [f64; 3]) -> [f64; 3] {
    let [r, g, b] = rgb;
    let x = (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505;
    let y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    let z = (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089;
    let f = |t: f64| if t > 216.0 / 24389.0 { t.cbrt() } else { (24389.0 / 27.0 * t + 16.0) / 116.0 };
    [116.0 * f(y) - 16.0, 500.0 * (f(x) - f(y)), 200.0 * (f(y) - f(z))]
}

/// Distance of two colours, CIE 1976; about 2.3 can just be noticed (Mahy et al. 1994).
fn distance(a: [f64; 3], b: [f64; 3]) -> f64 {
    let (a, b) = (lab(a), lab(b));
    (0..3).map(|i| (a[i] - b[i]).powi(2)).sum::<f64>().sqrt()
}

#[track_caller]
fn check_apart(theme: Theme, what: &str, a: Color32, b: Color32, at_least: f64) {
    for ((eye, a), (_, b)) in seen(a).into_iter().zip(seen(b)) {
        let d = distance(a, b);
        assert!(d >= at_least, "{what} in {}, {eye}: {d:.1}, expected {at_least}", theme.name());
    }
}

#[test]
fn white_stays_white_without_a_cone() {
    for (name, rows) in DEFICIENCIES {
        for row in rows {
            assert!((row.iter().sum::<f64>() - 1.0).abs() < 2e-6, "{name}: {row:?}");
        }
    }
    // Checked by hand: white is L* 100, black 0, and 21:1 apart.
    let (white, black) = (linear(Color32::WHITE), linear(Color32::BLACK));
    assert!((lab(white)[0] - 100.0).abs() < 0.01 && lab(black)[0].abs() < 0.01);
    assert!((contrast(white, black) - 21.0).abs() < 1e-9);
}

/// A level against a loss: the pair that carries the drawings.
#[test]
fn level_and_loss_are_far_apart_for_every_eye() {
    for theme in Theme::ALL {
        let p = theme.palette();
        check_apart(theme, "level and loss", p.level, p.fall_fill, 50.0);
        check_apart(theme, "level and the words of a loss", p.level, p.fall_text, 50.0);
        // Without any colour, by lightness: a fill against the line at its edge.
        let grey = contrast(linear(p.level), linear(p.fall_fill));
        assert!(grey >= 1.8, "{}: {grey:.2}", theme.name());
    }
}

/// Kits are told apart by dash and letter; their colours help every eye on top of that.
#[test]
fn kits_differ_by_dash_and_by_colour() {
    for theme in Theme::ALL {
        let p: &Palette = theme.palette();
        for a in 0..4 {
            for b in 0..a {
                assert_ne!(kit_dash(a), kit_dash(b), "kits {a} and {b}");
                check_apart(theme, &format!("kits {b} and {a}"), kit_color(a, p), kit_color(b, p), 9.0);
            }
        }
    }
}

/// What lies in a passage, and the marks that grade a caution.
#[test]
fn liquid_and_vapour_and_the_marks_stay_apart() {
    for theme in Theme::ALL {
        let p = theme.palette();
        check_apart(theme, "liquid and vapour", p.liquid, p.vapor, 20.0);
        let grey = contrast(linear(p.liquid), linear(p.vapor));
        assert!(grey >= 2.4, "{}: {grey:.2}", theme.name());
        check_apart(theme, "Stop and Warning", p.stop, p.warning_fill, 20.0);
    }
}

/// For every eye, what is written can be read: WCAG 2.1, 1.4.3.
#[test]
fn text_can_be_read_without_a_cone() {
    for theme in Theme::ALL {
        let p = theme.palette();
        for text in [p.ink, p.ink2, p.level, p.fall_text, p.stop] {
            for ((eye, text), (_, sheet)) in seen(text).into_iter().zip(seen(p.sheet)) {
                let ratio = contrast(text, sheet);
                assert!(ratio >= 4.5, "{} for {eye}: {ratio:.2}", theme.name());
            }
        }
    }
}
