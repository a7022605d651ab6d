//! What to order, in which packages, and by when.

use std::{collections::BTreeMap, sync::Arc};

use super::day::Day;
use crate::{
    book::{Book, Plan, Strain},
    quantity::{Date, Mass},
    reckon::{
        Gap,
        season::span,
        supply::{Package, Purchase, cheapest},
    },
    record::{
        plan::{Item, Offer},
        strain::SpawnForm,
    },
};

/// What is needed of one thing, and what covers it.
#[derive(Debug, Clone)]
pub struct PurchaseFinding {
    /// What it is.
    pub item: Item,
    /// The strain of spawn.
    pub strain: Option<Arc<Strain>>,
    /// How much is needed, the careful end of a range.
    pub need: Result<Amount, Gap>,
    /// The packages on offer that hold it.
    pub offers: Vec<Offer>,
    /// The cheapest set of them, in the order of the offers.
    pub bought: Result<Purchase, Gap>,
    /// By when to order, that it comes when inoculation opens.
    pub order_by: Option<Date>,
    /// Until when it keeps, if it comes when inoculation opens.
    pub use_by: Option<Date>,
    /// The first and the last day of inoculation.
    pub window: Option<(Date, Date)>,
}

impl PurchaseFinding {
    /// A name that no other purchase has: the item, and of spawn its strain.
    #[must_use]
    pub fn id(&self) -> String {
        let item = self.item.words().replace(' ', "-");
        self.strain.as_ref().map_or_else(|| item.clone(), |strain| format!("{item}-{}", strain.id))
    }

    /// Each package of the set that is bought at all, and how many.
    pub fn packages(&self) -> impl Iterator<Item = (&Offer, u32)> {
        let counts = self.bought.as_ref().map(|bought| bought.counts.as_slice()).unwrap_or_default();
        self.offers.iter().zip(counts.iter().copied()).filter(|(_, count)| *count > 0)
    }
}

/// Parts of a gram so small that an ounce, and so every usual package, is a whole number of them.
const PARTS: f64 = 1_600_000.0;

/// An amount: a weight, or a number of pieces.
#[derive(Debug, Clone, PartialEq)]
pub enum Amount {
    /// A weight.
    Weight(Mass),
    /// Plugs or thimbles.
    Pieces(u32),
}

impl Amount {
    /// The amount in whole parts of a gram, or in pieces.
    #[must_use]
    pub fn whole(&self) -> u64 {
        match self {
            Self::Weight(mass) => (mass.grams() * PARTS).round().max(0.0) as u64,
            Self::Pieces(pieces) => u64::from(*pieces),
        }
    }

    /// So many whole parts of a gram or pieces, in the kind of this amount.
    #[must_use]
    pub fn of_whole(&self, whole: u64) -> Self {
        match self {
            Self::Weight(_) => Self::Weight(Mass::of_kilograms(whole as f64 / PARTS / 1000.0)),
            Self::Pieces(_) => Self::Pieces(u32::try_from(whole).unwrap_or(u32::MAX)),
        }
    }
}

/// What to order for every plan's days.
#[must_use]
pub fn all(book: &Book, plans: &[Arc<Plan>], days: &[Day]) -> Vec<PurchaseFinding> {
    let mut lines = Vec::new();
    let mut spawn: BTreeMap<(Item, &str), Vec<&Day>> = BTreeMap::new();
    for day in days {
        spawn.entry((Item::of(day.form), day.strain.id.as_str())).or_default().push(day);
    }
    for ((item, strain), of) in spawn {
        let offers = offers(plans, item, Some(strain));
        let strain = book.strains.get(strain).cloned();
        lines.extend(need(&of).map(|need| line(item, strain, need, offers, window(&of))));
    }
    if days.iter().any(|day| day.logs() > 0) {
        let wax: Result<f64, Gap> = days.iter().map(|day| day.wax.as_ref().map(Mass::base).map_err(Clone::clone)).sum();
        let need = wax.map(|kilograms| Amount::Weight(Mass::of_kilograms(kilograms)));
        let of: Vec<&Day> = days.iter().collect();
        lines.push(line(Item::Wax, None, need, offers(plans, Item::Wax, None), window(&of)));
    }
    lines
}

/// What the days of one strain and form need; nothing where they have no work.
fn need(days: &[&Day]) -> Option<Result<Amount, Gap>> {
    let form = days.first()?.form;
    let other = || days.iter().flat_map(|day| &day.other);
    if days.iter().all(|day| day.logs() == 0) && other().next().is_none() {
        return None;
    }
    if matches!(form, SpawnForm::Plug | SpawnForm::Thimble) {
        let holes = days.iter().map(|day| day.holes()).chain(other().map(super::day::OtherWork::holes));
        return Some(Ok(Amount::Pieces(holes.fold(0, u32::saturating_add))));
    }
    let logs = days.iter().filter(|day| day.logs() > 0).map(|day| day.spawn.clone().map(|[_, most]| most.base()));
    let beside = other().filter_map(|work| work.spawn()).map(|spawn| spawn.clone().map(|mass| mass.base()));
    let all: Result<f64, Gap> = logs.chain(beside).sum();
    Some(all.map(|kilograms| Amount::Weight(Mass::of_kilograms(kilograms))))
}

fn offers(plans: &[Arc<Plan>], item: Item, strain: Option<&str>) -> Vec<Offer> {
    let all = plans.iter().flat_map(|plan| plan.offers(strain.unwrap_or_default()));
    all.filter(|offer| offer.item == item).cloned().collect()
}

fn window(days: &[&Day]) -> Option<(Date, Date)> {
    span(days.iter().filter_map(|day| day.window))
}

fn line(
    item: Item,
    strain: Option<Arc<Strain>>,
    need: Result<Amount, Gap>,
    offers: Vec<Offer>,
    window: Option<(Date, Date)>,
) -> PurchaseFinding {
    let bought = need.clone().and_then(|need| {
        let packages: Vec<Package> = offers.iter().map(|offer| package(offer, &need)).collect();
        match (cheapest(need.whole(), &packages), &need) {
            (Err(_), Amount::Weight(_)) => by_the_gram(need.whole(), &packages),
            (bought, _) => bought,
        }
    });
    let mut found = PurchaseFinding { item, strain, need, offers, bought, order_by: None, use_by: None, window };
    let lead = found
        .packages()
        .filter_map(|(offer, _)| offer.lead.as_ref())
        .map(crate::quantity::Duration::days)
        .reduce(f64::max);
    let keeps = found
        .packages()
        .filter_map(|(offer, _)| offer.keeps.as_ref())
        .map(crate::quantity::Duration::days)
        .reduce(f64::min);
    let after = |days: f64| Some(Date(window?.0.0.saturating_add(jiff::Span::new().days(days.round() as i64))));
    found.order_by = lead.and_then(|lead| after(-lead));
    found.use_by = keeps.and_then(after);
    found
}

/// The cheapest set where packages share no round weight, such as pounds beside kilograms: sizes are taken up to the next
/// gram and the need down, and what is left over is told from the true sizes.
fn by_the_gram(need: u64, packages: &[Package]) -> Result<Purchase, Gap> {
    let gram = PARTS as u64;
    let rounded: Vec<Package> =
        packages.iter().map(|package| Package { size: package.size.div_ceil(gram), price: package.price }).collect();
    let bought = cheapest(need / gram, &rounded)?;
    let holds: u64 = bought.counts.iter().zip(packages).map(|(count, package)| u64::from(*count) * package.size).sum();
    Ok(Purchase { left_over: holds.saturating_sub(need), ..bought })
}

/// A package in whole parts of a gram, or in pieces.
fn package(offer: &Offer, need: &Amount) -> Package {
    let size = match need {
        Amount::Weight(_) => offer.weight.as_ref().map_or(0, |weight| (weight.grams() * PARTS).round() as u64),
        Amount::Pieces(_) => offer.pieces.map_or(0, u64::from),
    };
    Package { size, price: offer.price.map(|price| (price * 100.0).round() as u64) }
}
