//! The colours, by role, for each theme.
//!
//! Each pair of ink and ground was measured for contrast: text at least 4.5:1, lines at least
//! 3:1. Colour never speaks alone; a shape, a dash or a word goes with it.

use egui::Color32;
use serde::{Deserialize, Serialize};

/// The three themes. Sun is for a laptop in daylight: black on white, no tints to wash out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Theme {
    /// Ink on a pale sheet.
    #[default]
    Light,
    /// Pale ink on a dark sheet.
    Dark,
    /// Highest contrast, for daylight.
    Sun,
}

impl Theme {
    /// Every theme, in the order the theme button walks through.
    pub const ALL: [Self; 3] = [Self::Light, Self::Dark, Self::Sun];

    /// The word on the theme button.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Light => "Light",
            Self::Dark => "Dark",
            Self::Sun => "Sun",
        }
    }

    /// The theme after this one.
    pub const fn next(self) -> Self {
        match self {
            Self::Light => Self::Dark,
            Self::Dark => Self::Sun,
            Self::Sun => Self::Light,
        }
    }

    /// Its colours.
    pub const fn palette(self) -> &'static Palette {
        match self {
            Self::Light => &LIGHT,
            Self::Dark => &DARK,
            Self::Sun => &SUN,
        }
    }
}

/// One colour per role.
#[derive(Debug)]
pub struct Palette {
    /// What the drawings lie on.
    pub sheet: Color32,
    /// What lies round the sheet: header, strip.
    pub ground: Color32,
    /// A field that can be typed in.
    pub field: Color32,
    /// A plate that carries an answer.
    pub plate: Color32,
    /// Text that matters.
    pub ink: Color32,
    /// Small text.
    pub ink2: Color32,
    /// Not available.
    pub ink3: Color32,
    /// A level: pressure or volts that are there. Also kit A and Note.
    pub level: Color32,
    /// A loss, as text.
    pub fall_text: Color32,
    /// A loss, as an area.
    pub fall_fill: Color32,
    /// Kit C in drawings.
    pub kit_c: Color32,
    /// Kit D in drawings.
    pub kit_d: Color32,
    /// The answer before the last change.
    pub ghost: Color32,
    /// Outlines of plates, axes.
    pub edge: Color32,
    /// Decoration: grid lines.
    pub rule: Color32,
    /// The solid of a part.
    pub wall: Color32,
    /// Vapour in a passage.
    pub vapor: Color32,
    /// Liquid in a passage.
    pub liquid: Color32,
    /// The Stop octagon.
    pub stop: Color32,
    /// The Warning triangle.
    pub warning_fill: Color32,
    /// The mark in the Warning triangle.
    pub warning_ink: Color32,
}

const fn rgb(hex: u32) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

static LIGHT: Palette = Palette {
    sheet: rgb(0xF8_F9F8),
    ground: rgb(0xDF_E3E4),
    field: rgb(0xFF_FFFF),
    plate: rgb(0xED_F0F0),
    ink: rgb(0x14_181A),
    ink2: rgb(0x3F_484D),
    ink3: rgb(0x5A_646A),
    level: rgb(0x0A_4A86),
    fall_text: rgb(0xA5_4203),
    fall_fill: rgb(0xCC_5C12),
    kit_c: rgb(0x8A_4FCB),
    kit_d: rgb(0x0B_6B5E),
    ghost: rgb(0x5F_686D),
    edge: rgb(0x71_7B80),
    rule: rgb(0xC4_CACC),
    wall: rgb(0x23_292D),
    vapor: rgb(0xC9_DDEE),
    liquid: rgb(0x4F_8BC2),
    stop: rgb(0xA5_0F1B),
    warning_fill: rgb(0xF2_B92E),
    warning_ink: rgb(0x1C_1400),
};

static DARK: Palette = Palette {
    sheet: rgb(0x14_1718),
    ground: rgb(0x20_2427),
    field: rgb(0x0B_0D0E),
    plate: rgb(0x1B_1F21),
    ink: rgb(0xEE_F1F1),
    ink2: rgb(0xC0_C8CB),
    ink3: rgb(0x98_A2A7),
    level: rgb(0x7D_B9F2),
    fall_text: rgb(0xF3_9A4E),
    fall_fill: rgb(0xB8_601A),
    kit_c: rgb(0xA8_7BE8),
    kit_d: rgb(0x62_CDB6),
    ghost: rgb(0x92_9CA1),
    edge: rgb(0x73_7E84),
    rule: rgb(0x36_3D41),
    wall: rgb(0xBF_C7CA),
    vapor: rgb(0x24_435F),
    liquid: rgb(0x4A_90D2),
    stop: rgb(0xFF_7B78),
    warning_fill: rgb(0xF2_B92E),
    warning_ink: rgb(0x1C_1400),
};

static SUN: Palette = Palette {
    sheet: rgb(0xFF_FFFF),
    ground: rgb(0xFF_FFFF),
    field: rgb(0xFF_FFFF),
    plate: rgb(0xFF_FFFF),
    ink: rgb(0x00_0000),
    ink2: rgb(0x00_0000),
    ink3: rgb(0x2B_2B2B),
    level: rgb(0x00_376E),
    fall_text: rgb(0x8F_3300),
    fall_fill: rgb(0xB8_4A05),
    kit_c: rgb(0x6A_2FB0),
    kit_d: rgb(0x00_4D43),
    ghost: rgb(0x4A_4A4A),
    edge: rgb(0x4A_4A4A),
    rule: rgb(0x8A_8A8A),
    wall: rgb(0x00_0000),
    vapor: rgb(0xBB_D6EE),
    liquid: rgb(0x2E_74B5),
    stop: rgb(0x8A_0010),
    warning_fill: rgb(0xFF_C400),
    warning_ink: rgb(0x00_0000),
};

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast of two opaque colours, WCAG 2.1 definition of relative luminance.
    fn contrast(a: Color32, b: Color32) -> f64 {
        let luminance = |c: Color32| {
            let part = |v: u8| {
                let v = f64::from(v) / 255.0;
                if v <= 0.03928 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
            };
            0.2126 * part(c.r()) + 0.7152 * part(c.g()) + 0.0722 * part(c.b())
        };
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// WCAG 2.1, 1.4.3 and 1.4.11: 4.5 for text, 3 for graphics.
    #[test]
    fn text_and_lines_stand_out_from_every_ground() {
        for theme in Theme::ALL {
            let p = theme.palette();
            for ground in [p.sheet, p.ground, p.plate, p.field] {
                for text in [p.ink, p.ink2, p.ink3, p.level, p.fall_text, p.stop] {
                    assert!(contrast(text, ground) >= 4.5, "{theme:?}: {text:?} on {ground:?}");
                }
                for line in [p.fall_fill, p.kit_c, p.kit_d, p.ghost, p.edge, p.wall] {
                    assert!(contrast(line, ground) >= 3.0, "{theme:?}: {line:?} on {ground:?}");
                }
            }
            assert!(contrast(p.warning_ink, p.warning_fill) >= 4.5, "{theme:?}");
        }
    }
}
