//! What a grower may see that is not right, its likely causes and what to do.

use serde::Serialize;

use super::{
    Context, Page,
    part::{
        Anchor,
        caution::{self, Caution},
        cite::{Cite, Line},
    },
};
use crate::{
    book::{Trouble, Writer},
    record::{caution::Task, trouble::Part},
};

/// All troubles, by where they show.
#[derive(Debug, Serialize)]
pub struct View {
    parts: Vec<Group>,
    troubles: Vec<One>,
    cautions: Vec<Caution>,
    retiring: String,
    batches: String,
}

/// Where troubles show.
#[derive(Debug, Serialize)]
struct Group {
    words: &'static str,
    troubles: Vec<Anchor>,
}

/// One trouble.
#[derive(Debug, Serialize)]
struct One {
    id: String,
    name: String,
    sees: String,
    when: String,
    mushrooms: Vec<Anchor>,
    causes: Vec<Cause>,
    remedies: Vec<Line>,
    give_up: Option<Line>,
    own: bool,
}

/// A cause.
#[derive(Debug, Serialize)]
struct Cause {
    what: String,
    tell: String,
    note: Option<String>,
    cite: Cite,
}

/// The view of all troubles.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let troubles: Vec<&std::sync::Arc<Trouble>> = context.book.troubles.values().collect();
    let anchor =
        |trouble: &Trouble| Anchor { href: format!("#trouble-{}", trouble.id), text: trouble.record.name.clone() };
    let group = |part: Part| Group {
        words: part.words(),
        troubles: troubles
            .iter()
            .filter(|trouble| trouble.record.shows.contains(&part))
            .map(|trouble| anchor(trouble))
            .collect(),
    };
    let by_first_part = |trouble: &&std::sync::Arc<Trouble>| {
        let place = trouble.record.shows.first().and_then(|part| Part::ALL.iter().position(|other| other == part));
        (place, trouble.record.name.clone())
    };
    let mut ordered = troubles.clone();
    ordered.sort_by_key(by_first_part);
    View {
        parts: Part::ALL.map(group).into_iter().filter(|group| !group.troubles.is_empty()).collect(),
        troubles: ordered.into_iter().map(|trouble| one(trouble, context)).collect(),
        cautions: caution::for_tasks(&[Task::Harvest], caution::is_grave, context),
        retiring: context.route.to(&Page::Retiring),
        batches: context.route.to(&Page::Batches),
    }
}

fn one(trouble: &Trouble, context: &Context<'_>) -> One {
    let record = &trouble.record;
    let stages: Vec<String> = record.when.iter().map(|stage| stage.words().to_owned()).collect();
    One {
        id: trouble.id.clone(),
        name: record.name.clone(),
        sees: record.sees.clone(),
        when: super::part::and(&stages),
        mushrooms: trouble.mushrooms.iter().map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
        causes: record
            .causes
            .iter()
            .map(|cause| Cause {
                what: cause.cause.clone(),
                tell: cause.tell.clone(),
                note: cause.note.clone(),
                cite: Cite::of(&cause.source, cause.mark, context),
            })
            .collect(),
        remedies: Line::all(&record.remedies, context),
        give_up: record.give_up.as_ref().map(|row| Line::said("", row, context)),
        own: trouble.origin.writer != Writer::Handbook,
    }
}
