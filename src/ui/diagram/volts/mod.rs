//! The voltage stairs: panel, branch circuit, receptacle, cords, motor; running and starting.

mod paint;

use egui::{Rangef, Rect, Response, Ui};

use crate::ui::motion;
use crate::ui::style::Look;
use crate::ui::symbols::{Mark, Symbol};

/// One part of the power path.
#[derive(Clone, Debug, PartialEq)]
pub struct Wire {
    /// What is drawn.
    pub symbol: Symbol,
    /// First label line.
    pub name: String,
    /// Second label line.
    pub detail: String,
    /// Its loss in words: "10.5 V, start 27.3 V"; empty if it has none.
    pub loss: String,
    /// The same where there is little room: "10.5, 27.3 V".
    pub loss_short: String,
    /// Volts entering and leaving, running.
    pub running: Option<(f64, f64)>,
    /// Volts entering and leaving, starting.
    pub starting: Option<(f64, f64)>,
    /// The loss is spread over a length (a cord), else it is none.
    pub slope: bool,
    /// All of it in words.
    pub words: String,
}

/// The whole picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Volts {
    /// From supply to the last cord; the motor comes after.
    pub wires: Vec<Wire>,
    /// The motor's words.
    pub motor_words: String,
    /// Its nameplate's volts and amps.
    pub motor_detail: String,
    /// Volts at the motor, running: value and words.
    pub running: Option<(f64, String)>,
    /// Volts at the motor, starting: value and words.
    pub starting: Option<(f64, String)>,
    /// Levels to mark, as the nameplate.
    pub references: Vec<(f64, String)>,
    /// Heat in the cords, in words.
    pub heat: String,
    /// What to heed, first the gravest: mark, word, sentence.
    pub verdicts: Vec<(Mark, String, String)>,
    /// Which wire has the focus box; the motor is one past the last.
    pub selected: Option<usize>,
    /// Volts at the motor before the change: running, starting.
    pub ghost: Option<(f64, f64)>,
    /// What has the focus box is only tried.
    pub tried: bool,
    /// Levels that the axis leaves room for though they are not drawn yet.
    pub extent: Vec<f64>,
    /// The answer is being renewed.
    pub stale: bool,
}

/// Where the picture goes.
#[derive(Clone, Copy, Debug)]
pub struct VoltsPlace {
    /// The whole area.
    pub rect: Rect,
    /// Left edge of the first column.
    pub left: f32,
    /// The machine's column, in which the motor stands.
    pub machine: Rangef,
    /// Up to where the motor's pair of wires rises: the foot of the machine's lift.
    pub riser: Option<f32>,
}

impl VoltsPlace {
    /// Columns of the wires: they share what lies left of the machine.
    pub fn span(&self, i: usize, count: usize) -> Rangef {
        if i >= count {
            return self.machine;
        }
        let width = (self.machine.min - self.left).max(1.0) / count.max(1) as f32;
        let left = self.left + width * i as f32;
        Rangef::new(left, left + width)
    }
}

/// Draws the picture and returns one response a wire, then the motor's.
pub fn volts_ui(ui: &mut Ui, place: VoltsPlace, volts: &Volts, look: &Look) -> Vec<Response> {
    let count = volts.wires.len();
    let foot = foot_height(look);
    let responses: Vec<Response> = (0..=count)
        .map(|i| {
            let x = place.span(i, count);
            let y = Rangef::new(place.rect.bottom() - foot, place.rect.bottom());
            let area = Rect::from_x_y_ranges(x, y);
            let response = ui.interact(area, ui.scope_id().with(("wire", i)), egui::Sense::click());
            let words = volts.wires.get(i).map_or(&volts.motor_words, |w| &w.words);
            let chosen = volts.selected == Some(i);
            response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, chosen, words));
            response
        })
        .collect();
    if ui.is_rect_visible(place.rect) && place.rect.height() > foot {
        let hovered = responses.iter().position(|r| r.hovered() || r.has_focus());
        paint::paint(ui.painter(), place, &on_their_way(ui, volts, look), hovered, look);
    }
    responses
}

/// The volts on the way from the old answer to the new one.
fn on_their_way(ui: &Ui, volts: &Volts, look: &Look) -> Volts {
    let mut volts = volts.clone();
    let id = ui.scope_id().with("volts");
    let moved = |key: (usize, usize), value: &mut f64| {
        *value = motion::moving(ui.ctx(), id.with(key), *value, look);
    };
    for (i, wire) in volts.wires.iter_mut().enumerate() {
        for (j, pair) in [&mut wire.running, &mut wire.starting].into_iter().enumerate() {
            if let Some((from, to)) = pair {
                moved((i, 2 * j), from);
                moved((i, 2 * j + 1), to);
            }
        }
    }
    for (j, end) in [&mut volts.running, &mut volts.starting].into_iter().enumerate() {
        if let Some((level, _)) = end {
            moved((usize::MAX, j), level);
        }
    }
    volts
}

/// Height of the row of parts under the stairs.
fn foot_height(look: &Look) -> f32 {
    (look.measures.small * 1.3 * 3.0 + 12.0).max(look.target())
}
