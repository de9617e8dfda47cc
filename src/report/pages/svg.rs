//! Writes a drawing as inline SVG. Every word from outside is escaped.

use maud::{Markup, html};

use super::picture::{Anchor, Dash, Item, LETTER, Picture, Tone, WIDTH};
use crate::report::drawing::{AXIS, Ink, Mark, Shape};

/// The hatch that every drawing of a page uses, and nothing that is seen.
pub(super) fn definitions() -> Markup {
    html! {
        svg width="0" height="0" style="position:absolute" aria-hidden="true" {
            defs {
                pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse"
                    patternTransform="rotate(45)" {
                    rect width="5" height="5" fill="#fdeee2" {}
                    line x1="0" y1="0" x2="0" y2="5" stroke=(color(Tone::Fall)) stroke-width="3" {}
                }
            }
        }
    }
}

/// A drawing.
pub(super) fn picture(picture: &Picture) -> Markup {
    let view = format!("0 0 {WIDTH:.0} {:.0}", picture.height);
    html! {
        svg.picture viewBox=(view) role="img" aria-label=(picture.title) {
            @for item in &picture.items { (item_markup(item)) }
        }
    }
}

/// A mark beside a word.
pub(super) fn mark(mark: Mark) -> Markup {
    html! {
        svg.mark viewBox="0 0 96 96" aria-hidden="true" {
            @for shape in mark.shapes() { (shape_markup(&shape, false)) }
        }
    }
}

fn item_markup(item: &Item) -> Markup {
    match item {
        Item::Line { points, tone, width, dash } => html! {
            polyline points=(list(points)) fill="none" stroke=(color(*tone)) stroke-width=(width)
                stroke-linejoin="round" stroke-dasharray=[dashes(*dash)] {}
        },
        Item::Area { points, tone } => html! { polygon points=(list(points)) fill=(color(*tone)) {} },
        Item::Hatch { points } => html! {
            polygon points=(list(points)) fill="url(#hatch)" stroke=(color(Tone::Fall)) stroke-width="1" {}
        },
        Item::Ring { at, filled } => html! {
            circle cx=(number(at.0)) cy=(number(at.1)) r="3.2"
                fill=(color(if *filled { Tone::Level } else { Tone::Sheet }))
                stroke=(color(Tone::Level)) stroke-width="1.5" {}
        },
        Item::Text { at, words, anchor, tone, bold } => html! {
            text x=(number(at.0)) y=(number(at.1)) font-size=(LETTER) fill=(color(*tone))
                text-anchor=(anchor_word(*anchor)) font-weight=[bold.then_some("bold")] { (words) }
        },
        Item::Symbol { shapes, at, size, liquid } => {
            let place = format!("translate({:.2} {:.2}) scale({:.4})", at.0, at.1, size / 96.0);
            html! { g transform=(place) { @for shape in shapes { (shape_markup(shape, *liquid)) } } }
        }
    }
}

fn shape_markup(shape: &Shape, liquid: bool) -> Markup {
    let fill = ink_color(shape.ink(), liquid);
    match shape {
        Shape::Rect { at: [x, y, w, h], round, .. } => html! {
            rect x=(number(*x)) y=(number(*y)) width=(number(*w)) height=(number(*h)) rx=(number(*round))
                fill=(fill) {}
        },
        Shape::Convex { points, .. } => html! { polygon points=(list(points)) fill=(fill) {} },
        Shape::Disc { at, radius, .. } => html! {
            circle cx=(number(at.0)) cy=(number(at.1)) r=(number(*radius)) fill=(fill) {}
        },
        Shape::Ring { at, radius, width, .. } => html! {
            circle cx=(number(at.0)) cy=(number(at.1)) r=(number(*radius)) fill="none" stroke=(fill)
                stroke-width=(number(*width)) {}
        },
        Shape::Line { points, width, .. } => html! {
            polyline points=(list(points)) fill="none" stroke=(fill) stroke-width=(number(*width)) {}
        },
        Shape::Channel { stations, .. } => {
            let upper = stations.iter().map(|(x, half)| (*x, AXIS - half));
            let lower = stations.iter().rev().map(|(x, half)| (*x, AXIS + half));
            let outline: Vec<(f32, f32)> = upper.chain(lower).collect();
            html! { polygon points=(list(&outline)) fill=(fill) {} }
        }
    }
}

fn list(points: &[(f32, f32)]) -> String {
    points.iter().map(|(x, y)| format!("{},{}", number(*x), number(*y))).collect::<Vec<_>>().join(" ")
}

/// A coordinate; what is no number lies at the edge.
fn number(value: f32) -> String {
    let value = if value.is_finite() { value } else { 0.0 };
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

fn anchor_word(anchor: Anchor) -> &'static str {
    match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    }
}

fn dashes(dash: Dash) -> Option<&'static str> {
    match dash {
        Dash::Solid => None,
        Dash::Long => Some("8 5"),
        Dash::Dots => Some("2 4"),
        Dash::Reference => Some("10 3 2 3"),
    }
}

fn color(tone: Tone) -> &'static str {
    match tone {
        Tone::Ink => "#000",
        Tone::Level => "#00376e",
        Tone::Fall => "#8f3300",
        Tone::Rule => "#8a8a8a",
        Tone::Sheet => "#fff",
        Tone::Shade => "#e2e6e8",
    }
}

fn ink_color(ink: Ink, liquid: bool) -> &'static str {
    match ink {
        Ink::Wall | Ink::Rim | Ink::WarningMark => "#000",
        Ink::Sheet => "#fff",
        Ink::Fluid if liquid => "#6fa3cf",
        Ink::Fluid => "#d5e6f3",
        Ink::Liquid => "#6fa3cf",
        Ink::Stop => "#8a0010",
        Ink::Warning => "#ffd34d",
        Ink::Level => "#00376e",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_escaped_and_coordinates_are_numbers() {
        let mut drawing = Picture::new("<b>\"title\"", 10.0);
        drawing.text((f32::NAN, 2.25), "<script>", Anchor::Start);
        let text = picture(&drawing).into_string();
        assert!(!text.contains("<script>") && !text.contains("<b>") && !text.contains("NaN"), "{text}");
        assert!(text.contains("&lt;script&gt;"), "{text}");
    }
}
