//! Small questions to an XML element.

use roxmltree::{Document, Node, ParsingOptions};

use crate::Fraction;

/// An element of a parsed measure or head.
pub(crate) type Element<'a, 'input> = Node<'a, 'input>;

/// Most nodes of one measure: some 100,000 notes. What has more is not read.
const MOST_NODES: u32 = 1_000_000;

/// The first child element of that name.
pub(crate) fn child<'a, 'i>(element: Element<'a, 'i>, name: &str) -> Option<Element<'a, 'i>> {
    children(element, name).next()
}

/// All child elements of that name.
pub(crate) fn children<'a, 'i, 'n>(
    element: Element<'a, 'i>,
    name: &'n str,
) -> impl Iterator<Item = Element<'a, 'i>> + use<'a, 'i, 'n> {
    element
        .children()
        .filter(move |child| child.has_tag_name(name))
}

/// The trimmed text of the first child of that name.
pub(crate) fn text<'a>(element: Element<'a, '_>, name: &str) -> Option<&'a str> {
    child(element, name)
        .and_then(|child| child.text())
        .map(str::trim)
}

/// The first child's text as a whole number.
pub(crate) fn whole(element: Element<'_, '_>, name: &str) -> Option<i64> {
    text(element, name).and_then(|text| text.trim_start_matches('+').parse().ok())
}

/// The first child's text as a decimal number, exactly.
pub(crate) fn decimal(element: Element<'_, '_>, name: &str) -> Option<Fraction> {
    text(element, name).and_then(Fraction::decimal)
}

/// An attribute that says yes.
pub(crate) fn says_yes(element: Element<'_, '_>, name: &str) -> bool {
    element.attribute(name) == Some("yes")
}

/// Parses one element out of its text and hands it on with the number of bytes that were put
/// before it, which is nought but where a prefix that is declared at the root had to be declared
/// again. The error is said in a few words.
pub(crate) fn parse<T>(
    text: &str,
    read: impl FnOnce(Element<'_, '_>, usize) -> T,
) -> Result<T, String> {
    const DECLARED: &str = "<m xmlns:xlink=\"http://www.w3.org/1999/xlink\">";
    let options = || ParsingOptions {
        nodes_limit: MOST_NODES,
        ..ParsingOptions::default()
    };
    match Document::parse_with_options(text, options()) {
        Ok(document) => Ok(read(document.root_element(), 0)),
        Err(roxmltree::Error::UnknownNamespace(..)) => {
            let declared = format!("{DECLARED}{text}</m>");
            let document =
                Document::parse_with_options(&declared, options()).map_err(|error| said(&error))?;
            let inner = document.root_element().first_element_child();
            inner
                .map(|inner| read(inner, DECLARED.len()))
                .ok_or_else(|| "it is empty".to_owned())
        }
        Err(error) => Err(said(&error)),
    }
}

fn said(error: &roxmltree::Error) -> String {
    match error {
        roxmltree::Error::NodesLimitReached => "it has too many elements".to_owned(),
        error => {
            let said = error.to_string();
            // places in the measure's own text would mislead
            said.split(" at ").next().unwrap_or_default().to_owned()
        }
    }
}
