//! Where the figures of a batch are worked.

use crate::{
    page::{Context, Page},
    reckon::{Topic, findings::BatchFinding},
};

/// Where the yields of a batch over its life are worked.
#[must_use]
pub fn life_working(found: &BatchFinding, context: &Context<'_>) -> String {
    context.route.at(&Page::Working(Topic::Yard), &format!("life-{}", found.batch.id))
}
