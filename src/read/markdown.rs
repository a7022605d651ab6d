//! Parts a note into its YAML header and its Markdown, and reads Markdown, for checks and for pages alike.

use std::sync::Arc;

use pulldown_cmark::{Options, Parser};

use super::Text;
use crate::fault::{Fault, File, Place};

/// A note in two parts.
#[derive(Debug)]
pub struct Parts<'a> {
    /// The YAML between the two lines of dashes; it begins in line 2.
    pub header: &'a str,
    /// The Markdown under it.
    pub text: Text,
}

/// Parts a note at its two lines of three dashes.
///
/// # Errors
///
/// A fault where the file has no such header.
pub fn part(file: &Arc<File>) -> Result<Parts<'_>, Fault> {
    let no_header = || {
        Fault::new("no-header", "this note has no header")
            .instead("begin the file with a line `---`, then `title:` and `date:`, then a line `---`, then the text")
            .at(Place::start(Arc::clone(file)))
    };
    let whole = file.text.as_str();
    let after = whole.strip_prefix("---\n").or_else(|| whole.strip_prefix("---\r\n")).ok_or_else(no_header)?;
    let start = whole.len() - after.len();
    let mut offset = start;
    for line in after.split_inclusive('\n') {
        if line.trim_end() == "---" {
            if whole[start..offset].trim().is_empty() {
                return Err(no_header());
            }
            let body = offset + line.len();
            return Ok(Parts {
                header: &whole[start..offset],
                text: Text { markdown: whole[body..].to_owned(), offset: body },
            });
        }
        offset += line.len();
    }
    Err(no_header())
}

/// The one reading of Markdown, so that no page shows a link that no check has seen.
///
/// ```
/// use pulldown_cmark::{Event, Tag};
/// let mut events = hostwood::read::markdown::events("a|b\n-|-\n[oak](wood:red-oak)|c");
/// assert!(events.any(|event| matches!(event, Event::Start(Tag::Link { .. }))));
/// ```
pub fn events(markdown: &str) -> Parser<'_> {
    Parser::new_ext(markdown, Options::ENABLE_TABLES | Options::ENABLE_SMART_PUNCTUATION)
}
