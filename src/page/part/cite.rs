//! Who says so, and how far it was read.

use serde::Serialize;

use super::{Anchor, Figure};
use crate::page::Context;
use crate::page::route::Href;
use crate::quantity::Units;
use crate::record::mushroom::{FruitingSeason, Mushroom};
use crate::record::said::{Band, Cited, Mark, Said, Span};
use crate::record::source::Source;
use crate::record::{Id, Kind};

/// Who says a thing.
#[derive(Debug, Clone, Serialize)]
pub struct Cite {
    /// Short form of the source.
    pub short: String,
    /// The source on its page.
    pub href: Href,
    /// How it came here, where it was not read in the source itself.
    pub mark: Option<&'static str>,
}

impl Cite {
    /// A citation of a source.
    pub fn of(id: &Id<Source>, mark: Mark, context: &Context<'_>) -> Self {
        Self {
            short: context.book.short(id).to_owned(),
            href: context.route.href(context.route.record(Kind::Source, id.as_str())),
            mark: (mark != Mark::Read).then(|| mark.words()),
        }
    }

    /// The farm's own record, as it stands behind its page.
    pub fn record(kind: Kind, id: &str, context: &Context<'_>) -> Self {
        let href = context.route.href(format!("{}#record", context.route.record(kind, id)));
        Self { short: "our own record".to_owned(), href, mark: None }
    }

    /// The citation of a row.
    pub fn by(row: &impl Cited, context: &Context<'_>) -> Self {
        Self::of(row.source(), row.mark(), context)
    }

    /// The citations of several sources.
    pub fn all(ids: &[Id<Source>], mark: Mark, context: &Context<'_>) -> Vec<Self> {
        ids.iter().map(|id| Self::of(id, mark, context)).collect()
    }

    /// The citation where no link can stand: "Kentucky FOR-85, from memory".
    pub fn words(&self) -> String {
        self.mark.map_or_else(|| self.short.clone(), |mark| format!("{}, {mark}", self.short))
    }
}

/// A row that a source says: a heading, the words, who says so.
#[derive(Debug, Clone, Serialize)]
pub struct Line {
    /// What the row is about.
    pub head: String,
    /// What is said (Markdown).
    pub says: String,
    /// A figure, where the row has one.
    pub figure: Option<Figure>,
    /// What a reader should know about it.
    pub note: Option<String>,
    /// Who says so.
    pub cites: Vec<Cite>,
}

impl Line {
    /// A row under a heading, with nothing yet of what it says.
    fn by(head: String, row: &impl Cited, context: &Context<'_>) -> Self {
        let note = row.note().map(str::to_owned);
        Self { head, says: String::new(), figure: None, note, cites: vec![Cite::by(row, context)] }
    }

    /// A row that says a figure.
    fn figure(head: String, words: String, row: &impl Cited, context: &Context<'_>) -> Self {
        let href = context.route.href(context.route.record(Kind::Source, row.source().as_str()));
        Self { figure: Some(Figure::sourced(words, href)), ..Self::by(head, row, context) }
    }

    /// A row of words.
    pub fn said(head: &str, said: &Said, context: &Context<'_>) -> Self {
        Self::cited(head, &said.says, said, context)
    }

    /// Words that stand in a row of a source.
    pub fn cited(head: &str, says: &str, row: &impl Cited, context: &Context<'_>) -> Self {
        Self { says: says.to_owned(), ..Self::by(head.to_owned(), row, context) }
    }

    /// An advice with all its sources.
    pub fn advice(says: &str, sources: &[Id<Source>], mark: Mark, context: &Context<'_>) -> Self {
        let cites = Cite::all(sources, mark, context);
        Self { head: String::new(), says: says.to_owned(), figure: None, note: None, cites }
    }

    /// Rows of words, without headings.
    pub fn all(rows: &[Said], context: &Context<'_>) -> Vec<Self> {
        rows.iter().map(|row| Self::said("", row, context)).collect()
    }

    /// What sources say of each mushroom of the farm, by rows of its record; no mushroom without such rows.
    pub fn of_grown(rows: impl Fn(&Mushroom) -> &[Said], context: &Context<'_>) -> Vec<(Anchor, Vec<Self>)> {
        let grown = context.findings.mushrooms().iter().filter(|mushroom| !rows(&mushroom.record).is_empty());
        let lines = |mushroom| Self::all(rows(mushroom), context);
        grown.map(|mushroom| (Anchor::mushroom(mushroom, context), lines(&mushroom.record))).collect()
    }

    /// A band of temperature.
    pub fn band(band: &Band, context: &Context<'_>) -> Self {
        let indoors = if band.indoors { " (growing rooms; it tells no month outdoors)" } else { "" };
        let head = format!("{}{indoors}", band.stage.words());
        Self::figure(head, band_words(band, context.units()), band, context)
    }

    /// A season, under the words that a page finds for it.
    pub fn season(head: String, words: String, season: &FruitingSeason, context: &Context<'_>) -> Self {
        Self::figure(head, words, season, context)
    }

    /// A span of time.
    pub fn span(head: &str, span: &Span, context: &Context<'_>) -> Self {
        let (low, high) = (span.range.low.show(context.units()), span.range.high.show(context.units()));
        let words = if low == high { low } else { format!("{low} to {high}") };
        Self::figure(head.to_owned(), words, span, context)
    }
}

/// A band of temperature in words, with the source's own behind it where its unit differs.
pub fn band_words(band: &Band, units: Units) -> String {
    let range = &band.range;
    let (low, high) = (range.low.show(units), range.high.show(units));
    let shown = if low == high { low } else { format!("{} to {high}", low.trim_end_matches(['°', 'F', 'C', ' '])) };
    let (low, high) = (range.low.written(), range.high.written());
    let own = if units == Units::Us { low.ends_with('F') } else { low.ends_with('C') };
    let unit = if low.ends_with('F') { "°F" } else { "°C" };
    let bare = |text: &str| text.trim_end_matches(['F', 'C', ' ']).to_owned();
    let source = if low == high { bare(&low) } else { format!("{} to {}", bare(&low), bare(&high)) };
    if own { shown } else { format!("{shown} (the source prints {source} {unit})") }
}
