//! Cards to fill in by hand: each has the heads of the sheet into which it is typed, so that what comes home on paper
//! gets into the records as it stands.

use serde::Serialize;

use crate::book::Book;
use crate::page::leaf;
use crate::page::part::Anchor;
use crate::page::{Context, Page, title};
use crate::quantity::Units;
use crate::reckon::findings::batches::Stage;
use crate::reckon::findings::{BatchFinding, Findings};
use crate::record::diary::What;
use crate::record::tree::{Condition, Decision, Gone};
use crate::record::{Id, Kind, Link};

/// The lines of the cards of a page, as a telephone shows them: those of any card, and of a batch that it lists.
const PAGE: usize = 152;
const CARD: usize = 8;
const LISTED: usize = 1;
/// The lines of a batch that has a row of its own.
const ROW: usize = 3;
/// Cards to a leaf of paper.
const LEAF: usize = 2;
/// The room of a list of batches, which stands in two columns: lines, letters of a line, and the least lines of a batch.
const LIST: [usize; 3] = [16, 46, 1];
/// The same where each batch has a row of its own, high enough to write in.
const COUNTS: [usize; 3] = [20, 36, 2];
/// Rows of a card whose list is full; four lines fewer make room for one more.
const ROWS: usize = 8;
/// Trees of a walk sheet, and rows of a card of felled trees.
const TREES: usize = 5;
const FELLED: usize = 9;
/// Woods whose ids a walk sheet tells.
const WOODS: usize = 16;

/// The cards of a page.
#[derive(Debug, Serialize)]
pub struct View {
    contents: Vec<Anchor>,
    parts: Vec<Anchor>,
    cards: Vec<Card>,
    tags: String,
    batches: String,
}

/// A card.
#[derive(Debug, Serialize)]
struct Card {
    id: String,
    title: &'static str,
    /// Which of how many of its kind it is, where there are several.
    part: Option<[usize; 2]>,
    yards: Vec<String>,
    file: String,
    says: Vec<String>,
    list: Vec<Called>,
    /// The columns of a row, line by line.
    lines: Vec<Vec<Column>>,
    /// A row each, with the batch that it is about, where that is known.
    rows: Vec<Option<Called>>,
}

/// A column: its head, how broad it is in parts of twenty-four, and what stands in it before anybody writes.
#[derive(Debug, Serialize)]
struct Column {
    head: String,
    span: u8,
    /// Columns of the longer line above it that the last one of a shorter line takes.
    across: usize,
    says: Option<&'static str>,
    unit: Option<&'static str>,
}

impl Column {
    fn new(head: impl Into<String>, span: u8) -> Self {
        Self { head: head.into(), span, across: 1, says: None, unit: None }
    }

    fn what(span: u8, what: What) -> Self {
        Self { says: Some(what.id()), ..Self::new("What", span) }
    }

    fn with_unit(head: &str, span: u8, unit: &'static str) -> Self {
        Self { unit: Some(unit), ..Self::new(head, span) }
    }
}

/// A batch as a card calls it.
#[derive(Debug, Clone, Serialize)]
struct Called {
    /// What is written for it: its number, or else its id.
    call: String,
    name: String,
}

impl Called {
    fn of(found: &BatchFinding, book: &Book) -> Self {
        let batch = &found.batch;
        let call = batch.record.number.map_or_else(|| batch.id.clone(), |number| number.to_string());
        Self { call, name: title::of(&Link::to(Kind::Batch, &batch.id), book) }
    }

    /// The lines that it takes in a list.
    fn lines(&self, [_, letters, least]: [usize; 3]) -> usize {
        (self.call.chars().count() + 1 + self.name.chars().count()).div_ceil(letters).max(least)
    }
}

/// What a card is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Of {
    Walk,
    Felled,
    Soaking,
    Picking,
    Losses,
    Count,
}

impl Of {
    const ALL: [Self; 6] = [Self::Walk, Self::Felled, Self::Soaking, Self::Picking, Self::Losses, Self::Count];

    const fn id(self) -> &'static str {
        match self {
            Self::Walk => "walk",
            Self::Felled => "felled",
            Self::Soaking => "soaking",
            Self::Picking => "picking",
            Self::Losses => "losses",
            Self::Count => "count",
        }
    }

    const fn title(self) -> &'static str {
        match self {
            Self::Walk => "Walk sheet",
            Self::Felled => "Trees that came down",
            Self::Soaking => "Soaking",
            Self::Picking => "Picking",
            Self::Losses => "Losses and troubles",
            Self::Count => "Yearly stock-take",
        }
    }

    const fn is_of_trees(self) -> bool {
        matches!(self, Self::Walk | Self::Felled)
    }

    /// The room in which its card lists batches.
    const fn list(self) -> [usize; 3] {
        if matches!(self, Self::Count) { COUNTS } else { LIST }
    }

    /// Whether its card tells the number of a batch.
    fn tells(self, found: &BatchFinding) -> bool {
        let counted = found.batch.is_counted();
        match self {
            Self::Walk | Self::Felled => false,
            Self::Soaking => counted && found.batch.strain.answers_to_soaking() != Some(false),
            Self::Picking => true,
            Self::Losses | Self::Count => counted,
        }
    }

    /// The columns of a row of its sheet, line by line.
    fn lines(self, units: Units) -> Vec<Vec<Column>> {
        let plain =
            |heads: &[(&str, u8)]| heads.iter().map(|(head, span)| Column::new(*head, *span)).collect::<Vec<_>>();
        let measured = |name: &str, span: u8, us: &str, metric: &str| {
            Column::new(format!("{name} ({})", units.pick(us, metric)), span)
        };
        let (date, batch, logs) =
            (|| Column::new("Date", 4), |span| Column::new("Batch", span), || Column::new("Logs", 3));
        match self {
            Self::Walk => {
                let mut first = plain(&[("Tag", 2), ("Wood", 4)]);
                first.push(measured("DBH", 2, "in", "cm"));
                first.push(measured("Girth", 2, "in", "cm"));
                first.push(measured("Height", 2, "ft", "m"));
                first.push(measured("Fork", 2, "ft", "m"));
                first.extend(plain(&[("Logs", 2), ("Limb logs", 2), ("Condition", 3), ("Decision", 3)]));
                let mut second = plain(&[("Doubtful", 3), ("Why", 8), ("Clump", 3), ("Stool", 2), ("Order", 2)]);
                second.extend([measured("East", 3, "ft", "m"), measured("North", 3, "ft", "m")]);
                let across = first.len() + 1 - second.len();
                second.last_mut().into_iter().for_each(|last| last.across = across);
                vec![first, second]
            }
            Self::Felled => vec![plain(&[("Tag", 5), ("Felled", 7), ("Logs cut", 5), ("Gone", 7)])],
            Self::Soaking => {
                let amount = Column::with_unit("Amount", 4, "hours");
                vec![vec![date(), batch(4), Column::what(3, What::Soaked), logs(), amount, Column::new("Note", 6)]]
            }
            Self::Picking => {
                vec![vec![date(), batch(5), measured("Weight", 5, "lb", "kg"), Column::new("Note", 10)]]
            }
            Self::Losses => vec![vec![date(), batch(4), Column::new("What", 4), logs(), Column::new("Note", 9)]],
            Self::Count => {
                vec![vec![date(), batch(9), Column::what(3, What::Counted), logs(), Column::new("Note", 5)]]
            }
        }
    }

    /// The sheet into which it is typed.
    fn file(self, year: i16) -> String {
        match self {
            Self::Walk | Self::Felled => "woodlot/STAND.csv".to_owned(),
            Self::Picking => format!("harvests/{year}.csv"),
            Self::Soaking | Self::Losses | Self::Count => format!("yard/{year}.csv"),
        }
    }

    /// How it is filled in.
    fn says(self, context: &Context<'_>) -> Vec<String> {
        let day = day(context);
        let of_batch = |says: &str| vec![format!("Days as {day}. Batch: what stands in bold. {says}")];
        match self {
            Self::Walk => walk(context),
            Self::Felled => {
                let gone = Gone::ALL.into_iter().filter(|gone| !gone.gives_logs()).map(Gone::id);
                vec![format!(
                    "STAND is the stand’s file; each line goes into the row of its tree. Days as {day}. Gone, where it did \
                     not come down for logs: {}.",
                    either(gone)
                )]
            }
            Self::Soaking => of_batch("Logs: so many of it; empty means all. Amount with its unit: 12 hours."),
            Self::Picking => of_batch("One line a batch and day; batches that were weighed together stand as 1 + 10."),
            Self::Losses => {
                let whats = [What::LogLost, What::Given, What::Sold, What::Retired];
                of_batch(&format!(
                    "What: {}; a rotten, broken or missing log is {}. Other fungi, beetles and the like: {seen} and the name of the \
                     trouble, {seen}: green-dust.",
                    either(whats.map(What::id)),
                    What::LogLost.id(),
                    seen = What::WeedsSeen.id()
                ))
            }
            Self::Count => of_batch("Logs: so many are there; 0 where none is left."),
        }
    }
}

/// The words that a walk sheet wants in its cells.
fn walk(context: &Context<'_>) -> Vec<String> {
    let woods: Vec<&str> = context.book.farm.record.woods.iter().map(Id::as_str).take(WOODS).collect();
    let words = format!(
        "STAND is the stand’s file. A tree has two lines here and one row there. DBH or girth, not both. Condition: {}. \
         Decision: {}. Stool and doubtful: true, or empty.",
        either(Condition::ALL.map(Condition::id)),
        either(Decision::ALL.map(Decision::id)),
    );
    let woods = (!woods.is_empty()).then(|| format!("Wood, such as {}.", either(woods)));
    [Some(words), woods].into_iter().flatten().collect()
}

fn either<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    let words: Vec<&str> = words.into_iter().collect();
    match words.split_last() {
        Some((last, first)) if !first.is_empty() => format!("{} or {last}", first.join(", ")),
        _ => words.concat(),
    }
}

/// A day of the growing year as sheets write it.
fn day(context: &Context<'_>) -> String {
    let season = context.findings.season;
    format!("{}-{}", season.growing_year(), if season.south { "11-18" } else { "05-18" })
}

/// A card of its kind: which it is, of how many, and the batches on it.
struct Packed {
    of: Of,
    part: [usize; 2],
    yards: Vec<String>,
    batches: Vec<Called>,
}

/// The living batches, yard by yard and by their numbers.
fn living<'a>(book: &Book, findings: &'a Findings) -> Vec<&'a BatchFinding> {
    let lives = |found: &&BatchFinding| !matches!(found.stage, Stage::Gone | Stage::NotYet);
    let mut living: Vec<&BatchFinding> = findings.batches().iter().filter(lives).collect();
    let yards = &book.farm.record.yards;
    let place =
        |found: &BatchFinding| yards.iter().position(|yard| found.yard.as_ref().is_some_and(|of| of.name == yard.name));
    living.sort_by_cached_key(|found| {
        let number = found.batch.record.number;
        (place(found), number.is_none(), number, found.batch.id.clone())
    });
    living
}

/// The cards of a kind, as many as its batches need; none where batches live and none of them is its own.
fn packed(of: Of, living: &[&BatchFinding], book: &Book) -> Vec<Packed> {
    let list = of.list();
    let mut cards: Vec<(Vec<String>, Vec<Called>)> = Vec::new();
    let mut left = 0;
    for found in living.iter().filter(|found| of.tells(found)) {
        let batch = Called::of(found, book);
        let takes = batch.lines(list);
        if takes > left {
            cards.push((Vec::new(), Vec::new()));
            left = list[0];
        }
        left = left.saturating_sub(takes);
        if let Some((yards, batches)) = cards.last_mut() {
            if let Some(yard) = found.yard.as_ref().filter(|yard| !yards.contains(&yard.name)) {
                yards.push(yard.name.clone());
            }
            batches.push(batch);
        }
    }
    if of.is_of_trees() || living.is_empty() {
        cards.push((Vec::new(), Vec::new()));
    }
    let all = cards.len();
    let card = |((yards, batches), part)| Packed { of, part: [part, all], yards, batches };
    cards.into_iter().zip(1..).map(card).collect()
}

/// Every card, in the order of the year.
fn all(book: &Book, findings: &Findings) -> Vec<Packed> {
    let living = living(book, findings);
    Of::ALL.into_iter().flat_map(|of| packed(of, &living, book)).collect()
}

/// The parts beyond the first page.
pub fn parts(book: &Book, findings: &Findings) -> Vec<usize> {
    (1..pages(book, findings).len()).collect()
}

/// The cards of each page, in whole leaves of paper.
fn pages(book: &Book, findings: &Findings) -> Vec<Vec<Packed>> {
    let mut all = all(book, findings).into_iter();
    let leaves =
        std::iter::from_fn(|| Some(all.by_ref().take(LEAF).collect::<Vec<_>>()).filter(|leaf| !leaf.is_empty()));
    let lines = |card: &Packed| CARD + card.batches.len() * if card.of == Of::Count { ROW } else { LISTED };
    let pages = leaf::packed(leaves.collect(), |leaf| leaf.iter().map(lines).sum(), PAGE);
    pages.into_iter().map(|leaves| leaves.into_iter().flatten().collect()).collect()
}

/// The view of the first page.
pub fn first(context: &Context<'_>) -> View {
    view(0, context)
}

/// The view of a part, the first page being part 0.
pub fn view(part: usize, context: &Context<'_>) -> View {
    let pages = pages(context.book, context.findings);
    let page = |part: usize| if part == 0 { Page::Cards } else { Page::CardsPart(part) };
    let all = pages.iter().enumerate().flat_map(|(at, cards)| cards.iter().map(move |card| (at, card)));
    let contents = all.filter(|(_, packed)| packed.part[0] == 1).map(|(at, packed)| {
        let cards = if packed.part[1] > 1 { format!(", {} cards", packed.part[1]) } else { String::new() };
        Anchor::to(context.route.at(&page(at), packed.of.id()), format!("{}{cards}", packed.of.title()), context)
    });
    let link = |part: usize| Anchor::to(context.route.to(&page(part)), format!("Part {}", part + 1), context);
    View {
        contents: contents.collect(),
        parts: (0..pages.len()).filter(|other| *other != part).map(link).collect(),
        cards: pages.get(part).into_iter().flatten().map(|packed| card(packed, context)).collect(),
        tags: context.route.to(&Page::LogTags),
        batches: context.route.to(&Page::Batches),
    }
}

fn card(packed: &Packed, context: &Context<'_>) -> Card {
    let Packed { of, part, yards, batches } = packed;
    let [room, ..] = of.list();
    let left = room.saturating_sub(batches.iter().map(|batch| batch.lines(of.list())).sum());
    let (listed, in_rows) = if *of == Of::Count { (&[][..], &batches[..]) } else { (&batches[..], &[][..]) };
    let blank = match of {
        Of::Walk => TREES,
        Of::Felled => FELLED,
        Of::Count => left / 2,
        Of::Soaking | Of::Picking | Of::Losses => ROWS + left / 4,
    };
    Card {
        id: if part[0] == 1 { of.id().to_owned() } else { format!("{}-{}", of.id(), part[0]) },
        title: of.title(),
        part: (part[1] > 1).then_some(*part),
        yards: yards.clone(),
        file: of.file(context.findings.season.growing_year()),
        says: of.says(context),
        list: listed.to_vec(),
        lines: of.lines(context.units()),
        rows: in_rows.iter().cloned().map(Some).chain(std::iter::repeat_n(None, blank)).collect(),
    }
}
