//! What to order, in which packages, and by when.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::stock::in_hand;
use super::{Day, Findings, grouped};
use crate::book::{Plan, Strain};
use crate::quantity::{Date, Duration, Mass, Units, count};
use crate::reckon::Gap;
use crate::reckon::season::span;
use crate::reckon::supply::{Package, Purchase, cheapest};
use crate::record::plan::{Item, Offer};
use crate::record::strain::SpawnForm;

/// What is needed of one thing, and what covers it.
#[derive(Debug, Clone)]
pub struct PurchaseFinding {
    /// What it is.
    pub item: Item,
    /// The strain of spawn.
    pub strain: Option<Arc<Strain>>,
    /// How much is to be bought: the careful end of a range of what is needed, less what is in stock.
    pub need: Result<Amount, Gap>,
    /// How much of it is in stock, where the plan says so.
    pub in_stock: Option<Amount>,
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
    pub fn id(&self) -> String {
        let item = self.item.words().replace(' ', "-");
        self.strain.as_ref().map_or_else(|| item.clone(), |strain| format!("{item}-{}", strain.id))
    }

    /// What the set holds beyond the need.
    pub fn left_over(&self) -> Option<Amount> {
        Some(self.need.as_ref().ok()?.of_whole(self.bought.as_ref().ok()?.left_over))
    }

    /// What the set costs.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where nothing was bought, or no package has a price.
    pub fn cost(&self) -> Result<f64, Gap> {
        let cost = self.bought.clone()?.cost.map(|hundredths| hundredths as f64 / 100.0);
        cost.ok_or(Gap::NotRecorded("the price of the packages (`price` of each offer in the plan)"))
    }

    /// Each package of the set that is bought at all, and how many.
    pub fn packages(&self) -> impl Iterator<Item = (&Offer, u32)> {
        let counts = self.bought.as_ref().map(|bought| bought.counts.as_slice()).unwrap_or_default();
        self.offers.iter().zip(counts.iter().copied()).filter(|(_, count)| *count > 0)
    }
}

/// What all sets with prices cost together.
pub fn total<'a>(purchases: impl IntoIterator<Item = &'a PurchaseFinding>) -> Option<f64> {
    let bought = purchases.into_iter().filter_map(|found| found.bought.as_ref().ok());
    let hundredths: u64 = bought.filter_map(|bought| bought.cost).sum();
    (hundredths > 0).then_some(hundredths as f64 / 100.0)
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
    pub fn whole(&self) -> u64 {
        match self {
            Self::Weight(mass) => (mass.grams() * PARTS).round().max(0.0) as u64,
            Self::Pieces(pieces) => u64::from(*pieces),
        }
    }

    /// The amount as a column prints it, in one unit.
    pub fn listed(&self, units: Units) -> String {
        match self {
            Self::Weight(mass) => mass.listed(units),
            Self::Pieces(_) => self.show(units),
        }
    }

    /// The amount as it is printed.
    pub fn show(&self, units: Units) -> String {
        match self {
            Self::Weight(mass) => mass.show(units),
            Self::Pieces(pieces) => count(*pieces, "piece", "pieces"),
        }
    }

    /// So many whole parts of a gram or pieces, in the kind of this amount.
    pub fn of_whole(&self, whole: u64) -> Self {
        match self {
            Self::Weight(_) => Self::Weight(Mass::of_kilograms(whole as f64 / PARTS / 1000.0)),
            Self::Pieces(_) => Self::Pieces(u32::try_from(whole).unwrap_or(u32::MAX)),
        }
    }
}

/// What a package holds, in words.
pub fn holds(offer: &Offer, units: Units) -> String {
    let weight = offer.weight.clone().map(Amount::Weight);
    weight.or(offer.pieces.map(Amount::Pieces)).map_or_else(String::new, |amount| amount.show(units))
}

/// What to order for every plan's days.
pub fn all(findings: &Findings) -> Vec<PurchaseFinding> {
    let (plans, days) = (findings.winter().plans(), findings.days());
    let stock = in_hand(findings);
    let in_stock = |item: Item, strain: Option<&str>| stock.get(&(item, strain.map(str::to_owned))).cloned();
    let spawn = grouped(days.iter().map(|day| ((Item::of(day.form), day.strain.id.as_str()), day)));
    let of_spawn = |((item, strain), of): ((Item, &str), Vec<&Day>)| {
        let offers = offers(&plans, item, Some(strain));
        let of_strain = findings.book.strains.get(strain).cloned();
        Some(line(item, of_strain, (need(&of)?, in_stock(item, Some(strain))), offers, &of))
    };
    let mut lines: Vec<PurchaseFinding> = spawn.into_iter().filter_map(of_spawn).collect();
    if days.iter().any(|day| day.logs() > 0) {
        let wax: Result<Mass, Gap> = days.iter().map(|day| day.wax.clone()).sum();
        let days: Vec<&Day> = days.iter().collect();
        let need = (wax.map(Amount::Weight), in_stock(Item::Wax, None));
        lines.push(line(Item::Wax, None, need, offers(&plans, Item::Wax, None), &days));
    }
    lines
}

/// The least and the most that sawdust spawn of some weight costs by what the season's plans are offered, strain by strain;
/// none where no offer has a price.
pub fn price_of_sawdust(need: &Mass, findings: &Findings) -> Option<[f64; 2]> {
    let need = Amount::Weight(need.clone());
    let plans = findings.winter().plans();
    let strains: BTreeSet<&str> = findings.book.strains.keys().map(String::as_str).collect();
    let cost = |strain: &str| {
        let offers = offers(&plans, Item::of(SpawnForm::Sawdust), Some(strain));
        let packages: Vec<Package> = offers.iter().map(|offer| package(offer, &need)).collect();
        let bought = cheapest(need.whole(), &packages).or_else(|_| by_the_gram(need.whole(), &packages));
        Some(bought.ok()?.cost? as f64 / 100.0)
    };
    let costs = || strains.iter().filter_map(|strain| cost(strain));
    Some([costs().reduce(f64::min)?, costs().reduce(f64::max)?])
}

/// What the days of one strain and form need; nothing where they have no work.
fn need(days: &[&Day]) -> Option<Result<Amount, Gap>> {
    let form = days.first()?.form;
    let drilled = || days.iter().filter(|day| day.logs() > 0);
    let other = || days.iter().flat_map(|day| &day.other);
    if drilled().next().is_none() && other().next().is_none() {
        return None;
    }
    if matches!(form, SpawnForm::Plug | SpawnForm::Thimble) {
        let holes = days.iter().map(|day| day.holes()).chain(other().map(|work| work.holes));
        return Some(Ok(Amount::Pieces(holes.fold(0, u32::saturating_add))));
    }
    let logs = drilled().map(|day| day.spawn.clone().map(|[_, most]| most));
    let all: Result<Mass, Gap> = logs.chain(other().filter_map(|work| work.spawn.clone())).sum();
    Some(all.map(Amount::Weight))
}

fn offers(plans: &[Arc<Plan>], item: Item, strain: Option<&str>) -> Vec<Offer> {
    let all = plans.iter().flat_map(|plan| plan.offers(strain.unwrap_or_default()));
    all.filter(|offer| offer.item == item).cloned().collect()
}

fn line(
    item: Item,
    strain: Option<Arc<Strain>>,
    (whole, in_stock): (Result<Amount, Gap>, Option<Amount>),
    offers: Vec<Offer>,
    days: &[&Day],
) -> PurchaseFinding {
    let in_hand = in_stock.as_ref().map_or(0, Amount::whole);
    let need = whole.map(|whole| whole.of_whole(whole.whole().saturating_sub(in_hand)));
    let window = span(days.iter().filter_map(|day| day.window));
    let bought = need.clone().and_then(|need| {
        let packages: Vec<Package> = offers.iter().map(|offer| package(offer, &need)).collect();
        if need.whole() == 0 {
            return Ok(Purchase { counts: vec![0; offers.len()], cost: Some(0), left_over: 0 });
        }
        match (cheapest(need.whole(), &packages), &need) {
            (Err(_), Amount::Weight(_)) => by_the_gram(need.whole(), &packages),
            (bought, _) => bought,
        }
    });
    let mut found =
        PurchaseFinding { item, strain, need, in_stock, offers, bought, order_by: None, use_by: None, window };
    let opens = window.map(|(opens, _)| opens);
    let lead = found.packages().filter_map(|(offer, _)| offer.lead.as_ref()).map(Duration::days).reduce(f64::max);
    let keeps = found.packages().filter_map(|(offer, _)| offer.keeps.as_ref()).map(Duration::days).reduce(f64::min);
    found.order_by = opens.zip(lead).map(|(opens, lead)| opens.after(&Duration::of_days(-lead)));
    found.use_by = opens.zip(keeps).map(|(opens, keeps)| opens.after(&Duration::of_days(keeps)));
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
