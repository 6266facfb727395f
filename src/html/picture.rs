//! A drawing as inline SVG.
//!
//! In: a drawing in points, y upward. Out: SVG elements, y downward. May not know: what is drawn.

use super::blocks::Browser;
use super::written::Written;
use crate::fonts::Style;
use crate::shapes::{Anchor, Drawing, Point, Shape, Stroke};

/// Writes a drawing with its words for someone who cannot see it; `alt` goes before the drawing's own.
pub fn write(browser: &mut Browser<'_>, drawing: &Drawing, alt: Option<&str>) {
    let out = &mut browser.out;
    out.raw("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"");
    out.attribute("aria-label", alt.unwrap_or(&drawing.alt));
    out.attribute("viewBox", &format!("0 0 {} {}", number(drawing.width), number(drawing.height)));
    out.attribute("style", &format!("width:{}pt", number(drawing.width)));
    out.raw(">");
    for part in &drawing.parts {
        browser.out.raw("<g");
        browser.out.attribute("class", &part.name);
        browser.out.raw(">");
        for it in &part.shapes {
            // A browser has faces of its own: the letters are made to take the room that the drawing keeps for them.
            let room = match it {
                Shape::Text { text, size, bold, .. } => browser.setter.width(Style::new(*bold, false), text, *size),
                _ => 0.0,
            };
            shape(&mut browser.out, it, drawing.height, room);
        }
        browser.out.raw("</g>");
    }
    browser.out.raw("</svg>");
}

fn shape(out: &mut Written, shape: &Shape, height: f64, room: f64) {
    match shape {
        Shape::Line { points, closed, stroke } => {
            out.raw(if *closed { "<polygon fill=\"none\"" } else { "<polyline fill=\"none\"" });
            out.attribute("points", &corners(points, height));
            stroked(out, *stroke);
            out.raw("/>");
        }
        Shape::Arc { center, radius, from, sweep, stroke } => {
            out.raw("<path fill=\"none\"");
            out.attribute("d", &arc(*center, *radius, *from, *sweep, height));
            stroked(out, *stroke);
            out.raw("/>");
        }
        Shape::Fill { points, gray } => {
            out.raw("<polygon");
            out.attribute("points", &corners(points, height));
            out.attribute("fill", &color(*gray));
            out.raw("/>");
        }
        Shape::Text { at, text, size, bold, anchor, turn } => {
            out.raw("<text");
            let (x, y) = (number(at.x), number(height - at.y));
            out.attribute("x", &x);
            out.attribute("y", &y);
            out.attribute("font-size", &number(*size));
            out.attribute("textLength", &number(room));
            out.raw(" lengthAdjust=\"spacingAndGlyphs\"");
            if *bold {
                out.attribute("font-weight", "bold");
            }
            match anchor {
                Anchor::Start => {}
                Anchor::Middle => out.attribute("text-anchor", "middle"),
                Anchor::End => out.attribute("text-anchor", "end"),
            }
            if *turn != 0.0 {
                out.attribute("transform", &format!("rotate({} {x} {y})", number(-turn)));
            }
            out.raw(">");
            out.text(text);
            out.raw("</text>");
        }
    }
}

fn stroked(out: &mut Written, stroke: Stroke) {
    out.attribute("stroke", &color(stroke.gray));
    out.attribute("stroke-width", &number(stroke.width));
    if let Some((dash, gap)) = stroke.dash {
        out.attribute("stroke-dasharray", &format!("{} {}", number(dash), number(gap)));
    }
}

/// A gray from 0, black, to 1, white.
fn color(gray: f64) -> String {
    let level = (gray.clamp(0.0, 1.0) * 255.0).round() as u8;
    format!("#{level:02x}{level:02x}{level:02x}")
}

fn corners(points: &[Point], height: f64) -> String {
    let each: Vec<String> = points.iter().map(|it| format!("{},{}", number(it.x), number(height - it.y))).collect();
    each.join(" ")
}

/// A path in pieces of at most 120°, since one piece of a whole circle would begin where it ends and show nothing.
fn arc(center: Point, radius: f64, from: f64, sweep: f64, height: f64) -> String {
    let place = |degrees: f64| {
        let angle = degrees.to_radians();
        let (x, y) = (center.x + radius * libm::cos(angle), center.y + radius * libm::sin(angle));
        format!("{} {}", number(x), number(height - y))
    };
    let pieces = (sweep.abs() / 120.0).ceil().max(1.0) as u32;
    let mut path = format!("M{}", place(from));
    let turned = if sweep > 0.0 { 0 } else { 1 };
    for piece in 1..=pieces {
        let end = from + sweep * f64::from(piece) / f64::from(pieces);
        path.push_str(&format!("A{0} {0} 0 0 {turned} {1}", number(radius), place(end)));
    }
    path
}

/// A number to a hundredth of a point, without needless zeros.
pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
