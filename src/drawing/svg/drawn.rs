//! The elements of SVG that the marks of a sheet are.

use super::scale::{Scale, px};
use crate::drawing::{Anchor, FramePart, Mark, Pen, Point, Shape, Status};
use crate::model::Level;
use crate::units::write_fixed;

/// One element: its tag, the same attributes for every element of that tag, and its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The tag.
    pub tag: &'static str,
    /// Names and values.
    pub attributes: Vec<(&'static str, String)>,
    /// The text in it.
    pub words: String,
}

/// The mark at that scale, lit or not.
pub fn drawn(mark: &Mark, scale: Scale, lit: Option<&str>) -> Drawn {
    let mut attributes = vec![
        ("class", class(mark, lit)),
        ("data-topic", mark.topic.clone().unwrap_or_default()),
        ("data-part", mark.part.map_or("", FramePart::key).to_owned()),
    ];
    match &mark.shape {
        Shape::Text { at, text, anchor } => {
            let (x, y) = scale.at(*at);
            attributes.extend([("x", px(x)), ("y", px(y)), ("text-anchor", anchor_word(*anchor).to_owned())]);
            Drawn { tag: "text", attributes, words: text.clone() }
        }
        Shape::Line { a, b } => chain("polyline", attributes, &[*a, *b], scale),
        Shape::Path { points, closed: false } => chain("polyline", attributes, points, scale),
        Shape::Path { points, closed: true } => chain("polygon", attributes, points, scale),
        Shape::Circle { at, radius } => {
            attributes.push(("d", circle(*at, *radius, scale)));
            Drawn { tag: "path", attributes, words: String::new() }
        }
        Shape::Ring { at, radius, hole } => {
            attributes.push(("d", circle(*at, *radius, scale) + &circle(*at, *hole, scale)));
            Drawn { tag: "path", attributes, words: String::new() }
        }
        Shape::Pill { min, max } => pill(attributes, [*min, *max], scale),
    }
}

fn class(mark: &Mark, lit: Option<&str>) -> String {
    let pen = match mark.pen {
        Pen::Visible => "pen-visible",
        Pen::Hidden => "pen-hidden",
        Pen::Axis => "pen-axis",
        Pen::Thin => "pen-thin",
        Pen::Cutter => "pen-cutter",
        Pen::Phantom => "pen-phantom",
        Pen::Tight => "pen-tight",
        Pen::Arrow => "pen-arrow",
        Pen::Text => "pen-text",
        Pen::Fill(material) => material.class(),
        Pen::Pill(Status::Checked) => "pill checked",
        Pen::Pill(_) => "pill",
        Pen::Gap(Level::Stop) => "gap-stop",
        Pen::Gap(Level::Check) => "gap-check",
        Pen::Gap(Level::Note) => "gap-ok",
    };
    let is_lit = mark.topic.is_some() && mark.topic.as_deref() == lit;
    if is_lit { format!("{pen} lit") } else { pen.to_owned() }
}

const fn anchor_word(anchor: Anchor) -> &'static str {
    match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    }
}

/// A chain of lines. Its points are no property of its style, as a path's are: it can move and nothing is styled anew.
fn chain(
    tag: &'static str,
    mut attributes: Vec<(&'static str, String)>,
    list: &[Point],
    scale: Scale,
) -> Drawn {
    let mut points = String::with_capacity(list.len() * 14);
    for point in list {
        let (x, y) = scale.at(*point);
        if !points.is_empty() {
            points.push(' ');
        }
        write_fixed(&mut points, x, 1);
        points.push(' ');
        write_fixed(&mut points, y, 1);
    }
    attributes.push(("points", points));
    Drawn { tag, attributes, words: String::new() }
}

/// A rectangle as round at its ends as it is high.
fn pill(mut attributes: Vec<(&'static str, String)>, [min, max]: [Point; 2], scale: Scale) -> Drawn {
    let ((left, top), (right, bottom)) = (scale.at(min), scale.at(max));
    let size = [("x", left), ("y", top), ("width", right - left), ("height", bottom - top)];
    attributes.extend(size.map(|(name, value)| (name, px(value))));
    attributes.push(("rx", px(0.5 * (bottom - top))));
    Drawn { tag: "rect", attributes, words: String::new() }
}

fn circle(at: Point, radius: f64, scale: Scale) -> String {
    let (x, y) = scale.at(at);
    let r = px(radius * scale.px_per_mm);
    let d = px(2.0 * radius * scale.px_per_mm);
    format!("M{} {}m-{r} 0a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0", px(x), px(y))
}
