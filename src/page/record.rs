//! A record that is too long for the page that it stands behind, on a page of its own.

use serde::Serialize;

use super::Context;
use super::part::sheet::Sheet;
use super::part::{Anchor, sheet};
use crate::record::Link;

/// A record.
#[derive(Debug, Serialize)]
pub struct View {
    of: Anchor,
    sheet: Sheet,
}

/// The view of a record; `None` where there is none.
pub fn view(link: &Link, context: &Context<'_>) -> Option<View> {
    let (_, origin) = sheet::records(context.book).into_iter().find(|(found, _)| found == link)?;
    Some(View { of: Anchor::link(link, context), sheet: Sheet::of(origin) })
}
