//! The tables of what is ordered, what a wish needs and what a log costs.

use either::Either;

use super::{Grid, Sheet};
use crate::quantity::Mass;
use crate::reckon::findings::purchase::holds;
use crate::reckon::findings::{MoneyFinding, PurchaseFinding};
use crate::reckon::money::{Budget, PUBLISHED};
use crate::reckon::{Findings, Gap};
use crate::record::mushroom::LogYield;
use crate::record::plan::Offer;
use crate::record::said::Mark;

/// A purchase, and one of its packages; what is left over stands at the last.
#[derive(Clone, Copy)]
struct Order<'a> {
    found: &'a PurchaseFinding,
    package: Option<(&'a Offer, u32)>,
    last: bool,
}

impl<'a> Order<'a> {
    /// A row for each package, or one where there is none.
    fn all(found: &'a PurchaseFinding) -> Vec<Self> {
        let of = |package| Order { found, package, last: false };
        let mut rows: Vec<Self> = found.packages().map(Some).map(of).collect();
        match rows.last_mut() {
            Some(last) => last.last = true,
            None => rows.push(of(None)),
        }
        rows
    }

    fn remark(self) -> Option<String> {
        let PurchaseFinding { need, bought, .. } = self.found;
        let unpriced = bought.as_ref().is_ok_and(|bought| bought.cost.is_none());
        let unpriced =
            unpriced.then_some("no cost: no package on offer has a price, so the set that leaves least over is taken");
        need.as_ref().err().or(bought.as_ref().err()).map(Gap::to_string).or(unpriced.map(ToOwned::to_owned))
    }
}

pub fn supply(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    Sheet::of(findings.purchases().iter().flat_map(Order::all))
        .column("item", |of| of.found.item.words())
        .column("package", |of| of.package.map(|(offer, _)| holds(offer, units)))
        .column("count", |of| of.package.map(|(_, packages)| packages))
        .number("cost", 2, |of| of.package.and_then(|(offer, packages)| Some(offer.price? * f64::from(packages))))
        .column("left_over", |of| of.last.then(|| Some(of.found.left_over()?.show(units))).flatten())
        .column("strain", |of| of.found.strain.as_ref().map(|strain| &strain.id))
        .column("need", |of| of.found.need.as_ref().ok().map(|need| need.show(units)))
        .column("in_stock", |of| of.found.in_stock.as_ref().map(|stock| stock.show(units)))
        .column("order_by", |of| of.found.order_by)
        .column("use_by", |of| of.found.use_by)
        .column("remark", Order::remark)
        .grid(units)
}

pub fn planning(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    Sheet::of(findings.planning())
        .column("strain", |of| &of.strain.id)
        .column("asks", |of| of.asks.words(units))
        .column("source", |of| of.by.as_ref().map(|(by, _)| by.source.as_str()))
        .column("mark", |of| of.by.as_ref().map(|(by, _)| by.mark.words()))
        .column("a_log", |of| of.by.as_ref().map(|(_, a_log)| a_log))
        .column("over", |of| of.by.as_ref().map(|(by, _)| by.over.words()))
        .column("logs", |of| of.logs.as_ref().ok().map(|[all, _]| *all))
        .column("logs_soaked_or_new", |of| of.by.as_ref().and(of.logs.as_ref().ok()).map(|[_, each]| *each))
        .column("trees", |of| of.trees)
        .column("tank", |of| of.tank)
        .to(1)
        .column("ground", |of| of.ground.as_ref())
        .column("remark", |of| of.logs.as_ref().err().map(Gap::to_string))
        .grid(units)
}

/// What a log of this farm costs, with one of the yields by which it may bring something.
type Own<'a> = (&'a MoneyFinding, Option<&'a (LogYield, [f64; 2])>);

/// A row for each yield, or one where there is none.
fn by_yield(found: &MoneyFinding) -> Vec<Own<'_>> {
    match found.returns.as_slice() {
        [] => vec![(found, None)],
        returns => returns.iter().map(|by| (found, Some(by))).collect(),
    }
}

fn returns(row: Either<Own<'_>, &Budget>) -> Option<[f64; 2]> {
    row.either(|(_, by)| by.map(|(_, returns)| *returns), |budget| budget.returns)
}

/// What stands in the way of a cost or a return.
fn lacks((found, _): Own<'_>) -> Option<String> {
    let no_price = "no return: the price of its mushroom is not recorded in farm.yaml";
    found.cost.as_ref().err().map(Gap::to_string).or_else(|| found.price.is_none().then(|| no_price.to_owned()))
}

pub fn money(findings: &Findings) -> Grid {
    let own = findings.money().iter().flat_map(by_yield).map(Either::Left);
    Sheet::of(own.chain(PUBLISHED.iter().map(Either::Right)))
        .column("of", |row| row.either(|_| "this farm", |_| "published budget, in dollars of its day"))
        .column("strain", |row| row.left().map(|(found, _)| &found.strain.id))
        .column("logs", |row| row.left().map(|(found, _)| found.logs))
        .number("spawn_a_log", 2, |row| row.left()?.0.spawn.clone().ok())
        .number("wax_a_log", 2, |row| row.left()?.0.wax.clone().ok())
        .number("hours_a_log", 2, |row| Some(row.left()?.0.work.as_ref().ok()?.hours()))
        .number("cost_a_log", 2, |row| row.either(|(found, _)| found.cost.clone().ok(), |budget| budget.cost))
        .column("source", |row| {
            row.either(|(_, by)| by.map(|(by, _)| by.source.as_str()), |budget| Some(budget.source))
        })
        .column("mark", |row| {
            row.either(|(_, by)| by.map(|(by, _)| by.mark), |budget| Some(budget.mark)).map(Mark::words)
        })
        .number("return_least", 2, |row| returns(row).map(|[least, _]| least))
        .number("return_most", 2, |row| returns(row).map(|[_, most]| most))
        .column("break_even", |row| {
            row.either(|(found, _)| found.break_even.clone(), |budget| budget.break_even_pounds.map(Mass::of_pounds))
        })
        .column("remark", |row| row.either(lacks, |budget| Some(budget.says.to_owned())))
        .grid(findings.choice.units)
}
