//! The handouts by their titles.

use serde::Serialize;

use super::Anchor;
use crate::page::Context;
use crate::record::Kind;

/// A handout by its title.
#[derive(Debug, Serialize)]
pub struct Handout {
    link: Anchor,
    readers: Option<String>,
    sheets: u32,
}

/// Every handout, with whom it is for.
pub fn all(context: &Context<'_>) -> Vec<Handout> {
    let handouts = context.book.handouts.values();
    let one = |handout: &std::sync::Arc<crate::book::Handout>| Handout {
        link: Anchor::record(Kind::Handout, &handout.id, context),
        readers: handout.record.readers.clone(),
        sheets: handout.record.sheets,
    };
    handouts.map(one).collect()
}
