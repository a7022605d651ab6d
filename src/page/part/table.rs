//! A table of a page: each column is said once, with its heading and how its cells are read from a row.

use serde::Serialize;

use super::cite::Cite;
use super::rating::Rating;
use super::{Anchor, Figure};

/// A table, drawn by the part of that name; one of the class `stack` is laid as one block a row where the page is narrow,
/// each cell under its heading.
#[derive(Debug, Default, Serialize)]
pub struct Table {
    caption: String,
    class: &'static str,
    id: Option<&'static str>,
    wide: Option<String>,
    own: bool,
    heads: Vec<Head>,
    rows: Vec<Vec<Cell>>,
}

/// The heading of a column, and what its cells are.
#[derive(Debug, Serialize)]
struct Head {
    text: String,
    of: Kind,
}

/// What the cells of a column are.
#[derive(Debug, Serialize)]
#[serde(rename_all = "lowercase")]
enum Kind {
    Words,
    Numbers,
    /// The headings of their rows.
    Heads,
    /// Plain without a heading beside them where the page is narrow.
    Plain,
}

/// A table while its columns are said one by one.
pub struct Columns<R> {
    table: Table,
    of: Vec<R>,
}

impl Table {
    /// A table with a row for each of the things given, and no column yet.
    pub fn of<R: Copy, I: IntoIterator<Item = R>>(class: &'static str, caption: &str, rows: I) -> Columns<R> {
        let of: Vec<R> = rows.into_iter().collect();
        let rows = of.iter().map(|_| Vec::new()).collect();
        Columns { of, table: Self { caption: caption.to_owned(), class, rows, ..Self::default() } }
    }
}

impl<R: Copy> Columns<R> {
    /// The column whose cells are the headings of their rows.
    pub fn head<C: Into<Cell>>(self, heading: &str, read: impl Fn(R) -> C) -> Self {
        self.put(Kind::Heads, heading, read)
    }

    /// A column whose cells need no heading beside them where the page is narrow.
    pub fn plain<C: Into<Cell>>(self, heading: &str, read: impl Fn(R) -> C) -> Self {
        self.put(Kind::Plain, heading, read)
    }

    /// A column of words.
    pub fn column<C: Into<Cell>>(self, heading: &str, read: impl Fn(R) -> C) -> Self {
        self.put(Kind::Words, heading, read)
    }

    /// A column of numbers.
    pub fn number<C: Into<Cell>>(self, heading: &str, read: impl Fn(R) -> C) -> Self {
        self.put(Kind::Numbers, heading, read)
    }

    fn put<C: Into<Cell>>(mut self, of: Kind, heading: &str, read: impl Fn(R) -> C) -> Self {
        self.table.heads.push(Head { text: heading.to_owned(), of });
        for (cells, row) in self.table.rows.iter_mut().zip(&self.of) {
            cells.push(read(*row).into());
        }
        self
    }

    /// Gives the table a name that links may lead to.
    pub fn id(mut self, id: &'static str) -> Self {
        self.table.id = Some(id);
        self
    }

    /// Lets a table that is wider than the page be pushed aside; the name is for those who hear the page.
    pub fn wide(mut self, name: &str) -> Self {
        self.table.wide = Some(name.to_owned());
        self
    }

    /// Marks every row as this farm's own.
    pub fn own(mut self) -> Self {
        self.table.own = true;
        self
    }

    /// The table, where it has a row.
    pub fn done(self) -> Option<Table> {
        (!self.of.is_empty()).then_some(self.table)
    }
}

/// What stands in a cell.
#[derive(Debug, Default, Clone, Serialize)]
#[serde(transparent)]
pub struct Cell(Vec<Part>);

impl Cell {
    /// The cell with more in it.
    pub fn and(mut self, more: impl Into<Self>) -> Self {
        self.0.extend(more.into().0);
        self
    }

    /// The cell, or another where nothing stands in it.
    pub fn or(self, other: impl Into<Self>) -> Self {
        if self.0.is_empty() { other.into() } else { self }
    }
}

/// A cell of several parts, one after the other.
macro_rules! cell {
    ($($part:expr),+ $(,)?) => {
        $crate::page::part::table::Cell::default()$(.and($part))+
    };
}
pub(crate) use cell;

/// A part of a cell.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "is", content = "of", rename_all = "lowercase")]
pub enum Part {
    /// Words.
    Text(String),
    /// Words in Markdown.
    Line(String),
    /// A link.
    Link(Anchor),
    /// A number or a short text that leads to its working.
    Figure(Figure),
    /// Who says so.
    Cites(Vec<Cite>),
    /// A scientific name.
    Sci(String),
    /// A rating, and where its working stands.
    Rated(Rating, String),
    /// A word in small capitals about what stands before it.
    Mark(&'static str),
    /// Why there is nothing.
    Gap(String),
    /// A dash where there is nothing, left out where rows are laid as blocks.
    Nothing,
    /// A remark.
    Note(Cell),
    /// What is printed strong.
    Strong(Cell),
    /// What is printed smaller.
    Small(Cell),
    /// A paragraph.
    Paragraph(Cell),
    /// A new line.
    Break,
    /// A box to tick.
    Tick,
}

impl<P: Into<Part>> From<P> for Cell {
    fn from(part: P) -> Self {
        Self(vec![part.into()])
    }
}

impl<C: Into<Self>> From<Option<C>> for Cell {
    fn from(cell: Option<C>) -> Self {
        cell.map_or_else(Self::default, Into::into)
    }
}

impl<C: Into<Self>, E: ToString> From<Result<C, E>> for Cell {
    fn from(cell: Result<C, E>) -> Self {
        cell.map_or_else(|gap| Part::Gap(gap.to_string()).into(), Into::into)
    }
}

macro_rules! parts {
    ($($from:ty => $to:expr;)+) => {
        $(impl From<$from> for Part {
            fn from(from: $from) -> Self {
                $to(from)
            }
        })+
    };
}

parts! {
    &str => |text: &str| Self::Text(text.to_owned());
    String => Self::Text;
    u32 => |number: u32| Self::Text(number.to_string());
    Anchor => Self::Link;
    Figure => Self::Figure;
    Cite => |cite| Self::Cites(vec![cite]);
    Vec<Cite> => Self::Cites;
}

/// What there is, or a dash.
pub fn or_dash(cell: impl Into<Cell>) -> Cell {
    cell.into().or(Part::Nothing)
}

/// What there is, or why there is nothing.
pub fn or_gap(cell: impl Into<Cell>, gap: &str) -> Cell {
    cell.into().or(Part::Gap(gap.to_owned()))
}

/// A remark under what stands before it, where there is one.
pub fn below(remark: Option<impl Into<Cell>>) -> Cell {
    remark.map(|remark| cell![Part::Break, Part::Note(remark.into())]).into()
}

/// A note in Markdown in brackets behind what it is about, where there is one.
pub fn aside(note: Option<&str>) -> Cell {
    note.map(|note| cell![" ", Part::Note(cell!["(", Part::Line(note.to_owned()), ")"])]).into()
}

/// Several things of a kind, with the same between them.
pub fn list(between: impl Into<Cell>, things: impl IntoIterator<Item = impl Into<Cell>>) -> Cell {
    let between = between.into();
    let all = things.into_iter().enumerate();
    all.fold(Cell::default(), |cell, (index, thing)| cell.and((index > 0).then(|| between.clone())).and(thing))
}
