//! The working behind the days whose air suits a strain.

use serde::Serialize;

use super::formula::{self, Cited};
use crate::{
    page::{
        Context,
        part::{Anchor, Figure, air, cite::Line, fruiting},
    },
    quantity::{
        date::{DayOfYear, month_name},
        measure::rounded,
    },
    reckon::{
        findings::FruitingFinding,
        fruiting::{Band, LIKELY, POSSIBLE, suitable},
    },
};

/// The working behind fruiting.
#[derive(Debug, Serialize)]
pub struct View {
    formulas: Vec<Cited>,
    likely: String,
    possible: String,
    assumed: Option<String>,
    strains: Vec<Strain>,
    table: String,
}

/// One strain.
#[derive(Debug, Serialize)]
struct Strain {
    id: String,
    link: Anchor,
    kind: &'static str,
    bands: Vec<Line>,
    months: Vec<(&'static str, String)>,
    rows: Vec<(&'static str, Figure)>,
    gap: Option<String>,
}

/// The view of the working behind fruiting.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let part = |chance: f64| format!("{} of 7 days", rounded(chance * 7.0, 2));
    let assumed = context.findings.known().air.as_ref().is_some_and(|air| air.assumed);
    View {
        formulas: vec![formula::year::suitable().cited(context)],
        likely: part(LIKELY),
        possible: part(POSSIBLE),
        assumed: assumed.then(|| air::deviation(context)),
        strains: context.findings.fruiting().iter().map(|found| strain(found, context)).collect(),
        table: format!("{}tables/fruiting.csv", context.route.root()),
    }
}

fn strain(found: &FruitingFinding, context: &Context<'_>) -> Strain {
    Strain {
        id: found.id().to_owned(),
        link: fruiting::anchor(found, context),
        kind: fruiting::kind_words(found.kind),
        bands: found.bands.iter().map(|band| Line::band(band, context)).collect(),
        months: months(found, context),
        rows: fruiting::rows(found, context),
        gap: found.weeks.as_ref().err().map(ToString::to_string),
    }
}

/// Suitable days of each month, least and most over the bands.
fn months(found: &FruitingFinding, context: &Context<'_>) -> Vec<(&'static str, String)> {
    let Some(air) = &context.findings.known().air else { return Vec::new() };
    let bands: Vec<Band> = found
        .bands
        .iter()
        .map(|band| Band { low: band.range.low.celsius(), high: band.range.high.celsius() })
        .collect();
    let first = context.findings.first_month();
    (0..12)
        .filter_map(|step| {
            let month = (first - 1 + step) % 12 + 1;
            let [least, most] = suitable(air, &bands, &DayOfYear::days_of(month))?;
            let (least, most) = (rounded(least, 0), rounded(most, 0));
            let words = if least == most { least } else { format!("{least}–{most}") };
            Some((&month_name(month)[..3], words))
        })
        .collect()
}
