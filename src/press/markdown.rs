//! Markdown to HTML, record links resolved, computed tables set in.

use std::sync::Arc;

use pulldown_cmark::{CowStr, Event, HeadingLevel, Tag, TagEnd, html};

use super::table;
use crate::book::Book;
use crate::book::link::Target;
use crate::page::part::photo::Photo;
use crate::page::route::{Edition, Href, Route};
use crate::read::markdown::events;
use crate::reckon::Findings;
use crate::reckon::table::Grid;
use crate::record::table::Query;

/// What Markdown is set with.
#[derive(Debug, Clone)]
pub struct Setter {
    /// The book whose records are linked.
    pub book: Arc<Book>,
    /// The findings whose tables are set in.
    pub findings: Arc<Findings>,
}

impl Setter {
    /// The HTML of a text as it stands on the page of a route, from a file of a name.
    ///
    /// Raw HTML is shown as it was written, and a picture from another host becomes a link, so that nothing is loaded.
    pub fn html(&self, markdown: &str, route: &Route, file: &str) -> String {
        let events = self.with_photos(events(markdown).map(quiet), route).into_iter();
        let events: Vec<Event<'_>> = events.map(|event| resolve(event, route, file)).collect();
        let mut out = String::new();
        html::push_html(&mut out, led(self.with_tables(&events, route), route).flat_map(dialled));
        out.replace("<table>", r#"<table class="facts">"#)
    }

    /// The HTML of a text that stands inside a line: its paragraphs and lists run on.
    pub fn inline(&self, markdown: &str, route: &Route, file: &str) -> String {
        let events = self.with_photos(events(markdown).map(quiet), route).into_iter();
        let events = events.map(|event| linked_table(resolve(event, route, file), route)).map(run_on);
        let mut out = String::new();
        html::push_html(&mut out, led(events, route).flat_map(dialled));
        out.trim().to_owned()
    }

    /// Shows each photograph with its words; where an edition has no photographs, the words stand alone.
    fn with_photos<'a>(&self, events: impl Iterator<Item = Event<'a>>, route: &Route) -> Vec<Event<'a>> {
        let mut out = Vec::new();
        let mut open: Option<(Photo, String)> = None;
        for event in events {
            match (event, &mut open) {
                (Event::Start(Tag::Image { dest_url, .. }), _) if photograph(&dest_url).is_some() => {
                    let photo = photograph(&dest_url).and_then(|path| Photo::of(&path, &self.book, route));
                    open = photo.map(|photo| (photo, String::new()));
                }
                (Event::Text(text) | Event::Code(text), Some((_, words))) => words.push_str(&text),
                (Event::SoftBreak | Event::HardBreak, Some((_, words))) => words.push(' '),
                (Event::End(TagEnd::Image), Some(_)) => {
                    let shown = open.take().map(|(photo, words)| figure(&photo, &words, route));
                    out.extend(shown);
                }
                (_, Some(_)) => {}
                (event, None) => out.push(event),
            }
        }
        out
    }

    /// Replaces each link to a table that stands alone in its paragraph by the table.
    fn with_tables<'a>(&self, events: &[Event<'a>], route: &Route) -> Vec<Event<'a>> {
        let mut out = Vec::with_capacity(events.len());
        let mut rest = events;
        while let Some(first) = rest.first() {
            if let Some((query, caption, length)) = lone_table(rest) {
                let grid = Grid::of(query.table, &self.book, &self.findings).picked(&query);
                out.push(Event::Html(CowStr::from(table::html(query.table, &grid, &caption, route, &self.book))));
                rest = &rest[length..];
            } else {
                out.push(linked_table(first.clone(), route));
                rest = &rest[1..];
            }
        }
        out
    }
}

/// The path of a photograph inside the farm, where a target names one.
fn photograph(target: &str) -> Option<String> {
    match Target::read(target, "") {
        Ok(Target::Picture(path)) => Some(path),
        _ => None,
    }
}

/// A photograph with its words, where the edition shows photographs, or else the words.
fn figure<'a>(photo: &Photo, words: &str, route: &Route) -> Event<'a> {
    if !matches!(route.edition(), Edition::Guide) {
        return Event::Text(CowStr::from(format!("({words})")));
    }
    let mut said = String::new();
    html::push_html(&mut said, std::iter::once(Event::Text(CowStr::from(words))));
    let (src, [width, height]) = (&photo.src, photo.size);
    Event::InlineHtml(CowStr::from(format!(
        r#"<span class="photo"><img src="{src}" alt="{}" width="{width}" height="{height}" loading="lazy" decoding="async"><span aria-hidden="true">{said}</span></span>"#,
        said.replace('"', "&quot;")
    )))
}

/// Events whose links are printed as the route says, without those that could run a script, whatever was checked before,
/// and without links inside links: the words stay.
fn led<'a>(events: impl IntoIterator<Item = Event<'a>>, route: &Route) -> impl Iterator<Item = Event<'a>> {
    let mut open: Vec<Href> = Vec::new();
    events.into_iter().map(move |event| {
        let (href, side) = match &event {
            Event::Start(Tag::Link { dest_url, .. }) => {
                let may = may_lead(dest_url) && open.iter().all(|outer| *outer == Href::Nowhere);
                let href = if may { route.href(&**dest_url) } else { Href::Nowhere };
                open.push(href.clone());
                (href, 0)
            }
            Event::End(TagEnd::Link) => (open.pop().unwrap_or(Href::Nowhere), 1),
            _ => return event,
        };
        match href {
            Href::To(_) => event,
            href => Event::InlineHtml(CowStr::from(href.tags()[side].clone())),
        }
    })
}

/// Whether a link may be written to where it leads: over the web, to a mailbox, to a telephone, or inside the guide.
fn may_lead(href: &str) -> bool {
    let before_path = href.split(['/', '?', '#']).next().unwrap_or(href);
    match before_path.split_once(':') {
        Some((scheme, _)) => ["http", "https", "mailto", "tel"].contains(&scheme.to_ascii_lowercase().as_str()),
        None => !href.starts_with("//") && !href.contains(['\\', '\t', '\n', '\r']),
    }
}

/// The query, the words and the number of events of a paragraph that is one link to a table.
fn lone_table(events: &[Event<'_>]) -> Option<(Query, String, usize)> {
    let [Event::Start(Tag::Paragraph), Event::Start(Tag::Link { dest_url, .. }), rest @ ..] = events else {
        return None;
    };
    let Ok(Target::Table(query)) = Target::read(dest_url, "") else { return None };
    let end = rest.iter().position(|event| matches!(event, Event::End(TagEnd::Link)))?;
    if !matches!(rest.get(end + 1), Some(Event::End(TagEnd::Paragraph))) {
        return None;
    }
    let words = rest[..end].iter().map(|event| match event {
        Event::Text(text) | Event::Code(text) => text.to_string(),
        _ => String::new(),
    });
    Some((query, words.collect(), end + 4))
}

/// A link to a table inside a sentence leads to the table's file.
fn linked_table<'a>(event: Event<'a>, route: &Route) -> Event<'a> {
    match event {
        Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
            let dest_url = match Target::read(&dest_url, "") {
                Ok(Target::Table(query)) => CowStr::from(format!("{}tables/{}.csv", route.root(), query.table.word())),
                _ => dest_url,
            };
            Event::Start(Tag::Link { link_type, dest_url, title, id })
        }
        other => other,
    }
}

/// Leads a link to a record to its page, moves headings below the page's own, and makes a picture a link.
fn resolve<'a>(event: Event<'a>, route: &Route, file: &str) -> Event<'a> {
    match event {
        Event::Start(Tag::Link { link_type, dest_url, title, id } | Tag::Image { link_type, dest_url, title, id }) => {
            let dest_url = match Target::read(&dest_url, file) {
                Ok(Target::Record(link)) => CowStr::from(route.link(&link)),
                _ => dest_url,
            };
            Event::Start(Tag::Link { link_type, dest_url, title, id })
        }
        Event::End(TagEnd::Image) => Event::End(TagEnd::Link),
        Event::Start(Tag::Heading { level, id, classes, attrs }) => {
            Event::Start(Tag::Heading { level: lower(level), id, classes, attrs })
        }
        Event::End(TagEnd::Heading(level)) => Event::End(TagEnd::Heading(lower(level))),
        other => other,
    }
}

const fn lower(level: HeadingLevel) -> HeadingLevel {
    match level {
        HeadingLevel::H1 => HeadingLevel::H2,
        HeadingLevel::H2 => HeadingLevel::H3,
        HeadingLevel::H3 => HeadingLevel::H4,
        HeadingLevel::H4 => HeadingLevel::H5,
        HeadingLevel::H5 | HeadingLevel::H6 => HeadingLevel::H6,
    }
}

/// A block becomes a space, so that only what can stand inside a line is left.
fn run_on(event: Event<'_>) -> Event<'_> {
    match event {
        Event::Start(Tag::Link { .. } | Tag::Emphasis | Tag::Strong | Tag::Strikethrough)
        | Event::End(TagEnd::Link | TagEnd::Emphasis | TagEnd::Strong | TagEnd::Strikethrough) => event,
        Event::Start(_) | Event::End(_) | Event::Rule => Event::Text(CowStr::Borrowed(" ")),
        other => other,
    }
}

/// Raw HTML becomes text.
fn quiet(event: Event<'_>) -> Event<'_> {
    match event {
        Event::Html(text) | Event::InlineHtml(text) => Event::Text(text),
        other => other,
    }
}

/// A text whose telephone numbers each stay on one line.
fn dialled(event: Event<'_>) -> Vec<Event<'_>> {
    let Event::Text(text) = &event else { return vec![event] };
    let mut out = Vec::new();
    let mut rest = &**text;
    while let Some((at, length)) = telephone(rest) {
        let (before, number) = rest[..at + length].split_at(at);
        let whole = format!("<span class=\"whole\">{number}</span>");
        out.extend([Event::Text(CowStr::from(before.to_owned())), Event::InlineHtml(CowStr::from(whole))]);
        rest = &rest[at + length..];
    }
    if out.is_empty() {
        return vec![event];
    }
    out.push(Event::Text(CowStr::from(rest.to_owned())));
    out
}

/// Where the first telephone number of a text stands and how many bytes it has: seven digits or more with hyphens or spaces between.
fn telephone(text: &str) -> Option<(usize, usize)> {
    let parts = |c: char| c.is_ascii_digit() || "+- ".contains(c);
    let mut from = 0;
    while let Some(at) = text[from..].find(|c: char| c.is_ascii_digit() || c == '+').map(|at| from + at) {
        let run = text[at..].split(|c| !parts(c)).next().unwrap_or_default();
        let number = run.trim_end_matches(|c: char| !c.is_ascii_digit());
        let digits = number.bytes().filter(u8::is_ascii_digit).count();
        if (7..=15).contains(&digits) && number.contains(['-', ' ']) {
            return Some((at, number.len()));
        }
        from = at + run.len().max(1);
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_lead_over_the_web_to_people_or_inside_the_guide_and_nowhere_else() {
        for href in [
            "https://a.example/b",
            "HTTP://a.example",
            "mailto:a@b.example",
            "tel:+1",
            "../woods/a.html#b:c",
            "#b",
            "a@b.example",
            "",
        ] {
            assert!(may_lead(href), "{href}");
        }
        for href in [
            "javascript:alert(1)",
            "JavaScript:x",
            "java\tscript:x",
            "data:text/html,x",
            "vbscript:x",
            "file:///etc",
            " javascript:x",
            "//a.example",
            "\\\\a",
        ] {
            assert!(!may_lead(href), "{href}");
        }
    }

    #[test]
    fn a_telephone_number_is_kept_whole() {
        let html = |markdown: &str| {
            let mut out = String::new();
            html::push_html(&mut out, events(markdown).flat_map(dialled));
            out
        };
        assert_eq!(
            html("at 10, call 1-800-222-1222, or +49 228 19240."),
            "<p>at 10, call <span class=\"whole\">1-800-222-1222</span>, or <span class=\"whole\">+49 228 19240</span>.</p>\n"
        );
        assert_eq!(html("6 to 24 hours, 911"), "<p>6 to 24 hours, 911</p>\n");
    }

    #[test]
    fn a_link_that_may_not_be_written_leaves_its_words() {
        let html = |markdown: &str| {
            let mut out = String::new();
            html::push_html(&mut out, led(events(markdown), &Route::of("index.html")));
            out
        };
        assert_eq!(html("[x](javascript:alert(1)) y"), "<p>x y</p>\n");
        assert_eq!(html("<javascript:alert(1)>"), "<p>javascript:alert(1)</p>\n");
        assert_eq!(html("[x](tel:1)"), "<p><a href=\"tel:1\">x</a></p>\n");
    }
}
