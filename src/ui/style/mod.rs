//! How the window looks: palette, typeface, measures, and their translation into egui's style.

pub mod fonts;
pub mod measures;
pub mod palette;

use egui::{Context, CornerRadius, FontFamily, Shadow, Stroke, TextStyle, Visuals};

pub use measures::Measures;
pub use palette::{Palette, Theme};

/// What every drawing function gets: colours and sizes.
#[derive(Clone, Copy, Debug)]
pub struct Look {
    /// Which theme the palette belongs to.
    pub theme: Theme,
    /// The colours.
    pub palette: &'static Palette,
    /// The sizes.
    pub measures: Measures,
    /// Nothing moves: what changes, jumps.
    pub still: bool,
}

impl Look {
    /// The look of a theme in a window of this logical size.
    pub fn new(theme: Theme, width: f32, height: f32) -> Self {
        let measures = Measures::for_window(width, height, false);
        Self { theme, palette: theme.palette(), measures, still: false }
    }

    /// The look with larger type and targets, for a van.
    pub fn in_van(self, width: f32, height: f32, van: bool) -> Self {
        Self { measures: Measures::for_window(width, height, van), ..self }
    }

    /// Smallest side of anything that can be clicked.
    pub fn target(&self) -> f32 {
        self.measures.target
    }

    /// How long something moves, given how long it would.
    pub fn seconds(&self, moving_s: f32) -> f32 {
        if self.still { 0.0 } else { moving_s }
    }

    /// A thin line.
    pub fn hairline(&self, color: egui::Color32) -> Stroke {
        Stroke::new(self.measures.line, color)
    }

    /// Puts colours and sizes into egui's own style, for its stock widgets.
    pub fn apply(&self, ctx: &Context) {
        let side = match self.theme {
            Theme::Dark => egui::Theme::Dark,
            Theme::Light | Theme::Sun => egui::Theme::Light,
        };
        ctx.set_theme(side);
        ctx.style_mut_of(side, |style| {
            self.text_styles_of(style);
            style.visuals = self.visuals();
            style.spacing.item_spacing = egui::vec2(8.0, 6.0);
            style.spacing.button_padding = egui::vec2(10.0, 4.0);
            style.spacing.interact_size = egui::vec2(self.measures.target, self.measures.target);
            style.spacing.icon_width = 18.0;
            style.spacing.menu_margin = egui::Margin::same(6);
            style.animation_time = 0.0;
            style.wrap_mode = None;
        });
    }

    /// Puts the sizes of text into egui's style, here or in one place alone.
    pub fn text_styles_of(&self, style: &mut egui::Style) {
        let m = &self.measures;
        style.text_styles = [
            (TextStyle::Small, fonts::regular(m.small)),
            (TextStyle::Body, fonts::regular(m.body)),
            (TextStyle::Button, fonts::regular(m.body)),
            (TextStyle::Heading, fonts::bold(m.strong)),
            (TextStyle::Monospace, egui::FontId::new(m.body, FontFamily::Monospace)),
        ]
        .into();
    }

    fn visuals(&self) -> Visuals {
        let p = self.palette;
        let mut v = match self.theme {
            Theme::Dark => Visuals::dark(),
            Theme::Light | Theme::Sun => Visuals::light(),
        };
        v.override_text_color = Some(p.ink);
        v.panel_fill = p.sheet;
        v.window_fill = p.sheet;
        v.window_stroke = Stroke::new(1.0, p.edge);
        v.window_shadow = Shadow::NONE;
        v.popup_shadow = Shadow::NONE;
        v.extreme_bg_color = p.field;
        v.text_edit_bg_color = Some(p.field);
        v.faint_bg_color = p.plate;
        v.selection.bg_fill = p.vapor;
        v.selection.stroke = Stroke::new(1.5, p.ink);
        v.hyperlink_color = p.level;
        v.warn_fg_color = p.fall_text;
        v.error_fg_color = p.stop;
        v.weak_text_color = Some(p.ink2);
        v.window_corner_radius = CornerRadius::ZERO;
        v.menu_corner_radius = CornerRadius::ZERO;
        let w = &mut v.widgets;
        for (state, bg, line, width) in [
            (&mut w.noninteractive, p.sheet, p.rule, 1.0),
            (&mut w.inactive, p.field, p.edge, 1.0),
            (&mut w.hovered, p.field, p.ink, 1.5),
            (&mut w.active, p.ground, p.ink, 2.5),
            (&mut w.open, p.ground, p.ink, 1.5),
        ] {
            state.bg_fill = bg;
            state.weak_bg_fill = bg;
            state.bg_stroke = Stroke::new(width, line);
            state.fg_stroke = Stroke::new(1.5, p.ink);
            state.corner_radius = CornerRadius::ZERO;
            state.expansion = 0.0;
        }
        v
    }
}
