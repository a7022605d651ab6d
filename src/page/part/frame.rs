//! What stands round every page.

use serde::Serialize;
use strum::IntoEnumIterator;

use super::Anchor;
use crate::page::route::Href;
use crate::page::{Context, Page, Section};
use crate::quantity::Units;

/// The pages to which the foot of every page leads, beside those that the sections lead to.
const FOOT: [Page; 6] = [Page::Strains, Page::Batches, Page::Troubles, Page::Terms, Page::Sources, Page::WorkingIndex];

/// The frame of a page.
#[derive(Debug, Serialize)]
pub struct Frame {
    root: String,
    serves: &'static str,
    farm: String,
    title: String,
    season: String,
    edition: Option<String>,
    units: &'static str,
    section: String,
    is_front: bool,
    parent: Option<Anchor>,
    tabs: Vec<Tab>,
    foot: Vec<Anchor>,
}

/// A tab of the thumb index.
#[derive(Debug, Serialize)]
struct Tab {
    href: String,
    word: String,
    current: bool,
    is_on_bar: bool,
}

impl Frame {
    /// The frame of a page, whose links lead to the guide in every edition.
    pub fn of(page: &Page, context: &Context<'_>) -> Self {
        let farm = &context.book.farm.record;
        let route = &context.route;
        let tab = |section: Section| Tab {
            href: route.to(&section.first()),
            word: section.word().to_owned(),
            current: section == page.section() && *page != Page::AToZ,
            is_on_bar: section.is_on_bar(),
        };
        let names = Tab {
            href: route.to(&Page::AToZ),
            word: Page::AToZ.title(context),
            current: *page == Page::AToZ,
            is_on_bar: false,
        };
        let foot = |page: Page| Anchor { href: Href::To(route.to(&page)), text: page.title(context) };
        Self {
            root: route.root().to_owned(),
            serves: route.edition().word(),
            farm: farm.name.clone(),
            title: page.title(context),
            season: context.season(),
            edition: context.findings.choice.edition.map(|date| date.show(context.units())),
            units: match context.units() {
                Units::Us => "US units",
                Units::Metric => "metric units",
            },
            section: page.section().word().to_lowercase(),
            is_front: *page == Page::Index,
            parent: page.parent().filter(|parent| *parent != Page::Index).map(foot),
            tabs: Section::iter().map(tab).chain([names]).collect(),
            foot: FOOT.map(foot).into(),
        }
    }
}
