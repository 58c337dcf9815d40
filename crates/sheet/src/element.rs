//! SVG as text: elements with their attributes, everything escaped.

use std::fmt::Write;

/// An element's opening: its name and attributes.
pub(crate) struct Element {
    name: &'static str,
    attributes: String,
}

/// A document being written; every element opened is closed by it.
#[derive(Default)]
pub(crate) struct Document {
    text: String,
    open: Vec<&'static str>,
}

/// An element without attributes yet.
pub(crate) fn element(name: &'static str) -> Element {
    Element {
        name,
        attributes: String::new(),
    }
}

impl Element {
    pub(crate) fn set(mut self, key: &str, value: &str) -> Self {
        // Writing to a String cannot fail.
        let _ = write!(self.attributes, " {key}=\"{}\"", escaped(value));
        self
    }

    pub(crate) fn num(self, key: &str, value: f64) -> Self {
        self.set(key, &number(value))
    }
}

impl Document {
    pub(crate) fn empty(&mut self, element: Element) {
        let _ = writeln!(self.text, "<{}{}/>", element.name, element.attributes);
    }

    pub(crate) fn open(&mut self, element: Element) {
        let _ = writeln!(self.text, "<{}{}>", element.name, element.attributes);
        self.open.push(element.name);
    }

    pub(crate) fn close(&mut self) {
        if let Some(name) = self.open.pop() {
            let _ = writeln!(self.text, "</{name}>");
        }
    }

    pub(crate) fn text(&mut self, element: Element, words: &str) {
        let Element { name, attributes } = element;
        let _ = writeln!(self.text, "<{name}{attributes}>{}</{name}>", escaped(words));
    }

    /// The whole text; what is still open is closed.
    pub(crate) fn finish(mut self) -> String {
        while !self.open.is_empty() {
            self.close();
        }
        self.text
    }
}

/// A number to a thousandth, without needless noughts; nought for what is no number.
pub(crate) fn number(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0" } else { text }.to_owned()
}

/// A text with XML's own signs written out, and without the characters that XML 1.0 cannot hold
/// (section 2.2, `Char`).
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            _ => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_xml_keeps_for_itself_is_written_out() {
        assert_eq!(
            escaped(r#"<a b="c"> & d"#),
            "&lt;a b=&quot;c&quot;&gt; &amp; d"
        );
        assert_eq!(escaped("5G\u{0}\u{8}\n♯"), "5G ♯");
    }

    #[test]
    fn numbers_are_short_and_never_without_a_value() {
        assert_eq!(number(3.0), "3");
        assert_eq!(number(-0.00001), "0");
        assert_eq!(number(12.34567), "12.346");
        assert_eq!(number(100.0), "100");
        assert_eq!(number(f64::NAN), "0");
    }

    #[test]
    fn what_is_opened_is_closed() {
        let mut document = Document::default();
        document.open(element("svg"));
        document.open(element("g").num("x", 1.0));
        document.text(element("text"), "a < b");
        assert_eq!(
            document.finish(),
            "<svg>\n<g x=\"1\">\n<text>a &lt; b</text>\n</g>\n</svg>\n"
        );
    }
}
