//! The typeface: B612 Regular and Bold, bundled (licence beside the files), with egui's own
//! faces behind it for signs it lacks.

use std::sync::Arc;

use egui::{Context, FontData, FontDefinitions, FontFamily, FontId};

/// Family name of the bold face.
const BOLD: &str = "bold";

/// Registers the faces with egui. Call once, before the first frame.
pub fn install(ctx: &Context) {
    let mut fonts = FontDefinitions::default();
    let fallback = fonts.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    let faces: [(&str, &'static [u8], FontFamily); 2] = [
        ("b612", include_bytes!("../../../assets/fonts/B612-Regular.otf"), FontFamily::Proportional),
        ("b612-bold", include_bytes!("../../../assets/fonts/B612-Bold.otf"), FontFamily::Name(BOLD.into())),
    ];
    for (name, bytes, family) in faces {
        fonts.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
        let chain = std::iter::once(name.to_owned()).chain(fallback.iter().cloned()).collect();
        fonts.families.insert(family, chain);
    }
    ctx.set_fonts(fonts);
}

/// The regular face at a size.
pub fn regular(size: f32) -> FontId {
    FontId::new(size, FontFamily::Proportional)
}

/// The bold face at a size.
pub fn bold(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name(BOLD.into()))
}
