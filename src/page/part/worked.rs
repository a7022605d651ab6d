//! Formulas and the figures that they made, as every page of working shows them.

use serde::Serialize;

use super::Anchor;
use super::cite::Cite;
use super::table::Table;
use crate::page::route::Href;
use crate::page::{Context, Page};
use crate::quantity::Value;
use crate::reckon::Topic;
use crate::reckon::formula::{Figure, Formula};
use crate::record::Id;

/// A formula with links to its sources.
#[derive(Debug, Clone, Serialize)]
pub struct Cited {
    /// The name of its block.
    pub id: String,
    /// What it reckons.
    pub name: &'static str,
    math: &'static str,
    words: &'static str,
    symbols: &'static [(&'static str, &'static str)],
    own: &'static str,
    /// Its sources.
    pub cites: Vec<Cite>,
}

impl Cited {
    /// A formula as pages show it.
    pub fn of(formula: &'static Formula, context: &Context<'_>) -> Self {
        let Formula { name, math, words, symbols, own, .. } = *formula;
        let cites = formula.sources.iter().map(|(id, mark)| Cite::of(&Id::new(*id), *mark, context));
        Self { id: block_of(formula), name, math, words, symbols, own, cites: cites.collect() }
    }

    /// Formulas as pages show them.
    pub fn all(formulas: &[&'static Formula], context: &Context<'_>) -> Vec<Self> {
        formulas.iter().map(|formula| Self::of(formula, context)).collect()
    }
}

/// The name of a formula's block on its page.
fn block_of(formula: &Formula) -> String {
    let words = formula.name.to_lowercase();
    let letter = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    format!("by-{}", words.chars().map(letter).collect::<String>())
}

/// A part of a page of working.
#[derive(Debug, Default, Serialize)]
pub struct Part {
    id: &'static str,
    title: &'static str,
    formulas: Vec<Cited>,
    says: Vec<String>,
    links: Vec<Anchor>,
    table: Option<Table>,
    blocks: Vec<Block>,
}

/// What was put in for one thing, and what came out.
#[derive(Debug, Default, Serialize)]
pub struct Block {
    id: Option<String>,
    head: Option<Anchor>,
    /// What it came to in a few words, which stand on the closed slip of its lines.
    comes_to: Option<String>,
    lines: Vec<Line>,
    by: Vec<Anchor>,
}

/// A line of a block.
#[derive(Debug, Serialize)]
struct Line {
    says: String,
    gap: bool,
    cites: Vec<Cite>,
}

impl Part {
    /// A part under a heading of its own.
    pub fn new(id: &'static str, title: &'static str) -> Self {
        Self { id, title, ..Self::default() }
    }

    /// The part with formulas at its head.
    pub fn by(mut self, formulas: &[&'static Formula], context: &Context<'_>) -> Self {
        self.formulas.extend(Cited::all(formulas, context));
        self
    }

    /// The part with a paragraph of Markdown before its blocks.
    pub fn says(mut self, words: impl Into<String>) -> Self {
        self.says.push(words.into());
        self
    }

    /// The part with links to pages that have more of it.
    pub fn links(mut self, links: impl IntoIterator<Item = Anchor>) -> Self {
        self.links.extend(links);
        self
    }

    /// The part with a table before its blocks.
    pub fn table(mut self, table: Option<Table>) -> Self {
        self.table = table;
        self
    }

    /// The part with blocks.
    pub fn blocks(mut self, blocks: impl IntoIterator<Item = Block>) -> Self {
        self.blocks.extend(blocks);
        // A block that names its sources needs no way to those of the formula at the head of the part.
        for block in &mut self.blocks {
            if block.lines.iter().any(|line| !line.cites.is_empty()) {
                block.by.clear();
            }
        }
        self
    }
}

impl Block {
    /// A block under the name of what it is about.
    pub fn of(head: Anchor) -> Self {
        Self { head: Some(head), ..Self::default() }
    }

    /// The block under a name by which figures lead to it.
    pub fn named(mut self, id: impl Into<String>) -> Self {
        self.id = Some(id.into());
        self
    }

    /// The block in a slip that says what it came to.
    pub fn comes_to(mut self, words: impl Into<String>) -> Self {
        self.comes_to = Some(words.into());
        self
    }

    /// The block with a figure: what was put in, and what it came to. Figures lead to the block of the first.
    pub fn figure<T: Clone + Into<Value>>(mut self, figure: &Figure<T>, context: &Context<'_>) -> Self {
        let block = self.id.get_or_insert_with(|| figure.place.block.to_string());
        debug_assert_eq!(*block, figure.place.block, "a figure stands in another block than it leads to");
        let mut block = self.made_by(&[figure.formula]);
        let gap = figure.result.is_err() && figure.put.is_empty();
        block.lines.push(Line { says: figure.numbers(context.units()), gap, cites: Vec::new() });
        block
    }

    /// The block with links to the formulas by which it was made.
    pub fn made_by(mut self, formulas: &[&Formula]) -> Self {
        for formula in formulas {
            let by = Anchor::here(&block_of(formula), formula.name.to_owned());
            if self.by.iter().all(|known| known.href != by.href) {
                self.by.push(by);
            }
        }
        self
    }

    /// The block on a page that does not hold its formulas, which stand on that of their topic.
    pub fn away(mut self, topic: Topic, context: &Context<'_>) -> Self {
        for by in &mut self.by {
            if let Href::To(block) = &by.href {
                by.href = context.route.href(context.route.to(&Page::Working(topic)) + block);
            }
        }
        self
    }

    /// The block with several figures.
    pub fn figures<'a, T>(self, figures: impl IntoIterator<Item = &'a Figure<T>>, context: &Context<'_>) -> Self
    where
        T: Clone + Into<Value> + 'a,
    {
        figures.into_iter().fold(self, |block, figure| block.figure(figure, context))
    }

    /// The block with a line of words.
    pub fn line(mut self, says: impl Into<String>) -> Self {
        self.lines.push(Line { says: says.into(), gap: false, cites: Vec::new() });
        self
    }

    /// The block with a line that says why there is no figure.
    pub fn gap(mut self, says: Option<impl ToString>) -> Self {
        self.lines.extend(says.map(|says| Line { says: says.to_string(), gap: true, cites: Vec::new() }));
        self
    }

    /// The block with the sources of its last line.
    pub fn cites(mut self, cites: impl IntoIterator<Item = Cite>) -> Self {
        let Some(line) = self.lines.last_mut() else { return self };
        for cite in cites {
            if line.cites.iter().all(|known| (&known.href, known.mark) != (&cite.href, cite.mark)) {
                line.cites.push(cite);
            }
        }
        self
    }
}
