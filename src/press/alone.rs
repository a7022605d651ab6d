//! Makes a page stand alone: what leads out of it becomes text, or a code where the same thing stands inside.

use std::fmt::Write;

/// What becomes of a link.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Way {
    /// It stays: it leads to a place inside, or to a telephone.
    Stays,
    /// It leads to a place inside, whose code is printed behind it.
    Inside {
        /// The anchor of the place.
        id: String,
        /// Its code.
        code: String,
    },
    /// Its text stays.
    Text,
}

/// A page without links that lead out of it.
///
/// ```
/// use hostwood::press::alone::{Way, alone};
/// let way = |href: &str| match href {
///     "woods/red-oak.html" => Way::Inside { id: "w-07".to_owned(), code: "W-07".to_owned() },
///     _ => Way::Text,
/// };
/// let page = alone(r#"<a href="woods/red-oak.html">red oak</a>, <a class="work" href="x.html">3</a>"#, &way);
/// assert_eq!(page, r##"<a href="#w-07">red oak</a> <span class="code">W-07</span>, 3"##);
/// ```
#[must_use]
pub fn alone(html: &str, way: &dyn Fn(&str) -> Way) -> String {
    let mut out = String::with_capacity(html.len());
    let mut rest = html;
    while let Some((before, tag, inner, after)) = next_link(rest) {
        out.push_str(before);
        let class = attribute(tag, "class").filter(|class| *class != "work");
        match way(attribute(tag, "href").unwrap_or_default()) {
            Way::Stays => {
                let _ = write!(out, "<a {tag}>{inner}</a>");
            }
            Way::Inside { id, code } => {
                let _ = write!(out, r##"<a href="#{id}">{inner}</a> <span class="code">{code}</span>"##);
            }
            Way::Text => match class {
                Some(class) => {
                    let _ = write!(out, r#"<span class="{class}">{inner}</span>"#);
                }
                None => out.push_str(inner),
            },
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

/// The next link: what stands before it, what stands in its tag, its text, and what stands after it. Links do not nest.
fn next_link(html: &str) -> Option<(&str, &str, &str, &str)> {
    let start = html.find("<a ")?;
    let tag_from = start + "<a ".len();
    let tag_to = tag_from + html[tag_from..].find('>')?;
    let inner_to = tag_to + html[tag_to..].find("</a>")?;
    let after = inner_to + "</a>".len();
    Some((&html[..start], &html[tag_from..tag_to], &html[tag_to + 1..inner_to], &html[after..]))
}

/// The value of an attribute in a tag.
fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let from = tag.find(&format!("{name}=\""))? + name.len() + 2;
    tag[from..].split('"').next()
}
