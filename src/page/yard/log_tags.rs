//! Sheets of small tags for logs: as many as the farm asks for, of this winter's plan and of the batches in the yard.

use serde::Serialize;

use crate::book::{Book, Wood};
use crate::page::part::batch::{pieces, spawn};
use crate::page::part::{Anchor, capital, date};
use crate::page::{Context, Page};
use crate::quantity::{Days, Units, count};
use crate::reckon::findings::batches::Stage;
use crate::reckon::findings::day::DayWood;
use crate::reckon::findings::{BatchFinding, Day, Findings};
use crate::reckon::season::Season;
use crate::record::evidence::Way;

/// The most tags of a page, which are six leaves of paper.
const TAGS: u32 = 108;
/// The most different tags of a page: a screen shows each once.
const KINDS: usize = 24;

/// A sheet of tags.
#[derive(Debug, Serialize)]
pub struct View {
    planned: Vec<Same>,
    standing: Vec<Same>,
    all: u32,
    parts: Vec<Anchor>,
    batches: String,
}

/// A tag that is printed so many times.
#[derive(Debug, Serialize)]
struct Same {
    tag: Tag,
    /// How often it stands on this page.
    times: u32,
}

/// A tag.
#[derive(Debug, Default, Serialize)]
struct Tag {
    strain: String,
    wood: Option<String>,
    logs: String,
    /// A bed is of chips, of which nobody asks when their trees came down.
    bed: bool,
    number: Option<u32>,
    batch: Option<String>,
    felled: Option<String>,
    inoculated: Option<String>,
    first: Option<String>,
    spawn: Option<String>,
}

/// What a tag is of.
#[derive(Clone, Copy)]
enum Of<'a> {
    Planned(&'a Day, &'a DayWood),
    Standing(&'a BatchFinding),
}

/// Every tag that is asked for, those to be made this season first, with how often it is.
fn asked<'a>(book: &Book, findings: &'a Findings) -> Vec<(Of<'a>, u32)> {
    let farm = book.farm.record.tags;
    let planned = findings.days().iter().flat_map(|day| day.woods.iter().map(move |wood| (day, wood)));
    let planned = planned.filter(|(_, wood)| wood.logs > 0);
    let planned = planned.map(|(day, wood)| (Of::Planned(day, wood), farm.unwrap_or(wood.logs)));
    let standing = findings.batches().iter().filter(|found| found.stage != Stage::Gone);
    let standing = standing.map(|found| {
        let of_this_winter = Season::holding(found.batch.record.inoculated, findings.season.south) == findings.season;
        let usual = if of_this_winter { farm.unwrap_or(found.left()).max(1) } else { 1 };
        (Of::Standing(found), found.batch.record.tags.unwrap_or(usual))
    });
    planned.chain(standing).filter(|(_, times)| *times > 0).collect()
}

/// The tags page by page.
fn pages<'a>(book: &Book, findings: &'a Findings) -> Vec<Vec<(Of<'a>, u32)>> {
    let mut pages: Vec<Vec<(Of<'a>, u32)>> = vec![Vec::new()];
    let mut room = TAGS;
    for (of, mut times) in asked(book, findings) {
        while times > 0 {
            if room == 0 || pages.last().is_some_and(|page| page.len() == KINDS) {
                pages.push(Vec::new());
                room = TAGS;
            }
            let here = times.min(room);
            pages.last_mut().into_iter().for_each(|page| page.push((of, here)));
            (times, room) = (times - here, room - here);
        }
    }
    pages
}

/// The parts beyond the first page.
pub fn parts(book: &Book, findings: &Findings) -> Vec<usize> {
    (1..pages(book, findings).len()).collect()
}

/// The view of the first page.
pub fn first(context: &Context<'_>) -> View {
    view(0, context)
}

/// The view of a part, the first page being part 0.
pub fn view(part: usize, context: &Context<'_>) -> View {
    let pages = pages(context.book, context.findings);
    let here = pages.get(part).map_or(&[][..], Vec::as_slice);
    let (planned, standing): (Vec<_>, Vec<_>) = here.iter().partition(|(of, _)| matches!(of, Of::Planned(..)));
    let same = |(of, times): (Of<'_>, u32)| Same { tag: tag(of, context), times };
    let link = |at: usize| {
        let page = if at == 0 { Page::LogTags } else { Page::LogTagsPart(at) };
        Anchor::to(context.route.to(&page), format!("Part {}", at + 1), context)
    };
    View {
        planned: planned.into_iter().map(same).collect(),
        standing: standing.into_iter().map(same).collect(),
        all: pages.iter().flatten().map(|(_, times)| times).sum(),
        parts: (0..pages.len()).filter(|at| *at != part).map(link).collect(),
        batches: context.route.to(&Page::Batches),
    }
}

fn tag(of: Of<'_>, context: &Context<'_>) -> Tag {
    match of {
        Of::Planned(day, wood) => planned(day, wood, context),
        Of::Standing(found) => standing(found, context),
    }
}

fn standing(found: &BatchFinding, context: &Context<'_>) -> Tag {
    let (batch, units) = (&found.batch, context.units());
    Tag {
        strain: batch.strain.record.name.clone(),
        wood: batch.wood.as_ref().map(|wood| capital(wood.name())),
        logs: there(found),
        bed: batch.record.way == Way::ChipBed,
        number: batch.record.number,
        batch: Some(batch.id.clone()),
        felled: batch.felled().map(|days| days_words(days, units)),
        inoculated: Some(batch.record.inoculated.show(units)),
        first: found.first_span().map(|[from, to]| date::between(from, to, units)),
        spawn: spawn(batch, context),
    }
}

/// How much there is of a batch: "12 logs", "3 totems", "a bed".
fn there(found: &BatchFinding) -> String {
    match found.batch.record.way {
        Way::ChipBed => "a bed".to_owned(),
        Way::Stump => pieces(found.batch.logs, &found.batch),
        _ => pieces(found.left(), &found.batch),
    }
}

fn days_words(days: Days, units: Units) -> String {
    date::between(days.from, days.to, units)
}

fn planned(day: &Day, wood: &DayWood, context: &Context<'_>) -> Tag {
    Tag {
        strain: day.strain.record.name.clone(),
        wood: wood.wood.as_ref().map(|wood| capital(wood.name())),
        logs: count(wood.logs, "log", "logs"),
        felled: wood.wood.as_ref().and_then(|wood| felled(wood, context)),
        spawn: Some(day.form.words().to_owned()),
        ..Tag::default()
    }
}

/// The day on which all logs of a wood were felled that this winter fills, where it is one and the same.
fn felled(wood: &Wood, context: &Context<'_>) -> Option<String> {
    let findings = context.findings;
    let to_fell = findings.felled().any(|tree| tree.tree.wood.id == wood.id);
    let loose = findings.ledger().loose(wood) > 0;
    let mut days = findings.lying().iter().filter(|lying| lying.lot.wood.id == wood.id).map(|lying| lying.felled);
    let first = days.next().filter(|_| !to_fell && !loose)?;
    days.all(|other| other == first).then(|| days_words(first, context.units()))
}
