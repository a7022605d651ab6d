//! What a grower may see that is not right, its likely causes and what to do.

use std::sync::Arc;

use serde::Serialize;

use crate::book::{Diary, Trouble, Writer};
use crate::page::part::Anchor;
use crate::page::part::caution::{Cautions, Subject, grown};
use crate::page::part::cite::{Cite, Line};
use crate::page::part::table::{Cell, Table, list, or_dash};
use crate::page::{Context, Page};
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::trouble as record;
use crate::record::trouble::{Cause, Part, Stage};

/// All troubles, by where they show.
#[derive(Debug, Serialize)]
pub struct Index {
    parts: Vec<Group>,
    safety: String,
    retiring: String,
    batches: String,
}

/// Where troubles show; those that show in an earlier place as well are told there.
#[derive(Debug, Serialize)]
struct Group {
    words: &'static str,
    troubles: Vec<(Anchor, String)>,
    above: Vec<Anchor>,
}

impl Group {
    const fn is_empty(&self) -> bool {
        self.troubles.is_empty() && self.above.is_empty()
    }
}

/// One trouble.
#[derive(Debug, Serialize)]
pub struct View {
    id: String,
    name: String,
    sees: String,
    when: String,
    mushrooms: Vec<Anchor>,
    causes: Vec<(Cause, Cite)>,
    remedies: Vec<Line>,
    give_up: Option<Line>,
    own: bool,
    troubles: String,
    retiring: String,
    cautions: Option<Cautions>,
    seen: Option<Table>,
    earlier: usize,
}

/// Days on which it was seen that its page lists.
const SEEN: usize = 30;

/// The view of all troubles.
pub fn index(context: &Context<'_>) -> Index {
    let anchor = |trouble: &Arc<Trouble>| Anchor::record(Kind::Trouble, &trouble.id, context);
    let group = |(at, part): (usize, &Part)| {
        let shown = context.book.troubles.values().filter(|trouble| trouble.record.shows.contains(part));
        let (above, first): (Vec<_>, Vec<_>) =
            shown.partition(|trouble| Part::ALL[..at].iter().any(|earlier| trouble.record.shows.contains(earlier)));
        Group {
            words: part.words(),
            troubles: first.into_iter().map(|trouble| (anchor(trouble), trouble.record.sees.clone())).collect(),
            above: above.into_iter().map(anchor).collect(),
        }
    };
    Index {
        parts: Part::ALL.iter().enumerate().map(group).filter(|group| !group.is_empty()).collect(),
        safety: context.route.at(&Page::Safety, Task::Harvest.id()),
        retiring: context.route.to(&Page::Retiring),
        batches: context.route.to(&Page::Batches),
    }
}

/// The view of one trouble.
pub fn view(trouble: &Trouble, context: &Context<'_>) -> View {
    let record = &trouble.record;
    let lines = context.book.seen.get(&trouble.id).map_or(&[][..], Vec::as_slice);
    let stages: Vec<String> = record.when.iter().map(|stage| stage.words().to_owned()).collect();
    View {
        id: trouble.id.clone(),
        name: record.name.clone(),
        sees: record.sees.clone(),
        when: crate::page::part::and(&stages),
        mushrooms: trouble.mushrooms.iter().map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        causes: record.causes.iter().map(|cause| (cause.clone(), Cite::by(cause, context))).collect(),
        remedies: Line::all(&record.remedies, context),
        give_up: record.give_up.as_ref().map(|row| Line::said("", row, context)),
        own: trouble.origin.writer != Writer::Handbook,
        troubles: context.route.to(&Page::Troubles),
        retiring: context.route.to(&Page::Retiring),
        cautions: is_picked(record).then(|| Cautions::of(Task::Harvest, &subject(trouble, context), context)),
        seen: seen(lines, context),
        earlier: lines.len().saturating_sub(SEEN),
    }
}

/// The days on which the day book saw it, the last first, and the batches on which it was.
fn seen(lines: &[Arc<Diary>], context: &Context<'_>) -> Option<Table> {
    let lines: Vec<&Arc<Diary>> = lines.iter().rev().take(SEEN).collect();
    let batches =
        |line: &Arc<Diary>| list(", ", line.batches.iter().map(|batch| Cell::from(Anchor::batch(batch, context))));
    Table::of("facts stack", "Seen on this farm", lines)
        .id("seen")
        .head("Day", |line| line.record.date.show(context.units()))
        .column("Batch", |line| if line.batches.is_empty() { "the yard".into() } else { batches(line) })
        .number("Logs", |line| or_dash(line.record.logs))
        .column("Note", |line| or_dash(line.record.note.clone()))
        .done()
}

/// Whether it comes where mushrooms are picked.
fn is_picked(record: &record::Trouble) -> bool {
    record.shows.contains(&Part::Mushrooms)
        || record.when.iter().any(|stage| matches!(stage, Stage::Fruiting | Stage::Storing))
}

/// Its own mushrooms, or else all that the farm grows.
fn subject<'a>(trouble: &'a Trouble, context: &Context<'a>) -> Subject<'a> {
    if trouble.mushrooms.is_empty() {
        return grown(context);
    }
    Subject { mushrooms: trouble.mushrooms.iter().map(AsRef::as_ref).collect(), ..Subject::default() }
}
