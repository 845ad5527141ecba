//! A whole sheet as SVG.

use super::drawn::{Drawn, drawn};
use super::scale::{Scale, px};
use crate::drawing::Sheet;

/// The sheet as the text of an `svg` element, as wide as `width` px and at most `most_high` px high.
pub fn svg(sheet: &Sheet, width: f64, most_high: f64) -> String {
    let scale = Scale::fit(sheet, width, most_high);
    let marks: String = sheet.marks.iter().map(|mark| written(&drawn(mark, scale, None))).collect();
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {} {}" role="img" aria-label="{}"><g class="marks" aria-hidden="true">{marks}</g></svg>"#,
        px(scale.width),
        px(scale.height),
        escaped(&sheet.text)
    )
}

fn written(Drawn { tag, attributes, words }: &Drawn) -> String {
    let told = attributes.iter().filter(|(_, value)| !value.is_empty());
    let attributes: String = told.map(|(name, value)| format!(r#" {name}="{}""#, escaped(value))).collect();
    format!("<{tag}{attributes}>{}</{tag}>", escaped(words))
}

/// A text that is nothing but text.
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Anchor, Mark, Pen, Point, Shape};

    #[test]
    fn what_a_sheet_says_is_never_markup() {
        let at = Point { x: 1.0, y: 2.0 };
        let text = Shape::Text { at, text: "<b>&".into(), anchor: Anchor::Start };
        let line = Shape::Line { a: at, b: Point { x: 3.0, y: 2.0 } };
        let mark = |pen, shape| Mark { topic: Some("a\"b".into()), part: None, pen, shape };
        let sheet = Sheet {
            title: String::new(),
            text: "so \"wide\"".into(),
            min: Point { x: 0.0, y: 0.0 },
            max: Point { x: 10.0, y: 5.0 },
            marks: vec![mark(Pen::Text, text), mark(Pen::Thin, line)],
            handles: Vec::new(),
        };
        let svg = svg(&sheet, 124.0, 500.0);
        assert!(
            svg.contains(r#"viewBox="0 0 124.0 74.0""#)
                && svg.contains(r#"aria-label="so &quot;wide&quot;""#),
            "{svg}"
        );
        assert!(svg.contains(r#"<text class="pen-text" data-topic="a&quot;b" x="22.0" y="32.0" text-anchor="start">&lt;b&gt;&amp;</text>"#), "{svg}");
        assert!(
            svg.contains(
                r#"<polyline class="pen-thin" data-topic="a&quot;b" points="22.0 32.0 42.0 32.0"></polyline>"#
            ),
            "{svg}"
        );
    }
}
