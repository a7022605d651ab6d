//! By when trees must be down and logs inoculated, and what the dates do not say.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;

use super::woods::wood_words;
use super::{Figure, and, date};
use crate::book::Wood;
use crate::page::{Context, Page};
use crate::quantity::Date;
use crate::reckon::days::Interval;
use crate::reckon::dormancy::ERROR;
use crate::reckon::findings::{Felling, Inoculation};
use crate::reckon::formula::Place;
use crate::reckon::season::Basis;
use crate::reckon::{Gap, Topic};
use crate::record::window::WindowKind;

/// By when a thing must be done for one mushroom on some woods.
#[derive(Debug, Serialize)]
pub struct Deadline {
    /// The woods.
    pub woods: String,
    /// The mushrooms that share the dates.
    pub mushrooms: String,
    /// The first day on which a tree may come down and not rest too long.
    pub fell_from: Figure,
    /// The last day on which a tree may come down and still rest long enough.
    pub down_by: Figure,
    /// The first day of inoculation.
    pub inoculate_from: Figure,
    /// The last day of inoculation.
    pub inoculated_by: Figure,
}

/// What a reader of the dates must know and the dates do not say.
pub fn remarks(context: &Context<'_>) -> Vec<String> {
    let findings = context.findings;
    let mut remarks = Vec::new();
    let known = findings
        .windows()
        .iter()
        .filter(|found| found.window.record.kind == WindowKind::NoCut && !found.window.woods.is_empty());
    for felling in findings.fellings().iter().filter(|felling| felling.gap.is_none()) {
        let windows = known.clone().map(|found| &found.window);
        let about = |wood: &&Arc<Wood>| windows.clone().any(|window| window.speaks_of_wood(wood));
        let named = |wood: &&Arc<Wood>| {
            felling.taken.iter().any(|(window, _)| !window.woods.is_empty() && window.speaks_of_wood(wood))
        };
        let open: Vec<Arc<Wood>> = felling.woods.iter().filter(about).filter(|wood| !named(wood)).cloned().collect();
        if !open.is_empty() {
            remarks.push(format!(
                "No no-cut window for {} in particular is named, though some regions have one: ask your forester, and \
                 name the window that holds here in farm.yaml under [no_cut]({}).",
                wood_words(&open),
                context.route.at(&Page::Seasons, "windows")
            ));
        }
    }
    for (index, felling) in findings.fellings().iter().enumerate() {
        let mut nothing: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for found in findings.inoculations().iter().filter(|of| of.felling == index && of.carried.is_empty()) {
            nothing.entry(apart(felling, found, context)).or_default().push(found.mushroom.name().to_owned());
        }
        for (days, names) in nothing {
            let (names, woods) = (and(&names), wood_words(&felling.woods));
            remarks.push(format!("For {names} on {woods}, {} ({days}).", Gap::NothingFits));
        }
    }
    remarks.extend(undormant(context));
    remarks.extend(modelled(context));
    if findings.inoculations().iter().any(|found| found.windows.is_empty()) {
        remarks.push("This farm names no inoculation season, so frost and weather are not counted.".to_owned());
    }
    remarks
}

/// What to do where nothing tells when trees rest.
pub fn undormant(context: &Context<'_>) -> Option<String> {
    let is_untold = |felling: &Felling| felling.gap.as_ref().is_some_and(Gap::has_no_dormancy);
    let example = format!("{}#own-seasons", context.route.to(&Page::Seasons));
    let says = || format!("Nothing tells here when trees rest: [write your own seasons]({example}).");
    context.findings.fellings().iter().any(is_untold).then(says)
}

/// The days that do not meet: those of felling, the rest, and those of inoculation.
fn apart(felling: &Felling, found: &Inoculation, context: &Context<'_>) -> String {
    let (season, units) = (context.findings.season, context.units());
    let words =
        |days: Vec<Interval>| and(&days.into_iter().map(|part| date::stretch(part, season, units)).collect::<Vec<_>>());
    let opens = found.windows.iter().map(|(_, told)| told.interval()).collect();
    let [low, high] = [&found.rest.low, &found.rest.high].map(|rest| rest.show(units));
    format!("felled {}, rested {low} to {high}, inoculated {}", words(felling.intervals.clone()), words(opens))
}

/// That felling dates are modelled, by which model, and how far they may be wrong.
fn modelled(context: &Context<'_>) -> Option<String> {
    let fellings = context.findings.fellings();
    let is_modelled = |felling: &Felling| felling.intervals.iter().any(|part| felling.basis(*part) == Basis::Modelled);
    fellings.iter().any(is_modelled).then(|| {
        let [best, worst] = ERROR;
        format!(
            "The turning of leaves or the swelling of buds was not observed here, so felling dates are [from models]({}), after Delpierre and \
             others 2009 and the mean passing 5 °C. They may be wrong by {best} days at best, and by {worst} at a \
             place where nobody has checked them: write your own dates into farm.yaml under observed.",
            context.route.working(&Place::new(Topic::Climate, "events"))
        )
    })
}

/// By when trees must be down and logs inoculated, mushrooms with the same dates together.
pub fn all(context: &Context<'_>) -> Vec<Deadline> {
    let findings = context.findings;
    let season = findings.season;
    let mut rows = Vec::new();
    for group in findings.groups() {
        let felling = &findings.fellings()[group.first.felling];
        for carried in &group.first.carried {
            let working = || Place::new(Topic::Seasons, format!("inoculate-{}", group.first.mushroom.id));
            let (first, down) = season.dates(carried.fits);
            let (from, by) = season.dates(carried.inoculation);
            let [opens, closes] = group.first.ends(felling, carried);
            let day = |date: Date, basis| {
                Figure::worked(date::with_basis(date.show(context.units()), basis), &working(), context)
            };
            rows.push(Deadline {
                woods: wood_words(&felling.woods),
                mushrooms: and(&group.mushrooms.iter().map(|mushroom| mushroom.name().to_owned()).collect::<Vec<_>>()),
                fell_from: day(first, opens),
                down_by: day(down, closes),
                inoculate_from: day(from, opens),
                inoculated_by: day(by, closes),
            });
        }
    }
    rows
}
