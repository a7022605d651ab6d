//! What was sold, what was taken for it and what came home, by strain, wood and the lot numbers of the spawn.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::outlook::{price_of, returns};
use super::stock::spawn_lots;
use super::{Findings, grouped};
use crate::book::{Batch, Sale, Strain, Wood};
use crate::quantity::{Date, Mass, Units};
use crate::reckon::life::growing_year;
use crate::reckon::money;
use crate::record;
use crate::record::evidence::Way;
use crate::record::farm::Price;

/// Sales added up.
#[derive(Debug, Clone)]
pub struct Takings {
    /// Fresh weight that was sold.
    pub sold: Mass,
    /// Fresh weight that came home.
    pub unsold: Mass,
    /// What was taken, in the farm's money.
    pub taken: f64,
    /// The first and the last day.
    pub days: [Date; 2],
}

impl Takings {
    /// Sales in the order of their dates, added up; `None` where there is none.
    pub fn of(sales: &[Arc<Sale>]) -> Option<Self> {
        let days = [sales.first()?, sales.last()?].map(|sale| sale.record.date);
        let records = || sales.iter().map(|sale| &sale.record);
        Some(Self {
            sold: records().map(record::sale::Sale::sold).sum(),
            unsold: records().filter_map(|sale| sale.unsold.clone()).sum(),
            taken: records().map(|sale| sale.taken).sum(),
            days,
        })
    }

    /// What was taken for a weight; `None` where nothing was sold.
    pub fn sold_for(&self, per: &Mass) -> Option<f64> {
        money::sold_for(self.taken, &self.sold, per)
    }
}

/// The weight for which money is told where no price says another: a pound or a kilogram.
pub fn unit(units: Units) -> Mass {
    units.pick(Mass::of_pounds(1.0), Mass::of_kilograms(1.0))
}

/// What was sold of one strain, wood and spawn.
#[derive(Debug, Clone)]
pub struct SalesFinding {
    /// The strain.
    pub strain: Arc<Strain>,
    /// The wood; `None` where the sales name no batch, or their batches no wood.
    pub wood: Option<Arc<Wood>>,
    /// The lot numbers of the spawn, by which a recall is told.
    pub spawn_lots: Vec<String>,
    /// The batches, by their ids.
    pub batches: Vec<Arc<Batch>>,
    /// What was sold and taken.
    pub takings: Takings,
}

/// The sales up to the end of the season's growing year, in the order of their dates.
pub fn of_season(findings: &Findings) -> impl Iterator<Item = &Arc<Sale>> {
    let until = findings.season.growing_year_ends(findings.season.growing_year());
    findings.book.sales.iter().take_while(move |sale| sale.record.date <= until)
}

/// The sales of each growing year up to the season's, in the order of their dates.
pub fn years(findings: &Findings) -> BTreeMap<i16, Vec<Arc<Sale>>> {
    let south = findings.season.south;
    grouped(of_season(findings).map(|sale| (growing_year(sale.record.date, south), Arc::clone(sale))))
}

/// Sales that share a key, added up beside the first of them, those first that fetched most for their weight.
pub fn parted<'a, K: Ord>(sales: &'a [Arc<Sale>], key: impl Fn(&'a Sale) -> K) -> Vec<(Arc<Sale>, Takings)> {
    let groups = grouped(sales.iter().map(|sale| (key(sale), Arc::clone(sale))));
    let of = |sales: Vec<Arc<Sale>>| Some((Arc::clone(sales.first()?), Takings::of(&sales)?));
    let mut sums: Vec<(Arc<Sale>, Takings)> = groups.into_values().filter_map(of).collect();
    let fetched = |takings: &Takings| takings.sold_for(&Mass::of_kilograms(1.0)).unwrap_or(-1.0);
    sums.sort_by(|(_, one), (_, other)| fetched(other).total_cmp(&fetched(one)));
    sums
}

/// What was sold, by strain, wood and lot numbers.
pub fn all(findings: &Findings) -> Vec<SalesFinding> {
    let lots = |sale: &'_ Sale| {
        let lots = sale.batch.as_ref().map(|batch| spawn_lots(&findings.book, batch)).unwrap_or_default();
        lots.into_iter().map(str::to_owned).collect::<Vec<String>>()
    };
    let keyed =
        of_season(findings).map(|sale| ((sale.strain.id.as_str(), wood_id(sale), lots(sale)), Arc::clone(sale)));
    let of = |sales: Vec<Arc<Sale>>| {
        let first = sales.first()?;
        Some(SalesFinding {
            strain: Arc::clone(&first.strain),
            wood: wood(first).cloned(),
            spawn_lots: lots(first),
            batches: batches(&sales),
            takings: Takings::of(&sales)?,
        })
    };
    grouped(keyed).into_values().filter_map(of).collect()
}

/// What was taken of one strain and wood, beside what was reckoned.
#[derive(Debug, Clone)]
pub struct TakenFinding {
    /// The strain.
    pub strain: Arc<Strain>,
    /// The wood, where it is told.
    pub wood: Option<Arc<Wood>>,
    /// What was sold and taken.
    pub takings: Takings,
    /// What a log of the batches that were sold of has brought so far; `None` where they are not of logs.
    pub a_log: Option<f64>,
    /// The price with which the money is reckoned.
    pub price: Option<Price>,
    /// What a log brings over its life by that price, over all published yields, least and most.
    pub life: Option<[f64; 2]>,
}

/// What was taken, by strain and wood.
pub fn taken(findings: &Findings) -> Vec<TakenFinding> {
    let keyed = of_season(findings).map(|sale| ((sale.strain.id.as_str(), wood_id(sale)), Arc::clone(sale)));
    let farm = findings.book.farm.record.money.as_ref();
    let of = |sales: Vec<Arc<Sale>>| {
        let first = sales.first()?;
        let takings = Takings::of(&sales)?;
        let price = farm.and_then(|farm| price_of(&first.strain, farm));
        let brings = price.map_or_else(Vec::new, |price| returns(&first.strain, price));
        let ends = |end: usize| brings.iter().map(move |(_, ends)| ends[end]);
        let life = ends(0).reduce(f64::min).zip(ends(1).reduce(f64::max));
        Some(TakenFinding {
            strain: Arc::clone(&first.strain),
            wood: wood(first).cloned(),
            a_log: logs(findings, &batches(&sales)).map(|logs| takings.taken / f64::from(logs)),
            takings,
            price: price.cloned(),
            life: life.map(Into::into),
        })
    };
    grouped(keyed).into_values().filter_map(of).collect()
}

/// How many logs were ever laid to batches; `None` where one of them is of something else, or there is none.
fn logs(findings: &Findings, batches: &[Arc<Batch>]) -> Option<u32> {
    let of_logs = batches.iter().all(|batch| matches!(batch.record.way, Way::Log | Way::BuriedLog));
    let logs = || batches.iter().filter_map(|batch| findings.batch(&batch.id)).map(|found| found.balance.all()).sum();
    of_logs.then(logs).filter(|logs| *logs > 0)
}

/// The wood of a sale's batch, where it is told.
pub fn wood(sale: &Sale) -> Option<&Arc<Wood>> {
    sale.batch.as_ref()?.wood.as_ref()
}

/// The id of that wood.
pub fn wood_id(sale: &Sale) -> Option<&str> {
    wood(sale).map(|wood| wood.id.as_str())
}

/// The batches of sales, by their ids.
fn batches(sales: &[Arc<Sale>]) -> Vec<Arc<Batch>> {
    let mut batches: Vec<Arc<Batch>> = sales.iter().filter_map(|sale| sale.batch.clone()).collect();
    batches.sort_by(|one, other| one.id.cmp(&other.id));
    batches.dedup_by(|one, other| one.id == other.id);
    batches
}
