//! What moves: a value on its way to a new one, a piece that grows when it is revealed.
//!
//! Straight in time, never for its own sake, and over at once under reduced motion. Nothing asks
//! for another frame once it has arrived.

use egui::{Context, Id};

use super::style::Look;

/// A changed answer moves so long, in seconds.
pub const MOVE_S: f32 = 0.16;
/// A revealed piece grows so long, in seconds.
pub const REVEAL_S: f32 = 1.0;

/// Where a value stands on its way to `target`.
pub fn moving(ctx: &Context, id: Id, target: f64, look: &Look) -> f64 {
    let goal = target as f32;
    // What is no number has no way to it, and would never arrive.
    if !goal.is_finite() {
        return target;
    }
    let now = ctx.animate_value_with_time(id, goal, look.seconds(MOVE_S));
    if now == goal { target } else { f64::from(now) }
}

/// How much of a piece is there, 0 to 1; what goes, goes at once.
pub fn growing(ctx: &Context, id: Id, there: bool, look: &Look) -> f32 {
    let seconds = if there { look.seconds(REVEAL_S) } else { 0.0 };
    ctx.animate_value_with_time(id, f32::from(u8::from(there)), seconds)
}

/// A numeral on its way to a new one, with the decimals of the new one.
pub fn moving_numeral(ctx: &Context, id: Id, text: &str, look: &Look) -> String {
    let Ok(target) = text.replace('\u{2212}', "-").parse::<f64>() else { return text.to_owned() };
    let now = moving(ctx, id, target, look);
    if now == target {
        return text.to_owned();
    }
    let decimals = text.split_once('.').map_or(0, |(_, after)| after.len());
    format!("{now:.decimals$}").replace('-', "\u{2212}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ui::style::Theme;

    /// Runs frames `dt` apart and returns what was shown, and whether the last one asked for more.
    fn shown(look: &Look, targets: &[f64], dt: f64) -> (Vec<f64>, bool) {
        let ctx = Context::default();
        let mut seen = Vec::new();
        let mut more = false;
        for (frame, target) in targets.iter().enumerate() {
            let input = egui::RawInput { time: Some(frame as f64 * dt), ..Default::default() };
            let mut out = ctx.run_ui(input, |ui| seen.push(moving(ui.ctx(), Id::unique("v"), *target, look)));
            out.textures_delta.clear();
            let delay = out.viewport_output.values().map(|v| v.repaint_delay).min();
            more = delay.is_some_and(|d| d < std::time::Duration::from_secs(60));
        }
        (seen, more)
    }

    #[test]
    fn a_value_moves_straight_and_arrives() {
        let look = Look::new(Theme::Light, 1366.0, 768.0);
        let mut targets = vec![100.0];
        targets.extend([200.0; 30]);
        let (seen, more) = shown(&look, &targets, 0.02);
        assert_eq!(*seen.last().unwrap(), 200.0);
        assert!(seen.windows(2).all(|w| w[1] >= w[0]) && seen.iter().any(|v| (120.0..180.0).contains(v)));
        // 160 ms at 20 ms a frame: there after eight frames, with one at either end.
        let arrived = seen.iter().position(|v| *v == 200.0).unwrap();
        assert!((8..=10).contains(&arrived), "{arrived}");
        assert!(!more, "asks for frames after it has arrived");
    }

    #[test]
    fn under_reduced_motion_it_jumps() {
        let look = Look { still: true, ..Look::new(Theme::Light, 1366.0, 768.0) };
        let (seen, _) = shown(&look, &[100.0, 200.0, f64::NAN, 50.0], 0.02);
        assert_eq!((seen[0], seen[1], seen[3]), (100.0, 200.0, 50.0));
    }
}
