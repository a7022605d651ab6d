//! What stands round every page.

use serde::Serialize;
use serde_json::Value;
use strum::IntoEnumIterator;

use super::Anchor;
use crate::{
    page::{
        Context, Page, Section,
        figure::{hatch, ring, saw, strip},
    },
    quantity::Units,
    reckon::season::Season,
};

/// A page in its frame.
#[derive(Debug, Serialize)]
pub struct Frame {
    root: String,
    farm: String,
    season: String,
    edition: Option<String>,
    units: &'static str,
    section: String,
    tabs: Vec<Tab>,
    foot: Vec<Anchor>,
    defs: String,
    page: Value,
}

/// A tab of the thumb index.
#[derive(Debug, Serialize)]
struct Tab {
    href: String,
    word: &'static str,
    current: bool,
}

impl Frame {
    /// Puts a view in its frame.
    #[must_use]
    pub fn of(page: &Page, context: &Context<'_>, content: Value) -> Self {
        let farm = &context.book.farm.record;
        let route = &context.route;
        let tab = |section: Section| Tab {
            href: route.to(&section.first()),
            word: section.word(),
            current: section == page.section(),
        };
        let foot = |page: Page, text: &str| Anchor { href: route.to(&page), text: text.to_owned() };
        Self {
            root: route.root().to_owned(),
            farm: farm.name.clone(),
            season: season_words(context.findings.season),
            edition: context.findings.choice.edition.map(|date| date.show()),
            units: match context.units() {
                Units::Us => "US units",
                Units::Metric => "metric units",
            },
            section: page.section().word().to_lowercase(),
            tabs: Section::iter().map(tab).collect(),
            foot: vec![
                foot(Page::Strains, "Strains"),
                foot(Page::Felling, "Felling"),
                foot(Page::Bucking, "Cutting to length"),
                foot(Page::Supply, "What to order"),
                foot(Page::Inoculation, "Inoculation day"),
                foot(Page::Batches, "Batches"),
                foot(Page::SoakRota, "Soak rota"),
                foot(Page::Troubles, "Trouble"),
                foot(Page::Terms, "Terms"),
                foot(Page::Sources, "Sources"),
                foot(Page::WorkingIndex, "How figures are reckoned"),
            ],
            defs: ring::defs() + &saw::defs() + &hatch::defs() + &strip::defs(context.findings.first_month()),
            page: content,
        }
    }
}

/// The season in words: "2026–27", or "2026" where its winter lies in one year.
#[must_use]
pub fn season_words(season: Season) -> String {
    if season.south {
        season.year.to_string()
    } else {
        format!("{}–{:02}", season.year, (season.year + 1).rem_euclid(100))
    }
}
