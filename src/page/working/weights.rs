//! The working behind the weights and the bark.

use std::collections::BTreeSet;

use serde::Serialize;

use super::formula::{self, Cited};
use crate::{
    book::Wood,
    page::{
        Context,
        part::{
            Anchor,
            cite::Cite,
            range,
            weight::{BARK_AT_INCHES, weight_note},
        },
    },
    quantity::{Length, measure::rounded},
    reckon::{
        bark,
        findings::logs,
        weight::{self, Green},
    },
    record::Kind,
};

/// The working behind the weights.
#[derive(Debug, Serialize)]
pub struct View {
    formulas: Vec<Cited>,
    length: String,
    bark_at: String,
    diameters: Vec<String>,
    volumes: Vec<String>,
    woods: Vec<Worked>,
}

/// One wood's numbers.
#[derive(Debug, Serialize)]
struct Worked {
    id: String,
    wood: Anchor,
    numbers: String,
    density: Option<String>,
    gap: Option<String>,
    note: &'static str,
    fits: Vec<Fit>,
    results: Vec<String>,
    cites: Vec<Cite>,
}

/// A line by which bark was fitted, and where its source stands.
#[derive(Debug, Serialize)]
struct Fit {
    region: Anchor,
    says: String,
}

/// The view of the working behind the weights.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let units = context.units();
    let length = &context.book.farm.record.log.length;
    let diameters = logs::diameters(context.book, units);
    View {
        formulas: vec![formula::weight().cited(context), formula::bark().cited(context)],
        length: length.show(units),
        bark_at: Length::of_inches(BARK_AT_INCHES).show(units),
        volumes: diameters.iter().map(|diameter| units.volume(weight::volume(diameter, length))).collect(),
        diameters: diameters.iter().map(|diameter| diameter.show(units)).collect(),
        woods: context.book.woods.values().map(|wood| worked(wood, context)).collect(),
    }
}

fn worked(wood: &Wood, context: &Context<'_>) -> Worked {
    let record = &wood.record;
    let green = logs::green(record);
    let density = weight::density(&green);
    let mut cites = Vec::new();
    if let Some(density) = &record.density {
        cites.push(Cite::of(&density.source, density.mark, context));
    }
    if let Some(moisture) = &record.moisture {
        cites.push(Cite::of(&moisture.source, moisture.mark, context));
    }
    if let Some(bark) = &record.bark {
        cites.push(Cite::of(&bark.source, bark.mark, context));
    }
    let mut seen = BTreeSet::new();
    cites.retain(|cite| seen.insert((cite.href.clone(), cite.mark)));
    let units = context.units();
    let length = &context.book.farm.record.log.length;
    let ends = logs::moistures(record);
    let results = logs::diameters(context.book, units).into_iter().filter_map(|diameter| {
        let at = |green: &Green| weight::log(green, &diameter, length).ok().map(|mass| mass.show(units));
        let mass = at(&green)?;
        let range = ends.and_then(|ends| {
            let [low, high] = ends.map(|moisture| at(&Green { moisture: Some(moisture), ..green }));
            let (low, high) = (low?, high?);
            (low != high).then(|| format!(" ({})", range(&low, &high)))
        });
        Some(format!("{}: {mass}{}", diameter.show(units), range.unwrap_or_default()))
    });
    Worked {
        results: results.collect(),
        id: wood.id.clone(),
        wood: Anchor::wood(wood, context),
        numbers: numbers(&green),
        density: density.as_ref().ok().map(|density| units.density(*density)),
        gap: density.err().map(|gap| gap.to_string()),
        note: weight_note(wood),
        fits: record
            .bark
            .iter()
            .flat_map(|bark| &bark.fits)
            .map(|fit| {
                let at = Length::of_inches(BARK_AT_INCHES);
                let thick = bark::thickness(&at, fit.a, fit.b).show(units);
                let (a, b) = (rounded(fit.a, 3), rounded(fit.b, 3));
                Fit {
                    region: Anchor {
                        href: context.route.record(Kind::Source, fit.source.as_str()),
                        text: fit.region.clone(),
                    },
                    says: format!("a = {a}, b = {b}, so {thick}"),
                }
            })
            .collect(),
        cites,
    }
}

fn numbers(green: &Green) -> String {
    let mut parts = Vec::new();
    if let Some(density) = green.density {
        parts.push(format!("G = {}", rounded(density, 3)));
    }
    if let Some(moisture) = green.moisture {
        parts.push(format!("M = {}", rounded(moisture, 3)));
    }
    if let Some(bark) = green.bark {
        parts.push(format!(
            "B = {}, G_b = {}, M_b = {}",
            rounded(bark.share, 3),
            rounded(bark.density, 3),
            rounded(bark.moisture, 3)
        ));
    }
    parts.join(", ")
}
