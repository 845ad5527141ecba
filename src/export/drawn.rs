//! The elements of SVG that the marks of a sheet are.

use super::scale::{Scale, px};
use crate::drawing::{Anchor, Mark, Pen, Point, Shape};
use crate::quantity::write_fixed;

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
    let mut attributes =
        vec![("class", class(mark, lit)), ("data-topic", mark.topic.clone().unwrap_or_default())];
    match &mark.shape {
        Shape::Text { at, text, anchor } => {
            let (x, y) = scale.at(*at);
            attributes.extend([("x", px(x)), ("y", px(y)), ("text-anchor", anchor_word(*anchor).to_owned())]);
            Drawn { tag: "text", attributes, words: text.clone() }
        }
        shape => {
            attributes.push(("d", outline(shape, scale)));
            Drawn { tag: "path", attributes, words: String::new() }
        }
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

fn outline(shape: &Shape, scale: Scale) -> String {
    match shape {
        Shape::Line { a, b } => points(&[*a, *b], false, scale),
        Shape::Path { points: list, closed } => points(list, *closed, scale),
        Shape::Circle { at, radius } => {
            let (x, y) = scale.at(*at);
            let r = px(radius * scale.px_per_mm);
            format!(
                "M{} {}m-{r} 0a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0",
                px(x),
                px(y),
                d = px(2.0 * radius * scale.px_per_mm)
            )
        }
        Shape::Text { .. } => String::new(),
    }
}

fn points(list: &[Point], closed: bool, scale: Scale) -> String {
    let mut path = String::with_capacity(list.len() * 14);
    for (index, point) in list.iter().enumerate() {
        let (x, y) = scale.at(*point);
        let letter = if index == 0 { 'M' } else { 'L' };
        path.push(letter);
        write_fixed(&mut path, x, 1);
        path.push(' ');
        write_fixed(&mut path, y, 1);
    }
    if closed {
        path.push('Z');
    }
    path
}
